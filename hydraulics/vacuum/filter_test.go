package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// Losses rise with flow and with dirt, and stages add in any order.
func TestTrain_properties(t *testing.T) {
	w := coldWater(t)
	property.Check(t, func(g *property.G) error {
		var tr vacuum.Train
		var loaded []units.Ratio
		for range g.Int(1, 4) {
			clean := g.Float(0.05, 3)
			tr = append(tr, vacuum.Filter{Flow: gpm(g.Float(1, 20)), Clean: psi(clean), Dirty: psi(clean + g.Float(0.1, 5)), Linear: units.Ratio(g.Float(0, 1)), Liquid: w})
			loaded = append(loaded, units.Ratio(g.Float(0, 1)))
		}
		q := gpm(g.Float(0, 20))
		base, err := tr.Loss(q, w, loaded)
		if err != nil {
			return err
		}
		more, err := tr.Loss(q*1.01+gpm(0.01), w, loaded)
		if err != nil || !(more > base) {
			return fmt.Errorf("more flow: %v, before %v, %v", more, base, err)
		}
		i := g.Pick(len(tr))
		dirty := append([]units.Ratio(nil), loaded...)
		dirty[i] += 0.1
		if more, err = tr.Loss(q+gpm(0.01), w, dirty); err != nil || !(more > base) {
			return fmt.Errorf("more dirt: %v, before %v, %v", more, base, err)
		}
		var turned vacuum.Train
		var turnedLoad []units.Ratio
		for _, k := range g.Perm(len(tr)) {
			turned, turnedLoad = append(turned, tr[k]), append(turnedLoad, loaded[k])
		}
		if other, err := turned.Loss(q, w, turnedLoad); err != nil || math.Abs(float64(other-base)) > 1e-9*float64(base) {
			return fmt.Errorf("in another order: %v, before %v, %v", other, base, err)
		}
		gauges, err := tr.Gauges(q, w, loaded, psi(1))
		if err != nil {
			return err
		}
		if d := float64(gauges[0] - psi(1) - base); math.Abs(d) > 1e-9*float64(base)+1e-9 {
			return fmt.Errorf("gauges show %v, the loss is %v", gauges[0]-psi(1), base)
		}
		for k := 1; k < len(gauges); k++ {
			if gauges[k] > gauges[k-1] {
				return fmt.Errorf("gauge %d reads more than the one before", k)
			}
		}
		return nil
	})
}

func TestFilter_refuses(t *testing.T) {
	w := coldWater(t)
	for _, c := range []struct {
		path  string
		kind  error
		spoil func(*vacuum.Filter)
	}{
		{"flow", units.ErrMissing, func(f *vacuum.Filter) { f.Flow = 0 }},
		{"clean", units.ErrRange, func(f *vacuum.Filter) { f.Clean = -1 }},
		{"dirty", units.ErrMissing, func(f *vacuum.Filter) { f.Dirty = 0 }},
		{"dirty", units.ErrRange, func(f *vacuum.Filter) { f.Dirty = units.Pressure(math.NaN()) }},
		{"dirty", units.ErrConflict, func(f *vacuum.Filter) { f.Dirty = psi(0.4) }},
		{"linear", units.ErrRange, func(f *vacuum.Filter) { f.Linear = -0.1 }},
		{"liquid.surfaceTension", units.ErrMissing, func(f *vacuum.Filter) { f.Liquid.SurfaceTension = 0 }},
		{"capacity", units.ErrRange, func(f *vacuum.Filter) { f.Capacity = -1 }},
		{"captures", units.ErrRange, func(f *vacuum.Filter) { f.Captures = 1.1 }},
	} {
		f := train(t)[0]
		c.spoil(&f)
		refused(t, f.Validate(), c.path, c.kind)
		_, err := f.Loss(gpm(1), w, 0)
		refused(t, err, c.path, c.kind)
		_, err = vacuum.Train{f}.Loss(gpm(1), w, nil)
		refused(t, err, "filters[#1]."+c.path, c.kind)
	}
	f := train(t)[0]
	_, err := f.Loss(-1, w, 0)
	refused(t, err, "flow", units.ErrRange)
	_, err = f.Loss(gpm(1), vacuum.Liquid{}, 0)
	refused(t, err, "liquid.density", units.ErrMissing)
	_, err = f.Loss(gpm(1), w, 11)
	refused(t, err, "loaded", units.ErrRange)
	_, err = vacuum.Train{f}.Gauges(gpm(1), w, nil, units.Pressure(math.Inf(1)))
	refused(t, err, "behind", units.ErrRange)
	_, err = vacuum.Train{f}.Intervals(0)
	refused(t, err, "dirt", units.ErrMissing)
	f.Capacity = 0
	_, err = vacuum.Train{f}.Intervals(1)
	refused(t, err, "filters[#1].capacity", units.ErrMissing)
	f.Captures = 0
	if iv := must(vacuum.Train{f}.Intervals(1))(t); !iv[0].Never || iv[0].Lasts != 0 || iv[0].Keeps != 0 {
		t.Errorf("a filter that keeps nothing: %+v", iv[0])
	}
}
