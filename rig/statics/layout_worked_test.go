package statics_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// An invented deck: what is too near what, by hand.
func TestClashes_deck(t *testing.T) {
	block := func(name string, x, y, l, w float64) statics.Block {
		return statics.BlockAround(name, inches(x), inches(y), units.Length(l)*units.Inch, units.Length(w)*units.Inch, units.Position{}, 0)
	}
	blocks := []statics.Block{
		block("burner", 60, 20, 20, 20),     // 50–70 × 10–30
		block("tank", 100, -10, 40, 30),     // 80–120 × −25–5
		block("generator", 60, -30, 30, 20), // 45–75 × −40–−20
		block("fuel-tank", 84, 30, 16, 16),  // 76–92 × 22–38
		block("tool-box", 150, 34, 24, 12),  // 138–162 × 28–40
	}
	zones := []statics.Zone{
		{Name: "stack", Kind: statics.Heat, Owner: "burner", Clearance: 18 * units.Inch, Block: &statics.Block{Fore: inches(55), Aft: inches(65), Right: inches(15), Left: inches(25)}},
		{Name: "gate", Kind: statics.GateSwing, Swing: &statics.Swing{X: inches(168), Y: inches(42), Radius: 36 * units.Inch, From: 180 * units.Degree, To: 270 * units.Degree}},
		{Name: "reel-pull", Kind: statics.HosePath, Clearance: 2 * units.Inch, Path: []statics.Spot{{X: inches(130), Y: inches(-20)}, {X: inches(170), Y: inches(-20)}}, Width: 8 * units.Inch},
	}
	clashes, err := statics.Clashes(blocks, zones, 4*units.Inch)
	if err != nil {
		t.Fatal(err)
	}
	given := []string{"burner 50–70 in aft, 10–30 in left; stack on it 55–65, 15–25", "fuel tank 76–92, 22–38; tank 80–120, −25–5; generator 45–75, −40–−20", "tool box 138–162, 28–40; gate hinged at 168, 42 with 36 in radius, swinging forward and right", "hose pulled from 130 to 170 at −20, 8 in wide"}
	want := []struct {
		a, b, distance, source, question string
	}{
		{"fuel-tank", "stack", "11.00 in", "76 − 65 in, by hand", "How near to the stack, which needs 18 in, is the fuel tank?"},
		{"tool-box", "gate", "0.00 in", "its corner at 162, 28 is √(6² + 14²) = 15.2 in from the hinge, inside the swing", "How near to the swinging gate is the tool box?"},
	}
	for i, w := range want {
		if i >= len(clashes) {
			t.Fatalf("clashes: %+v", clashes)
		}
		c := clashes[i]
		worked.Text(t, worked.TextCase{Question: w.question + " Which things clash?", Source: w.source, Status: worked.Identity, Given: given, Printed: w.a + " and " + w.b, Got: c.A + " and " + c.B})
		worked.Check(t, worked.Case{Question: w.question, Source: w.source, Status: worked.Identity, Given: given, Printed: w.distance, Got: c.Distance.In(units.Inch)})
	}
	// The tank clears the hose's path by 130 − 4 − 120 = 6 in and the generator by
	// 5 in; nothing else is near.
	if len(clashes) != len(want) {
		t.Errorf("clashes: %+v", clashes)
	}
	clashes, err = statics.Clashes(blocks, zones[2:], 5.5*units.Inch)
	if err != nil || len(clashes) != 1 {
		t.Fatalf("blocks nearer than 5.5 in: %+v, %v", clashes, err)
	}
	worked.Check(t, worked.Case{Question: "How far apart are tank and generator?", Source: "80 − 75 in side by side, by hand", Status: worked.Identity, Given: given, Printed: "5.00 in", Got: clashes[0].Distance.In(units.Inch)})
}

func TestClashes_corners(t *testing.T) {
	a := statics.Block{Name: "a", Fore: metres(0), Aft: metres(1), Right: metres(0), Left: metres(1), Bottom: metres(0), Top: metres(1)}
	b := statics.Block{Name: "b", Fore: metres(3), Aft: metres(4), Right: metres(4), Left: metres(5), Bottom: metres(7), Top: metres(8)}
	got, err := statics.Clashes([]statics.Block{a, b}, nil, 10)
	if err != nil || len(got) != 1 {
		t.Fatalf("%+v, %v", got, err)
	}
	worked.Check(t, worked.Case{Question: "Two boxes are apart by 2 m, 3 m and 6 m along the axes: how far apart are they?", Source: "√(4 + 9 + 36) = 7", Status: worked.Identity, Printed: "7.000 m", Got: float64(got[0].Distance)})
}
