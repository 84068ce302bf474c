package statics_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/statics"
	"example.com/washrig/units"
)

func TestTieDown_friction(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m := units.Mass(g.LogFloat(1, 5000))
		tie := statics.Tie{Anchors: g.Int(0, 8), Angle: units.Angle(g.Float(0, 1.3)), Friction: units.Ratio(g.Float(0, 1))}
		h, err := statics.TieDown(m, statics.FederalBreaking(), tie)
		if err != nil {
			return err
		}
		want := math.Max(0, 0.8-float64(tie.Friction)) * float64(m) * 9.80665
		if math.Abs(float64(h.Forward.Net)-want) > 1e-9*want+1e-9 {
			return fmt.Errorf("net %v, want %g N", h.Forward.Net, want)
		}
		n := math.Max(1, float64(tie.Anchors))
		if d := float64(h.Forward.Anchor)*n*math.Cos(float64(tie.Angle)) - float64(h.Forward.Net); math.Abs(d) > 1e-9*float64(h.Forward.Force) {
			return fmt.Errorf("anchors miss the net force by %g N", d)
		}
		return nil
	})
}

func TestTieDown_errors(t *testing.T) {
	nan := math.NaN()
	_, err := statics.TieDown(0, statics.Criteria{Forward: -1, Upward: units.Acceleration(nan)}, statics.Tie{Anchors: -1, Angle: 2, Friction: 2, Height: -1, Length: units.Length(nan), Width: 100})
	want := []string{"mass", "criteria.forward", "criteria.upward", "tie.anchors", "tie.angle", "tie.friction", "tie.height", "tie.length", "tie.width"}
	if d := cmp.Diff(want, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
}
