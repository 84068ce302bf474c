package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// An Injector draws a chemical into the line behind the pump by the vacuum in the
// throat of a jet. Its sheet gives one point; the rest follows from it.
type Injector struct {
	Part
	Flow    units.VolumeFlow // of water, where it was rated
	Vacuum  units.Pressure   // it then makes at the throat
	Draw    units.VolumeFlow // of the liquid At it then draws without lift
	MinFlow units.VolumeFlow // of water, below which it does not draw; zero: not given, then none
	MaxBack units.Ratio      // pressure behind it over pressure before it, above which the jet drowns
	Linear  units.Ratio      // share of the loss in suction tube and metering valve that is laminar
	At      Fluid            // it was rated with
}

// A Stop says why an injector does not draw.
type Stop uint8

const (
	Draws        Stop = iota
	LowFlow           // less water than the injector needs
	BackPressure      // too much pressure behind it: a small tip or a long hose
	Lift              // the vacuum does not lift the chemical
)

var stops = [...]string{"draws", "too little flow", "too much back-pressure", "too much lift"}

// String says it in words.
func (s Stop) String() string {
	if int(s) < len(stops) {
		return stops[s]
	}
	return "unknown"
}

// An Injection is what an injector does in one state.
type Injection struct {
	Stop     Stop
	Vacuum   units.Pressure   // at the throat
	Chemical units.VolumeFlow // drawn; zero unless Stop is Draws
	Water    float64          // parts of water to one of chemical, the R of 1 : R; zero where nothing is drawn
}

// DrawAt returns what the injector draws when a flow of water passes it between two
// pressures, from a chemical below it.
//
//	Δp_v = min( Δp_r (q/q_r)², one atmosphere )
//	Δp_v − ρ g h = Δp_r [ (1−s)(ρ/ρ₀)(c/c_r)² + s (μ/μ₀)(c/c_r) ]
//
// Δp_r, q_r and c_r are vacuum, water and draw as rated, s the laminar share, h the
// lift from the chemical's level to the throat, negative where the chemical stands
// higher. Without lift and laminar loss the draw is in proportion to the water, and
// the ratio does not depend on the flow; lift makes it leaner at half flow, and a
// thick or cold chemical too.
//
// Range: the form is Bernoulli's for the jet; plated points other than the rated one
// decide against it. It draws only while outlet/inlet ≤ MaxBack and water ≥ MinFlow.
func (i *Injector) DrawAt(water units.VolumeFlow, inlet, outlet units.Pressure, chemical Fluid, lift units.Length) (Injection, error) {
	var bad problem.List
	within(&bad, "flow", i.Flow, minFlow, maxFlow)
	within(&bad, "vacuum", i.Vacuum, minPressure, maxPressure)
	within(&bad, "draw", i.Draw, minFlow, maxFlow)
	atMost(&bad, "minFlow", i.MinFlow, maxFlow)
	within(&bad, "maxBack", i.MaxBack, 1e-6, 1)
	problem.Number(&bad, "linear", float64(i.Linear), 0, 1)
	i.At.check(&bad, "at")
	atMost(&bad, "water", water, maxFlow)
	atMost(&bad, "inlet", inlet, maxPressure)
	atMost(&bad, "outlet", outlet, maxPressure)
	if outlet > inlet {
		bad.Add("outlet", outlet.String(), "no more than the inlet's, "+inlet.String(), units.ErrConflict)
	}
	chemical.check(&bad, "chemical")
	problem.Number(&bad, "lift", float64(lift), -maxRise, maxRise)
	if bad != nil {
		return Injection{}, bad.Join()
	}
	x := float64(water) / float64(i.Flow)
	r := Injection{Vacuum: units.Pressure(math.Min(float64(i.Vacuum)*x*x, 101325))}
	drive := float64(r.Vacuum) - float64(chemical.Density)*float64(units.StandardGravity)*float64(lift)
	switch {
	case water < i.MinFlow || water == 0:
		r.Stop = LowFlow
	case float64(outlet) > float64(i.MaxBack)*float64(inlet):
		r.Stop = BackPressure
	case drive <= 0:
		r.Stop = Lift
	default:
		s := float64(i.Linear)
		a := float64(i.Vacuum) * (1 - s) * float64(chemical.Density) / float64(i.At.Density)
		b := float64(i.Vacuum) * s * float64(chemical.Viscosity) / float64(i.At.Viscosity)
		// a c² + b c = drive, in the form that stays exact as a tends to zero.
		c := 2 * drive / (b + math.Sqrt(b*b+4*a*drive))
		r.Chemical = i.Draw * units.VolumeFlow(c)
		r.Water = float64(water) / float64(r.Chemical)
	}
	return r, nil
}

// Dilution returns the strength of what is sprayed.
//
//	final = stock · c/(c + q)
//
// stock is the strength of the chemical as supplied, c its flow, q the flow of water.
// A ratio 1 : R has R = q/c.
func Dilution(stock units.Ratio, chemical, water units.VolumeFlow) (units.Ratio, error) {
	var bad problem.List
	problem.Number(&bad, "stock", float64(stock), 0, 1)
	atMost(&bad, "chemical", chemical, maxFlow)
	atMost(&bad, "water", water, maxFlow)
	if chemical == 0 && water == 0 {
		bad.Add("water", "", "a flow", units.ErrMissing)
	}
	if bad != nil {
		return 0, bad.Join()
	}
	return stock * units.Ratio(float64(chemical)/float64(chemical+water)), nil
}

// A DemandPump is a small diaphragm pump with a pressure switch: flow falls in a
// straight line from Open at no pressure to nothing at Stall, and the switch stops it
// at CutOut and starts it again at CutIn.
type DemandPump struct {
	Open   units.VolumeFlow
	Stall  units.Pressure
	CutOut units.Pressure
	CutIn  units.Pressure
	Stored units.Volume // the line gives up between CutOut and CutIn: hose and accumulator
}

// A DemandResult is a demand pump on a line. Flow and pressure are those of its
// running, or of the mean between the switching points where it cycles.
type DemandResult struct {
	Flow     units.VolumeFlow // at the end of the line
	Pressure units.Pressure   // at the pump
	Cycles   bool             // the switch opens in use
	On, Off  units.Duration   // of one cycle, zero where it does not cycle
	Duty     units.Ratio      // share of the time the motor runs
	PerHour  float64          // starts
	Line     SectionResult    // the line at Flow
}

// Feed runs the pump on a line: hose, lift, tip, with a thick liquid if need be.
//
// The pump's flow at pressure p is q_o (1 − p/p_s). Where the line would settle above
// CutOut the switch cycles: with q the flow of the line and q_m that of the pump at the
// mean of the two switching points,
//
//	on = V/(q_m − q),  off = V/q
func (d *DemandPump) Feed(fluid Fluid, line []Element, outlet *Outlet) (*DemandResult, error) {
	var bad problem.List
	within(&bad, "open", d.Open, minFlow, maxFlow)
	within(&bad, "stall", d.Stall, minPressure, maxPressure)
	within(&bad, "cutOut", d.CutOut, minPressure, float64(d.Stall))
	within(&bad, "cutIn", d.CutIn, minPressure, float64(d.CutOut))
	atMost(&bad, "stored", d.Stored, 1e3)
	if outlet == nil {
		bad.Add("outlet", "", "an outlet", units.ErrMissing)
	}
	if bad != nil {
		return nil, bad.Join()
	}
	n := &Network{
		Fluid:    fluid,
		Supplies: []Supply{{Flow: d.Open, Leakage: Leakage{Flow: d.Open, Pressure: d.Stall}}},
		Sections: []Section{{Name: "line", Parent: Manifold, Elements: line, Outlet: outlet}},
	}
	r, err := Solve(n)
	if err != nil {
		return nil, err
	}
	if r.Pressure < d.CutOut {
		return &DemandResult{Flow: r.Flow, Pressure: r.Pressure, Duty: 1, Line: r.Sections[0]}, nil
	}
	// The switch opens: the line lives on what lies between its two points.
	mean := (d.CutOut + d.CutIn) / 2
	n.Supplies[0].Leakage = Leakage{}
	n.Supplies[0].Unloader = Unloader{Kind: PressureRegulating, Set: mean}
	if r, err = Solve(n); err != nil {
		return nil, err
	}
	out := &DemandResult{Flow: r.Flow, Pressure: mean, Cycles: true, Line: r.Sections[0]}
	pump := float64(d.Open) * (1 - float64(mean)/float64(d.Stall))
	if q, v := float64(r.Flow), float64(d.Stored); q > 0 {
		out.Duty = units.Ratio(math.Min(1, q/pump))
		if v > 0 && pump > q {
			out.On, out.Off = units.Duration(v/(pump-q)), units.Duration(v/q)
			out.PerHour = 3600 / (float64(out.On) + float64(out.Off))
		}
	}
	return out, nil
}
