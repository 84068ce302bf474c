package tank

import (
	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Workspace holds what the lines of suctions and fillings need in between. One that
// is kept solves further ones without asking for memory; it must not be used by two
// goroutines at once. The zero Workspace is ready.
type Workspace struct{ run hydraulics.Run }

// lay makes the line of w.
func (w *Workspace) lay(fluid hydraulics.Fluid, elements []hydraulics.Element) error {
	for i, e := range elements {
		if e == nil {
			return &units.FieldError{Path: problem.Element("line", "", i), Want: "an element of package hydraulics", Err: units.ErrMissing}
		}
	}
	return w.run.Set(fluid, "line", elements)
}
