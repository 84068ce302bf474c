package rig

import (
	"slices"
	"strconv"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// mostListed and mostStates are how many paths and states an error lists.
const (
	mostListed = 6
	mostStates = 4
)

// noReading is the error of a path and a state that have no number together: either
// there is no such number, or it is not in that state.
func (v *View) noReading(p Path, s State) error {
	var of []State // of the path
	var all []string
	pattern := p.Pattern()
	var same []string // paths of the same metric
	for _, n := range v.numbers {
		for r := range n.all(func(*Metric, string) bool { return true }) {
			at := r.Path()
			if at == p {
				of = append(of, r.State)
			}
			if len(all) == 0 || all[len(all)-1] != string(at) {
				all = append(all, string(at))
				if r.Metric.Path == pattern {
					same = append(same, string(at))
				}
			}
		}
	}
	if len(of) > 0 {
		return noState(p, s, of)
	}
	slices.Sort(same)
	e := &units.FieldError{Path: string(p)}
	t, err := specTable()
	if err != nil {
		return err
	}
	switch mt := metricOf(p); {
	case len(same) > 0:
		e.Err, e.Want = problem.Words("no such number: it has no component of that id", fields.ErrUnknown), fields.Some(slices.Compact(same), mostListed)
		if strings.Contains(string(p), "[]") {
			e.Err = problem.Words("covers several numbers, and one is explained at a time", fields.ErrUnknown)
		}
	case mt != nil:
		e.Err, e.Want = problem.Words("a number that this rig does not have", units.ErrMissing), "what it is computed from: "+fields.Some(pathTexts(mt.Inputs), mostListed)
	case t.Exists(v.model.spec, string(p)) == nil && !strings.HasSuffix(string(p), "]"):
		e.Err, e.Want = problem.Words("a field of the specification, not a number computed from it", fields.ErrUnknown), "the path of a number, such as "+fields.Some(movedBy(p, all), 2)
	default:
		e.Err, e.Want = problem.Words("no such number", fields.ErrUnknown), fields.Some(nearPaths(string(p), all), mostListed)
	}
	return e
}

// noState is the error of a state in which a number does not stand: the states it
// stands in that say the same as s on most axes come first.
func noState(p Path, s State, of []State) error {
	agree := func(x *State) (same, against int) {
		for a := range axisCount {
			switch {
			case s.v[a] == 0 || x.v[a] == 0:
			case s.v[a] == x.v[a]:
				same++
			default:
				against++
			}
		}
		return same, against
	}
	least := -1
	for i := range of {
		if _, n := agree(&of[i]); least < 0 || n < least {
			least = n
		}
	}
	var best []string
	var lacks, wrong []string // axes that s leaves out, and that it has otherwise than any state
	for i := range of {
		x := &of[i]
		if _, n := agree(x); n != least {
			continue
		}
		if len(best) == 0 {
			for a := range axisCount {
				switch {
				case s.v[a] == 0 && x.v[a] != 0:
					lacks = append(lacks, axisNames[a])
				case s.v[a] != 0 && x.v[a] != 0 && s.v[a] != x.v[a]:
					wrong = append(wrong, axisNames[a]+"="+s.set.names[a][s.v[a]])
				}
			}
		}
		if text := x.String(); !slices.Contains(best, text) {
			best = append(best, text)
		}
	}
	words := string(p) + " has no number where " + strings.Join(lacks, ", ") + " is left out"
	if least > 0 {
		words = string(p) + " has no number with " + strings.Join(wrong, " and ")
	} else if len(lacks) > 1 {
		words = string(p) + " has no number where " + strings.Join(lacks, ", ") + " are left out"
	}
	want := strings.Join(best[:min(len(best), mostStates)], "; ")
	if len(best) > mostStates {
		want += "; and " + strconv.Itoa(len(best)-mostStates) + " more"
	}
	return &units.FieldError{Path: "state", Value: s.String(), Want: want, Err: problem.Words(words, units.ErrRange)}
}

// metricOf returns the metric of a path or pattern, nil if it is none.
func metricOf(p Path) *Metric {
	pattern := p.Pattern()
	for _, m := range metricTable {
		if m.Path == pattern {
			return m
		}
	}
	return nil
}

// computed is the error of a number that is computed and was to be changed as if it
// were given, with a field of s that it is computed from.
func (m *Metric) computed(t *fields.Table, s *Spec, p Path, why string) error {
	want := "a field of the specification; it is computed as " + m.Formula
	if q := m.inputIn(t, s, p, func(v *fields.Visit) bool { return v.Field.Kind.Valid() && !v.Value.IsZero() }); q != "" {
		want = "one of its inputs, such as " + string(q)
	} else if w := m.inputIn(t, s, p, func(v *fields.Visit) bool {
		return v.Field.Role == fields.Value && v.Field.Kind.Valid() || len(v.Field.Choices) > 0 || v.Field.Role == fields.Count
	}); w != "" {
		want = "one of its inputs changed by Set, such as " + string(w)
	}
	return &units.FieldError{Path: string(p), Want: want, Err: problem.Words(why, fields.ErrUnknown)}
}

// inputIn returns the path of a field of s that a metric at p reads and that is wanted:
// one of the component at p before others, of its inputs in their order. It is empty if
// there is none.
func (m *Metric) inputIn(t *fields.Table, s *Spec, p Path, wanted func(*fields.Visit) bool) Path {
	own, any := Path(""), Path("")
	for _, in := range m.Inputs {
		t.Walk(s, func(v *fields.Visit) bool {
			if pattern := Path(v.Field.Pattern); own == "" && in.covers(pattern) && v.Field.Name != "id" && wanted(v) {
				at := Path(v.Path())
				if elementOf(p) != "" && elementOf(at) == elementOf(p) {
					own = at
				}
				if any == "" {
					any = at
				}
			}
			return own == ""
		})
	}
	if own != "" {
		return own
	}
	return any
}

func pathTexts(list []Path) []string {
	out := make([]string, len(list))
	for i, p := range list {
		out[i] = string(p)
	}
	return out
}

// nearPaths returns the paths that were probably meant: those that hold what was
// given, else the nearest by their letters.
func nearPaths(p string, all []string) []string {
	for _, has := range [...]func(x, p string) bool{strings.HasPrefix, strings.HasSuffix, strings.Contains} {
		var found []string
		for _, x := range all {
			if p != "" && has(x, p) {
				found = append(found, x)
			}
		}
		if len(found) > 0 {
			slices.Sort(found)
			return slices.Compact(found)
		}
	}
	return fields.Near(p, all, mostListed)
}

// movedBy returns numbers that read the field of a path.
func movedBy(p Path, all []string) []string {
	pattern := p.Pattern()
	var out []string
	for _, x := range all {
		if m := metricOf(Path(x)); m != nil && slices.ContainsFunc(m.Inputs, func(in Path) bool { return in == pattern || in.covers(pattern) }) {
			if !slices.Contains(out, x) {
				out = append(out, x)
			}
		}
		if len(out) == 2 {
			return out
		}
	}
	if len(out) == 0 {
		return fields.Near(string(p), all, 1)
	}
	return out
}
