package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestLoop_worked(t *testing.T) {
	dry := vacuum.Loop{Return: 0.65}
	hot := vacuum.Loop{Return: 0.65, Evaporate: 0.08}
	added, brought := must(dry.Added())(t), must(hot.MakeUp())(t)
	const source = "geometric series of the passes; algebra alone"
	worked.Check(t, worked.Case{Question: "65 % of the water comes back: how much detergent is in what comes back, in doses?", Source: source, Status: worked.Identity,
		Given: []string{"r = 0.65"}, Printed: "2.86", Got: float64(added.Return)})
	worked.Check(t, worked.Case{Question: "And in the tank?", Source: source, Status: worked.Identity, Given: []string{"r = 0.65"}, Printed: "1.86", Got: float64(added.Tank)})
	worked.Check(t, worked.Case{Question: "How much harder does the water get, if 8 % evaporates?", Source: source, Status: worked.Identity,
		Given: []string{"r = 0.65", "e = 0.08"}, Printed: "1.19", Got: float64(brought.Tank)})
	worked.Check(t, worked.Case{Question: "And if nothing evaporates?", Source: source, Status: worked.Identity,
		Given: []string{"r = 0.65"}, Printed: "1.00", Got: float64(must(dry.MakeUp())(t).Tank)})
	// 0.65ⁿ = 0.1: n = ln 0.1/ln 0.65 = 5.345.
	n, ok, err := added.PassesTo(0.9 * added.Tank)
	if err != nil || !ok {
		t.Fatal(n, ok, err)
	}
	worked.Check(t, worked.Case{Question: "After how many tankfuls is it at 90 % of that?", Source: "ln 0.1/ln 0.65", Status: worked.Identity,
		Given: []string{"r = 0.65"}, Printed: "5.345", Got: n})
	// 200 gal in the loop, 5 gpm sprayed: 5.345 passes are 213.8 min of spraying, 3.56
	// h; at two hours a day that is the second day.
	out := must(added.ChangeOutAt(0.9*added.Tank, gallons(200), gpm(5), 2*units.Hour))(t)
	worked.Check(t, worked.Case{Question: "On which working day do I change the water?", Source: "passes times content over flow", Status: worked.Identity,
		Given: []string{"200 gal", "5 gpm", "2 h of spraying a day", "limit 90 % of where it settles"}, Printed: "2", Got: float64(out.Day)})
	worked.Check(t, worked.Case{Question: "After how many hours of spraying?", Source: "passes times content over flow", Status: worked.Identity,
		Given: []string{"200 gal", "5 gpm"}, Printed: "3.56 h", Got: out.Worked.In(units.Hour)})
	if never := must(added.ChangeOutAt(2, gallons(200), gpm(5), 2*units.Hour))(t); never.Reached || never.Day != 0 {
		t.Errorf("it settles below 2, and yet %+v", never)
	}
}

// The closed forms against passing the water round.
func TestLoop_passes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		e := g.Float(0, 0.4)
		l := vacuum.Loop{Return: units.Ratio(g.Float(0, 1) * (1 - e)), Evaporate: units.Ratio(e)}
		r := float64(l.Return)
		added, err1 := l.Added()
		brought, err2 := l.MakeUp()
		if err1 != nil || err2 != nil {
			return fmt.Errorf("%v %v", err1, err2)
		}
		a, m := 0.0, 1.0
		for n := range 40 {
			gotA, err1 := added.After(float64(n))
			gotM, err2 := brought.After(float64(n))
			if err1 != nil || err2 != nil {
				return fmt.Errorf("%v %v", err1, err2)
			}
			if math.Abs(float64(gotA)-a) > 1e-9*(1+a) || math.Abs(float64(gotM)-m) > 1e-9*(1+m) {
				return fmt.Errorf("after %d passes %v and %v, by hand %v and %v", n, gotA, gotM, a, m)
			}
			// Of a unit sprayed, e leaves as vapour and r comes back, thicker by
			// 1/(1−e); a clean unit less r is topped up.
			a = r * (a + 1) / (1 - e)
			m = r*m/(1-e) + (1 - r)
		}
		if !added.Without {
			if d := float64(added.Tank) - r*float64(added.Return); math.Abs(d) > 1e-9*(1+float64(added.Tank)) {
				return fmt.Errorf("tank %v, return %v", added.Tank, added.Return)
			}
		}
		limit := units.Ratio(g.LogFloat(0.01, 100))
		for _, b := range []vacuum.BuildUp{added, brought} {
			n, ok, err := b.PassesTo(limit)
			if err != nil {
				return err
			}
			if !ok {
				if !b.Without && b.Tank > limit*(1+1e-9) {
					return fmt.Errorf("settles at %v and does not reach %v", b.Tank, limit)
				}
				continue
			}
			c, err := b.After(n)
			if n < 1e6 && (err != nil || n > 0 && math.Abs(float64(c/limit)-1) > 1e-6) {
				return fmt.Errorf("after %v passes %v, limit %v, %v", n, c, limit, err)
			}
		}
		return nil
	})
}

func TestLoop_edges(t *testing.T) {
	// Everything comes back and nothing evaporates: doses add without bound, hardness
	// stays.
	all := vacuum.Loop{Return: 1}
	if b := must(all.Added())(t); !b.Without || must(b.After(7))(t) != 7 {
		t.Errorf("%+v", b)
	}
	if b := must(all.MakeUp())(t); b.Without || b.Tank != 1 || must(b.After(7))(t) != 1 {
		t.Errorf("%+v", b)
	}
	// All but what evaporates comes back: both rise without bound.
	steam := vacuum.Loop{Return: 0.9, Evaporate: 0.1}
	if b := must(steam.MakeUp())(t); !b.Without || math.Abs(float64(must(b.After(10))(t))-2) > 1e-12 {
		t.Errorf("%+v", b)
	}
	if n, ok, err := must(steam.MakeUp())(t).PassesTo(3); err != nil || !ok || math.Abs(n-20) > 1e-9 {
		t.Errorf("%v %v %v", n, ok, err)
	}
	// Nothing comes back.
	if b := must(vacuum.Loop{}.Added())(t); b.Tank != 0 || b.Return != 1 {
		t.Errorf("%+v", b)
	}
	_, err := vacuum.Loop{Return: 0.95, Evaporate: 0.1}.Added()
	refused(t, err, "return", units.ErrConflict)
	_, err = vacuum.Loop{Return: -1}.MakeUp()
	refused(t, err, "return", units.ErrRange)
	_, err = vacuum.Loop{Evaporate: 1}.MakeUp()
	refused(t, err, "evaporate", units.ErrRange)
	b := must(vacuum.Loop{Return: 0.5}.Added())(t)
	_, err = b.After(-1)
	refused(t, err, "passes", units.ErrRange)
	_, _, err = b.PassesTo(0)
	refused(t, err, "limit", units.ErrMissing)
	_, err = b.ChangeOutAt(0.5, 0, gpm(5), 8*units.Hour)
	refused(t, err, "content", units.ErrMissing)
	_, err = b.ChangeOutAt(0.5, gallons(100), gpm(5), 0)
	refused(t, err, "day", units.ErrMissing)
}
