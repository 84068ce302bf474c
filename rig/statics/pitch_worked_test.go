package statics_test

import (
	"math"
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestPitch_byHand(t *testing.T) {
	trailer := statics.Trailer{AxleGroup: feet(12), Axles: 2, CouplerHeight: 1.5 * units.Foot}
	load := []statics.Mass{{Name: "load", Mass: pounds(6000), X: feet(10.5), Z: feet(3.5)}}
	given := []string{"6000 lb, 10.5 ft aft and 3.5 ft up", "axles 12 ft aft, ball 1.5 ft up"}
	tongue := func(a statics.Attitude) float64 {
		t.Helper()
		r, err := statics.Pitch(trailer, load, nil, nil, a)
		if err != nil {
			t.Fatal(err)
		}
		return r.LeastTongue.Tongue.In(units.Pound)
	}
	worked.Check(t, worked.Case{
		Question: "The trailer brakes itself at 0.4 g on the level: what presses on the ball?",
		Source:   "moments about the wheels' contact, by hand: 6000·(1.5 + 0.4·3.5)/12", Status: worked.Identity,
		Given: given, Printed: "1450 lb", Got: tongue(statics.Attitude{Braking: 0.4 * units.StandardGravity}),
	})
	worked.Check(t, worked.Case{
		Question: "The vehicle alone brakes both at 0.4 g on the level: what presses on the ball?",
		Source:   "moments about the wheels' contact, by hand: 6000·(1.5 + 0.4·(3.5 − 1.5))/12", Status: worked.Identity,
		Given: given, Printed: "1150 lb", Got: tongue(statics.Attitude{Braking: 0.4 * units.StandardGravity, ByVehicle: 1}),
	})
	worked.Check(t, worked.Case{
		Question: "The trailer stands nose-up on a steep grade, held by the vehicle: what presses on the ball?",
		Source:   "moments about the wheels' contact, by hand: grade with sin 0.28 and cos 0.96; 6000·(1.5·0.96 − 0.28·(3.5 − 1.5))/12", Status: worked.Identity,
		Given: given, Printed: "440 lb", Got: tongue(statics.Attitude{Grade: units.Angle(math.Asin(0.28)), ByVehicle: 1}),
	})
}

func TestPitch_waterRunsBack(t *testing.T) {
	// A box tank 6 ft long and 2 ft tall, half full, on a grade of sin 0.28, cos 0.96:
	// tan θ = 0.2917 keeps the surface on both end walls (3 ft × 0.2917 = 0.875 ft
	// of 1 ft). Shift 36/12 × 0.2917 = 0.875 ft, rise half of that × 0.2917 = 0.1276 ft.
	trailer := statics.Trailer{AxleGroup: feet(12), Axles: 2, CouplerHeight: 1.5 * units.Foot}
	tank := statics.Tank{
		Name: "fresh", Density: 60 * units.PoundPerCubicFoot, X: feet(10), Floor: feet(2),
		Vessel: statics.Vessel{Shape: statics.Box, Length: 6 * units.Foot, Width: 4 * units.Foot, Height: 2 * units.Foot},
	}
	r, err := statics.Pitch(trailer, []statics.Mass{{Name: "frame", Mass: pounds(3000), X: feet(11), Z: feet(2.5)}}, nil,
		[]statics.Filling{{Tank: tank, Least: 0.5, Most: 0.5}}, statics.Attitude{Grade: units.Angle(math.Asin(0.28)), ByVehicle: 1})
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "The trailer stands nose-up with a half-full tank: what presses on the ball once the water has run back?",
		Source:   "moments by hand: frame 3000·(1·0.96 − 0.28·1)/12 = 170.0; water 1440·((2 − 0.875)·0.96 − 0.28·(2 + 0.5 + 0.1276 − 1.5))/12 = 91.7",
		Status:   worked.Identity,
		Given:    []string{"frame 3000 lb, 11 ft aft, 2.5 ft up", "tank 6 × 4 × 2 ft, 10 ft aft, floor 2 ft up, half full of 60 lb/ft³", "axles 12 ft aft, ball 1.5 ft up", "grade with sin 0.28 and cos 0.96, held by the vehicle"},
		Printed:  "261.7 lb", Got: r.LeastTongue.Tongue.In(units.Pound),
	})
}
