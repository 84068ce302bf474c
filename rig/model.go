package rig

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"sort"
	"strings"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/water"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A Model is a resolved rig: parts looked up, defaults filled in and recorded,
// everything checked. It is never changed after New and may be shared between
// goroutines; With makes a changed copy.
type Model struct {
	written  *Spec // as the caller gave it
	spec     *Spec // resolved
	shelf    *parts.Catalog
	origins  map[Path]Origin
	assumed  []Path
	spreads  map[Path]Tolerance
	axes     *axisSet
	plugs    []plugState
	fills    []fillState
	waters   []TankWater // of every tank in every mode
	blocks   blocks
	openings []Open
	bands    map[Path]Band
	house    map[Path]Default // defaults of the dealer's policy, by pattern
}

// An Origin says where a value of the resolved specification comes from.
type Origin struct {
	Path  Path   `json:"path"`
	Basis Basis  // empty if the specification gives the value and says no more
	Why   string // of a default: where it comes from; of a part: its number
}

// A Tolerance is the spread of a value: the half-width of certain limits, or
// with Normal set, twice the standard deviation.
type Tolerance struct {
	HalfWidth units.Quantity // given for an absolute tolerance
	Share     float64        // of the value, for a relative one
	Normal    bool
}

// An Open is something the specification leaves out, and what is not answered
// because of it.
type Open struct {
	Path  Path   `json:"path"`
	Leave string `json:"leaves_open"` // what is not answered
}

// New resolves a specification: it copies it, fills what is not given from the
// shelf, then from the library's defaults, and checks everything. All problems
// are returned together, joined, each a *units.FieldError with its path. The
// shelf may be nil if no part is named by number.
func New(s *Spec, shelf *parts.Catalog) (*Model, error) {
	if s != nil {
		s = s.Clone()
	}
	return build(s, shelf, nil)
}

// build makes a model; blocks whose input is that of parent are shared with it.
func build(s *Spec, shelf *parts.Catalog, parent *Model) (*Model, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	if s == nil {
		return nil, &units.FieldError{Path: "spec", Want: "a specification", Err: units.ErrMissing}
	}
	origins := 64
	if parent != nil {
		origins = len(parent.origins)
	}
	if s.Format == "" {
		c := *s
		c.Format = Format
		s = &c
	}
	if err := parts.CheckFormat(s.Format, Format); err != nil {
		return nil, err
	}
	m := &Model{written: s, spec: t.Clone(s).(*Spec), shelf: shelf, origins: make(map[Path]Origin, origins), spreads: map[Path]Tolerance{}}
	if parent != nil {
		m.house = parent.house
	}
	errs := t.Problems(m.spec)
	lacking, bad := m.resolveParts(t)
	errs = append(errs, bad...)
	errs = append(errs, m.fillDefaults(t)...)
	errs = append(errs, m.checkTables(t)...)
	errs = append(errs, m.checkReferences(t)...)
	errs = append(errs, m.checkNeeds(t, lacking)...)
	if len(lacking) == 0 { // what contradicts what, only the parts would tell
		errs = append(errs, m.checkSense()...)
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	m.sortAssumed()
	if m.axes, err = compileAxes(m.spec); err != nil {
		return nil, err
	}
	if parent != nil && reflect.DeepEqual(m.axes, parent.axes) {
		m.axes = parent.axes
	}
	if m.plugs, err = plugStates(m.spec); err != nil {
		return nil, err
	}
	if m.fills, err = fillStates(m.spec); err != nil {
		return nil, err
	}
	m.waters = watersOf(m.spec)
	m.openings = findOpen(m.spec)
	m.compileBlocks(parent, "")
	return m, nil
}

// Spec returns a copy of the resolved specification.
func (m *Model) Spec() *Spec { return m.spec.Clone() }

// Written returns a copy of the specification as it was given.
func (m *Model) Written() *Spec { return m.written.Clone() }

// Shelf returns the shelf the model was made with; it may be nil.
func (m *Model) Shelf() *parts.Catalog { return m.shelf }

// Name returns the name of the rig.
func (m *Model) Name() string { return m.spec.Name }

// Digest names the written specification: equal specifications have equal
// digests.
func (m *Model) Digest() string {
	h := sha256.New()
	_ = m.written.Write(h) // a hash takes everything, and New has checked the values
	return hex.EncodeToString(h.Sum(nil))
}

// Get returns the text of a field of the resolved specification; given is
// false when it holds nothing.
func (m *Model) Get(p Path) (text string, given bool, err error) {
	t, err := specTable()
	if err != nil {
		return "", false, err
	}
	return t.Get(m.spec, string(p))
}

// Quantity returns the quantity at a path of the resolved specification.
func (m *Model) Quantity(p Path) (units.Quantity, bool) {
	t, err := specTable()
	if err != nil {
		return units.Quantity{}, false
	}
	return t.Quantity(m.spec, string(p))
}

// Origin says where the value at a path comes from.
func (m *Model) Origin(p Path) Origin {
	o := m.origins[p]
	o.Path = p
	best := -1
	for q, b := range m.spec.Basis {
		if q.covers(p) && len(q) > best {
			if o.Basis == Assumed && o.Why != "" && q != p {
				continue // a default stays assumed under a statement about the whole component
			}
			best, o.Basis = len(q), Basis(b)
		}
	}
	return o
}

// Assumed returns the origin of every assumed value in order of path: defaults
// the library took, and values the specification marks as assumed.
func (m *Model) Assumed() []Origin {
	out := make([]Origin, 0, len(m.assumed))
	for _, p := range m.assumed {
		out = append(out, m.Origin(p))
	}
	return out
}

// Open lists what the specification leaves out and what is not answered
// because of it.
func (m *Model) Open() []Open { return append([]Open(nil), m.openings...) }

// Tolerance returns the spread stated for the value at a path.
func (m *Model) Tolerance(p Path) (Tolerance, bool) {
	best, out := -1, Tolerance{}
	for q, t := range m.spreads {
		if q.covers(p) && len(q) > best {
			best, out = len(q), t
		}
	}
	return out, best >= 0
}

func (m *Model) sortAssumed() {
	t, err := specTable()
	if err != nil {
		return
	}
	said := false // the specification calls something assumed
	for _, b := range m.spec.Basis {
		said = said || Basis(b) == Assumed
	}
	if said {
		t.Walk(m.spec, func(v *fields.Visit) bool {
			if v.Field.Kind == 0 || v.Value.IsZero() {
				return true
			}
			if p := Path(v.Path()); m.Origin(p).Basis == Assumed {
				m.assumed = append(m.assumed, p)
			}
			return true
		})
	} else {
		for p, o := range m.origins {
			if o.Basis != Assumed || m.Origin(p).Basis != Assumed {
				continue
			}
			if _, ok := t.Quantity(m.spec, string(p)); ok {
				m.assumed = append(m.assumed, p)
			}
		}
	}
	sort.Slice(m.assumed, func(i, j int) bool { return m.assumed[i] < m.assumed[j] })
}

// resolveParts fills every component that names a part from the shelf. It returns the
// beginnings of the paths that a part it could not take would have filled.
func (m *Model) resolveParts(t *fields.Table) (lacking []string, errs []error) {
	t.Walk(m.spec, func(v *fields.Visit) bool {
		if v.Field.Name != "part" || v.Value.Kind() != reflect.String || v.Value.String() == "" {
			return true
		}
		part, err := m.shelf.Part(v.Value.String())
		switch {
		case err != nil:
			err = m.noPart(v, err)
		case !fits(v, &part, false):
			err = m.wrongPart(v, &part)
		default:
			err = m.fillFrom(v, &part)
		}
		if err != nil {
			errs = append(errs, units.At(v.Path(), err))
			lacking = append(lacking, strings.TrimSuffix(v.Path(), v.Field.Name))
		}
		return true
	})
	return lacking, errs
}

// fillFrom copies what a part says into the fields of a component that hold
// nothing. The component must have fields for the part's ratings.
func (m *Model) fillFrom(v *fields.Visit, p *parts.Part) error {
	basis := Catalogue
	if p.Basis != "" {
		basis = Basis(p.Basis)
	}
	prefix, why := strings.TrimSuffix(v.Path(), v.Field.Name), "part "+p.Number
	put := func(name string, src reflect.Value) error {
		if src.IsZero() {
			return nil
		}
		_, dst, ok := v.Sibling(name)
		if !ok {
			return m.wrongPart(v, p)
		}
		if !dst.IsZero() {
			return nil
		}
		dst.Set(src)
		m.origins[Path(prefix+name)] = Origin{Basis: basis, Why: why}
		return nil
	}
	if r := p.Ratings(); r != nil {
		rv := reflect.ValueOf(r).Elem()
		for i := range rv.NumField() {
			if err := put(rv.Type().Field(i).Tag.Get("json"), rv.Field(i)); err != nil {
				return err
			}
		}
	}
	own := reflect.ValueOf(p).Elem()
	for _, name := range [...]string{"Mass", "Cost", "Price", "LeadTime"} {
		f, _ := own.Type().FieldByName(name)
		if _, _, has := v.Sibling(f.Tag.Get("json")); has {
			if err := put(f.Tag.Get("json"), own.FieldByName(name)); err != nil {
				return err
			}
		}
	}
	return nil
}

// fillDefaults gives every field that still holds nothing the default of its
// row, and derived defaults after that. Each is recorded as assumed.
func (m *Model) fillDefaults(t *fields.Table) []error {
	var errs []error
	t.Walk(m.spec, func(v *fields.Visit) bool {
		if v.Field.Default == "" || !v.Value.IsZero() {
			return true
		}
		if name, word, ok := strings.Cut(v.Field.When, "="); ok {
			if _, have, ok := v.Sibling(name); !ok || have.Kind() != reflect.String || have.String() != word {
				return true
			}
		}
		text, why := v.Field.Default, v.Field.Why
		if h, ok := m.house[Path(v.Field.Pattern)]; ok {
			text, why = h.Value, h.why()
		}
		if err := v.SetText(text); err != nil {
			errs = append(errs, err)
			return true
		}
		m.origins[Path(v.Path())] = Origin{Basis: Assumed, Why: why}
		return true
	})
	return append(errs, m.deriveDefaults()...)
}

// checkTables checks the basis and tolerance tables: every path names
// something, every text can be read.
func (m *Model) checkTables(t *fields.Table) []error {
	var errs []error
	for _, p := range fields.SortedKeys(m.spec.Basis) {
		if err := t.Exists(m.spec, string(p)); err != nil {
			errs = append(errs, units.At("basis", err))
		} else if !Basis(m.spec.Basis[p]).valid() {
			errs = append(errs, &units.FieldError{Path: "basis." + string(p), Value: m.spec.Basis[p], Want: basisWords, Err: units.ErrRange})
		}
	}
	for _, p := range fields.SortedKeys(m.spec.Tolerance) {
		at := "tolerance." + string(p)
		if err := t.Exists(m.spec, string(p)); err != nil {
			errs = append(errs, units.At("tolerance", err))
			continue
		}
		tol, err := parseTolerance(t, string(p), m.spec.Tolerance[p])
		if err != nil {
			errs = append(errs, units.At(at, err))
			continue
		}
		m.spreads[p] = tol
	}
	return errs
}

func parseTolerance(t *fields.Table, path, text string) (Tolerance, error) {
	var tol Tolerance
	body, normal := strings.CutSuffix(text, " k=2")
	tol.Normal = normal
	f, _ := t.Lookup(path)
	if f != nil && f.Kind != 0 && f.Kind != units.KindRatio {
		kind := differenceKind(f.Kind)
		if q, err := units.ParseQuantity(kind, body); err == nil {
			if q.SI() < 0 {
				return tol, &units.FieldError{Value: text, Want: "zero or more", Err: units.ErrRange}
			}
			tol.HalfWidth = q
			return tol, nil
		} else if !strings.HasSuffix(body, "%") {
			return tol, err
		}
	}
	share, err := units.ParseRatio(body)
	if err != nil {
		return tol, err
	}
	if share < 0 {
		return tol, &units.FieldError{Value: text, Want: "zero or more", Err: units.ErrRange}
	}
	tol.Share = float64(share)
	return tol, nil
}

// differenceKind is the kind of a difference of two values of kind k.
func differenceKind(k units.Kind) units.Kind {
	switch k {
	case units.KindTemperature:
		return units.KindTemperatureDelta
	case units.KindElevation, units.KindPosition:
		return units.KindLength
	}
	return k
}

// checkReferences checks that every reference names an element of its list.
func (m *Model) checkReferences(t *fields.Table) []error {
	lists := map[string]map[string]bool{}
	t.Walk(m.spec, func(v *fields.Visit) bool {
		if v.Field.Role == fields.List && !strings.Contains(v.Path(), ".") {
			set := map[string]bool{}
			for i := range v.Value.Len() {
				set[v.Value.Index(i).FieldByName("ID").String()] = true
			}
			lists[v.Path()] = set
		}
		return true
	})
	var errs []error
	check := func(v *fields.Visit, id string) {
		list := v.Field.Ref
		if lists[list][id] {
			return
		}
		names := make([]string, 0, len(lists[list]))
		for n := range lists[list] {
			names = append(names, n)
		}
		sort.Strings(names)
		want := "one of the " + list + ": " + strings.Join(names, ", ") + ", or nothing"
		if len(names) == 0 {
			want = "an id of " + list + ", which is empty, or nothing"
		}
		if v.Field.Need {
			want = strings.TrimSuffix(want, ", or nothing")
		}
		errs = append(errs, &units.FieldError{Path: v.Path(), Value: id, Want: want, Err: fields.ErrUnknown})
	}
	t.Walk(m.spec, func(v *fields.Visit) bool {
		if v.Field.Ref == "" {
			return true
		}
		if v.Field.Role == fields.Words {
			for i := range v.Value.Len() {
				check(v, v.Value.Index(i).String())
			}
		} else if id := v.Value.String(); id != "" {
			check(v, id)
		}
		return true
	})
	for i := range m.spec.Fills {
		f := &m.spec.Fills[i]
		for k := range f.Levels {
			id := f.Levels[k].ID
			if !lists["tanks"][id] && !lists["fuel_tanks"][id] {
				errs = append(errs, &units.FieldError{Path: fmt.Sprintf("fills[%s].levels[%s]", f.ID, id), Want: "the id of a tank or fuel tank", Err: fields.ErrUnknown})
			}
		}
	}
	return errs
}

// checkNeeds reports required fields that hold nothing after everything was
// filled in. What a part that was refused would have filled is not asked for as well.
func (m *Model) checkNeeds(t *fields.Table, lacking []string) []error {
	var errs []error
	t.Walk(m.spec, func(v *fields.Visit) bool {
		if v.Field.Need && v.Value.IsZero() && !slices.ContainsFunc(lacking, func(at string) bool { return strings.HasPrefix(v.Path(), at) }) {
			want := v.Field.Doc
			if v.Field.Kind != 0 {
				want += exampleOf(v.Field)
			}
			errs = append(errs, &units.FieldError{Path: v.Path(), Want: want, Err: units.ErrMissing})
		}
		return true
	})
	return errs
}

// checkSense reports values that contradict one another.
func (m *Model) checkSense() []error {
	var errs []error
	conflict := func(path, value, want string) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrConflict})
	}
	missing := func(path, want string) {
		errs = append(errs, &units.FieldError{Path: path, Want: want, Err: units.ErrMissing})
	}
	s := m.spec
	if lo, hi := s.Duty.NozzlePressureLow, s.Duty.NozzlePressureHigh; lo != 0 && hi != 0 && lo > hi {
		conflict("duty.nozzle_pressure_low", exact(lo), "at most nozzle_pressure_high, "+exact(hi))
	}
	seen := map[string]string{}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		if other, dup := seen[h.Pump]; dup && h.Pump != "" {
			conflict("heaters["+h.ID+"].pump", h.Pump, "a pump without a heater; heater "+other+" is on it")
		}
		seen[h.Pump] = h.ID
		errs = append(errs, coilLacks(h)...)
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		at := "pumps[" + p.ID + "].unloader"
		if p.Unloader.Setting != 0 {
			if p.Unloader.ReturnTo == "" {
				missing(at+".return_to", "tank or inlet")
			}
			if p.Unloader.ReturnTo == "inlet" && p.Unloader.LoopVolume == 0 {
				missing(at+".loop_volume", "the water in the loop, such as 0.5 gal")
			}
			if p.Unloader.ReturnTo == "tank" && p.Tank == "" {
				missing("pumps["+p.ID+"].tank", "the tank the bypass returns to")
			}
		}
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		if (l.Fittings.Loss != 0) != (l.Fittings.Flow != 0) {
			missing("lines["+l.ID+"].fittings", "loss and flow together")
		}
	}
	if p, ok := sitePressure(s); ok && s.Site.Water.Given() {
		if t, err := water.SaturationTemperature(float64(p)); err == nil && s.Site.Water.Kelvin() >= t {
			conflict("site.water", exact(s.Site.Water), "below boiling at the site, "+exact(units.Kelvin(t)))
		}
	}
	errs = append(errs, senseOfLines(s)...)
	errs = append(errs, senseOfFuelTanks(s)...)
	for i := range s.Engines {
		if e := &s.Engines[i]; e.NetPower > e.GrossPower && e.GrossPower != 0 {
			conflict("engines["+e.ID+"].net_power", exact(e.NetPower), "at most the gross power, "+exact(e.GrossPower))
		}
		if e := &s.Engines[i]; len(e.Curve) > 0 {
			errs = append(errs, senseOfCurve(e)...)
		}
		if e := &s.Engines[i]; e.Correction == "j1349" && e.Aspiration == "turbocharged" && siteEngine(s, e).Ignition == fuel.Spark {
			conflict("engines["+e.ID+"].correction", e.Correction, "plate or iso3046; SAE J1349 has no formula for a turbocharged engine with spark ignition")
		}
	}
	for i := range s.Loads {
		l := &s.Loads[i]
		if l.Starting != 0 && l.Starting < l.Running {
			conflict("loads["+l.ID+"].starting", exact(l.Starting), "at least the running power, "+exact(l.Running))
		}
	}
	for i := range s.Sources {
		g := &s.Sources[i]
		at := "sources[" + g.ID + "]"
		if g.Starting != 0 && g.Starting < g.Running {
			conflict(at+".starting", exact(g.Starting), "at least the run rating, "+exact(g.Running))
		}
		if g.Type == "belt" && g.Engine == "" {
			missing(at+".engine", "the engine that drives a belt generator")
		}
		if g.Type == "portable" && g.Engine != "" {
			conflict(at+".engine", g.Engine, "nothing; a portable generator has its own engine")
		}
	}
	for i := range s.Crossovers {
		c := &s.Crossovers[i]
		if c.From == c.To && c.From != "" {
			conflict("crossovers["+c.ID+"].to", c.To, "another tank than from")
		}
	}
	for i := range s.Tanks {
		k := &s.Tanks[i]
		if k.Usable > k.Nominal && k.Nominal != 0 {
			usable, nominal := inOneUnit(k.Usable.Quantity(), k.Nominal.Quantity())
			conflict("tanks["+k.ID+"].usable", usable, "at most the nominal volume, "+nominal)
		}
		if k.Nominal != 0 && float64(k.Mass) > heaviestShell*float64(k.Nominal) {
			conflict("tanks["+k.ID+"].mass", exact(k.Mass), "the dry mass of a tank of "+exact(k.Nominal))
		}
		if k.Nominal != 0 && !k.X.Given() && s.Trailer != nil {
			missing("tanks["+k.ID+"].x", "the place of the tank, fore and aft; its water weighs")
		}
	}
	for i := range s.FuelTanks {
		k := &s.FuelTanks[i]
		if k.Home > k.Volume && k.Volume != 0 {
			conflict("fuel_tanks["+k.ID+"].home", exact(k.Home), "at most the volume, "+exact(k.Volume))
		}
		if k.Volume != 0 && !k.X.Given() && s.Trailer != nil {
			missing("fuel_tanks["+k.ID+"].x", "the place of the tank, fore and aft; its fuel weighs")
		}
	}
	for i := range s.Fills {
		f := &s.Fills[i]
		for k := range f.Levels {
			for j := range s.Tanks {
				if s.Tanks[j].ID == f.Levels[k].ID && f.Levels[k].Volume > s.Tanks[j].Nominal {
					conflict(fmt.Sprintf("fills[%s].levels[%s].volume", f.ID, f.Levels[k].ID), exact(f.Levels[k].Volume), "at most what the tank holds, "+exact(s.Tanks[j].Nominal))
				}
			}
			for j := range s.FuelTanks {
				if s.FuelTanks[j].ID == f.Levels[k].ID && f.Levels[k].Volume > s.FuelTanks[j].Volume {
					conflict(fmt.Sprintf("fills[%s].levels[%s].volume", f.ID, f.Levels[k].ID), exact(f.Levels[k].Volume), "at most what the tank holds, "+exact(s.FuelTanks[j].Volume))
				}
			}
		}
	}
	names := map[string]string{}
	for _, l := range []struct {
		list string
		ids  []string
	}{{"tanks", elementIDs(s.Tanks, func(t *Tank) string { return t.ID })}, {"fuel_tanks", elementIDs(s.FuelTanks, func(t *FuelTank) string { return t.ID })}} {
		for _, id := range l.ids {
			if other, dup := names[id]; dup && id != "" && other != l.list {
				conflict(l.list+"["+id+"]", id, "an id that no tank has; fill states name tanks and fuel tanks by id alone")
			}
			names[id] = l.list
		}
	}
	errs = append(errs, senseOfWiring(s)...)
	errs = append(errs, senseOfModePlugs(s)...)
	errs = append(errs, senseOfModes(s)...)
	errs = append(errs, senseOfWithin(s)...)
	errs = append(errs, senseOfSuction(s)...)
	errs = append(errs, senseOfHeat(s)...)
	errs = append(errs, senseOfMasses(s)...)
	errs = append(errs, senseOfRecovery(s)...)
	errs = append(errs, senseOfChemicals(s)...)
	errs = append(errs, senseOfStability(s)...)
	errs = append(errs, senseOfFreeHeight(s)...)
	if len(errs) == 0 {
		errs = senseOfSprings(s)
	}
	return errs
}

// heaviestShell is the mass of a tank for its volume beyond which it is solid
// lead, in kg/m³.
const heaviestShell = 11000.

func elementIDs[T any](list []T, id func(*T) string) []string {
	out := make([]string, len(list))
	for i := range list {
		out[i] = id(&list[i])
	}
	return out
}

// exact is the exact text of a quantity, for error messages.
func exact(q interface{ MarshalText() ([]byte, error) }) string {
	b, err := q.MarshalText()
	if err != nil {
		return "an unusable number"
	}
	return string(b)
}

// findOpen lists the parts of a specification that are absent although a rig
// is judged by them.
func findOpen(s *Spec) []Open {
	var out []Open
	add := func(p Path, leave string) { out = append(out, Open{p, leave}) }
	if !s.Site.Elevation.Given() {
		add("site.elevation", "boiling point, clean firing and engine power at the site")
	}
	if len(s.Site.Conditions) == 0 {
		add("site.conditions", "clean firing and engine power by the hour")
	}
	if !s.Site.Water.Given() {
		add("site.water", "heating, and the friction of the water")
	}
	if len(s.Pumps) == 0 {
		add("pumps", "pressures and flows")
	}
	if len(s.Lines) == 0 {
		add("lines", "pressures and flows")
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		at := Path("pumps[" + p.ID + "]")
		if p.Engine == "" {
			add(at+".engine", "whether an engine carries the pump")
		}
		if p.MaximumInletTemperature == (units.Temperature{}) {
			add(at+".maximum_inlet_temperature", "minutes in bypass")
		}
	}
	openInWinter(s, add)
	out = append(out, openSuction(s)...)
	if len(s.Sources) == 0 && len(s.Loads) == 0 {
		add("sources", "what starts and what stalls")
	}
	if s.Trailer == nil {
		if s.TowVehicle != nil {
			add("trailer", "tongue, axles, and where it tips; the load is held against the vehicle")
		} else {
			add("trailer", "weights, tongue and axles")
			add("tow_vehicle", "whether a vehicle that carries the load without a trailer bears it")
		}
	}
	if s.TowVehicle == nil && s.Trailer != nil {
		add("tow_vehicle", "hitch, trailer and combination ratings of the vehicle")
	}
	openForStability(s, add)
	if s.Trailer != nil || s.TowVehicle != nil {
		for _, p := range unweighed(s) {
			add(p, "its share of every weight")
		}
	}
	out = append(out, openRecovery(s)...)
	openNoise(s, add)
	for i := range s.Chemicals {
		c := &s.Chemicals[i]
		if x, _, _ := placeOf(s, &c.Stock); c.Carried != 0 && s.Trailer != nil && !x.Given() {
			add(Path("chemicals["+c.ID+"].x"), "the weight of what is carried of it")
		}
	}
	return out
}
