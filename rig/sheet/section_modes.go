package sheet

import (
	"example.com/washrig/rig"
)

// modes are what the rig does in each mode: a table for each list of components
// whose headlines depend on the guns, in the worst hour the day reaches.
func modes(d *Document, in *source) error {
	if len(in.spec.Lines) == 0 {
		return nil
	}
	d.Add(Heading{Text: "What it does"})
	for _, mode := range in.m.Modes() {
		d.Add(Heading{Text: mode.Title, Minor: true})
		for _, list := range headlineLists() {
			if t, ok := in.modeTable(list, mode); ok {
				d.Add(t)
			}
		}
	}
	d.Add(Paragraph{Text: "The worst hour of the day counts, with every load switched on. Temperatures are at the coil unless a heading says otherwise."})
	return nil
}

// stands reports whether a component stands still in a mode: nothing is said of
// what it would do.
func stands(mode rig.ModeState, list, id string) bool {
	switch list {
	case "engines", "pumps", "heaters", "sources":
		return !contains(mode.Runs, rig.Path(list+"["+id+"]"))
	}
	return false
}

func (in *source) modeTable(list string, mode rig.ModeState) (Table, bool) {
	state := mode.State
	columns := headlines(list)
	var parts []string
	byGuns := false
	for _, h := range columns {
		for r := range in.rep.Among(h.Path, state, rig.Reachable) {
			byGuns = byGuns || r.State.On(rig.AxisGuns) != ""
			if !contains(parts, r.Part) && !stands(mode, list, r.Part) {
				parts = append(parts, r.Part)
			}
		}
	}
	if !byGuns || len(parts) == 0 {
		return Table{}, false
	}
	var used []rig.Headline
	for _, h := range columns {
		if in.span(h.Path, state, rig.Reachable).ok {
			used = append(used, h)
		}
	}
	t := Table{Columns: []Column{left(listWord(list))}}
	for _, h := range used {
		t.Columns = append(t.Columns, right(h.Short))
	}
	said := false
	for _, p := range parts {
		row := []string{p}
		var shown []rig.Reading
		weakest := rig.Footing{Basis: rig.Measured}
		for _, h := range used {
			x := in.span(at(h.Path, p), state, rig.Reachable)
			row = append(row, x.text(in.o.System))
			shown = append(shown, x.readings()...)
			if x.ok {
				weakest = weaker(weakest, in.footing(h.Path))
			}
		}
		where := in.where(shown, rig.AxisGuns, rig.AxisHeat, rig.AxisMotors)
		said = said || where != ""
		t.Rows = append(t.Rows, append(row, basisWord(weakest), where))
	}
	t.Columns = append(t.Columns, left("basis"))
	if said { // some number of the list depends on more than guns and heat
		t.Columns = append(t.Columns, left("when"))
	}
	return t, true
}

// at puts an id into the brackets of a pattern.
func at(p rig.Path, id string) rig.Path {
	s := string(p)
	for i := 0; i+1 < len(s); i++ {
		if s[i] == '[' && s[i+1] == ']' {
			return rig.Path(s[:i+1] + id + s[i+1:])
		}
	}
	return p
}

// weaker joins two footings: the weaker basis and every assumed input.
func weaker(a, b rig.Footing) rig.Footing {
	rank := func(x rig.Basis) int {
		for i, y := range []rig.Basis{rig.Measured, rig.Nameplate, rig.Catalogue, "", rig.Assumed} {
			if x == y {
				return i
			}
		}
		return 0
	}
	out := a
	if rank(b.Basis) > rank(a.Basis) {
		out.Basis = b.Basis
	}
	out.Assumed = append([]rig.Path(nil), a.Assumed...)
	for _, p := range b.Assumed {
		if !contains(out.Assumed, p) {
			out.Assumed = append(out.Assumed, p)
		}
	}
	return out
}
