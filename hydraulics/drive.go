package hydraulics

import (
	"math"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// Plungers is the geometry of a plunger pump.
type Plungers struct {
	Count    int // 3 for a triplex
	Diameter units.Length
	Stroke   units.Length
}

// Displacement returns the swept volume of one revolution of the crank.
//
//	V = z (π/4) d² s
//
// z is the number of single-acting plungers, d their diameter, s the stroke.
func (g Plungers) Displacement() (units.Volume, error) {
	var bad problem.List
	problem.Number(&bad, "count", float64(g.Count), 1, 100)
	within(&bad, "diameter", g.Diameter, minBore, maxBore)
	within(&bad, "stroke", g.Stroke, minBore, maxBore)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Volume(float64(g.Count) * math.Pi / 4 * float64(g.Diameter) * float64(g.Diameter) * float64(g.Stroke)), nil
}

const maxSpeed = 1e5 // rad/s

// PumpFlow returns what a positive-displacement pump delivers at a speed.
//
//	q = V n η_v
//
// V is the displacement of one revolution, n the speed in revolutions, η_v the
// volumetric efficiency, more than 0 and at most 1. The speed to use is the one
// under load.
func PumpFlow(displacement units.Volume, speed units.RotationalSpeed, volumetric units.Ratio) (units.VolumeFlow, error) {
	var bad problem.List
	within(&bad, "displacement", displacement, 1e-15, 1e3)
	atMost(&bad, "speed", speed, maxSpeed)
	within(&bad, "volumetricEfficiency", volumetric, 1e-6, 1)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.VolumeFlow(float64(displacement) * float64(speed) / (2 * math.Pi) * float64(volumetric)), nil
}

// PlateDisplacement returns the displacement of one revolution, volumetric efficiency
// included, of a pump whose plate gives a flow at a speed. Put it into [PumpFlow] with
// an efficiency of 1.
func PlateDisplacement(flow units.VolumeFlow, speed units.RotationalSpeed) (units.Volume, error) {
	var bad problem.List
	within(&bad, "flow", flow, minFlow, maxFlow)
	within(&bad, "speed", speed, 1e-9, maxSpeed)
	if bad != nil {
		return 0, bad.Join()
	}
	return units.Volume(float64(flow) * 2 * math.Pi / float64(speed)), nil
}

// LeakageAt returns the leakage of a pump that is known by its volumetric efficiency
// at a pressure: it then delivers that share of the flow it displaces.
func LeakageAt(displaced units.VolumeFlow, volumetric units.Ratio, p units.Pressure) (Leakage, error) {
	var bad problem.List
	within(&bad, "displaced", displaced, minFlow, maxFlow)
	within(&bad, "volumetricEfficiency", volumetric, 1e-6, 1)
	within(&bad, "pressure", p, minPressure, maxPressure)
	if bad != nil {
		return Leakage{}, bad.Join()
	}
	if volumetric == 1 {
		return Leakage{}, nil
	}
	return Leakage{Flow: displaced * units.VolumeFlow(1-volumetric), Pressure: p}, nil
}

// A Belt is an open belt drive.
type Belt struct {
	Driver units.Length // pitch diameter of the pulley on the motor
	Driven units.Length // of the one on the pump
	Center units.Length // distance of the shafts; zero: not given, then no wrap and length
	Slip   units.Ratio  // share of the speed lost; V-belts 0.01 to 0.03 (common practice)
}

// A BeltResult is a belt drive at a speed.
type BeltResult struct {
	Driven units.RotationalSpeed // of the pump
	Speed  units.Velocity        // of the belt
	Wrap   units.Angle           // on the smaller pulley; zero without a centre distance
	Length units.Length          // of the belt along its pitch line; likewise
}

// At returns the drive at a speed of the motor.
//
//	n₂ = n₁ (D₁/D₂) (1 − s)      v = π D₁ n₁
//	wrap = π − 2 asin( (D − d)/2C )
//	L = 2 C cos α + π (D + d)/2 + α (D − d),  α = asin( (D − d)/2C )
//
// D₁ and D₂ are the pitch diameters of the pulleys on motor and pump, D and d the
// larger and the smaller of them, s the slip, C the distance of the shafts.
func (b Belt) At(motor units.RotationalSpeed) (BeltResult, error) {
	var bad problem.List
	atMost(&bad, "motor", motor, maxSpeed)
	within(&bad, "driver", b.Driver, minBore, maxBore)
	within(&bad, "driven", b.Driven, minBore, maxBore)
	difference := math.Abs(float64(b.Driver - b.Driven))
	if b.Center != 0 {
		within(&bad, "center", b.Center, float64(b.Driver+b.Driven)/2, 1e3)
	}
	problem.Number(&bad, "slip", float64(b.Slip), 0, 1)
	if bad != nil {
		return BeltResult{}, bad.Join()
	}
	r := BeltResult{
		Driven: motor * units.RotationalSpeed(float64(b.Driver)/float64(b.Driven)*(1-float64(b.Slip))),
		Speed:  units.Velocity(float64(motor) * float64(b.Driver) / 2),
	}
	if c := float64(b.Center); c > 0 {
		a := math.Asin(difference / (2 * c))
		r.Wrap = units.Angle(math.Pi - 2*a)
		r.Length = units.Length(2*c*math.Cos(a) + math.Pi/2*float64(b.Driver+b.Driven) + a*difference)
	}
	return r, nil
}

// GearedSpeed returns the speed of a pump behind a gear.
//
//	n₂ = n₁ / i
//
// i is the reduction, more than 1 where the pump is slower.
func GearedSpeed(motor units.RotationalSpeed, reduction float64) (units.RotationalSpeed, error) {
	var bad problem.List
	atMost(&bad, "motor", motor, maxSpeed)
	problem.Number(&bad, "reduction", reduction, 1e-3, 1e3)
	if bad != nil {
		return 0, bad.Join()
	}
	return motor / units.RotationalSpeed(reduction), nil
}

// A PulleyPlan is a belt-driven pump that wants a pulley for its motor.
type PulleyPlan struct {
	Motor        units.RotationalSpeed // under load
	Driven       units.Length          // pitch diameter of the pump's pulley
	Slip         units.Ratio
	Displacement units.Volume // of one revolution
	Volumetric   units.Ratio  // efficiency; zero: 1, as with [PlateDisplacement]
}

// A PulleyChoice is one pulley for the motor and what it makes of the pump. The zero
// PulleyChoice says that there is none.
type PulleyChoice struct {
	Driver units.Length
	Speed  units.RotationalSpeed // of the pump
	Flow   units.VolumeFlow
}

// A PulleyFit has the exact pulley for a flow and its stocked neighbours.
type PulleyFit struct {
	Exact        PulleyChoice
	Below, Above PulleyChoice // the same one twice where the exact one is stocked
}

// Fit returns the pulley that makes the pump deliver a flow, and the nearest stocked
// pitch diameters on both sides of it. The stock may be in any order.
func (p PulleyPlan) Fit(want units.VolumeFlow, stock []units.Length) (PulleyFit, error) {
	if p.Volumetric == 0 {
		p.Volumetric = 1
	}
	var bad problem.List
	within(&bad, "motor", p.Motor, 1e-9, maxSpeed)
	within(&bad, "driven", p.Driven, minBore, maxBore)
	problem.Number(&bad, "slip", float64(p.Slip), 0, 0.99)
	within(&bad, "displacement", p.Displacement, 1e-15, 1e3)
	within(&bad, "volumetricEfficiency", p.Volumetric, 1e-6, 1)
	within(&bad, "want", want, minFlow, maxFlow)
	if len(stock) == 0 {
		bad.Add("stock", "", "at least one pulley", units.ErrMissing)
	}
	for i, d := range stock {
		if !goodBore(d) {
			bad.Add("stock[#"+problem.Format(float64(i+1))+"]", d.String(), "more than 0", units.ErrRange)
		}
	}
	if bad != nil {
		return PulleyFit{}, bad.Join()
	}
	perMeter := float64(p.Motor) / float64(p.Driven) * (1 - float64(p.Slip)) // pump speed over driver diameter
	choice := func(d float64) PulleyChoice {
		n := d * perMeter
		return PulleyChoice{
			Driver: units.Length(d),
			Speed:  units.RotationalSpeed(n),
			Flow:   units.VolumeFlow(float64(p.Displacement) * n / (2 * math.Pi) * float64(p.Volumetric)),
		}
	}
	exact := float64(want) * 2 * math.Pi / (float64(p.Displacement) * float64(p.Volumetric)) / perMeter
	fit := PulleyFit{Exact: choice(exact)}
	for _, s := range stock {
		d := float64(s)
		// A stocked pulley that is exact up to rounding is both neighbours.
		if d <= exact*(1+1e-12) && s > fit.Below.Driver {
			fit.Below = choice(d)
		}
		if d >= exact*(1-1e-12) && (fit.Above.Driver == 0 || s < fit.Above.Driver) {
			fit.Above = choice(d)
		}
	}
	return fit, nil
}
