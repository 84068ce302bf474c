package rig

import (
	"fmt"
	"slices"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A modePlugs is a mode in which plugs stand otherwise than listed: the source of
// each load that runs in it, −1 for one that does not.
type modePlugs struct {
	mode   int // on AxisMode
	guns   int // on AxisGuns
	source []int
}

// sourceOf is the source a load is plugged into in the mode.
func (m *Mode) sourceOf(l *Load) string {
	for _, move := range m.Plugs {
		if id, source, ok := strings.Cut(move, ">"); ok && id == l.ID {
			return source
		}
	}
	return l.Source
}

// pluggedModes are the modes that move a plug.
func pluggedModes(s *Spec) []modePlugs {
	index := map[string]int{}
	for i := range s.Sources {
		index[s.Sources[i].ID] = i
	}
	var out []modePlugs
	for i := range s.Modes {
		mode := &s.Modes[i]
		if len(mode.Plugs) == 0 {
			continue
		}
		p := modePlugs{mode: i + 1, source: make([]int, len(s.Loads))}
		for k := range s.Lines {
			for _, g := range mode.Guns {
				if s.Lines[k].ID == g {
					p.guns |= 1 << k
				}
			}
		}
		if len(s.Lines) > 0 {
			p.guns++
		}
		for k := range s.Loads {
			p.source[k] = -1
			for _, id := range mode.Loads {
				if id == s.Loads[k].ID {
					p.source[k] = index[mode.sourceOf(&s.Loads[k])]
				}
			}
		}
		out = append(out, p)
	}
	return out
}

// senseOfModePlugs refuses plugs that name nothing or do not fit.
func senseOfModePlugs(s *Spec) []error {
	var errs []error
	for i := range s.Modes {
		moved := map[string]bool{}
		for _, move := range s.Modes[i].Plugs {
			at := "modes[" + s.Modes[i].ID + "].plugs"
			bad := func(want string, err error) {
				errs = append(errs, &units.FieldError{Path: at, Value: move, Want: want, Err: err})
			}
			id, source, ok := strings.Cut(move, ">")
			var load *Load
			for k := range s.Loads {
				if s.Loads[k].ID == id {
					load = &s.Loads[k]
				}
			}
			switch {
			case !ok:
				bad("a load and a source, such as dump-pump>belt", units.ErrSyntax)
			case load == nil:
				bad("a load of the rig before the >", units.ErrRange)
			case moved[id]:
				bad("each load once", units.ErrConflict)
			case source != load.Source && !slices.Contains(load.May, source):
				bad("a source that the plug of "+id+" fits: "+strings.Join(append([]string{load.Source}, load.May...), ", "), units.ErrConflict)
			}
			moved[id] = true
		}
	}
	return errs
}

// senseOfModes refuses guns and chemicals that a mode names twice and hose ends that it
// moves to where nothing is.
func senseOfModes(s *Spec) []error {
	var errs []error
	for i := range s.Modes {
		m := &s.Modes[i]
		at := "modes[" + m.ID + "]."
		for _, list := range []struct {
			name  string
			words []string
		}{{"guns", m.Guns}, {"loads", m.Loads}, {"open", m.Open}, {"sprays", m.Sprays}} {
			for k, w := range list.words {
				if slices.Contains(list.words[:k], w) {
					errs = append(errs, &units.FieldError{Path: fmt.Sprintf("%s%s[#%d]", at, list.name, k+1), Value: w, Want: "each name once", Err: problem.Words("given twice", units.ErrConflict)})
				}
			}
		}
		moved := map[string]bool{}
		for _, move := range m.Ends {
			bad := func(want string, err error) {
				errs = append(errs, &units.FieldError{Path: at + "ends", Value: move, Want: want, Err: err})
			}
			id, place, ok := strings.Cut(move, ">")
			switch {
			case !ok:
				bad("a hose end and a tank, such as return>recovered", units.ErrSyntax)
			case !slices.ContainsFunc(s.HoseEnds, func(e HoseEnd) bool { return e.ID == id }):
				bad("before the > one of the hose ends "+strings.Join(elementIDs(s.HoseEnds, func(e *HoseEnd) string { return e.ID }), ", "), fields.ErrUnknown)
			case place != "" && !slices.ContainsFunc(s.Tanks, func(t Tank) bool { return t.ID == place }):
				bad("after the > one of the tanks "+strings.Join(elementIDs(s.Tanks, func(t *Tank) string { return t.ID }), ", ")+", or nothing", fields.ErrUnknown)
			case moved[id]:
				bad("each hose end once", problem.Words("given twice", units.ErrConflict))
			}
			moved[id] = true
		}
	}
	return errs
}
