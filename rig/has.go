package rig

import (
	"reflect"
	"strings"
)

// Has reports whether the component that a path belongs to is there: for
// heaters[main].firing_rate the heater main, for the pattern
// heaters[].firing_rate any heater, for trailer.total the trailer. Fields of
// the rig as a whole, such as those of the site, are always there.
func (m *Model) Has(p Path) bool {
	t, err := specTable()
	if err != nil {
		return false
	}
	name, _, _ := strings.Cut(string(p), ".")
	list, id, element := strings.Cut(name, "[")
	v, ok := t.Value(m.spec, list)
	switch {
	case !ok:
		return false
	case !element:
		return v.Kind() != reflect.Pointer || !v.IsNil()
	case id == "]":
		return v.Len() > 0
	}
	return t.Exists(m.spec, name) == nil
}
