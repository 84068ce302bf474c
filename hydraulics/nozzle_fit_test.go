package hydraulics_test

import (
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func halves() (stock []units.NozzleNumber) {
	for n := 2.0; n <= 10; n += 0.5 {
		stock = append(stock, units.NozzleNumber(n))
	}
	return stock
}

func TestFitNozzles_twoGuns(t *testing.T) {
	fit, err := hydraulics.FitNozzles(twoGuns(), hydraulics.NozzleWish{
		Outlets: []int{1, 2}, Pressure: psi(2540), Low: psi(2200), High: psi(2600), Stock: halves(),
	})
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"two guns on 6.8 gpm", "unloader 2,900 psi", "wanted 2,540 psi, 2,200 to 2,600 will do", "tips stocked in halves"}
	worked.Check(t, worked.Case{Question: "Which tip is exact?", Source: "hand sum 3.4 √(4000/2540)", Status: worked.CommonPractice, Given: given,
		Printed: "4.27", Got: float64(fit.Exact.Number)})
	worked.Check(t, worked.Case{Question: "The next stocked tip above is 4.5: what does it make?", Source: "hand sum 4000 (3.4/4.5)²", Status: worked.CommonPractice, Given: given,
		Printed: "2,283 psi", Got: fit.Above.Pressure.In(units.PSI)})
	worked.Check(t, worked.Case{Question: "The next below is 4.0: what would it need at the pump?", Source: "hand sum 4000 (3.4/4)² + 150", Status: worked.CommonPractice, Given: given,
		Printed: "3,040 psi", Got: fit.Below.Needed.In(units.PSI), Tolerance: 15, Reason: "the hand sum takes the loss on the way as 150 psi; friction in the network makes it 160"})
	if fit.Below.Number != 4 || fit.Above.Number != 4.5 || !fit.Above.Meets || fit.Above.Bypass != 0 {
		t.Errorf("neighbours: %+v, %+v", fit.Below, fit.Above)
	}
	if fit.Below.Meets || fit.Below.Bypass <= 0 || fit.Below.Pump != psi(2900) {
		t.Errorf("number 4 should bypass at the unloader: %+v", fit.Below)
	}
}

// More than the unloader allows: no number is exact, and the largest stocked tip is
// what remains to be told.
func TestFitNozzles_outOfReach(t *testing.T) {
	fit, err := hydraulics.FitNozzles(twoGuns(), hydraulics.NozzleWish{Outlets: []int{1, 2}, Pressure: psi(3000), Stock: halves()})
	if err != nil {
		t.Fatal(err)
	}
	if fit.Exact.Number != 0 || fit.Above.Number != 0 || fit.Below.Number != 10 || fit.Below.Meets {
		t.Errorf("3,000 psi above an unloader of 2,900: %+v", fit)
	}
}

func TestFitNozzles_refuses(t *testing.T) {
	n := twoGuns()
	n.Sections[2].Outlet.Closed = true
	for name, w := range map[string]hydraulics.NozzleWish{
		"no outlets":   {Pressure: psi(2000), Stock: halves()},
		"closed":       {Outlets: []int{2}, Pressure: psi(2000), Stock: halves()},
		"no outlet":    {Outlets: []int{0}, Pressure: psi(2000), Stock: halves()},
		"no pressure":  {Outlets: []int{1}, Stock: halves()},
		"no stock":     {Outlets: []int{1}, Pressure: psi(2000)},
		"band beside":  {Outlets: []int{1}, Pressure: psi(2000), Low: psi(2100), High: psi(2200), Stock: halves()},
		"band of NaNs": {Outlets: []int{1}, Pressure: psi(2000), Low: units.Pressure(math.NaN()), High: psi(2200), Stock: halves()},
	} {
		if _, err := hydraulics.FitNozzles(n, w); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	if n.Sections[1].Outlet.Nozzles[0].Number != 4.5 {
		t.Error("fitting changed the caller's network")
	}
}
