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
// the change took away what was taken away, and what would do. Other problems are
// left as they are.
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
	if len(gone) == 0 {
		return err
	}
	var out []error
	seen := map[string]bool{}
	for _, one := range problemsOf(err) {
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
			out = append(out, one)
		default:
			seen[base] = part
			out = append(out, &units.FieldError{Path: f.Path, Value: f.Value, Want: without(t, s, base, what, gone, have),
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

// without says what would do for a field that refers to what is gone.
func without(t *fields.Table, s *Spec, at, what string, gone map[string]bool, have map[string][]string) string {
	if at[len(at)-1] == ']' { // the element has the id of what is gone
		return at + " removed too"
	}
	owner := at
	if i := strings.IndexByte(at, ']'); i >= 0 {
		owner = at[:i+1]
	}
	want := owner + " removed too"
	row, ok := t.Lookup(at)
	if !ok {
		return want
	}
	list, _, _ := strings.Cut(what, "[")
	if row.Role == fields.Words {
		v, ok := t.Value(s, at)
		if !ok {
			return want
		}
		if left := wordsLeft(v, row.Ref, what, gone); len(left) > 0 {
			return at + " set to " + strings.Join(left, " ") + ", or " + want
		}
		return want + ", or " + at + " left out"
	}
	if others := have[list]; len(others) > 0 && row.Ref != "" {
		want += ", or " + at + " set to " + oneOf(others)
	} else if row.Ref == "" {
		want += ", or " + at + " set to another component"
	}
	if !row.Need {
		want += ", or left out"
		if strings.Count(want, ", or ") == 1 {
			want = owner + " removed too, or " + at + " left out"
		}
	}
	return want
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
