package rig_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// Any rig written in SI text and read again has the same states and findings, and
// numbers within 1e-12 of what they are made of.
func TestWholeRigs_unitsOfTheText(t *testing.T) {
	t.Parallel()
	table := specFields(t)
	rewritten := 0
	property.Check(t, func(g *property.G) error {
		s, _, a, err := wholeRig(g)
		if err != nil {
			return err
		}
		c := s.Clone()
		var changes []rig.Change
		table.Walk(s, func(v *fields.Visit) bool {
			q, ok := table.Quantity(s, v.Path())
			if v.Field.Kind == 0 || v.Value.IsZero() || !ok {
				return true
			}
			u := q.Kind().Unit(units.SI)
			x, e := q.In(u)
			if e != nil {
				err = e
				return false
			}
			text := strconv.FormatFloat(x, 'f', -1, 64)
			if v.Field.Accepts(text+" "+u.Symbol()) != nil {
				return true // a range that ends at the value, and rounds
			}
			changes = append(changes, rig.Set(rig.Path(v.Path()), text+" "+u.Symbol()))
			return true
		})
		if err != nil {
			return err
		}
		if err := c.Apply(changes...); err != nil {
			return err
		}
		var file bytes.Buffer
		if err := c.Write(&file); err != nil {
			return err
		}
		if c, err = rig.ReadSpec(&file, rig.ReadLimits{}); err != nil {
			return err
		}
		rewritten += len(changes)
		_, b, err := mustModel(c)
		if err != nil && typed(err) {
			return property.ErrDiscard // a value on the edge of what another allows, and rounded
		}
		if err != nil {
			return err
		}
		return sameWithin(a, b, 1e-12)
	})
	if rewritten < 1000 {
		t.Errorf("only %d quantities were rewritten", rewritten)
	}
}

// sameWithin is sameReport for rigs whose margins may stand on a limit: a finding that
// is only in one of them has to lie within 1e-9 of its limit.
func sameWithin(a, b *rig.Report, within float64) error {
	x, y := numbersOf(a), numbersOf(b)
	if len(x) != len(y) {
		return fmt.Errorf("%d and %d readings", len(x), len(y))
	}
	for r := range a.Every() {
		k := string(r.Path()) + " @ " + r.State.String()
		v := x[k]
		w, ok := y[k]
		if !ok {
			return fmt.Errorf("%s is missing", k)
		}
		tol := within
		if strings.HasSuffix(k[:strings.Index(k, " @ ")], ".tip_over_level") {
			tol = 1e-6 // where a smooth quantity has its least: known to the root of what the quantity is known to
		}
		scale := math.Max(math.Abs(v), math.Abs(w))
		switch r.Value.Kind() { // differences, and what solvers look for among large numbers
		case units.KindRatio, units.KindAngle:
			scale = math.Max(scale, 1)
		case units.KindVolumeFlow:
			scale = math.Max(scale, 1e-4) // m³/s, a small gun
		case units.KindPressure:
			scale = math.Max(scale, 1e6) // Pa, low for a line
		case units.KindVolume:
			scale = math.Max(scale, 1e-2) // m³, a small tank
		case units.KindDuration:
			tol = 1e-8 // integrated in time
		case units.KindMass: // differences of weights
			if total, ok := a.At("trailer.total", r.State); ok {
				scale = math.Max(scale, total.Value.SI())
			}
		}
		if math.Abs(v-w) > tol*scale {
			return fmt.Errorf("%s is %.17g and %.17g", k, v, w)
		}
	}
	return sameFindings(a, b)
}

// sameFindings compares findings by weight, code and path; where two states of one
// finding tie to the last digits, either may be named.
func sameFindings(a, b *rig.Report) error {
	key := func(f rig.Finding) string { return fmt.Sprint(f.Severity, " ", f.Code, " ", f.Reading.Path()) }
	near := func(f rig.Finding) bool { return math.Abs(f.Margin) < 1e-9 }
	count := map[string]int{}
	other := map[string]rig.Finding{}
	for _, f := range b.Findings() {
		count[key(f)]++
		other[key(f)] = f
	}
	for _, f := range a.Findings() {
		count[key(f)]--
		g, ok := other[key(f)]
		if !ok || g.Reading.State.String() == f.Reading.State.String() {
			continue
		}
		if v, w := f.Margin, g.Margin; math.Abs(v-w) > 1e-9*math.Max(math.Abs(v), 1) {
			return fmt.Errorf("%s is found in %v (margin %.17g) and in %v (margin %.17g)", key(f), f.Reading.State, v, g.Reading.State, w)
		}
	}
	for _, f := range append(a.Findings(), b.Findings()...) {
		if n := count[key(f)]; n != 0 && !near(f) {
			return fmt.Errorf("%s (margin %g): one has %d more than the other", key(f), f.Margin, n)
		}
	}
	return nil
}

// relist puts every list of a specification into another order, those in the elements
// too, save where the order says something.
func relist(g *property.G, v reflect.Value, name string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			relist(g, v.Elem(), name)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				relist(g, v.Field(i), v.Type().Field(i).Name)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			relist(g, v.Index(i), name)
		}
		switch name {
		case "Elements", "Filters", "Points", "Curve", "Parts": // in the order of flow, or of a curve
			return
		case "Modes": // in the order of the day
			return
		case "Fills": // the ball of independent axles is set for the first
			return
		}
		old := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(old, v)
		for i, j := range g.Perm(v.Len()) {
			v.Index(i).Set(old.Index(j))
		}
	}
}

// Listing everything in another order changes no bit of any number and no finding.
func TestWholeRigs_order(t *testing.T) {
	t.Parallel()
	kept, all := 0, 0
	property.Check(t, func(g *property.G) error {
		s, _, a, err := wholeRig(g)
		if err != nil {
			return err
		}
		c := s.Clone()
		relist(g, reflect.ValueOf(c), "")
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		x, y := numbersOf(a), numbersOf(b)
		if len(x) != len(y) {
			return fmt.Errorf("%d and %d readings", len(x), len(y))
		}
		for k, v := range x {
			all++
			if w, ok := y[k]; ok { // corners and moved plugs are named in the order of the lists
				kept++
				if v != w {
					return fmt.Errorf("%s is %.17g and %.17g", k, v, w)
				}
			}
		}
		if a.Verdict() != b.Verdict() {
			return fmt.Errorf("%v and %v", a.Verdict(), b.Verdict())
		}
		p, q := weights(a), weights(b)
		if !reflect.DeepEqual(p, q) {
			return fmt.Errorf("findings %v and %v", p, q)
		}
		return nil
	})
	if kept < all*8/10 {
		t.Errorf("only %d of %d readings have the same name", kept, all)
	}
}

// weights lists severities by code and component.
func weights(r *rig.Report) map[string]rig.Severity {
	out := map[string]rig.Severity{}
	for _, f := range r.Findings() {
		out[string(f.Code)+" "+f.Reading.Part] = f.Severity
	}
	return out
}

// alongTheTrailer are the fields that hold places fore and aft.
var alongTheTrailer = map[string]bool{"x": true, "to_x": true, "axle_group": true, "coupler": true, "deck_front": true, "jack": true, "tail": true}

// fromElsewhere are the changes that count every place of a rig from an origin that lies
// ahead by a length: the coupler is moved with the rest.
func fromElsewhere(table *fields.Table, s *rig.Spec, by units.Length) (changes []rig.Change) {
	table.Walk(s, func(v *fields.Visit) bool {
		q, ok := table.Quantity(s, v.Path())
		if !ok || v.Field.Kind != units.KindPosition || v.Value.IsZero() || !alongTheTrailer[v.Field.Name] {
			return true
		}
		changes = append(changes, rig.Assign(rig.Path(v.Path()), units.PositionAt(units.Length(q.SI())+by).Quantity()))
		return true
	})
	if s.Trailer != nil && !s.Trailer.Coupler.Given() {
		changes = append(changes, rig.Assign("trailer.coupler", units.PositionAt(by).Quantity()))
	}
	return changes
}

// The origin moves, and the coupler with everything: states, findings and numbers stay.
// Moments are sums of terms that grow with the distance from the origin, so numbers stay
// within what rounding leaves of them.
func TestWholeRigs_originElsewhere(t *testing.T) {
	t.Parallel()
	table := specFields(t)
	placed := 0
	property.Check(t, func(g *property.G) error {
		s, _, a, err := wholeRig(g)
		if err != nil {
			return err
		}
		by := length(g.Float(-60, 60))
		c := s.Clone()
		if err := c.Apply(fromElsewhere(table, s, by)...); errors.Is(err, units.ErrRange) {
			return nil // a place at the end of its range
		} else if err != nil {
			return err
		}
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		if x, y := weights(a), weights(b); !reflect.DeepEqual(x, y) {
			return fmt.Errorf("findings %v became %v", x, y)
		}
		n := 0
		for x := range a.Every() {
			n++
			st, err := b.Model().ParseState(x.State.String())
			if err != nil {
				return err
			}
			y, ok := b.At(x.Path(), st)
			if !ok {
				return fmt.Errorf("%s is missing in %v", x.Path(), x.State)
			}
			want := x.Value.SI()
			if x.Metric.Path == "tanks[].foremost" || x.Metric.Path == "tanks[].aftmost" {
				want += float64(by) // places on the scale of the specification
				placed++
			}
			scale := math.Max(math.Abs(want), 1)
			if total, ok := a.At("trailer.total", x.State); ok && x.Value.Kind() == units.KindMass {
				scale = total.Value.SI()
			}
			within := 1e-9
			if x.Metric.Path == "tanks[].tip_over_level" || x.Metric.Path == "fuel_tanks[].tip_over_level" {
				within = 1e-6 // where a minimum lies is known to the root of how deep it is
			}
			if math.Abs(y.Value.SI()-want) > within*scale {
				return fmt.Errorf("%s is %.12g and %.12g from an origin %v ahead, in %v", x.Path(), want, y.Value.SI(), by, x.State)
			}
		}
		for range b.Every() {
			n--
		}
		if n != 0 {
			return fmt.Errorf("%d numbers fewer from another origin", n)
		}
		return nil
	})
	if placed == 0 {
		t.Error("no tank had room to move")
	}
}

// Left and right change places: every weight stays, what is left is right.
func TestWholeRigs_mirrored(t *testing.T) {
	t.Parallel()
	table := specFields(t)
	sided := 0
	property.Check(t, func(g *property.G) error {
		s, _, a, err := wholeRig(g)
		if err != nil {
			return err
		}
		c := s.Clone()
		for i := range c.Zones {
			if c.Zones[i].Radius != 0 { // a swing turns the other way
				z := &c.Zones[i]
				z.From, z.To = -z.To, -z.From
			}
		}
		var changes []rig.Change
		table.Walk(c, func(v *fields.Visit) bool {
			if q, ok := table.Quantity(c, v.Path()); ok && v.Field.Kind == units.KindPosition && !v.Value.IsZero() && (v.Field.Name == "y" || v.Field.Name == "to_y") {
				changes = append(changes, rig.Assign(rig.Path(v.Path()), units.PositionAt(units.Length(-q.SI())).Quantity()))
			}
			return true
		})
		if err := c.Apply(changes...); err != nil {
			return err
		}
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		swap := map[rig.Path]rig.Path{"trailer.left": "trailer.right", "trailer.right": "trailer.left"}
		for i := 1; i <= 6; i++ {
			l, r := rig.Path(fmt.Sprintf("axles[%d].left", i)), rig.Path(fmt.Sprintf("axles[%d].right", i))
			swap[l], swap[r] = r, l
		}
		for x := range a.Every() {
			p := x.Path()
			if x.Metric.Path == "tanks[].tip_over_level" || x.Metric.Path == "fuel_tanks[].tip_over_level" {
				continue // where two fills tip alike, either may be named; how early they tip is held
			}
			if q, ok := swap[p]; ok {
				p = q
				sided++
			}
			sign := 1.0
			if p == "trailer.centre_left" {
				sign = -1
			}
			st, err := b.Model().ParseState(x.State.String())
			if err != nil {
				return err
			}
			y, ok := b.At(p, st)
			if !ok {
				return fmt.Errorf("%s is missing in %v", p, x.State)
			}
			scale := math.Max(math.Abs(x.Value.SI()), 1e-3)
			if total, ok := a.At("trailer.total", x.State); ok && x.Value.Kind() == units.KindMass {
				scale = total.Value.SI()
			}
			if math.Abs(x.Value.SI()-sign*y.Value.SI()) > 1e-9*scale {
				return fmt.Errorf("%s is %.12g, and %s %.12g with left and right exchanged, in %v", x.Path(), x.Value.SI(), p, y.Value.SI(), x.State)
			}
		}
		return nil
	})
	if sided == 0 {
		t.Error("no rig had sides")
	}
}
