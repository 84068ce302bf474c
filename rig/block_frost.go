package rig

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// frostIn is what freezing and antifreeze depend on.
type frostIn struct {
	work
	axes     *axisSet
	site     units.AbsolutePressure
	start    units.Temperature
	coldest  units.Temperature
	road     units.Velocity
	parts    []frozenIn
	kind     string
	strength units.Ratio
	volume   units.Volume
	trapped  []thermal.Trapped
	names    []string // of trapped
}

type frozenIn struct {
	metric, road *Metric
	id           string
	part         thermal.Exposed
}

// brokenShare of ice is taken for too much: parts burst where the first plug
// closes a space, long before they are solid. Our own threshold.
const brokenShare units.Ratio = 0.1

// Surfaces of bare metal parts, and the specific heat of a pump's head of brass or
// stainless steel: handbook values.
const (
	metalEmissivity units.Ratio        = 0.8
	headHeat        units.SpecificHeat = 430
	headDensity                        = 8200.0 // kg/m³
)

func (m *Model) frostInput() frostIn {
	s := m.spec
	in := frostIn{axes: m.axes, site: standardAtmosphere, start: s.Site.Water, coldest: s.Winter.Coldest, road: s.Winter.RoadSpeed, kind: s.Winter.Antifreeze, strength: s.Winter.Strength, volume: s.Winter.Volume}
	if p, ok := sitePressure(s); ok {
		in.site = p
	}
	if hottest := units.Celsius(98); in.start.Kelvin() > hottest.Kelvin() {
		in.start = hottest
	}
	type held struct {
		rank int // coils before hoses
		id   string
		v    units.Volume
	}
	var volumes []held
	for i := range s.Heaters {
		h := &s.Heaters[i]
		if !coilGiven(h) || h.Steel == 0 {
			continue
		}
		t := tubeOf(h)
		v, err := t.Water()
		if err != nil {
			continue
		}
		volumes = append(volumes, held{0, h.ID, v})
		in.parts = append(in.parts, frozenIn{mCoilFreezes, mCoilFreezesRoad, h.ID, thermal.Exposed{Water: v, Metal: h.Steel, MetalHeat: steelHeat,
			Area: units.Area(math.Pi * float64(t.Outside) * float64(t.Length)), Diameter: t.Outside, Bore: t.Bore, Emissivity: metalEmissivity}})
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		t, ok := heatHose(&l.Hose)
		if !ok {
			continue
		}
		if e, err := t.Exposed(); err == nil {
			volumes = append(volumes, held{1, l.ID, e.Water})
			in.parts = append(in.parts, frozenIn{mHoseFreezes, mHoseFreezesRoad, l.ID, e})
		}
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		if p.HeadWater == 0 || p.HeadMetal == 0 {
			continue
		}
		// A block of the same volume: six faces, and the passage a fifth as wide.
		side := math.Cbrt(float64(p.HeadWater) + float64(p.HeadMetal)/headDensity)
		in.parts = append(in.parts, frozenIn{mHeadFreezes, mHeadFreezesRoad, p.ID, thermal.Exposed{Water: p.HeadWater, Metal: p.HeadMetal, MetalHeat: headHeat,
			Area: units.Area(6 * side * side), Diameter: units.Length(side), Bore: units.Length(side / 5), Emissivity: metalEmissivity}})
	}
	sort.SliceStable(in.parts, func(a, b int) bool { return in.parts[a].id < in.parts[b].id })

	left := s.Winter.Left
	if left == 0 {
		left = 1
	}
	for i := range s.Winter.Parts {
		p := &s.Winter.Parts[i]
		t := thermal.Trapped{Volume: p.Volume, Water: p.Left}
		if p.Left == 0 {
			t.Water = p.Volume * units.Volume(left)
		}
		in.trapped, in.names = append(in.trapped, t), append(in.names, p.ID)
	}
	if len(in.trapped) == 0 {
		sort.Slice(volumes, func(a, b int) bool {
			if volumes[a].rank != volumes[b].rank {
				return volumes[a].rank < volumes[b].rank
			}
			return volumes[a].id < volumes[b].id
		})
		for _, x := range volumes {
			in.trapped = append(in.trapped, thermal.Trapped{Volume: x.v, Water: x.v * units.Volume(left)})
			in.names = append(in.names, names([]Path{Path([]string{"heaters", "lines"}[x.rank] + "[" + x.id + "]")}))
		}
	}
	return in
}

// protectMargin is how far below the coldest air antifreeze should protect, common
// practice.
const protectMargin = 10 * units.FahrenheitDelta

// frostWork is what a solution keeps: the parts that were frozen already.
type frostWork struct {
	done       memo[cold, thermal.Freezing]
	displacing thermal.Displacing
}

// cold is what the freezing of a part depends on.
type cold struct {
	part thermal.Exposed
	wind units.Velocity
}

// solveFrost returns the numbers of freezing and antifreeze.
func solveFrost(in *frostIn) ([]*numbers, error) {
	n := in.newNumbers(in.one(in.axes))
	put := func(m *Metric, part string, v float64) { n.row(m, part)[0] = v }
	k := scratch[frostWork](in.w)
	k.done.forget()
	freeze := func(p *frozenIn, m *Metric, wind units.Velocity) error {
		key := cold{p.part, wind}
		f, have := k.done.find(key)
		if !have {
			var err error
			f, err = p.part.FreezeTimes(in.start, thermal.Surroundings{Air: in.coldest, Site: in.site, Wind: wind}, brokenShare)
			if outside(err) {
				return nil
			}
			if err != nil {
				return fmt.Errorf("%s: %w", p.id, err)
			}
			k.done.keep(key, f)
		}
		if !f.Never {
			put(m, p.id, float64(f.ToShare))
		}
		return nil
	}
	if in.coldest.Given() && in.coldest.Kelvin() < 273.15 {
		for i := range in.parts {
			p := &in.parts[i]
			if err := freeze(p, p.metric, 0); err != nil {
				return nil, err
			}
			if in.road == 0 {
				continue
			}
			if err := freeze(p, p.road, in.road); err != nil {
				return nil, err
			}
		}
	}
	if in.volume == 0 {
		return in.out(n), nil
	}
	poison := 0.0
	if in.kind != "propylene-glycol" {
		poison = float64(in.volume)
	}
	put(mPoison, "", poison)
	if len(in.trapped) == 0 || in.kind == "ethylene-glycol" {
		return in.out(n), nil
	}
	d, err := k.displacing.Displace(in.trapped, in.strength, in.volume)
	if outside(err) {
		return in.out(n), nil
	}
	if err != nil {
		return nil, err
	}
	weak := d.Parts[d.Weak]
	put(mProtects, "", weak.Protects.Kelvin())
	put(mGlycol, "", float64(weak.Glycol))
	if in.coldest.Given() && in.coldest.Kelvin() < 273.15 {
		if err := in.needed(put); err != nil {
			return nil, err
		}
	}
	return in.out(n), nil
}

// needed adds the volume of antifreeze that protects to 10 °F below the coldest air.
func (in *frostIn) needed(put func(*Metric, string, float64)) error {
	want, err := thermal.PropyleneGlycolFor(in.coldest.Add(-protectMargin))
	if err == nil {
		var sum units.Volume
		for _, t := range in.trapped {
			sum += t.Water
		}
		var v units.Volume
		if v, err = thermal.AntifreezeNeeded(in.strength, want, sum); err == nil {
			put(mAntifreezeNeeded, "", float64(v))
		}
	}
	if err != nil && !outside(err) && !errors.Is(err, units.ErrMissing) {
		return err
	}
	return nil
}
