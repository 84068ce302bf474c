package rig_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	iapws "example.com/washrig/internal/water"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// wholeRig draws a rig of wholeSpec and judges it. Rigs that New refuses are drawn
// again; that a solver gives up is an answer, and counted by the tests that look at
// answers.
func wholeRig(g *property.G) (*rig.Spec, *rig.Model, *rig.Report, error) {
	s := wholeSpec(g)
	m, err := rig.New(s, nil)
	if err != nil {
		if !typed(err) {
			return nil, nil, nil, fmt.Errorf("refused without naming a field: %w", err)
		}
		return nil, nil, nil, property.ErrDiscard
	}
	r, err := m.Assess(nil, &rig.AssessOptions{SkipBreakEven: true})
	if err != nil {
		var solver *units.SolverError
		var states *rig.StatesError
		if errors.As(err, &solver) || errors.As(err, &states) {
			return nil, nil, nil, property.ErrDiscard
		}
		return nil, nil, nil, fmt.Errorf("a model that was taken has no answer: %w", err)
	}
	return s, m, r, nil
}

// What goes in comes out: water, heat, power, weight and moments. Every number is
// finite, every state reads back, and one report as data in sixteen is looked through.
func TestWholeRigs_close(t *testing.T) {
	t.Parallel()
	var c closure
	property.Check(t, c.closes)
	for name, n := range map[string]int{"pump flows": c.flows, "coil heats": c.heats, "pump shafts": c.shafts, "engine demands": c.demands, "weights": c.weights, "moments": c.moments, "sides": c.sides, "loads of vehicles": c.loads, "sources": c.sources, "recovered flows": c.recovered} {
		if n == 0 {
			t.Errorf("no rig had %s to close", name)
		}
	}
}

func (c *closure) closes(g *property.G) error {
	_, m, r, err := wholeRig(g)
	if err != nil {
		return err
	}
	if err := finite(r); err != nil {
		return err
	}
	if err := c.check(m, r); err != nil {
		return err
	}
	if g.Pick(16) == 0 {
		return looked(r)
	}
	return nil
}

func finite(r *rig.Report) error {
	for x := range r.Every() {
		if v := x.Value.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s is %g in %v", x.Path(), v, x.State)
		}
	}
	for _, f := range append(r.Findings(), r.Passed()...) {
		if math.IsNaN(f.Margin) || math.IsInf(f.Margin, 0) {
			return fmt.Errorf("margin of %s is %g", f.Code, f.Margin)
		}
		if back, err := r.Model().ParseState(f.Reading.State.String()); err != nil || back != f.Reading.State {
			return fmt.Errorf("state %v does not read back: %v", f.Reading.State, err)
		}
	}
	return nil
}

// looked writes a report as data and looks for what is no number.
func looked(r *rig.Report) error {
	var b bytes.Buffer
	data, err := json.Marshal(r)
	if err != nil {
		return err
	}
	b.Write(data)
	for _, word := range []string{"NaN", "Inf", "%!"} {
		if i := strings.Index(b.String(), word); i >= 0 {
			return fmt.Errorf("the report as data holds %s: …%s…", word, b.String()[max(i-80, 0):min(i+80, b.Len())])
		}
	}
	return nil
}

// A closure holds both sides of balances against each other, and counts them.
type closure struct {
	flows, heats, shafts, demands, weights, moments, sides, loads, sources, recovered int
}

// same compares two sides of a balance to 1e-9 of the sum of its terms.
func same(what string, state rig.State, a, b, terms float64) error {
	if math.Abs(a-b) > 1e-9*terms {
		return fmt.Errorf("%s in %v: %.12g and %.12g", what, state, a, b)
	}
	return nil
}

func (c *closure) check(m *rig.Model, r *rig.Report) error {
	s := m.Spec()
	var err error
	at := func(p string, st rig.State) (float64, bool) {
		x, ok := r.At(rig.Path(p), st)
		return x.Value.SI(), ok
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		for x := range r.All(rig.Path("pumps[" + p.ID + "].bypass_flow")) {
			relief, _ := at("pumps["+p.ID+"].relief_flow", x.State)
			guns := 0.0
			for k := range s.Lines {
				if q, ok := at("lines["+s.Lines[k].ID+"].flow", x.State); ok && s.Lines[k].Pump == p.ID {
					guns += q
				}
			}
			speed := 1.0
			for k := range s.Engines {
				e := &s.Engines[k]
				if n, ok := at("engines["+e.ID+"].speed", x.State); ok && e.ID == p.Engine {
					speed = n * (1 + float64(e.Droop)) / float64(e.NoLoadSpeed)
				}
			}
			given := float64(p.RatedFlow) * speed
			if err := same("flows of pump "+p.ID, x.State, guns+relief+x.Value.SI(), given, given); err != nil {
				return err
			}
			c.flows++
			pressure, ok := at("pumps["+p.ID+"].pressure", x.State)
			shaft, ok2 := at("pumps["+p.ID+"].shaft_power", x.State)
			if !ok || !ok2 {
				continue
			}
			want := given * max(pressure, 0) / float64(p.Efficiency*p.BeltEfficiency)
			if err := same("power of pump "+p.ID, x.State, shaft, want, want); err != nil {
				return err
			}
			c.shafts++
		}
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		for x := range r.All(rig.Path("heaters[" + h.ID + "].heat")) {
			pressure, ok := at("pumps["+h.Pump+"].pressure", x.State)
			hot, ok2 := at("heaters["+h.ID+"].outlet_temperature", x.State)
			if !ok || !ok2 || !s.Site.Water.Given() || pressure < 0 || pressure > 50e6 {
				continue
			}
			site := 101325.0
			if b, ok := at("site.boiling_point", x.State); ok {
				if p, err := iapws.SaturationPressure(b); err == nil {
					site = p
				}
			}
			guns := 0.0
			for k := range s.Lines {
				if q, ok := at("lines["+s.Lines[k].ID+"].flow", x.State); ok && s.Lines[k].Pump == h.Pump {
					guns += q
				}
			}
			cold := s.Site.Water.Kelvin()
			density, err1 := iapws.Density(site+pressure, cold)
			h1, err2 := iapws.Enthalpy(site+pressure, cold)
			h2, err3 := iapws.Enthalpy(site+pressure, hot)
			if err1 != nil || err2 != nil || err3 != nil {
				continue
			}
			want := guns * density * (h2 - h1)
			if err := same("heat of "+h.ID, x.State, x.Value.SI(), want, guns*density*(math.Abs(h2)+math.Abs(h1))); err != nil {
				return err
			}
			c.heats++
		}
	}
	for i := range s.Engines {
		e := &s.Engines[i]
		for x := range r.All(rig.Path("engines[" + e.ID + "].demand")) {
			sum := 0.0
			for k := range s.Pumps {
				if p := &s.Pumps[k]; p.Engine == e.ID {
					v, _ := at("pumps["+p.ID+"].shaft_power", x.State)
					sum += v
				}
			}
			for k := range s.Sources {
				if y := &s.Sources[k]; y.Type == "belt" && y.Engine == e.ID {
					v, _ := at("sources["+y.ID+"].running", x.State)
					sum += v / float64(y.Efficiency*y.BeltEfficiency)
				}
			}
			if err := same("demand on engine "+e.ID, x.State, x.Value.SI(), sum, sum); err != nil {
				return err
			}
			c.demands++
		}
	}
	listed := 0.0
	for i := range s.Loads {
		listed += float64(s.Loads[i].Running)
	}
	carried := map[rig.State]float64{}
	for x := range r.All("sources[].running") {
		carried[x.State] += x.Value.SI()
	}
	for st, sum := range carried {
		on := listed
		for i := range s.Modes {
			if m := &s.Modes[i]; m.ID == st.On(rig.AxisMode) {
				on = 0
				for k := range s.Loads {
					if contains(m.Loads, s.Loads[k].ID) {
						on += float64(s.Loads[k].Running)
					}
				}
			}
		}
		if err := same("loads", st, sum, on, listed); err != nil {
			return err
		}
		c.sources++
	}
	for i := range s.Recovery {
		u := &s.Recovery[i]
		for x := range r.All(rig.Path("recovery[" + u.ID + "].recovered_flow")) {
			guns, st := 0.0, x.State
			if len(s.Heaters) > 0 {
				if st, err = m.ParseState(x.State.String() + " heat=steady"); err != nil {
					return err
				}
			}
			for k := range s.Lines {
				if len(u.Guns) > 0 && !contains(u.Guns, s.Lines[k].ID) {
					continue
				}
				q, _ := at("lines["+s.Lines[k].ID+"].flow", st)
				guns += q
			}
			if err := same("water back to "+u.ID, x.State, x.Value.SI(), guns*float64(s.Duty.RecoveredShare), guns); err != nil {
				return err
			}
			c.recovered++
		}
	}
	return c.weigh(m, r)
}

// levels adds what the tanks of a fill hold.
func levels(s *rig.Spec, f rig.Fill, rho float64) (kg float64) {
	for _, l := range f.Levels {
		for k := range s.Tanks {
			if t := &s.Tanks[k]; t.ID == l.ID && t.Density != 0 {
				kg += float64(l.Volume) * float64(t.Density)
			} else if t.ID == l.ID {
				kg += float64(l.Volume) * rho
			}
		}
		for k := range s.FuelTanks {
			if t := &s.FuelTanks[k]; t.ID == l.ID {
				kg += float64(l.Volume) * float64(t.Density)
			}
		}
	}
	return kg
}

// weigh adds the weights of every listed fill from the specification itself.
func (c *closure) weigh(m *rig.Model, r *rig.Report) error {
	s := m.Spec()
	if s.Trailer == nil && s.TowVehicle == nil {
		return nil
	}
	rho, err := iapws.Density(101325, s.Site.Water.Kelvin())
	if err != nil {
		rho = 1000
	}
	full := s.Trailer == nil || s.Trailer.HosesTravel == "full"
	open := false
	for i := range s.Crossovers {
		open = open || s.Crossovers[i].Valve == "open"
	}
	names := map[string]rig.Fill{}
	for _, f := range s.Fills {
		names[f.ID] = f
	}
	if s.Trailer == nil {
		for x := range r.All("tow_vehicle.load") {
			f, ok := names[x.State.On(rig.AxisFill)]
			if !ok || open {
				continue
			}
			sum := 0.0
			for _, st := range stocks(s) {
				if st.Within == "" {
					sum += float64(st.Mass)
				}
			}
			for i := range s.Chemicals {
				if c := &s.Chemicals[i]; c.Density != 0 {
					sum += float64(c.Carried) * float64(c.Density)
				} else {
					sum += float64(c.Carried) * rho
				}
			}
			bore := func(d, l units.Length) { sum += math.Pi / 4 * float64(d*d*l) * rho }
			for i := range s.Lines {
				bore(s.Lines[i].Hose.Bore, s.Lines[i].Hose.Length)
			}
			for i := range s.Heaters {
				bore(s.Heaters[i].CoilBore, s.Heaters[i].CoilLength)
			}
			sum += levels(s, f, rho)
			if err := same("load of the vehicle", x.State, x.Value.SI(), sum, sum); err != nil {
				return err
			}
			c.loads++
		}
		return nil
	}
	for x := range r.All("trailer.total") {
		at := func(p rig.Path) float64 {
			v, _ := r.At(p, x.State)
			return v.Value.SI()
		}
		total, tongue, group := x.Value.SI(), at("trailer.tongue"), at("trailer.group")
		if err := same("tongue and axles", x.State, tongue+group, total, total); err != nil && s.Trailer.Suspension != "independent" {
			return err
		}
		if l, ok := r.At("trailer.left", x.State); ok {
			if err := same("sides", x.State, l.Value.SI()+at("trailer.right"), group, total); err != nil {
				return err
			}
			c.sides++
		}
		if a := s.Trailer.AxleGroup.Sub(s.Trailer.Coupler); s.Trailer.Suspension != "independent" {
			if err := same("moments about the axles", x.State, tongue*float64(a), total*(float64(a)-at("trailer.centre_aft")), total*float64(a)+math.Abs(total*at("trailer.centre_aft"))); err != nil {
				return err
			}
		}
		if s.TowVehicle != nil && s.TowVehicle.CurbAndCrew != 0 {
			if err := same("combination", x.State, at("tow_vehicle.combination"), total+float64(s.TowVehicle.CurbAndCrew), total); err != nil {
				return err
			}
		}
		f, ok := names[x.State.On(rig.AxisFill)]
		if !ok || open || full {
			continue
		}
		var sum, moment, terms float64
		add := func(mass float64, x units.Position) {
			arm := mass * float64(x.Sub(s.Trailer.Coupler))
			sum, moment, terms = sum+mass, moment+arm, terms+math.Abs(arm)
		}
		for _, st := range append(stocks(s), &s.Trailer.Stock) {
			if st.Within == "" {
				add(float64(st.Mass), st.X)
			}
		}
		for i := range s.Chemicals {
			c := &s.Chemicals[i]
			x := c.X
			for k := range s.Items {
				if !x.Given() && s.Items[k].ID == c.Within && c.Within != "" {
					x = s.Items[k].X
				}
			}
			density := rho
			if c.Density != 0 {
				density = float64(c.Density)
			}
			if c.Carried != 0 && x.Given() {
				add(float64(c.Carried)*density, x)
			}
		}
		for _, l := range f.Levels {
			for k := range s.Tanks {
				if t := &s.Tanks[k]; t.ID == l.ID && t.Density != 0 {
					add(float64(l.Volume)*float64(t.Density), t.X)
				} else if t.ID == l.ID {
					add(float64(l.Volume)*rho, t.X)
				}
			}
			for k := range s.FuelTanks {
				if t := &s.FuelTanks[k]; t.ID == l.ID {
					add(float64(l.Volume)*float64(t.Density), t.X)
				}
			}
		}
		if err := same("masses", x.State, total, sum, sum); err != nil {
			return err
		}
		c.weights++
		if err := same("moments about the coupler", x.State, total*at("trailer.centre_aft"), moment, terms); err != nil {
			return err
		}
		c.moments++
	}
	return nil
}

// typed reports whether every error of a joined one names a field or a solver.
func typed(err error) bool {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range j.Unwrap() {
			if !typed(e) {
				return false
			}
		}
		return true
	}
	var f *units.FieldError
	var s *units.SolverError
	var n *rig.StatesError
	return errors.As(err, &f) && f.Path != "" || errors.As(err, &s) || errors.As(err, &n)
}

func specFields(t testing.TB) *fields.Table {
	t.Helper()
	table, err := fields.Of(reflect.TypeFor[rig.Spec]())
	if err != nil {
		t.Fatal(err)
	}
	return table
}
