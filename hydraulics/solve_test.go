package hydraulics_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// A tree makes a random network. Its values reach far past the trade where wild
// is set.
func tree(g *property.G, wild bool) *hydraulics.Network {
	n := &hydraulics.Network{
		Fluid:    hydraulics.Fluid{Density: 999.8, Viscosity: 1.4e-3},
		Supplies: []hydraulics.Supply{{Flow: gpm(g.LogFloat(1, 20))}},
	}
	s := &n.Supplies[0]
	if wild {
		s.Flow = units.VolumeFlow(g.LogFloat(1e-7, 1e-1))
	}
	valves := func(s *hydraulics.Supply) {
		set := psi(g.LogFloat(200, 4000))
		if g.Bool() {
			s.Unloader = hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: set}
			if g.Bool() {
				s.Unloader.Rise = psi(g.LogFloat(1, 300))
			}
		}
		if g.Bool() {
			s.Relief = hydraulics.Relief{Set: set + psi(g.Float(-10, 500))}
			if g.Bool() {
				s.Relief.Accumulation = psi(g.LogFloat(1, 300))
				s.Relief.Flow = s.Flow * units.VolumeFlow(g.Float(0.3, 2))
			}
		}
		if g.Pick(3) == 0 {
			s.Leakage = hydraulics.Leakage{Flow: s.Flow * units.VolumeFlow(g.Float(0.01, 0.1)), Pressure: psi(3000)}
		}
	}
	valves(s)
	if g.Pick(5) == 0 {
		second := hydraulics.Supply{Flow: s.Flow * units.VolumeFlow(g.LogFloat(0.1, 10))}
		valves(&second)
		n.Supplies = append(n.Supplies, second)
	}
	count := g.Int(1, 9)
	ends := make([]bool, count)
	for i := range count {
		ends[i] = true
		sec := hydraulics.Section{Name: fmt.Sprintf("s%d", i), Parent: g.Int(-1, i-1)}
		if sec.Parent >= 0 {
			ends[sec.Parent] = false
		}
		if g.Pick(3) == 0 {
			sec.Fluid = hydraulics.Fluid{Density: units.Density(g.Float(920, 1000)), Viscosity: units.DynamicViscosity(g.LogFloat(2e-4, 2e-3))}
		}
		for range g.Int(0, 4) {
			sec.Elements = append(sec.Elements, element(g, wild))
		}
		n.Sections = append(n.Sections, sec)
	}
	open := false
	for i := range n.Sections {
		if ends[i] {
			o := &hydraulics.Outlet{Closed: g.Pick(4) == 0}
			lo, hi := 1., 12.
			if wild {
				lo, hi = 1e-3, 1e4
			}
			for range g.Int(1, 3) {
				o.Nozzles = append(o.Nozzles, hydraulics.Nozzle{Number: units.NozzleNumber(g.LogFloat(lo, hi)), Wear: units.Ratio(g.Float(0, 0.2))})
			}
			open = open || !o.Closed
			n.Sections[i].Outlet = o
		}
	}
	if !open {
		for i := range n.Sections {
			if ends[i] {
				n.Sections[i].Outlet.Closed = false
				break
			}
		}
	}
	return n
}

func element(g *property.G, wild bool) hydraulics.Element {
	bore, length := units.Length(g.LogFloat(5e-3, 30e-3)), units.Length(g.LogFloat(0.3, 100))
	if wild {
		bore, length = units.Length(g.LogFloat(1e-6, 1)), units.Length(g.LogFloat(1e-3, 1e4))
	}
	switch g.Pick(6) {
	case 0:
		return hydraulics.Coil{Bore: bore, Length: length, Helix: bore * units.Length(g.LogFloat(3, 100))}
	case 1:
		return hydraulics.Fitting{K: g.LogFloat(0.01, 100), Bore: bore}
	case 2:
		return hydraulics.RatedLoss{Flow: gpm(g.LogFloat(1, 10)), Pressure: psi(g.LogFloat(1, 100)), Linear: units.Ratio(g.Float(0, 1))}
	case 3:
		return hydraulics.StaticHeight{Rise: units.Length(g.Float(-3, 3))}
	}
	return hydraulics.Hose{Bore: bore, Length: length, Roughness: bore * units.Length(g.Float(0, 0.05))}
}

// audit checks a result against the laws it is meant to keep, each written again
// from its textbook form. It returns the worst mismatch of a pressure, relative
// to the pressure at the manifold.
func audit(n *hydraulics.Network, r *hydraulics.Result) error {
	const tol = 1e-9
	near := func(a, b, scale float64) bool { return math.Abs(a-b) <= tol*scale }
	p := float64(r.Pressure)
	scale := math.Abs(p)
	for i := range r.Sections {
		scale = max(scale, math.Abs(float64(r.Sections[i].Inlet)), math.Abs(float64(r.Sections[i].Outlet)))
		for _, e := range r.Sections[i].Elements {
			scale = max(scale, math.Abs(float64(e.Loss)))
		}
	}
	if math.IsNaN(scale) || math.IsInf(scale, 0) {
		return fmt.Errorf("a pressure of %g", scale)
	}
	pump := 0.
	for _, s := range n.Supplies {
		pump += float64(s.Flow)
	}

	below := make([]float64, len(n.Sections))
	branches := make([]bool, len(n.Sections))
	fluids := make([]hydraulics.Fluid, len(n.Sections))
	out, line := 0., 0.
	for i := len(n.Sections) - 1; i >= 0; i-- {
		s, t := &n.Sections[i], &r.Sections[i]
		m := float64(t.Mass)
		if s.Outlet != nil {
			out += m
		} else if !near(m, below[i], pump*1000) {
			return fmt.Errorf("section %d passes %g of %g kg/s", i, below[i], m)
		}
		if s.Parent >= 0 {
			below[s.Parent] += m
			branches[s.Parent] = true
		} else {
			line += m
		}
	}
	// After that many rounds the solver has left trickles as they were.
	trickle := 0.
	if r.Iterations >= 400 {
		trickle = 1e-8 * pump * 1000
	}
	for i := range n.Sections {
		s, t := &n.Sections[i], &r.Sections[i]
		in, fluid := p, n.Fluid
		if s.Parent >= 0 {
			in, fluid = float64(r.Sections[s.Parent].Outlet), fluids[s.Parent]
		}
		if s.Fluid.Given() {
			fluid = s.Fluid
		}
		fluids[i] = fluid
		m, rho, mu := float64(t.Mass), float64(fluid.Density), float64(fluid.Viscosity)
		if m < trickle {
			continue
		}
		if !near(float64(t.Inlet), in, scale) {
			return fmt.Errorf("section %d begins at %g Pa, the one before ends at %g", i, float64(t.Inlet), in)
		}
		cut := float64(t.Regulated)
		if reg := s.Regulator; reg != nil {
			holds := float64(reg.Set)
			if reg.Droop > 0 {
				holds -= float64(reg.Droop) * m / rho / float64(reg.Flow)
			}
			if cut < -tol*scale || in-cut > holds+tol*scale || cut > 0 && in-cut < holds-tol*scale {
				return fmt.Errorf("section %d: a regulator that holds %.12g Pa takes %.12g of %.12g", i, holds, cut, in)
			}
		} else if cut != 0 {
			return fmt.Errorf("section %d: %g Pa taken by no regulator", i, cut)
		}
		left := in - cut
		for j, e := range s.Elements {
			want := loss(e, m, rho, mu, n.Fluid)
			if got := float64(t.Elements[j].Loss); !near(got, want, scale) {
				return fmt.Errorf("section %d element %d (%T) loses %.12g Pa, want %.12g", i, j, e, got, want)
			}
			left -= want
		}
		if (m > 0 || !branches[i]) && !near(float64(t.Outlet), left, scale) {
			return fmt.Errorf("section %d ends at %.12g Pa, want %.12g", i, float64(t.Outlet), left)
		}
		if o := s.Outlet; o != nil && !o.Closed {
			sum := 0.
			for _, z := range o.Nozzles {
				sum += float64(z.Number) * (1 + float64(z.Wear))
			}
			if left < -tol*scale && m > tol*pump*1000 {
				return fmt.Errorf("outlet %d flows at %g Pa", i, left)
			}
			if m == 0 && left > tol*scale {
				return fmt.Errorf("outlet %d is dry at %g Pa", i, left)
			}
			// The pressure is certain to tol of scale, the flow to tol of the pump's.
			q := func(p float64) float64 {
				return sum * math.Sqrt(max(p, 0)/(4000*6894.757293168361)) * 231 * 0.0254 * 0.0254 * 0.0254 / 60
			}
			if got := float64(t.Metered); got < q(left-tol*scale)-tol*pump || got > q(left+tol*scale)+tol*pump {
				return fmt.Errorf("outlet %d passes %.12g m³/s at %g Pa, want %.12g", i, got, left, q(left))
			}
		}
	}

	flow := 0.
	for i, s := range r.Supplies {
		flow += float64(s.Line)
		all := float64(s.Line + s.Bypass + s.Relief + s.Leakage)
		if !near(all, float64(n.Supplies[i].Flow), pump) {
			return fmt.Errorf("supply %d moves %g, line and valves take %g m³/s", i, float64(n.Supplies[i].Flow), all)
		}
		for _, v := range []units.VolumeFlow{s.Line, s.Bypass, s.Relief, s.Leakage} {
			if v < -1e-12*units.VolumeFlow(pump) {
				return fmt.Errorf("supply %d: a flow of %v", i, v)
			}
		}
		if err := valves(&n.Supplies[i], &s, tol*scale, tol*pump); err != nil {
			return err
		}
	}
	rho := float64(n.Fluid.Density)
	if !near(flow*rho, line, pump*rho) || !near(out, line, pump*rho) || !(r.Closure <= tol) {
		return fmt.Errorf("supplies give %g kg/s, lines take %g, outlets %g; closure %g", flow*rho, line, out, float64(r.Closure))
	}
	return nil
}

// valves checks what a supply bypasses, relieves and leaks at its pressure, which is
// certain to dp; flows are certain to dq.
func valves(s *hydraulics.Supply, t *hydraulics.SupplyResult, dp, dq float64) error {
	p, flow := float64(t.Pressure), float64(s.Flow)
	open := func(p, set, rise, full float64) float64 {
		switch {
		case set == 0 || p < set:
			return 0
		case rise == 0:
			return math.Inf(1)
		}
		return full * (p - set) / rise
	}
	relief := float64(s.Relief.Flow)
	if relief == 0 {
		relief = flow
	}
	for _, v := range []struct {
		name   string
		got    float64
		lo, hi float64
	}{
		{"leakage", float64(t.Leakage), float64(s.Leakage.Flow) * max(p-dp, 0) / max(float64(s.Leakage.Pressure), 1), float64(s.Leakage.Flow) * max(p+dp, 0) / max(float64(s.Leakage.Pressure), 1)},
		{"unloader", float64(t.Bypass), min(flow, open(p-dp, float64(s.Unloader.Set), float64(s.Unloader.Rise), flow)), open(p+dp, float64(s.Unloader.Set), float64(s.Unloader.Rise), flow)},
		{"relief", float64(t.Relief), open(p-dp, float64(s.Relief.Set), float64(s.Relief.Accumulation), relief), open(p+dp, float64(s.Relief.Set), float64(s.Relief.Accumulation), relief)},
	} {
		// A valve takes what it is open for, or all that is left.
		left := flow - float64(t.Line+t.Leakage+t.Bypass+t.Relief) + v.got
		if v.got < min(v.lo, left)-dq || v.got > v.hi+dq {
			return fmt.Errorf("%s passes %g at %g Pa, want %g to %g", v.name, v.got, p, v.lo, v.hi)
		}
	}
	return nil
}

// loss is what an element loses, from its own formula.
func loss(e hydraulics.Element, m, rho, mu float64, ref hydraulics.Fluid) float64 {
	area := func(d float64) float64 { return math.Pi / 4 * d * d }
	switch e := e.(type) {
	case hydraulics.StaticHeight:
		return rho * 9.80665 * float64(e.Rise)
	case hydraulics.Fitting:
		v := m / rho / area(float64(e.Bore))
		return e.K * rho * v * v / 2
	case hydraulics.RatedLoss:
		x := m / rho / float64(e.Flow)
		return float64(e.Pressure) * ((1-float64(e.Linear))*rho/float64(ref.Density)*x*x + float64(e.Linear)*mu/float64(ref.Viscosity)*x)
	case hydraulics.Pipe:
		return darcy(m, rho, mu, float64(e.Bore), float64(e.Length), func(Re float64) float64 {
			return hydraulics.FrictionFactor(Re, float64(e.Roughness/e.Bore))
		})
	case hydraulics.Coil:
		d := float64(e.Bore - 2*e.Scale)
		return darcy(m, rho, mu, d, float64(e.Length), func(Re float64) float64 {
			return hydraulics.CoilFrictionFactor(Re, float64(e.Roughness)/d, d/float64(e.Helix))
		})
	}
	panic(fmt.Sprintf("%T", e))
}

func darcy(m, rho, mu, d, l float64, f func(float64) float64) float64 {
	if m == 0 {
		return 0
	}
	v := m / rho / (math.Pi / 4 * d * d)
	return f(rho*v*d/mu) * l / d * rho * v * v / 2
}

func TestSolve_keepsItsLaws(t *testing.T) {
	for _, wild := range []bool{false, true} {
		t.Run(fmt.Sprintf("wild=%v", wild), func(t *testing.T) {
			var w hydraulics.Workspace
			var r hydraulics.Result
			property.Check(t, func(g *property.G) error {
				n := tree(g, wild)
				if err := w.Solve(n, &r); err != nil {
					return err
				}
				return audit(n, &r)
			})
		})
	}
}

func TestSolve_deadHead(t *testing.T) {
	n := twoGuns()
	n.Supplies[0].Unloader, n.Supplies[0].Relief = hydraulics.Unloader{}, hydraulics.Relief{}
	for i := range n.Sections {
		if o := n.Sections[i].Outlet; o != nil {
			o.Closed = true
		}
	}
	_, err := hydraulics.Solve(n)
	var dead *hydraulics.DeadHeadError
	if !errors.Is(err, hydraulics.ErrDeadHead) || !errors.As(err, &dead) {
		t.Fatalf("dead head: %v", err)
	}
	if dead.Section != "sections[right]" || dead.Part != "gun" || dead.Rating != psi(3600) || dead.Unrated != 1 {
		t.Errorf("first to go: %+v", dead)
	}
	// A leak, a relief or an unloader each give the flow a way.
	for _, give := range []func(*hydraulics.Supply){
		func(s *hydraulics.Supply) { s.Leakage = hydraulics.Leakage{Flow: s.Flow / 10, Pressure: psi(3000)} },
		func(s *hydraulics.Supply) { s.Relief.Set = psi(3400) },
		func(s *hydraulics.Supply) {
			s.Unloader = hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(2900), Rise: psi(100)}
		},
	} {
		n.Supplies[0].Leakage, n.Supplies[0].Unloader, n.Supplies[0].Relief = hydraulics.Leakage{}, hydraulics.Unloader{}, hydraulics.Relief{}
		give(&n.Supplies[0])
		r, err := hydraulics.Solve(n)
		if err != nil {
			t.Fatal(err)
		}
		s := n.Supplies[0]
		want := max(s.Relief.Set, s.Unloader.Set+s.Unloader.Rise, s.Leakage.Pressure*10)
		if math.Abs(float64(r.Pressure/want)-1) > 1e-12 || r.Flow != 0 || r.Closure > 1e-12 {
			t.Errorf("closed: %v, flow %v, closure %v; want %v", r.Pressure, r.Flow, r.Closure, want)
		}
	}
}

// twoGuns is a pump, a coil and two hoses of 150 ft with equal tips.
func twoGuns() *hydraulics.Network {
	gun := func() []hydraulics.Element {
		return []hydraulics.Element{
			hydraulics.Hose{Part: hydraulics.Part{Name: "hose", MaxPressure: psi(4000)}, Bore: inch(0.375), Length: feet(150)},
			hydraulics.RatedLoss{Part: hydraulics.Part{Name: "gun", MaxPressure: psi(4500)}, Flow: gpm(3.4), Pressure: psi(40)},
		}
	}
	hot := hydraulics.Fluid{Density: 977.1, Viscosity: 3.98e-4} // water at 160 °F
	n := &hydraulics.Network{
		Fluid: hydraulics.Fluid{Density: 999.9, Viscosity: 1.43e-3}, // water at 45 °F
		Supplies: []hydraulics.Supply{{
			Flow:     gpm(6.8),
			Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(2900)},
			Relief:   hydraulics.Relief{Set: psi(3400)},
		}},
		Sections: []hydraulics.Section{
			{Name: "coil", Parent: hydraulics.Manifold, Elements: []hydraulics.Element{
				hydraulics.Coil{Bore: inch(0.546), Length: feet(150), Helix: inch(16)},
			}},
			{Name: "left", Parent: 0, Fluid: hot, Elements: gun(), Outlet: &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 4.5}}}},
			{Name: "right", Parent: 0, Fluid: hot, Elements: gun(), Outlet: &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 4.5}}}},
		},
	}
	r := n.Sections[2].Elements[1].(hydraulics.RatedLoss)
	r.MaxPressure = psi(3600)
	n.Sections[2].Elements[1] = r
	return n
}

// What the three kinds of unloader do while guns close.
func TestSolve_unloaders(t *testing.T) {
	solve := func(u hydraulics.Unloader, left, right bool) *hydraulics.Result {
		t.Helper()
		n := twoGuns()
		n.Supplies[0].Unloader = u
		n.Sections[1].Outlet.Closed, n.Sections[2].Outlet.Closed = !left, !right
		r, err := hydraulics.Solve(n)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	regulating := hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(2900), Rise: psi(50)}
	actuated := hydraulics.Unloader{Kind: hydraulics.FlowActuated, Set: psi(2900), Bypass: psi(60), Actuation: gpm(4), Return: hydraulics.ToInlet}
	trapped := hydraulics.Unloader{Kind: hydraulics.TrappedPressure, Set: psi(2900), Bypass: psi(60)}

	for _, u := range []hydraulics.Unloader{regulating, actuated, trapped} {
		if r := solve(u, true, true); r.Supplies[0].Unloader != hydraulics.Idle || r.Supplies[0].Bypass != 0 || r.Supplies[0].Feed != gpm(6.8) {
			t.Errorf("%v, both guns: %+v", u.Kind, r.Supplies[0])
		}
	}
	// One gun: 3.7 of 6.8 gpm. The flow-actuated one wants 4 and opens.
	for _, u := range []hydraulics.Unloader{regulating, trapped} {
		if r := solve(u, true, false); r.Supplies[0].Unloader != hydraulics.Regulating || r.Pressure < psi(2900) || r.Pressure > psi(2950) || r.Supplies[0].Pressure != r.Pressure {
			t.Errorf("%v, one gun: %+v", u.Kind, r.Supplies[0])
		}
	}
	r := solve(actuated, true, false)
	s := r.Supplies[0]
	if s.Unloader != hydraulics.Dumping || s.Pressure != psi(60) || r.Pressure != psi(60) || math.Abs(s.Held.In(units.GallonPerMinute)-3.74) > 0.01 {
		t.Errorf("flow-actuated, one gun: %+v", s)
	}
	if q := r.Sections[1].Metered; !(q > gpm(0.4) && q < gpm(0.6)) || r.Sections[1].Outlet >= psi(60) {
		t.Errorf("flow-actuated, one gun: the gun passes %v at %v", q, r.Sections[1].Outlet)
	}
	if math.Abs(float64(s.Feed/s.Line)-1) > 1e-12 {
		t.Errorf("bypass to the inlet: the suction line still carries %v of %v", s.Feed, s.Line)
	}
	// None: the line of the last two stays under pressure while the pump is unloaded.
	if r := solve(regulating, false, false); r.Pressure != psi(2950) || r.Supplies[0].Pressure != psi(2950) || r.Supplies[0].Bypass != gpm(6.8) {
		t.Errorf("regulating, no gun: %v, %+v", r.Pressure, r.Supplies[0])
	}
	for _, u := range []hydraulics.Unloader{actuated, trapped} {
		r := solve(u, false, false)
		if r.Pressure != psi(2900) || r.Sections[2].Outlet != psi(2900) || r.Supplies[0].Pressure != psi(60) || r.Supplies[0].Unloader != hydraulics.Dumping || r.Supplies[0].Bypass != gpm(6.8) {
			t.Errorf("%v, no gun: line %v, %+v", u.Kind, r.Pressure, r.Supplies[0])
		}
	}
}

// Two tips on one lance share its flow as their numbers, each with its wear.
func TestOutlet_NozzleFlows(t *testing.T) {
	o := &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 4}, {Number: 2, Blocked: true}, {Number: 5, Wear: 0.2}}}
	flows := o.NozzleFlows(nil, gpm(5))
	want := []units.VolumeFlow{gpm(2), 0, gpm(3)}
	for i := range want {
		if math.Abs(float64(flows[i]-want[i])) > 1e-15 {
			t.Errorf("nozzle %d passes %v, want %v", i, flows[i], want[i])
		}
	}
	n := line(1000, 1e-3, 5, 0.5, 50, 0)
	n.Sections[0].Outlet = o
	two, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	n.Sections[0].Outlet = &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 10}}}
	one, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(two.Pressure/one.Pressure)-1) > 1e-12 {
		t.Errorf("4 and 5 worn to 6 make %v, one of 10 %v", two.Pressure, one.Pressure)
	}
}

// Two pumps on one manifold: the one whose unloader is set lower gives way first.
func TestSolve_twoPumps(t *testing.T) {
	n := twoGuns()
	n.Supplies = []hydraulics.Supply{
		{Name: "one", Flow: gpm(3.4), Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(2900)}},
		{Name: "two", Flow: gpm(3.4), Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(2000)}},
	}
	r, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	if r.Pressure != psi(2000) || r.Supplies[0].Bypass != 0 || !(r.Supplies[1].Bypass > 0) {
		t.Errorf("%v, %+v", r.Pressure, r.Supplies)
	}
	if err := audit(n, r); err != nil {
		t.Error(err)
	}
}

// Heat expands the water: the same mass, more volume, and with [DensityLaw] more
// pressure at the tip.
func TestSolve_hotWater(t *testing.T) {
	n := twoGuns()
	cold, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	n.Sections[1].Outlet.Law, n.Sections[2].Outlet.Law = hydraulics.DensityLaw, hydraulics.DensityLaw
	hot, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	s := hot.Sections[1]
	if ratio := float64(s.Flow / s.Metered); math.Abs(ratio-999.9/977.1) > 1e-12 {
		t.Errorf("volume grows by %g", ratio)
	}
	// p = 4000 (Q/N)² ρ_pump²/(ρ ρ_ref).
	want := cold.Sections[1].Outlet * units.Pressure(999.9*999.9/(977.1*999.016))
	if math.Abs(float64(s.Outlet/want)-1) > 1e-9 {
		t.Errorf("hot tip at %v, want %v", s.Outlet, want)
	}
}

func TestSolve_refusesBadInput(t *testing.T) {
	good := func() *hydraulics.Network { return twoGuns() }
	for _, c := range []struct {
		path string
		kind error
		spoi func(*hydraulics.Network)
	}{
		{"fluid.density", units.ErrMissing, func(n *hydraulics.Network) { n.Fluid.Density = 0 }},
		{"fluid.viscosity", units.ErrRange, func(n *hydraulics.Network) { n.Fluid.Viscosity = units.DynamicViscosity(math.NaN()) }},
		{"supplies", units.ErrMissing, func(n *hydraulics.Network) { n.Supplies = nil }},
		{"supplies[#1].flow", units.ErrMissing, func(n *hydraulics.Network) { n.Supplies[0].Flow = 0 }},
		{"supplies[#1].unloader.set", units.ErrMissing, func(n *hydraulics.Network) { n.Supplies[0].Unloader.Set = 0 }},
		{"supplies[#1].unloader.bypass", units.ErrConflict, func(n *hydraulics.Network) { n.Supplies[0].Unloader.Bypass = psi(3000) }},
		{"sections", units.ErrMissing, func(n *hydraulics.Network) { n.Sections = nil }},
		{"sections[right].parent", units.ErrRange, func(n *hydraulics.Network) { n.Sections[2].Parent = 2 }},
		{"sections[left].elements[#1].bore", units.ErrMissing, func(n *hydraulics.Network) {
			n.Sections[1].Elements[0] = hydraulics.Hose{Length: feet(10)}
		}},
		{"sections[left].elements[#1].roughness", units.ErrRange, func(n *hydraulics.Network) {
			n.Sections[1].Elements[0] = hydraulics.Hose{Bore: inch(0.5), Length: feet(10), Roughness: inch(0.1)}
		}},
		{"sections[coil].elements[#1].helix", units.ErrMissing, func(n *hydraulics.Network) {
			n.Sections[0].Elements[0] = hydraulics.Coil{Bore: inch(0.5), Length: feet(10)}
		}},
		{"sections[coil].elements[#1]", units.ErrMissing, func(n *hydraulics.Network) { n.Sections[0].Elements[0] = nil }},
		{"sections[right].outlet.nozzles[#1].number", units.ErrMissing, func(n *hydraulics.Network) { n.Sections[2].Outlet.Nozzles[0].Number = 0 }},
		{"sections[coil].outlet", units.ErrConflict, func(n *hydraulics.Network) { n.Sections[0].Outlet = &hydraulics.Outlet{} }},
	} {
		n := good()
		c.spoi(n)
		_, err := hydraulics.Solve(n)
		var f *units.FieldError
		if !errors.As(err, &f) || f.Path != c.path || !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v", c.path, err)
		}
		if v := n.Validate(); v == nil || v.Error() != err.Error() {
			t.Errorf("%s: Validate says %v", c.path, v)
		}
	}
	if err := good().Validate(); err != nil {
		t.Error(err)
	}
}

// nearby is what rounding may do to a pressure of the network: the solver leaves
// 1e-10 of the pumps' flow, which is at most 2e-10 of a quadratic loss.
func nearby(r *hydraulics.Result) units.Pressure {
	scale := max(r.Pressure, -r.Pressure)
	for i := range r.Sections {
		scale = max(scale, r.Sections[i].Inlet, -r.Sections[i].Outlet)
	}
	return 1e-9 * scale
}

// outlets returns the sections that have an outlet.
func outlets(n *hydraulics.Network) (all []int) {
	for i := range n.Sections {
		if n.Sections[i].Outlet != nil {
			all = append(all, i)
		}
	}
	return all
}

func TestSolve_moreHoseLessPressureAtItsEnd(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := tree(g, false)
		ends := outlets(n)
		i := ends[g.Pick(len(ends))]
		n.Sections[i].Outlet.Closed = false
		hose := &hydraulics.Hose{Bore: inch(g.LogFloat(0.2, 0.8)), Length: feet(g.LogFloat(1, 300))}
		n.Sections[i].Elements = append(n.Sections[i].Elements, hose)
		a, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		hose.Length *= units.Length(1 + g.LogFloat(1e-3, 10))
		b, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		if was, is := a.Sections[i].Outlet, b.Sections[i].Outlet; is > was+nearby(a) {
			return fmt.Errorf("more hose raised %v to %v at its end", was, is)
		}
		return nil
	})
}

func TestSolve_openingOneGunLowersTheOthers(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := tree(g, false)
		ends := outlets(n)
		i := ends[g.Pick(len(ends))]
		open := false
		for _, j := range ends {
			open = open || j != i && !n.Sections[j].Outlet.Closed
		}
		if !open {
			return property.ErrDiscard
		}
		n.Sections[i].Outlet.Closed = true
		a, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		n.Sections[i].Outlet.Closed = false
		b, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		for _, j := range ends {
			if j == i || n.Sections[j].Outlet.Closed {
				continue
			}
			if was, is := a.Sections[j].Outlet, b.Sections[j].Outlet; is > was+nearby(a) {
				return fmt.Errorf("opening outlet %d raised %v to %v at outlet %d", i, was, is, j)
			}
			if was, is := a.Sections[j].Mass, b.Sections[j].Mass; is > was+1e-9*units.MassFlow(n.Supplies[0].Flow*1000) {
				return fmt.Errorf("opening outlet %d raised %v to %v through outlet %d", i, was, is, j)
			}
		}
		return nil
	})
}

func TestSolve_wearLowersItsOwnPressure(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := tree(g, false)
		ends := outlets(n)
		i := ends[g.Pick(len(ends))]
		o := n.Sections[i].Outlet
		o.Closed = false
		a, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		o.Nozzles[g.Pick(len(o.Nozzles))].Wear += units.Ratio(g.LogFloat(1e-3, 1))
		b, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		if was, is := a.Sections[i].Outlet, b.Sections[i].Outlet; is > was+nearby(a) {
			return fmt.Errorf("wear raised %v to %v", was, is)
		}
		return nil
	})
}

func TestSolve_pressureRisesWithFlow(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n := tree(g, g.Bool())
		a, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		n.Supplies[0].Flow *= units.VolumeFlow(1 + g.LogFloat(1e-4, 2))
		b, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		if b.Pressure < a.Pressure-nearby(b) {
			return fmt.Errorf("more flow lowered %v to %v at the pump", a.Pressure, b.Pressure)
		}
		return nil
	})
}

// A result depends on its own network only, and not on whether elements come by
// value or by pointer.
func TestSolve_repeats(t *testing.T) {
	var w hydraulics.Workspace
	var r hydraulics.Result
	property.Check(t, func(g *property.G) error {
		n := tree(g, g.Bool())
		fresh, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		for i := range n.Sections {
			for j, e := range n.Sections[i].Elements {
				switch e := e.(type) {
				case hydraulics.Pipe:
					n.Sections[i].Elements[j] = &e
				case hydraulics.Coil:
					n.Sections[i].Elements[j] = &e
				case hydraulics.Fitting:
					n.Sections[i].Elements[j] = &e
				case hydraulics.RatedLoss:
					n.Sections[i].Elements[j] = &e
				case hydraulics.StaticHeight:
					n.Sections[i].Elements[j] = &e
				}
			}
		}
		if err := w.Solve(n, &r); err != nil {
			return err
		}
		if d := cmp.Diff(*fresh, r, cmpopts.EquateEmpty()); d != "" {
			return fmt.Errorf("a kept workspace answers otherwise (-fresh +kept):\n%s", d)
		}
		return nil
	})
}

func TestSolve_doesNotAllocate(t *testing.T) {
	n := twoGuns()
	var w hydraulics.Workspace
	var r hydraulics.Result
	if a := testing.AllocsPerRun(20, func() {
		if err := w.Solve(n, &r); err != nil {
			t.Fatal(err)
		}
	}); a != 0 {
		t.Errorf("%v allocations with a kept workspace", a)
	}
}
