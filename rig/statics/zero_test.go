package statics_test

import (
	"testing"

	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

// Nothing given is an error that says so, and never a panic or a number.
func TestZeroValues(t *testing.T) {
	for name, call := range map[string]func() error{
		"Balance":         func() error { _, err := statics.Balance(statics.Trailer{}, nil); return err },
		"Sides":           func() error { _, _, err := statics.Sides(statics.Trailer{}, nil); return err },
		"Corners":         func() error { _, err := statics.Corners(statics.Trailer{}, nil, nil); return err },
		"Tank.Load":       func() error { _, err := statics.Tank{}.Load(0); return err },
		"Tank.Range":      func() error { _, err := statics.Tank{}.Range(0, 0); return err },
		"Tank.BurnDown":   func() error { _, err := statics.Tank{}.BurnDown(0, 0, 0); return err },
		"Vessel.Capacity": func() error { _, err := statics.Vessel{}.Capacity(); return err },
		"Vessel.Depth":    func() error { _, _, err := statics.Vessel{}.Depth(0); return err },
		"Vessel.Tilted":   func() error { _, _, err := statics.Vessel{}.Tilted(0, 0, 0); return err },
		"Rollover":        func() error { _, err := statics.Rollover(statics.Trailer{}, nil, nil, nil); return err },
		"Rollover, tank": func() error {
			_, err := statics.Rollover(statics.Trailer{}, nil, nil, []statics.Filling{{}})
			return err
		},
		"Pitch": func() error {
			_, err := statics.Pitch(statics.Trailer{}, nil, nil, []statics.Filling{{}}, statics.Attitude{})
			return err
		},
		"Suspend": func() error {
			_, err := statics.Suspend(statics.Trailer{}, nil, statics.Suspension{})
			return err
		},
		"LevelBall": func() error {
			_, err := statics.LevelBall(statics.Trailer{}, nil, statics.Suspension{})
			return err
		},
		"SuspendExtremes": func() error {
			_, err := statics.SuspendExtremes(statics.Trailer{}, nil, nil, statics.Suspension{})
			return err
		},
		"Margins": func() error {
			_, err := statics.Margins(statics.Extremes{}, []statics.Rating{{}})
			return err
		},
		"Place": func() error {
			_, err := statics.Place(statics.Trailer{}, nil, nil, nil, []statics.Mover{{}}, statics.Limits{})
			return err
		},
		"PassingShifts": func() error {
			_, err := statics.PassingShifts(statics.Trailer{}, nil, nil, nil, statics.Mover{}, statics.Limits{})
			return err
		},
		"BreakEven": func() error {
			_, err := statics.BreakEven(statics.Trailer{}, nil, nil, nil, statics.Mass{}, statics.Limits{})
			return err
		},
		"MostVolume": func() error {
			_, err := statics.MostVolume(statics.Trailer{}, nil, nil, []statics.Growth{{}}, nil, statics.Limits{})
			return err
		},
		"Park": func() error {
			_, err := statics.Park(statics.Trailer{}, nil, nil, units.Position{}, units.Position{})
			return err
		},
		"TieDown": func() error {
			_, err := statics.TieDown(0, statics.Criteria{}, statics.Tie{})
			return err
		},
		"Clashes": func() error {
			_, err := statics.Clashes([]statics.Block{{}}, []statics.Zone{{}}, 0)
			return err
		},
		"Overhangs": func() error { _, err := statics.Overhangs(statics.Block{}, nil); return err },
		"Extent":    func() error { _, err := statics.Extent(statics.Trailer{}, nil, nil); return err },
		"Outline":   func() error { _, err := statics.Zone{}.Outline(); return err },
		"TwoTankSpacing": func() error {
			_, err := statics.TwoTankSpacing(0, 0, 0, 0, 0)
			return err
		},
		"StaticStabilityFactor": func() error { _, err := statics.StaticStabilityFactor(0, 0); return err },
		"PipeContents":          func() error { _, err := statics.PipeContents(0, 0); return err },
	} {
		if err := call(); len(paths(err)) == 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, s := range []interface{ String() string }{
		statics.Shape(0), statics.Side(0), statics.On(0), statics.Verdict(0), statics.ZoneKind(0),
	} {
		if s.String() == "" {
			t.Errorf("%T(0) has no text", s)
		}
	}
}
