package tank

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A Supply is a water main at the hydrant or bibb, by what a gauge says there with
// nothing flowing and with a known flow.
type Supply struct {
	Static   units.Pressure
	Residual units.Pressure   // at Flow
	Flow     units.VolumeFlow // zero: only the static pressure is known, and taken to hold at every flow: the best case
}

func (s Supply) check(p *problem.List) {
	problem.Within(p, "supply.static", s.Static, 1, maxPressure)
	if s.Flow == 0 && s.Residual == 0 {
		return
	}
	problem.Within(p, "supply.flow", s.Flow, minFlow, maxFlow)
	if !(s.Residual >= 0 && s.Residual < s.Static) {
		p.Add("supply.residual", s.Residual.String(), "0 to less than the static pressure, "+s.Static.String(), units.ErrConflict)
	}
}

// mainPower is the exponent of the flow in the pressure that a main loses, that of
// Hazen and Williams.
const mainPower = 1.85

// PressureAt returns the pressure that is left at a flow.
//
//	p = p_s − (p_s − p_r)(q/q_r)^1.85
//
// It is negative beyond the flow at which the main is drawn empty. Source: NFPA 291,
// Recommended Practice for Water Flow Testing of Hydrants.
func (s Supply) PressureAt(q units.VolumeFlow) (units.Pressure, error) {
	var p problem.List
	s.check(&p)
	problem.Between(&p, "flow", q, 0, maxFlow)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return s.left(q), nil
}

func (s Supply) left(q units.VolumeFlow) units.Pressure {
	if s.Flow == 0 {
		return s.Static
	}
	return s.Static - (s.Static-s.Residual)*units.Pressure(math.Pow(float64(q/s.Flow), mainPower))
}

// FlowAt returns the flow at which the pressure has fallen to p.
//
//	q = q_r ((p_s − p)/(p_s − p_r))^0.54
//
// Errors: no flow test; a pressure above the static one. Source: NFPA 291; its 0.54
// is 1/1.85 rounded.
func (s Supply) FlowAt(left units.Pressure) (units.VolumeFlow, error) {
	var p problem.List
	s.check(&p)
	if s.Flow == 0 {
		p.Add("supply.flow", "", "a flow and the residual pressure at it", units.ErrMissing)
	}
	problem.Between(&p, "pressure", left, 0, float64(s.Static))
	if err := p.Join(); err != nil {
		return 0, err
	}
	return s.Flow * units.VolumeFlow(math.Pow(float64((s.Static-left)/(s.Static-s.Residual)), 0.54)), nil
}

// A Filling is the way from a main into the top of a tank: meter, backflow device,
// hose, in the order of flow.
type Filling struct {
	Supply Supply
	Line   []hydraulics.Element
	Lift   units.Length // of the hose's end over the gauge; negative where it descends
	Fluid  hydraulics.Fluid
}

// FillFlow is what arrives.
type FillFlow struct {
	Flow     units.VolumeFlow
	Main     units.Pressure   // left at the gauge
	Lift     units.Pressure   // taken by the height
	Elements []units.Pressure // taken by each element of the line
	Velocity units.Velocity   // in the narrowest element that has a bore
}

// Flow returns the flow at which the main's pressure is used up by line and height.
// It is nothing, and no error, where the static pressure does not lift the water or
// open the check valves.
//
// Errors: bad input; a line that loses nothing, which would fill without end.
func (f Filling) Flow() (*FillFlow, error) {
	var w Workspace
	out := new(FillFlow)
	if err := w.Fill(&f, out); err != nil {
		return nil, err
	}
	return out, nil
}

// Fill is [Filling.Flow] in the memory of w, written to out, whose slice it uses again.
func (w *Workspace) Fill(f *Filling, out *FillFlow) error {
	var p problem.List
	f.Supply.check(&p)
	problem.Between(&p, "lift", f.Lift, -maxHeight, maxHeight)
	checkFluid(&p, f.Fluid)
	if err := p.Join(); err != nil {
		return err
	}
	if err := w.lay(f.Fluid, f.Line); err != nil {
		return err
	}
	lift := units.Pressure(float64(f.Fluid.Density) * gravity * float64(f.Lift))
	short := func(q float64) (missing, slope float64) { // pressure at flow q
		dp, slope := w.run.Loss(units.VolumeFlow(q))
		left := f.Supply.left(units.VolumeFlow(q))
		return float64(dp + lift - left), slope + mainPower*float64(f.Supply.Static-left)/q
	}
	*out = FillFlow{Main: f.Supply.Static, Lift: lift, Elements: out.Elements[:0]}
	for range f.Line {
		out.Elements = append(out.Elements, 0)
	}
	if missing, _ := short(minFlow); missing >= 0 {
		return nil
	}
	// More flow costs ever more: from a flow that is too great, or that a step takes
	// there, the steps come down to the zero.
	at := root.Tangent{X: float64(f.Supply.Flow)}
	if at.X == 0 {
		at.X = usualFlow
	}
	at.F, at.Slope = short(at.X)
	if _, ok := at.Zero(short, minFlow, maxFlow, 1e-6); !ok {
		alone := func(q float64) float64 {
			missing, _ := short(q)
			return missing
		}
		lo, hi := minFlow, minFlow
		for alone(hi) < 0 {
			lo = hi
			if hi *= 8; hi > maxFlow {
				return &units.FieldError{Path: "line", Want: "a line that loses pressure: hose, meter, valve", Err: units.ErrMissing}
			}
		}
		var err error
		if at.X, _, err = root.Bracketed(alone, lo, hi, 0); err != nil {
			return err
		}
	}
	out.Flow = units.VolumeFlow(at.X)
	out.Main = f.Supply.left(out.Flow)
	w.run.Loss(out.Flow)
	for i := range out.Elements {
		e := w.run.Element(i)
		out.Elements[i] = e.Loss
		out.Velocity = max(out.Velocity, e.Velocity)
	}
	return nil
}

// usualFlow is where a flow is looked for first when nothing is known of it, m³/s.
const usualFlow = 1e-3

// A Trend is what a tank gains or loses while it is filled and used.
type Trend struct {
	Rate    units.VolumeFlow // gained, negative where the tank loses ground
	ToFull  units.Duration   // zero: never
	ToEmpty units.Duration   // zero: never
}

// FillTrend returns the trend of a tank.
//
//	rate = fill − use · share
//
// share is the part of the clock in which the use flows: the trigger share. have is
// what can be drawn now, full what could be with the tank full.
func FillTrend(fill, use units.VolumeFlow, share units.Ratio, have, full units.Volume) (Trend, error) {
	var p problem.List
	problem.Between(&p, "fill", fill, 0, maxFlow)
	problem.Between(&p, "use", use, 0, maxFlow)
	problem.Between(&p, "share", share, 0, 1)
	problem.Between(&p, "full", full, 0, 1e6)
	if !(have >= 0 && have <= full) {
		p.Add("have", have.String(), "0 to what the full tank holds, "+full.String(), units.ErrConflict)
	}
	if err := p.Join(); err != nil {
		return Trend{}, err
	}
	t := Trend{Rate: fill - use*units.VolumeFlow(share)}
	time := func(v units.Volume, q units.VolumeFlow) units.Duration {
		return units.Duration(math.Min(float64(v)/float64(q), float64(1e4*365*units.Day)))
	}
	switch {
	case t.Rate > 0:
		t.ToFull = time(full-have, t.Rate)
	case t.Rate < 0:
		t.ToEmpty = time(have, -t.Rate)
	}
	return t, nil
}

// AirGap returns the least clear height between the end of a fill pipe and the edge
// over which the tank overflows.
//
//	2 × the bore, at least 1 in;  beside a wall 3 × the bore, at least 1-1/2 in
//
// Source: ASME A112.1.2, Air gaps in plumbing systems, as the U.S. residential code
// cites it (section P2902). The purveyor of the water may ask for more.
func AirGap(bore units.Length, byWall bool) (units.Length, error) {
	var p problem.List
	problem.Within(&p, "bore", bore, minBore, maxBore)
	if err := p.Join(); err != nil {
		return 0, err
	}
	if byWall {
		return max(3*bore, 1.5*units.Inch), nil
	}
	return max(2*bore, 1*units.Inch), nil
}
