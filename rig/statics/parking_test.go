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

// A mass of Spare at the tail leaves nothing on the jack.
func TestPark_spare(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		tr, fixed, _ := randomTrailer(g, 0)
		jack := tr.Coupler.Add(units.Length(g.Float(-0.5, 1)))
		tail := tr.AxleGroup.Add(units.Length(g.Float(0.5, 3)))
		p, err := statics.Park(tr, fixed, nil, jack, tail)
		if err != nil {
			return err
		}
		if p.Drops != (p.Jack.Least.Value < 0) || p.Drops != (p.Stand.Value > 0) {
			return fmt.Errorf("drops %v, jack %v, stand %v", p.Drops, p.Jack.Least.Value, p.Stand.Value)
		}
		if p.Drops {
			return nil
		}
		q, err := statics.Park(tr, append(fixed, statics.Mass{Name: "person", Mass: p.Spare.Value, X: tail}), nil, jack, tail)
		if err != nil {
			return err
		}
		if d := float64(q.Jack.Least.Value); math.Abs(d) > 1e-9*float64(q.Group.Most.Value) {
			return fmt.Errorf("%g kg left on the jack", d)
		}
		return nil
	})
}

func TestPark_errors(t *testing.T) {
	tr := statics.Trailer{AxleGroup: feet(10), Axles: 1}
	frame := []statics.Mass{lb("frame", 100, 9)}
	_, err := statics.Park(tr, frame, nil, units.Position{}, feet(9))
	if err == nil {
		t.Fatal("no jack, tail ahead of the axles: no error")
	}
	if d := cmp.Diff([]string{"jack"}, fields(t, func() error { _, err := statics.Park(tr, frame, nil, units.Position{}, units.Position{}); return err }(), units.ErrMissing)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	_, err = statics.Park(tr, frame, nil, feet(10), feet(10))
	if d := cmp.Diff([]string{"jack", "tail"}, fields(t, err, units.ErrRange)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
	_, err = statics.Park(statics.Trailer{}, frame, nil, feet(1), units.Position{})
	if d := cmp.Diff([]string{"trailer.axle_group", "trailer.axles"}, fields(t, err, units.ErrMissing)); d != "" {
		t.Errorf("fields (-want +got):\n%s", d)
	}
}
