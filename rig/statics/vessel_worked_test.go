package statics_test

import (
	"math"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestVessel_Tilted_closedForms(t *testing.T) {
	box := statics.Vessel{Shape: statics.Box, Length: 5 * units.Foot, Width: 4 * units.Foot, Height: 2 * units.Foot}
	upright := statics.Vessel{Shape: statics.UprightCylinder, Diameter: 4 * units.Foot, Height: 4 * units.Foot}
	lying := statics.Vessel{Shape: statics.LengthwiseCylinder, Diameter: 4 * units.Foot, Length: 6 * units.Foot}
	square := statics.Vessel{Shape: statics.Box, Length: 1, Width: 1.2, Height: 1.2}
	atan := func(x float64) units.Angle { return units.Angle(math.Atan(x)) }

	for _, c := range []struct {
		question, source string
		status           worked.Status
		given            []string
		vessel           statics.Vessel
		volume           units.Volume
		tilt             units.Angle
		unit             units.Length
		shift, center    string
	}{
		{"A 4 ft wide box tank stands half full on a slope: how far does the water run?", "free-surface shift I/V·tan θ with I = L·w³/12: w²/(12 h)·tan θ = 16/12 × 0.2, and half of that times tan θ as rise", worked.Identity,
			[]string{"box 5 × 4 × 2 ft, depth 1 ft", "tan θ = 0.2"}, box, 20 * units.CubicFoot, atan(0.2), units.Foot, "0.266667 ft", "0.526667 ft"},
		{"An upright round tank of 4 ft stands half full on a slope: how far does the water run?", "free-surface shift I/V·tan θ with I = π r⁴/4: r²/(4 h)·tan θ = 4/8 × 0.2", worked.Identity,
			[]string{"diameter 4 ft, height 4 ft, depth 2 ft", "tan θ = 0.2"}, upright, units.Volume(8*math.Pi) * units.CubicFoot, atan(0.2), units.Foot, "0.100000 ft", "1.010000 ft"},
		{"A lying round tank of 4 ft stands half full on a 30° slope: how far does the water run?", "centroid of a half circle 4 r/(3 π) from its diameter, turned by 30°: 0.848826 × sin 30°, and 2 − 0.848826 × cos 30°", worked.Identity,
			[]string{"diameter 4 ft, length 6 ft, half full", "θ = 30°"}, lying, units.Volume(12*math.Pi) * units.CubicFoot, 30 * units.Degree, units.Foot, "0.424413 ft", "1.264895 ft"},
		{"A square box tank is half full and the surface stands at 45°: where is the water?", "half a square is a triangle: w/2 − w/3 and w/3", worked.Identity,
			[]string{"box 1.2 m wide and tall", "θ = 45°"}, square, 0.72, 45 * units.Degree, units.Meter, "0.200000 m", "0.400000 m"},
		{"A square box tank is an eighth full and the surface stands at 45°: where is the water?", "a triangle of legs w/2 in the low corner: w/2 − w/6 and w/6", worked.Identity,
			[]string{"box 1.2 m wide and tall", "θ = 45°"}, square, 0.18, 45 * units.Degree, units.Meter, "0.400000 m", "0.200000 m"},
		{"A square box tank is seven eighths full and the surface stands at 45°: where is the water?", "all but a triangle of legs w/2: shift (1/8)/(7/8) × 0.4 m, height 0.6 − (1/7)(1.0 − 0.6) m", worked.Identity,
			[]string{"box 1.2 m wide and tall", "θ = 45°"}, square, 1.26, 45 * units.Degree, units.Meter, "0.057143 m", "0.542857 m"},
		{"A low wide box tank is half full and tan θ is 2: where is the water?", "surface through floor and lid; turned on its side, w²/(12 h) with 1 m for the depth and 1 m for the width: 2/2 − 1/2 − 1/(24·4), and 1/2 − 1/(12·2)", worked.Identity,
			[]string{"box 2 m wide, 1 m tall", "tan θ = 2"}, statics.Vessel{Shape: statics.Box, Length: 1, Width: 2, Height: 1}, 1, atan(2), units.Meter, "0.489583 m", "0.458333 m"},
	} {
		s, z, err := c.vessel.Tilted(c.volume, c.tilt, statics.Sideways)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{Question: c.question, Source: c.source, Status: c.status, Given: c.given, Printed: c.shift, Got: s.In(c.unit)})
		worked.Check(t, worked.Case{Question: c.question + " How high is its centre?", Source: c.source, Status: c.status, Given: c.given, Printed: c.center, Got: z.In(c.unit)})
	}
}

func TestVessel_Depth_lyingCylinder(t *testing.T) {
	v := statics.Vessel{Shape: statics.LengthwiseCylinder, Diameter: 2, Length: 1}
	given := []string{"radius 1 m, length 1 m"}
	// Half-angle 60°: area π/3 − √3/4, depth 1 − cos 60°, centre of the segment at
	// ⅔ sin³60°/area below the axis.
	area := math.Pi/3 - math.Sqrt(3)/4
	depth, center, err := v.Depth(units.Volume(area))
	if err != nil {
		t.Fatal(err)
	}
	source := "circular segment of half-angle 60°, by hand: area π/3 − √3/4 = 0.614185, depth 1/2, centre ⅔·0.649519/0.614185 = 0.705020 from the axis"
	worked.Check(t, worked.Case{Question: "A lying round tank holds 0.614185 m³: how deep is it?", Source: source, Status: worked.Identity, Given: given, Printed: "0.500000 m", Got: float64(depth)})
	worked.Check(t, worked.Case{Question: "A lying round tank holds 0.614185 m³: how high is the centre of the water?", Source: source, Status: worked.Identity, Given: given, Printed: "0.294980 m", Got: float64(center)})
}

func TestVessel_Capacity_worked(t *testing.T) {
	v := statics.Vessel{Shape: statics.UprightCylinder, Diameter: 48 * units.Inch, Height: 52.338768 * units.Inch}
	got, err := v.Capacity()
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{Question: "How much does an upright tank of 48 in bore hold when 4.361564 ft deep?", Source: "π/4·48²·52.338768/231, by hand", Status: worked.Identity, Given: []string{"1 gal = 231 in³"}, Printed: "410.00 gal", Got: got.In(units.Gallon)})
}
