package rig

import (
	"slices"
	"strings"

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
