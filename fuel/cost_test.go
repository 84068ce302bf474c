package fuel_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestJob_byHand(t *testing.T) {
	price := fuel.Price{Amount: 4.25, Per: units.Gallon}
	got, err := row(t, fuel.Diesel2).Job(2*units.GallonPerHour, 6*units.Hour, 20_000*units.SquareFoot, price)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"2 gph of diesel for 6 h", "$4.25/gal", "20,000 ft²"}
	for _, c := range []struct {
		question, source, printed string
		status                    worked.Status
		got                       float64
	}{
		{"What does the burner's fuel cost for the job?", "2 × 6 × 4.25", "51.00 $", worked.Identity, got.Job.Cost},
		{"And for an hour?", "2 × 4.25", "8.50 $", worked.Identity, got.PerHour.Cost},
		{"And for 1,000 ft²?", "51.00/20", "2.55 $", worked.Identity, got.PerThousandSquareFeet.Cost},
		{"How much carbon dioxide does the job make?", "12 gal × 10.21 kg/gal, U.S. Environmental Protection Agency", "122.5 kg", worked.Published, got.Job.Fossil.In(units.Kilogram)},
		{"And for 1,000 ft²?", "122.5/20", "6.12 kg", worked.Published, got.PerThousandSquareFeet.Fossil.In(units.Kilogram)},
		{"What does the job's fuel weigh?", "12 gal × 7.068 lb/gal (GREET)", "84.8 lb", worked.Published, got.Job.Mass.In(units.Pound)},
	} {
		worked.Check(t, worked.Case{
			Question: c.question, Source: c.source, Status: c.status,
			Given: given, Printed: c.printed, Got: c.got,
		})
	}
}

// TestJob_closes: hours make the job, areas make the job, and two fuels add up.
func TestJob_closes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p, q := row(t, property.OneOf(g, fuel.Kinds()...)), row(t, property.OneOf(g, fuel.Kinds()...))
		price := fuel.Price{Amount: g.Float(0, 10), Per: property.OneOf(g, units.Gallon, units.Liter)}
		hours, feet := g.Float(0, 100), g.LogFloat(1, 1e6)
		rate := units.FuelRate(g.Float(0, 10)) * units.GallonPerHour
		a, err := p.Job(rate, units.Duration(hours)*units.Hour, units.Area(feet)*units.SquareFoot, price)
		if err != nil {
			return err
		}
		b, err := q.Job(rate, units.Duration(hours)*units.Hour, 0, price)
		if err != nil {
			return err
		}
		same := func(x, y float64) bool { return math.Abs(x-y) <= 1e-12*(math.Abs(x)+math.Abs(y)) }
		if !same(a.PerHour.Cost*hours, a.Job.Cost) || !same(float64(a.PerHour.Fossil)*hours, float64(a.Job.Fossil)) || !same(float64(a.PerHour.Mass)*hours, float64(a.Job.Mass)) {
			return fmt.Errorf("%g hours of %+v make %+v", hours, a.PerHour, a.Job)
		}
		if !same(a.PerThousandSquareFeet.Cost*feet/1000, a.Job.Cost) || !same(float64(a.PerThousandSquareFeet.Biogenic)*feet/1000, float64(a.Job.Biogenic)) {
			return fmt.Errorf("%g ft² of %+v make %+v", feet, a.PerThousandSquareFeet, a.Job)
		}
		if b.PerThousandSquareFeet != (fuel.Tally{}) {
			return fmt.Errorf("without an area %+v", b.PerThousandSquareFeet)
		}
		if sum := a.Job.Plus(b.Job); !same(sum.Cost, a.Job.Cost+b.Job.Cost) || sum.Volume != a.Job.Volume+b.Job.Volume || sum.Fossil != a.Job.Fossil+b.Job.Fossil || sum.Biogenic != a.Job.Biogenic+b.Job.Biogenic || sum.Mass != a.Job.Mass+b.Job.Mass {
			return fmt.Errorf("%+v and %+v make %+v", a.Job, b.Job, sum)
		}
		return nil
	})
}

func TestTally_freeFuel(t *testing.T) {
	got, err := row(t, fuel.Propane).Tally(0, fuel.Price{})
	if err != nil || got != (fuel.Tally{}) {
		t.Errorf("none of it makes %+v, %v", got, err)
	}
	got, err = row(t, fuel.NaturalGas).Tally(1e5*units.CubicFoot, fuel.Price{Amount: 1.1, Per: 100 * units.CubicFoot})
	if err != nil || math.Abs(got.Cost-1100) > 1e-9 {
		t.Errorf("gas by the hundred cubic feet: %+v, %v", got, err)
	}
}

func TestCost_badInput(t *testing.T) {
	p := row(t, fuel.Diesel2)
	gal := fuel.Price{Amount: 4, Per: units.Gallon}
	for _, c := range []struct {
		name  string
		p     fuel.Properties
		rate  units.FuelRate
		lasts units.Duration
		area  units.Area
		price fuel.Price
		path  string
		kind  error
	}{
		{"rate", p, -1, 1, 0, gal, "rate", units.ErrRange},
		{"time", p, 1e-6, -1, 0, gal, "lasts", units.ErrRange},
		{"two years", p, 1e-6, 800 * units.Day, 0, gal, "lasts", units.ErrRange},
		{"area", p, 1e-6, 1, -1, gal, "area", units.ErrRange},
		{"area", p, 1e-6, 1, units.Area(math.NaN()), gal, "area", units.ErrRange},
		{"price", p, 1e-6, 1, 0, fuel.Price{Amount: 4}, "price.per", units.ErrMissing},
		{"price", p, 1e-6, 1, 0, fuel.Price{Amount: -4, Per: units.Gallon}, "price.amount", units.ErrRange},
		{"price", p, 1e-6, 1, 0, fuel.Price{Amount: math.Inf(1), Per: -1}, "price.amount", units.ErrRange},
		{"price", p, 1e-6, 1, 0, fuel.Price{Amount: math.Inf(1), Per: -1}, "price.per", units.ErrRange},
		{"volume", p, 0.2, 300 * units.Day, 0, gal, "volume", units.ErrRange},
		{"no fuel", fuel.Properties{}, 1e-6, 1, 0, gal, "density", units.ErrMissing},
	} {
		got, err := c.p.Job(c.rate, c.lasts, c.area, c.price)
		wantFieldError(t, c.name, err, c.path, c.kind)
		if got != (fuel.JobFuel{}) {
			t.Errorf("%s: %+v beside an error", c.name, got)
		}
	}
}
