package rig

import (
	"errors"
	"reflect"
	"slices"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// dangling says of each problem of a changed specification that refers to something
// the change took away what was taken away, and what would do. A name that was never
// there is not offered nothing in its place where a model does not go without. Other
// problems are left as they are.
func (m *Model) dangling(s *Spec, err error) error {
	t, terr := specTable()
	if terr != nil {
		return err
	}
	gone := map[string]bool{} // by path
	had, have := idsOfLists(t, m.written), idsOfLists(t, s)
	for list, ids := range had {
		for _, id := range ids {
			if !slices.Contains(have[list], id) {
				gone[list+"["+id+"]"] = true
			}
		}
	}
	all := problemsOf(err)
	if len(gone) == 0 && !slices.ContainsFunc(all, func(one error) bool { return offersNothing(one) != nil }) {
		return err
	}
	var out []error
	seen := map[string]bool{}
	x := &remedies{m: m, t: t, s: s, gone: gone, have: have, known: map[string]bool{}}
	for _, one := range all {
		x.known[one.Error()] = true
	}
	for _, one := range all {
		f, ok := one.(*units.FieldError)
		if !ok {
			out = append(out, one)
			continue
		}
		base, _, part := strings.Cut(f.Path, "[#")
		what := goneTo(t, f, base, gone)
		switch {
		case seen[f.Path]: // says again of the whole list what was said of its element
		case what == "":
			out = append(out, x.orNothing(f))
		default:
			seen[base] = part
			out = append(out, &units.FieldError{Path: f.Path, Value: f.Value, Want: x.without(f, base, what),
				Err: problem.Words(what+" was removed", fields.ErrUnknown)})
		}
	}
	return errors.Join(out...)
}

// idsOfLists returns the ids of every list of a specification by its name.
func idsOfLists(t *fields.Table, s *Spec) map[string][]string {
	out := map[string][]string{}
	t.Walk(s, func(v *fields.Visit) bool {
		if v.Field.Role == fields.List && v.Field.Pattern == v.Field.Name {
			for i := range v.Value.Len() {
				if id := v.Value.Index(i).FieldByName("ID"); id.IsValid() {
					out[v.Field.Name] = append(out[v.Field.Name], id.String())
				}
			}
		}
		return true
	})
	return out
}

// problemsOf takes joined errors apart.
func problemsOf(err error) []error {
	list, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	var out []error
	for _, one := range list.Unwrap() {
		out = append(out, problemsOf(one)...)
	}
	return out
}

// goneTo returns what was taken away that a problem refers to, empty if it refers to
// nothing of the kind.
func goneTo(t *fields.Table, f *units.FieldError, base string, gone map[string]bool) string {
	if gone[f.Value] {
		return f.Value
	}
	if row, ok := t.Lookup(base); ok && row.Ref != "" && gone[row.Ref+"["+f.Value+"]"] {
		return row.Ref + "[" + f.Value + "]"
	}
	try := func(id string, lists ...string) string {
		for _, list := range lists {
			if p := list + "[" + id + "]"; gone[p] {
				return p
			}
		}
		return ""
	}
	switch fields.Pattern(f.Path) {
	case "fills[].levels[]":
		id := strings.TrimSuffix(f.Path[strings.LastIndexByte(f.Path, '[')+1:], "]")
		return try(id, "tanks", "fuel_tanks")
	case "modes[].ends":
		end, tank, _ := strings.Cut(f.Value, ">")
		if what := try(end, "hose_ends"); what != "" {
			return what
		}
		return try(tank, "tanks")
	case "modes[].plugs":
		load, source, _ := strings.Cut(f.Value, ">")
		if what := try(load, "loads"); what != "" {
			return what
		}
		return try(source, "sources")
	}
	return ""
}

// remedies finds what would do for a field of a changed specification that refers to
// what is gone.
type remedies struct {
	m     *Model
	t     *fields.Table
	s     *Spec
	gone  map[string]bool
	have  map[string][]string // ids by list
	known map[string]bool     // problems of the specification as it is
}

// without says what would do for a field that refers to what is gone. Values are
// offered only if a model takes them, and another component only if it is alike.
func (x *remedies) without(f *units.FieldError, at, what string) string {
	if at[len(at)-1] == ']' { // the element has the id of what is gone
		return at + " removed too"
	}
	var want []string
	if i := strings.IndexByte(at, ']'); i >= 0 {
		want = append(want, at[:i+1]+" removed too")
	}
	row, ok := x.t.Lookup(at)
	if !ok {
		return strings.Join(want, "")
	}
	list, _, _ := strings.Cut(what, "[")
	said := false // whether the field has been named
	switch {
	case row.Role == fields.Words:
		v, ok := x.t.Value(x.s, at)
		if !ok {
			break
		}
		if left := strings.Join(wordsLeft(v, row.Ref, what, x.gone), " "); left != "" {
			if x.taken(f, at, left) {
				want = append([]string{at + " set to " + left}, want...)
			}
			return strings.Join(want, ", or ")
		}
	case row.Ref == "":
		want, said = append(want, at+" set to another component"), true
	default:
		var others []string
		for _, id := range x.have[list] {
			if x.alike(list, what, id) && x.taken(f, at, id) {
				others = append(others, id)
			}
		}
		if len(others) > 0 {
			want, said = append(want, at+" set to "+oneOf(others)), true
		}
	}
	if x.taken(f, at, "") {
		if !said {
			want = append(want, at+" left out")
		} else {
			want = append(want, "left out")
		}
	}
	return strings.Join(want, ", or ")
}

// orNothingWords end what would do for a field that may be left out.
const orNothingWords = ", or nothing"

// offersNothing returns the problem of an unknown name that is told to do with nothing,
// nil if it is no such problem.
func offersNothing(err error) *units.FieldError {
	if f, ok := err.(*units.FieldError); ok && errors.Is(f.Err, fields.ErrUnknown) && strings.HasSuffix(f.Want, orNothingWords) {
		return f
	}
	return nil
}

// orNothing is a problem without the offer of nothing where a model does not take that.
func (x *remedies) orNothing(f *units.FieldError) error {
	if offersNothing(f) == nil || x.taken(f, f.Path, "") {
		return f
	}
	e := *f
	e.Want = strings.TrimSuffix(f.Want, orNothingWords)
	return &e
}

// taken reports whether the problem of a field is gone with another text, and no other
// has come in its place.
func (x *remedies) taken(f *units.FieldError, at, text string) bool {
	c := x.s.Clone()
	if x.t.Set(c, at, text) != nil {
		return false
	}
	_, err := build(c, x.m.shelf, x.m)
	if err == nil {
		return true
	}
	for _, one := range problemsOf(err) {
		if p, ok := one.(*units.FieldError); !x.known[one.Error()] || ok && p.Path == f.Path && p.Value == f.Value {
			return false
		}
	}
	return true
}

// alike reports whether a component of a list may stand in for one that is gone: a tank
// with the same contents, a fuel tank with the same fuel, an outlet of the same source.
// Water that is fouled and fuel that does not burn there are taken by a model, and
// stop the rig.
func (x *remedies) alike(list, gone, id string) bool {
	var names []string
	switch list {
	case "tanks":
		names = []string{"contents"}
	case "fuel_tanks":
		names = []string{"fuel"}
	case "outlets":
		names = []string{"source", "receptacle"}
	case "sources":
		names = []string{"voltage", "legs"}
	}
	for _, n := range names {
		had, _, err := x.t.Get(x.m.spec, gone+"."+n)
		if err != nil {
			return false
		}
		has, _, err := x.t.Get(x.m.spec, list+"["+id+"]."+n)
		if err != nil { // it was added beside
			if has, _, err = x.t.Get(x.s, list+"["+id+"]."+n); err != nil {
				return false
			}
		}
		if had != has {
			return false
		}
	}
	return true
}

// wordsLeft are the words of a list that do not refer to what is gone.
func wordsLeft(v reflect.Value, ref, what string, gone map[string]bool) []string {
	_, id, _ := strings.Cut(strings.TrimSuffix(what, "]"), "[")
	var out []string
	for i := range v.Len() {
		w := v.Index(i).String()
		from, to, moved := strings.Cut(w, ">")
		if gone[w] || ref != "" && gone[ref+"["+w+"]"] || moved && (from == id || to == id) {
			continue
		}
		out = append(out, w)
	}
	return out
}

func oneOf(ids []string) string {
	if len(ids) == 1 {
		return ids[0]
	}
	return "one of " + fields.Some(ids, 12)
}
