package rig

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// An Axis is one way in which states of a rig differ.
type Axis uint8

// The axes, in the order in which a State is written.
const (
	AxisGuns    Axis = iota // which guns are open
	AxisHeat                // off, steady, or stuck: the limiter has failed
	AxisSite                // the hour of the site
	AxisPlugs               // which movable load is plugged in where
	AxisFill                // what the tanks hold
	AxisMode                // what the crew does
	AxisMotors              // how many vacuum motors run
	AxisFilters             // clean, or at change-out

	// AxisStrainer: suction strainers clean, or dirty and due.
	AxisStrainer
	// AxisWater: what the pumps draw, cold from the supply or warm.
	AxisWater
	// AxisLevel: the tanks the pumps draw from, full or drawn low.
	AxisLevel
	// AxisFault: the one thing that has failed.
	AxisFault
	axisCount
)

var axisNames = [axisCount]string{"guns", "heat", "site", "plugs", "fill", "mode", "motors", "filters", "strainer", "water", "level", "fault"}

// String returns the name of the axis as it stands in a State.
func (a Axis) String() string {
	if a < axisCount {
		return axisNames[a]
	}
	return fmt.Sprintf("Axis(%d)", uint8(a))
}

// A Reach says whether a rig gets into a state.
type Reach uint8

// The reaches of a state.
const (
	Reachable   Reach = iota + 1 // the day takes the rig there
	Conceivable                  // nothing prevents it, nobody plans it
	Fault                        // something has failed
)

// String names the reach.
func (r Reach) String() string {
	switch r {
	case Reachable:
		return "reachable"
	case Conceivable:
		return "conceivable"
	case Fault:
		return "fault"
	}
	return "invalid"
}

// axisSet holds the values that each axis of a model can take; index 0 means
// "does not matter here" and has no name.
type axisSet struct {
	names [axisCount][]string
	reach [axisCount][]Reach
	weak  []Axis // those with a value that is not simply reachable
}

func (a *axisSet) add(x Axis, name string, r Reach) int {
	if len(a.names[x]) == 0 {
		a.names[x] = append(a.names[x], "")
		a.reach[x] = append(a.reach[x], 0)
	}
	if r > Reachable && !slices.Contains(a.weak, x) {
		a.weak = append(a.weak, x)
	}
	a.names[x] = append(a.names[x], name)
	a.reach[x] = append(a.reach[x], r)
	return len(a.names[x]) - 1
}

// count returns the number of values of an axis.
func (a *axisSet) count(x Axis) int { return max(len(a.names[x])-1, 0) }

// A State is one combination of axes of a model. Axes that do not matter to a
// number are left out, so the same state text names the same number however
// the other axes stand. States of one model, and of models made from it that
// have the same axes, are comparable with ==; String compares across models.
type State struct {
	set *axisSet
	v   [axisCount]uint16
}

func (s State) with(x Axis, i int) State {
	s.v[x] = uint16(i)
	return s
}

// String writes the state as name=value pairs, such as
// "guns=left+right heat=steady site=afternoon". The state in which nothing
// matters is "any".
func (s State) String() string {
	var b strings.Builder
	for x := range axisCount {
		if s.v[x] == 0 || s.set == nil {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(axisNames[x])
		b.WriteByte('=')
		b.WriteString(s.set.names[x][s.v[x]])
	}
	if b.Len() == 0 {
		return "any"
	}
	return b.String()
}

// MarshalText writes what String writes.
func (s State) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// On returns the value of one axis, empty if the axis does not matter.
func (s State) On(x Axis) string {
	if s.set == nil || x >= axisCount || s.v[x] == 0 {
		return ""
	}
	return s.set.names[x][s.v[x]]
}

// Reach returns the weakest reach of the state's values: one fault makes the
// state a fault.
func (s State) Reach() Reach { return s.weakest() }

func (s *State) weakest() Reach {
	r := Reachable
	if s.set == nil {
		return r
	}
	for _, x := range s.set.weak {
		if s.v[x] != 0 {
			r = max(r, s.set.reach[x][s.v[x]])
		}
	}
	return r
}

// less orders states by their axes.
func (s State) less(o State) bool {
	for x := range axisCount {
		if s.v[x] != o.v[x] {
			return s.v[x] < o.v[x]
		}
	}
	return false
}

// ParseState reads what State.String writes, for this model.
func (m *Model) ParseState(text string) (State, error) {
	s := State{set: m.axes}
	if text == "any" {
		return s, nil
	}
	seen := map[string]bool{}
	for _, pair := range strings.Fields(text) {
		name, value, ok := strings.Cut(pair, "=")
		if !ok {
			return State{}, &units.FieldError{Path: "state", Value: pair, Want: "axis=value, such as guns=left", Err: units.ErrSyntax}
		}
		if seen[name] {
			return State{}, &units.FieldError{Path: "state", Value: pair, Want: "each axis once", Err: problem.Words("given twice", units.ErrConflict)}
		}
		seen[name] = true
		x := axisCount
		for i, n := range axisNames {
			if n == name {
				x = Axis(i)
			}
		}
		if x == axisCount {
			return State{}, &units.FieldError{Path: "state", Value: name, Want: "one of the axes " + strings.Join(axisNames[:], ", "), Err: problem.Words("no axis of this name", units.ErrRange)}
		}
		found := false
		for i, n := range m.axes.names[x] {
			if i > 0 && n == value {
				s.v[x], found = uint16(i), true
			}
		}
		if !found {
			want := "another axis; this rig has no states of " + name
			if names := m.axes.names[x]; len(names) > 1 {
				want = "one of " + fields.Some(names[1:], 12)
			}
			return State{}, &units.FieldError{Path: "state." + name, Value: value, Want: want, Err: problem.Words("no such value of the axis", units.ErrRange)}
		}
	}
	return s, nil
}

// A StatesError reports that a rig has more states than can be enumerated,
// with the number of values of each axis.
type StatesError struct {
	Axis  Axis
	Count int
	Limit int
}

// Error names the axis and says what would do.
func (e *StatesError) Error() string {
	return fmt.Sprintf("too many states: axis %s has %d values, at most %d are enumerated; list the wanted ones or split the rig", e.Axis, e.Count, e.Limit)
}

const (
	maxLines = 8   // 256 combinations of open guns
	maxTanks = 10  // 1,024 fill corners, water and fuel together
	maxPlugs = 512 // plug assignments
)

// subsetName names a subset of ids by its members, or by none if it is empty.
func subsetName(ids []string, bits int, none string) string {
	var in []string
	for i, id := range ids {
		if bits&(1<<i) != 0 {
			in = append(in, id)
		}
	}
	if len(in) == 0 {
		return none
	}
	sort.Strings(in)
	return strings.Join(in, "+")
}

// compileAxes lists the values of every axis of the resolved specification.
func compileAxes(s *Spec) (*axisSet, error) {
	a := new(axisSet)
	if n := len(s.Lines); n > maxLines {
		return nil, &StatesError{AxisGuns, 1 << min(n, 30), 1 << maxLines}
	} else if n > 0 {
		ids := lineIDs(s)
		for bits := range 1 << n {
			a.add(AxisGuns, subsetName(ids, bits, "none"), Reachable)
		}
	}
	if len(s.Heaters) > 0 {
		a.add(AxisHeat, "off", Reachable)
		a.add(AxisHeat, "steady", Reachable)
		a.add(AxisHeat, "stuck", Fault)
	}
	for _, c := range s.Site.Conditions {
		a.add(AxisSite, c.ID, Reachable)
	}
	plugs, err := plugStates(s)
	if err != nil {
		return nil, err
	}
	for i, p := range plugs {
		r := Conceivable
		if i == 0 {
			r = Reachable
		}
		a.add(AxisPlugs, p.name, r)
	}
	fills, err := fillStates(s)
	if err != nil {
		return nil, err
	}
	for _, f := range fills {
		a.add(AxisFill, f.name, f.reach)
	}
	for _, mode := range modesOf(s) {
		a.add(AxisMode, mode.ID, Reachable)
	}
	if n := recoveryMotors(s); n > 0 {
		a.add(AxisMotors, "none", Reachable)
		for k := range n {
			a.add(AxisMotors, fmt.Sprint(k+1), Reachable)
		}
		a.add(AxisFilters, "clean", Reachable)
		a.add(AxisFilters, "change-out", Reachable)
	}
	suctionAxes(s, a)
	faultAxis(s, a)
	return a, nil
}

func lineIDs(s *Spec) []string {
	ids := make([]string, len(s.Lines))
	for i := range s.Lines {
		ids[i] = s.Lines[i].ID
	}
	return ids
}

// A plugState says which source each load is plugged into.
type plugState struct {
	name   string
	source []int // by load, index into Spec.Sources
}

// plugStates returns every assignment of the loads to the sources their plugs
// fit, the one of the specification first.
func plugStates(s *Spec) ([]plugState, error) {
	if len(s.Loads) == 0 {
		return nil, nil
	}
	index := map[string]int{}
	for i := range s.Sources {
		index[s.Sources[i].ID] = i
	}
	total := 1
	choices := make([][]int, len(s.Loads))
	for i := range s.Loads {
		l := &s.Loads[i]
		choices[i] = []int{index[l.Source]}
		for _, id := range l.May {
			if id != l.Source {
				choices[i] = append(choices[i], index[id])
			}
		}
		total *= len(choices[i])
		if total > maxPlugs {
			return nil, &StatesError{AxisPlugs, total, maxPlugs}
		}
	}
	out := make([]plugState, 0, total)
	for n := range total {
		p := plugState{source: make([]int, len(s.Loads))}
		var moved []string
		rest := n
		for i := range s.Loads {
			k := rest % len(choices[i])
			rest /= len(choices[i])
			p.source[i] = choices[i][k]
			if k > 0 {
				moved = append(moved, s.Loads[i].ID+">"+s.Sources[choices[i][k]].ID)
			}
		}
		p.name = "as-listed"
		if len(moved) > 0 {
			p.name = strings.Join(moved, "+")
		}
		out = append(out, p)
	}
	return out, nil
}

// A fillState says what every tank and fuel tank holds.
type fillState struct {
	name  string
	title string
	reach Reach
	water []float64 // m³ by tank
	fuel  []float64 // m³ by fuel tank
}

// fillStates returns the listed fill states and the corners: every tank full
// or empty, every fuel tank full or as it comes home. Tanks joined by an open
// crossover stand level.
func fillStates(s *Spec) ([]fillState, error) {
	if s.Trailer == nil && s.TowVehicle == nil && len(s.Crossovers) == 0 {
		return nil, nil // nothing is weighed, and nothing is mixed
	}
	var out []fillState
	for i := range s.Fills {
		f := fillState{name: s.Fills[i].ID, title: s.Fills[i].Title, reach: Reachable,
			water: make([]float64, len(s.Tanks)), fuel: make([]float64, len(s.FuelTanks))}
		if s.Fills[i].Reach == "conceivable" {
			f.reach = Conceivable
		}
		for _, l := range s.Fills[i].Levels {
			for k := range s.Tanks {
				if s.Tanks[k].ID == l.ID {
					f.water[k] = float64(l.Volume)
				}
			}
			for k := range s.FuelTanks {
				if s.FuelTanks[k].ID == l.ID {
					f.fuel[k] = float64(l.Volume)
				}
			}
		}
		level(s, f.water)
		out = append(out, f)
	}
	n := len(s.Tanks) + len(s.FuelTanks)
	if n > maxTanks {
		return nil, &StatesError{AxisFill, 1 << min(n, 30), 1 << maxTanks}
	}
	ids := make([]string, 0, n)
	for i := range s.Tanks {
		ids = append(ids, s.Tanks[i].ID)
	}
	for i := range s.FuelTanks {
		ids = append(ids, s.FuelTanks[i].ID)
	}
	taken := map[string]bool{}
	for i := range out {
		taken[out[i].name] = true
	}
	for bits := range 1 << n {
		f := fillState{name: "corner:" + subsetName(ids, bits, "dry"), reach: Conceivable,
			water: make([]float64, len(s.Tanks)), fuel: make([]float64, len(s.FuelTanks))}
		for k := range s.Tanks {
			if bits&(1<<k) != 0 {
				f.water[k] = float64(s.Tanks[k].Nominal)
			}
		}
		for k := range s.FuelTanks {
			f.fuel[k] = float64(s.FuelTanks[k].Home)
			if bits&(1<<(k+len(s.Tanks))) != 0 {
				f.fuel[k] = float64(s.FuelTanks[k].Volume)
			}
		}
		level(s, f.water)
		out = append(out, f)
	}
	return out, nil
}

// level lets the water of tanks that open crossovers join stand at one height.
// Tanks are taken as upright with one cross-section; tanks without a height
// count as equally high.
func level(s *Spec, water []float64) {
	group := make([]int, len(s.Tanks))
	for i := range group {
		group[i] = i
	}
	index := map[string]int{}
	for i := range s.Tanks {
		index[s.Tanks[i].ID] = i
	}
	for _, c := range s.Crossovers {
		if c.Valve != "open" {
			continue
		}
		a, b := group[index[c.From]], group[index[c.To]]
		for i := range group {
			if group[i] == b {
				group[i] = a
			}
		}
	}
	for g := range group {
		var members []int
		sum, full := 0.0, 0.0
		for i := range group {
			if group[i] == g {
				members = append(members, i)
				sum += water[i]
				full += float64(s.Tanks[i].Nominal)
			}
		}
		if len(members) < 2 {
			continue
		}
		sum = min(sum, full)
		share := commonLevel(s, members, sum)
		for k, i := range members {
			water[i] = share[k]
		}
	}
}

// commonLevel returns the volume in each member at the one height at which
// they hold sum together. The height is found tank by tank: below the lid of
// the lowest tank all fill, above it only the higher ones do.
func commonLevel(s *Spec, members []int, sum float64) []float64 {
	height := func(i int) float64 {
		for _, k := range members {
			if s.Tanks[k].Height == 0 {
				return 1
			}
		}
		return float64(s.Tanks[i].Height)
	}
	order := append([]int(nil), members...)
	sort.SliceStable(order, func(a, b int) bool { return height(order[a]) < height(order[b]) })
	h, used := 0.0, 0.0
	for k, i := range order {
		area := 0.0
		for _, j := range order[k:] {
			area += float64(s.Tanks[j].Nominal) / height(j)
		}
		step := area * (height(i) - h)
		if used+step >= sum {
			h += (sum - used) / area
			used = sum
			break
		}
		used += step
		h = height(i)
	}
	out := make([]float64, len(members))
	for k, i := range members {
		out[k] = float64(s.Tanks[i].Nominal) * min(h/height(i), 1)
	}
	return out
}
