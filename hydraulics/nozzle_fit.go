package hydraulics

import (
	"errors"
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A NozzleWish is the pressure wanted at some outlets of a network.
type NozzleWish struct {
	Outlets   []int // sections whose outlets get the same tips; each keeps its count of nozzles
	Pressure  units.Pressure
	Low, High units.Pressure       // the band that will do; zero: Pressure exactly
	Stock     []units.NozzleNumber // in any order
}

// A NozzleChoice is one number in all the outlets of a wish, and what it makes of the
// network. The zero NozzleChoice says that there is none.
type NozzleChoice struct {
	Number   units.NozzleNumber // of each tip
	Pressure units.Pressure     // at the wished-for outlet with the least
	Flow     units.VolumeFlow   // through that outlet, metered
	Pump     units.Pressure     // in the manifold
	Needed   units.Pressure     // in the manifold if nothing were bypassed or relieved: above the unloader it is the pressure the choice would have taken; zero where a regulator keeps the flow from the outlets
	Bypass   units.VolumeFlow   // of all pumps, relief included
	Meets    bool               // the pressure lies in the band
}

// A NozzleFit has the exact number for a wish and its stocked neighbours.
type NozzleFit struct {
	Exact NozzleChoice // none where no number makes that pressure, as above an unloader
	Below NozzleChoice // largest stocked number not above the exact one; without an exact one, the largest stocked
	Above NozzleChoice // smallest stocked number not below it
}

// FitNozzles finds the tips that give outlets a pressure, in the network as it stands:
// closed outlets stay closed, other tips stay as they are. The exact number is
// compared with its stocked neighbours, and each is solved in place: that neither
// meets the band is an answer.
func FitNozzles(n *Network, wish NozzleWish) (*NozzleFit, error) {
	if err := n.Validate(); err != nil {
		return nil, err
	}
	var bad problem.List
	within(&bad, "pressure", wish.Pressure, minPressure, maxPressure)
	if wish.Low == 0 && wish.High == 0 {
		wish.Low, wish.High = wish.Pressure, wish.Pressure
	}
	if !(wish.Low > 0 && wish.Low <= wish.Pressure) {
		bad.Add("low", wish.Low.String(), "more than 0 and no more than the pressure wanted", units.ErrRange)
	}
	if !(wish.High >= wish.Pressure && wish.High <= maxPressure) {
		bad.Add("high", wish.High.String(), "no less than the pressure wanted", units.ErrRange)
	}
	if len(wish.Outlets) == 0 {
		bad.Add("outlets", "", "the index of a section with an open outlet", units.ErrMissing)
	}
	if _, _, err := Neighbours(wish.Stock, 1); err != nil {
		bad = append(bad, err)
	}
	for i, o := range wish.Outlets {
		if o < 0 || o >= len(n.Sections) || n.Sections[o].Outlet == nil || n.Sections[o].Outlet.Closed || len(n.Sections[o].Outlet.Nozzles) == 0 {
			bad.Add("outlets[#"+problem.Format(float64(i+1))+"]", problem.Format(float64(o)), "the index of a section with an open outlet that has nozzles", units.ErrRange)
		}
	}
	if bad != nil {
		return nil, bad.Join()
	}

	trial := *n
	trial.Sections = append([]Section(nil), n.Sections...)
	free := trial // without anything that lets flow past the outlets
	free.Supplies = append([]Supply(nil), n.Supplies...)
	for i := range free.Supplies {
		free.Supplies[i].Unloader, free.Supplies[i].Relief = Unloader{}, Relief{}
	}
	for _, o := range wish.Outlets {
		out := *n.Sections[o].Outlet
		out.Nozzles = append([]Nozzle(nil), out.Nozzles...)
		trial.Sections[o].Outlet = &out
	}
	free.Sections = trial.Sections

	var w Workspace
	var r Result
	try := func(net *Network, number units.NozzleNumber) (NozzleChoice, error) {
		for _, o := range wish.Outlets {
			for i := range trial.Sections[o].Outlet.Nozzles {
				t := &trial.Sections[o].Outlet.Nozzles[i]
				t.Number, t.Wear = number, 0
			}
		}
		if err := w.Solve(net, &r); err != nil {
			return NozzleChoice{}, err
		}
		c := NozzleChoice{Number: number, Pump: r.Pressure}
		for i, o := range wish.Outlets {
			if s := &r.Sections[o]; i == 0 || s.Outlet < c.Pressure {
				c.Pressure, c.Flow = s.Outlet, s.Metered
			}
		}
		for i := range r.Supplies {
			c.Bypass += r.Supplies[i].Bypass + r.Supplies[i].Relief
		}
		c.Meets = c.Pressure >= wish.Low && c.Pressure <= wish.High
		return c, nil
	}
	full := func(number units.NozzleNumber) (NozzleChoice, error) {
		all, err := try(&free, number)
		if err != nil && !errors.Is(err, ErrDeadHead) { // a regulator may hold the flow back
			return NozzleChoice{}, err
		}
		c, err := try(&trial, number)
		c.Needed = all.Pump
		return c, err
	}

	fit := new(NozzleFit)
	exact, err := exactNumber(func(number units.NozzleNumber) (float64, error) {
		c, err := try(&trial, number)
		return float64(c.Pressure - wish.Pressure), err
	})
	if err != nil {
		return nil, err
	}
	var below, above units.NozzleNumber
	if exact > 0 {
		if fit.Exact, err = full(exact); err != nil {
			return nil, err
		}
		below, above, _ = Neighbours(wish.Stock, exact)
	} else {
		for _, s := range wish.Stock {
			below = max(below, s)
		}
	}
	if below > 0 {
		if fit.Below, err = full(below); err != nil {
			return nil, err
		}
	}
	if above > 0 {
		if fit.Above, err = full(above); err != nil {
			return nil, err
		}
	}
	return fit, nil
}

// exactNumber finds the number at which the excess of pressure, which falls with the
// number, is zero; zero where there is none.
func exactNumber(excess func(units.NozzleNumber) (float64, error)) (units.NozzleNumber, error) {
	const lo, hi = -14.0, 14.0 // ln N
	var failed error
	f := func(ln float64) float64 {
		e, err := excess(units.NozzleNumber(math.Exp(ln)))
		if err != nil && failed == nil {
			failed = err
		}
		return e
	}
	if a, b := f(lo), f(hi); failed != nil || a < 0 || b > 0 {
		return 0, failed
	}
	ln, it, err := root.Bracketed(f, lo, hi, 1e-12)
	switch {
	case failed != nil:
		return 0, failed
	case err != nil:
		return 0, &units.SolverError{Solver: "hydraulics.FitNozzles", State: "nozzle number", Iterations: it, Lo: math.Exp(lo), Hi: math.Exp(hi)}
	}
	return units.NozzleNumber(math.Exp(ln)), nil
}
