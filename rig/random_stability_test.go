package rig_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// stableSpec draws a whole rig with places in three axes, forms of tanks,
// boxes, zones, tie-downs, plates of the chain and listed fills.
func stableSpec(g *property.G) *rig.Spec { return stable(g, randomSpec(g)) }

// stable gives a rig places in three axes, forms of tanks, zones and tie-downs.
func stable(g *property.G, s *rig.Spec) *rig.Spec {
	at := func(lo, hi float64) units.Position { return feet(g.Float(lo, hi)) }
	place := func(st *rig.Stock) {
		st.Y, st.Z = at(-2, 2), at(2, 4)
		if g.Bool() {
			st.Box = rig.Box{Length: units.Length(g.Float(0.5, 4)) * units.Foot, Width: units.Length(g.Float(0.5, 4)) * units.Foot}
			if g.Bool() {
				st.Box.Height = units.Length(g.Float(0.5, 4)) * units.Foot
			}
		}
	}
	for i := range s.Sources {
		if s.Sources[i].X.Given() {
			place(&s.Sources[i].Stock)
		}
	}
	for i := range s.Items {
		place(&s.Items[i].Stock)
	}
	for i := range s.Tanks {
		k := &s.Tanks[i]
		place(&k.Stock)
		k.Floor = at(1.5, 3)
		k.Baffles = units.Ratio(g.Float(0, 1))
		v := float64(k.Nominal)
		switch g.Int(1, 3) {
		case 1:
			k.Shape, k.InsideLength, k.InsideWidth = "box", 1.1, units.Length(g.Float(0.6, 2))
			k.Height = units.Length(v / float64(k.InsideLength*k.InsideWidth))
		case 2:
			k.Shape, k.Diameter = "upright-cylinder", units.Length(g.Float(0.8, 1.4))
			k.Height = units.Length(v / (math.Pi / 4 * float64(k.Diameter*k.Diameter)))
		case 3:
			k.Shape, k.Diameter = "lengthwise-cylinder", units.Length(g.Float(0.6, 1.2))
			k.InsideLength = units.Length(v / (math.Pi / 4 * float64(k.Diameter*k.Diameter)))
		}
	}
	for i := range s.FuelTanks {
		k := &s.FuelTanks[i]
		k.Y, k.Z = at(-2, 2), at(2, 4)
		k.Box = rig.Box{Length: 1 * units.Foot, Width: 1 * units.Foot}
		k.Home = k.Volume * units.Volume(g.Float(0.1, 0.9))
	}
	t := s.Trailer
	t.Y, t.Z = at(-0.1, 0.1), at(1, 2)
	t.Track, t.AxleSpacing, t.TyresPerEnd, t.TyreRating = units.Length(g.Float(5, 8))*units.Foot, 3*units.Foot, g.Int(1, 2), units.Mass(g.Float(800, 4000))*units.Pound
	t.CouplerHeight, t.Jack, t.JackRating, t.Tail = units.Length(g.Float(1, 2))*units.Foot, at(0, 3), units.Mass(g.Float(500, 4000))*units.Pound, at(18, 22)
	s.TowVehicle.ReceiverRating = units.Mass(g.Float(500, 3000)) * units.Pound
	s.Zones = []rig.Zone{
		{ID: "stack", Kind: "heat", Clearance: units.Length(g.Float(0.1, 2)) * units.Foot, X: at(4, 16), Y: at(-3, 3), Length: 1 * units.Foot, Width: 1 * units.Foot},
		{ID: "gate", Kind: "gate-swing", Clearance: 1 * units.Inch, X: at(16, 20), Y: at(-3, 3), Radius: 3 * units.Foot, To: 1},
		{ID: "pull", Kind: "hose-path", X: at(4, 18), Y: at(-3, 3), ToX: at(18, 24), ToY: at(-3, 3), Width: 1 * units.Foot}}
	s.TieDowns = []rig.TieDown{{ID: "bands", Holds: []string{"tanks[fresh]", "tanks[recovered]"}, Type: "strap", Anchors: g.Int(1, 8), Angle: units.Angle(g.Float(0.3, 1.3)), WorkingLoad: units.Force(g.Float(500, 20000))}}
	for i := range g.Int(1, 3) {
		s.Fills = append(s.Fills, rig.Fill{ID: fmt.Sprintf("day-%d", i+1), Levels: []rig.Level{
			{ID: "fresh", Volume: s.Tanks[0].Nominal * units.Volume(g.Float(0, 1))}, {ID: "recovered", Volume: s.Tanks[1].Nominal * units.Volume(g.Float(0, 1))},
			{ID: "diesel", Volume: s.FuelTanks[0].Home + (s.FuelTanks[0].Volume-s.FuelTanks[0].Home)*units.Volume(g.Float(0, 1))}}})
	}
	return s
}

// deckSpec is stableSpec without what makes water flow: only what weighs.
func deckSpec(g *property.G) *rig.Spec {
	s := stableSpec(g)
	s.Engines, s.Pumps, s.Heaters, s.Lines, s.Trunks, s.Loads, s.Chemicals = nil, nil, nil, nil, nil, nil, nil
	s.Sources = s.Sources[len(s.Sources)-1:] // the portable one
	s.Site.Conditions = nil
	return s
}

// Listing components, zones, tie-downs and fills in another order changes no
// bit.
func TestRandomStability_order(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := stableSpec(g)
		_, a, err := mustModel(s)
		if err != nil {
			return err
		}
		c := s.Clone()
		shuffle(g, c.Tanks)
		shuffle(g, c.Sources)
		shuffle(g, c.Lines)
		shuffle(g, c.Heaters)
		shuffle(g, c.Zones)
		shuffle(g, c.TieDowns[0].Holds)
		shuffle(g, c.Fills)
		for i := range c.Fills {
			shuffle(g, c.Fills[i].Levels)
		}
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		x, y := numbersOf(a), numbersOf(b)
		n := 0
		for k, v := range x {
			if w, ok := y[k]; ok { // corners are named in list order
				n++
				if v != w {
					return fmt.Errorf("%s is %v and %v", k, v, w)
				}
			}
		}
		if n < len(x)*9/10 {
			return fmt.Errorf("only %d of %d readings have the same name", n, len(x))
		}
		return nil
	})
}

// Loads sum to the weight, the sides to the axles, and no tyre carries less
// than the mean.
func TestRandomStability_sums(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		if g.Bool() && s.Trailer.Axles > 0 {
			s.Trailer.Suspension, s.Trailer.SpringLoad, s.Trailer.SpringTravel = "independent", 3000*units.Pound, 3*units.Inch
			s.Trailer.Axles = 2
		}
		_, r, err := mustModel(s)
		var fe *units.FieldError
		if errors.As(err, &fe) && s.Trailer.Suspension == "independent" {
			return nil // a frame that far from level, or nothing on the axles
		}
		if err != nil {
			return err
		}
		for x := range r.All("trailer.total") {
			at := func(p rig.Path) float64 {
				v, _ := r.At(p, x.State)
				return v.Value.SI()
			}
			total := x.Value.SI()
			group := total - at("trailer.tongue")
			if d := at("trailer.left") + at("trailer.right") - group; math.Abs(d) > 1e-9*total {
				return fmt.Errorf("%v: sides sum to %g more than the axles", x.State, d)
			}
			tyres := float64(2 * s.Trailer.Axles * s.Trailer.TyresPerEnd)
			if at("trailer.tyre") < group/tyres-1e-9*total {
				return fmt.Errorf("%v: the heaviest tyre carries %g, the mean is %g", x.State, at("trailer.tyre"), group/tyres)
			}
			if s.Trailer.Suspension == "independent" {
				sum, most := 0.0, 0.0
				for a := range r.All("axles[].load") {
					if a.State == x.State {
						sum, most = sum+a.Value.SI(), math.Max(most, a.Value.SI())
					}
				}
				ends := 0.0
				for _, p := range []rig.Path{"axles[].left", "axles[].right"} {
					for a := range r.All(p) {
						if a.State == x.State {
							ends += a.Value.SI()
						}
					}
				}
				if math.Abs(ends-group) > 1e-9*total {
					return fmt.Errorf("%v: the ends of the axles sum to %g of %g", x.State, ends, group)
				}
				if math.Abs(sum-group) > 1e-9*total || math.Abs(most-at("trailer.axle")) > 1e-9*total {
					return fmt.Errorf("%v: axles sum to %g of %g, heaviest %g of %g", x.State, sum, group, most, at("trailer.axle"))
				}
			} else if j, ok := r.At("trailer.jack_load", x.State); ok {
				want := at("trailer.tongue") * float64(s.Trailer.AxleGroup.Sub(s.Trailer.Coupler)) / float64(s.Trailer.AxleGroup.Sub(s.Trailer.Jack))
				if math.Abs(j.Value.SI()-want) > 1e-9*total {
					return fmt.Errorf("%v: jack %g, moments give %g", x.State, j.Value.SI(), want)
				}
			}
		}
		return nil
	})
}

// Scaling every length leaves shares as they are.
func TestRandomStability_scale(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		_, a, err := mustModel(s)
		if err != nil {
			return err
		}
		k := units.Length(g.Float(0.8, 1.2))
		c := s.Clone()
		scale := func(list ...*units.Position) {
			for _, p := range list {
				if p.Given() {
					*p = units.PositionAt(p.Length() * k)
				}
			}
		}
		for i := range c.Tanks {
			scale(&c.Tanks[i].X, &c.Tanks[i].Y)
		}
		for i := range c.FuelTanks {
			scale(&c.FuelTanks[i].X, &c.FuelTanks[i].Y)
		}
		for i := range c.Items {
			scale(&c.Items[i].X, &c.Items[i].Y)
		}
		for i := range c.Sources {
			scale(&c.Sources[i].X, &c.Sources[i].Y)
		}
		scale(&c.Trailer.X, &c.Trailer.Y, &c.Trailer.AxleGroup, &c.Trailer.Coupler, &c.Trailer.Jack, &c.Trailer.Tail)
		c.Trailer.Track *= k
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"trailer.tongue_share", "trailer.imbalance", "trailer.tyre", "trailer.axle"} {
			for x := range a.All(p) {
				y, ok := b.At(p, x.State)
				if !ok || math.Abs(y.Value.SI()-x.Value.SI()) > 1e-9*(1+math.Abs(x.Value.SI())) {
					return fmt.Errorf("%s is %v, and %v with lengths times %g", p, x.Value, y.Value, float64(k))
				}
			}
		}
		return nil
	})
}

// The searched fill tips no later than any fill of the day, a corner or a fill
// drawn by chance, and it tips where it says it does.
func TestRandomStability_worstFill(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		worst, ok := r.Worst("trailer.tip_over_any_fill")
		if !ok {
			return errors.New("no threshold")
		}
		c := s.Clone()
		c.Fills = nil
		for i := range 6 {
			c.Fills = append(c.Fills, rig.Fill{ID: fmt.Sprintf("drawn-%d", i), Levels: []rig.Level{
				{ID: "fresh", Volume: s.Tanks[0].Nominal * units.Volume(g.Float(0, 1))}, {ID: "recovered", Volume: s.Tanks[1].Nominal * units.Volume(g.Float(0, 1))},
				{ID: "diesel", Volume: s.FuelTanks[0].Home + (s.FuelTanks[0].Volume-s.FuelTanks[0].Home)*units.Volume(g.Float(0, 1))}}})
		}
		level := func(p rig.Path) units.Volume {
			v, _ := r.Worst(p)
			return units.Volume(v.Value.SI())
		}
		c.Fills = append(c.Fills, rig.Fill{ID: "found", Levels: []rig.Level{
			{ID: "fresh", Volume: min(s.Tanks[0].Nominal*level("tanks[fresh].tip_over_level"), s.Tanks[0].Nominal)},
			{ID: "recovered", Volume: min(s.Tanks[1].Nominal*level("tanks[recovered].tip_over_level"), s.Tanks[1].Nominal)},
			{ID: "diesel", Volume: min(s.FuelTanks[0].Volume*level("fuel_tanks[diesel].tip_over_level"), s.FuelTanks[0].Volume)}}})
		_, inner, err := mustModel(c)
		if err != nil {
			return err
		}
		w := worst.Value.SI()
		for _, rep := range []*rig.Report{r, inner} {
			for x := range rep.All("trailer.tip_over") {
				if x.Value.SI() < w*(1-1e-9) {
					return fmt.Errorf("tips at %g m/s² in %v, the search found %g", x.Value.SI(), x.State, w)
				}
				if x.State.On(rig.AxisFill) == "found" && math.Abs(x.Value.SI()-w) > 1e-6*w {
					return fmt.Errorf("in the fill that was found it tips at %g, not at %g", x.Value.SI(), w)
				}
			}
		}
		return nil
	})
}

// A placement keeps what it says it keeps, costs no more than any of many
// random ones that do, and where there is none no random one passes.
func TestRandomStability_placement(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		s.Trailer.TyreRating = 0 // one limit less to check by hand here
		m, _, err := mustModel(s)
		if err != nil {
			return err
		}
		const reach = 3 * units.Foot
		q := rig.PlacementQuery{Movers: []rig.Mover{{Moves: []rig.Path{"tanks[fresh]"}, Forward: reach, Back: reach}, {Moves: []rig.Path{"items[skid]"}, Forward: reach, Back: reach, Cost: 2}}}
		p, err := m.Placement(q)
		if err != nil {
			return err
		}
		passes := func(c ...rig.Change) (float64, error) {
			n, err := m.With(c...)
			if err != nil {
				return 0, err
			}
			return worstOfDay(n)
		}
		if p.Possible {
			w, err := passes(p.Changes...)
			if err != nil {
				return err
			}
			if w < -1e-7 {
				return fmt.Errorf("the placement misses a limit by %g", w)
			}
		} else if len(p.Proof) == 0 || p.Short <= 0 {
			return fmt.Errorf("no placement, and no proof of it: %+v", p)
		}
		for range 5 {
			a, b := units.Length(g.Float(-1, 1))*reach, units.Length(g.Float(-1, 1))*reach
			w, err := passes(rig.Assign("tanks[fresh].x", s.Tanks[0].X.Add(a).Quantity()), rig.Assign("items[skid].x", s.Items[0].X.Add(b).Quantity()))
			if err != nil {
				return err
			}
			if cost := math.Abs(float64(a)) + 2*math.Abs(float64(b)); w > 0 && (!p.Possible || cost < p.Cost-1e-7) {
				return fmt.Errorf("moving by %v and %v passes at cost %g; the answer was possible %v at cost %g", a, b, cost, p.Possible, p.Cost)
			}
		}
		return nil
	})
}

// worstOfDay returns the narrowest margin over every plate and the tongue
// share in the fill states of the day, straight from the readings.
func worstOfDay(m *rig.Model) (float64, error) {
	r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		return 0, err
	}
	s := m.Spec()
	worst := math.Inf(1)
	for x := range r.All("trailer.total") {
		if x.State.Reach() != rig.Reachable {
			continue
		}
		at := func(p rig.Path) float64 {
			v, _ := r.At(p, x.State)
			return v.Value.SI()
		}
		share := at("trailer.tongue_share")
		worst = min(worst, share/0.10-1, 1-share/0.15,
			1-x.Value.SI()/float64(min(s.Trailer.GrossRating, s.TowVehicle.TrailerRating)),
			1-at("trailer.tongue")/float64(min(s.Trailer.CouplerRating, s.TowVehicle.HitchRating, s.TowVehicle.ReceiverRating)),
			1-at("trailer.axle")/float64(s.Trailer.AxleRating),
			1-at("tow_vehicle.combination")/float64(s.TowVehicle.CombinationRating))
	}
	return worst, nil
}

// Inside the passing range of a tank every limit is kept, just outside it one
// is missed; where there is no range, no place on the deck passes.
func TestRandomStability_passingRange(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		s.Trailer.TyreRating = 0
		m, rep, err := mustModel(s)
		if err != nil {
			return err
		}
		r, err := m.PassingRange("tanks[fresh]", rig.PlacementQuery{})
		if err != nil {
			return err
		}
		at := func(x units.Length) (float64, error) {
			n, err := m.With(rig.Assign("tanks[fresh].x", units.PositionAt(x).Quantity()))
			if err != nil {
				return 0, err
			}
			return worstOfDay(n)
		}
		if !r.Possible {
			for range 5 {
				if w, err := at(units.Length(g.Float(-3, 10))); err != nil || w > 1e-9 {
					return fmt.Errorf("a place passes by %g, %v, although there is none", w, err)
				}
			}
			return nil
		}
		fore, aft := r.Fore.Length(), r.Aft.Length()
		const step = 1e-4 // m
		for _, c := range []struct {
			x    units.Length
			pass bool
			skip bool
		}{{fore + (aft-fore)*units.Length(g.Float(0, 1)), true, false}, {fore - step, false, r.AtFore.Limit == ""}, {aft + step, false, r.AtAft.Limit == ""}} {
			if c.skip || c.x < -6 { // beyond what a specification takes
				continue
			}
			w, err := at(c.x)
			if err != nil {
				return err
			}
			if c.pass != (w >= -1e-7) {
				return fmt.Errorf("at %v of %v to %v the narrowest margin is %g", c.x, fore, aft, w)
			}
		}
		if x, ok := rep.Worst("tanks[fresh].aftmost"); ok && math.Abs(x.Value.SI()-float64(aft)) > 1e-9 {
			return fmt.Errorf("the report says %v, the model %v", x.Value, aft)
		}
		return nil
	})
}

// Tanks scaled to just under the most water pass, to just over it they do not.
func TestRandomStability_mostWater(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		s.Trailer.TyreRating = 0
		s.Crossovers = nil
		for i := range s.Tanks { // forms would have to grow along
			k := &s.Tanks[i]
			k.Shape, k.Diameter, k.InsideLength, k.InsideWidth, k.Height = "", 0, 0, 0, 0
		}
		m, _, err := mustModel(s)
		if err != nil {
			return err
		}
		w, err := m.MostWater(rig.PlacementQuery{})
		if err != nil || !w.Possible || w.AtMost.Limit == "" {
			return err
		}
		sum := s.Tanks[0].Nominal + s.Tanks[1].Nominal
		for _, factor := range []float64{0.9999, 1.0001} {
			c := s.Clone()
			k := float64(w.Most/sum) * factor
			for i := range c.Tanks {
				t := &c.Tanks[i]
				t.Nominal, t.Usable, t.Mass = t.Nominal*units.Volume(k), 0, t.Mass*units.Mass(k)
			}
			for i := range c.Fills {
				for j := range c.Fills[i].Levels {
					if l := &c.Fills[i].Levels[j]; l.ID != "diesel" {
						l.Volume *= units.Volume(k)
					}
				}
			}
			n, err := rig.New(c, nil)
			if err != nil {
				return nil // smaller or larger than a tank of a specification may be
			}
			narrow, err := worstOfDay(n)
			if err != nil {
				return err
			}
			if w.Least > w.Most*99/100 {
				return nil // two limits meet: both sides fail within the step
			}
			if (factor < 1) != (narrow >= 0) {
				return fmt.Errorf("%g × the most water, %v: narrowest margin %g (binds: %s)", factor, w.Most, narrow, w.AtMost.Limit)
			}
		}
		return nil
	})
}

// A clash that is reported can be seen in the boxes, and one that is not is
// not there: boxes that overlap on every axis are listed, all of them.
func TestRandomStability_clashes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		s.Items = append(s.Items, rig.Item{Stock: rig.Stock{ID: "locker", Mass: 100 * units.Pound, X: feet(g.Float(4, 16)), Y: feet(g.Float(-2, 2)), Z: feet(3)}})
		s.Items[1].Box = rig.Box{Length: 2 * units.Foot, Width: 2 * units.Foot}
		m, _, err := mustModel(s)
		if err != nil {
			return err
		}
		d, ok := m.Deck()
		if !ok {
			return errors.New("no deck")
		}
		list, err := m.Clashes()
		if err != nil {
			return err
		}
		found := map[[2]string]bool{}
		for _, c := range list {
			found[[2]string{c.A, c.B}], found[[2]string{c.B, c.A}] = true, true
			if c.Distance >= c.Need {
				return fmt.Errorf("%s and %s clash at %v of %v", c.A, c.B, c.Distance, c.Need)
			}
		}
		for i := range d.Boxes {
			for j := range i {
				a, b := &d.Boxes[i].Block, &d.Boxes[j].Block
				over := a.Fore.Length() < b.Aft.Length() && b.Fore.Length() < a.Aft.Length() && a.Right.Length() < b.Left.Length() && b.Right.Length() < a.Left.Length()
				if a.Bottom.Given() && b.Bottom.Given() {
					over = over && a.Bottom.Length() < b.Top.Length() && b.Bottom.Length() < a.Top.Length()
				}
				within := (d.Boxes[i].Path == "items[skid]" && d.Boxes[j].Inside) || (d.Boxes[j].Path == "items[skid]" && d.Boxes[i].Inside)
				if over != found[[2]string{d.Boxes[i].Name, d.Boxes[j].Name}] && !within {
					return fmt.Errorf("%s and %s overlap: %v, listed: %v", d.Boxes[i].Name, d.Boxes[j].Name, over, !over)
				}
			}
		}
		return nil
	})
}

// A lever gives the bits of a new model where only places change.
func TestRandomStability_lever(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := deckSpec(g)
		m, _, err := mustModel(s)
		if err != nil {
			return err
		}
		paths := []rig.Path{"tanks[fresh].y", "items[skid].z", "trailer.track", "zones[stack].clearance", "tie_downs[bands].working_load", "trailer.jack", "tow_vehicle.receiver_rating"}
		p := paths[g.Pick(len(paths))]
		q, ok := m.Quantity(p)
		if !ok {
			return fmt.Errorf("%s holds nothing", p)
		}
		q, err = units.NewQuantity(q.Kind(), q.SI()*g.Float(0.95, 1.05))
		if err != nil {
			return err
		}
		l, err := m.Lever(p)
		if err != nil {
			return err
		}
		a, err := l.To(q)
		if err != nil {
			return err
		}
		c := s.Clone()
		if err := c.Apply(rig.Assign(p, q)); err != nil {
			return err
		}
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		ra, err := a.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
		if err != nil {
			return err
		}
		x, y := numbersOf(ra), numbersOf(b)
		for k, v := range y {
			if x[k] != v {
				return fmt.Errorf("%s is %v by the lever, %v made anew", k, x[k], v)
			}
		}
		if len(x) != len(y) {
			return fmt.Errorf("%d readings by the lever, %d made anew", len(x), len(y))
		}
		return nil
	})
}
