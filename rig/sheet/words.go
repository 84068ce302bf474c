package sheet

import (
	"fmt"
	"math"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// digits is how many significant digits a sheet prints.
const digits = 4

// none stands where there is no number.
const none = "–"

// axisWords say one axis of a state in words; an axis without an entry is said
// as name and value.
var axisWords = map[rig.Axis]func(m *rig.Model, value string) string{
	rig.AxisGuns: func(_ *rig.Model, v string) string {
		if v == "none" {
			return "every gun closed"
		}
		return strings.ReplaceAll(v, "+", " and ") + " open"
	},
	rig.AxisHeat: func(_ *rig.Model, v string) string {
		switch v {
		case "off":
			return "cold"
		case "steady":
			return "hot"
		case "stuck":
			return "burner stuck on"
		}
		return "heat " + v
	},
	rig.AxisSite: func(_ *rig.Model, v string) string { return v },
	rig.AxisPlugs: func(_ *rig.Model, v string) string {
		if v == "as-listed" {
			return ""
		}
		return plugWords(v)
	},
	rig.AxisFill:   fillWords,
	rig.AxisMotors: motorWords,
	rig.AxisFilters: func(_ *rig.Model, v string) string {
		if v == "clean" {
			return "filters new"
		}
		return "filters at change-out"
	},
	rig.AxisStrainer: func(_ *rig.Model, v string) string { return "strainer " + v },
	rig.AxisWater:    func(_ *rig.Model, v string) string { return v + " water drawn" },
	rig.AxisLevel:    func(_ *rig.Model, v string) string { return "tank " + v },
	rig.AxisFault:    faultWords,
	rig.AxisMode: func(m *rig.Model, v string) string {
		for _, x := range m.Modes() {
			if x.ID == v {
				return x.Title
			}
		}
		return "mode " + v
	},
}

// stateWords says a state in words: "left and right open, hot, afternoon".
// Axes in skip are left out.
func stateWords(m *rig.Model, s rig.State, skip ...rig.Axis) string {
	var w []string
	for _, a := range rig.Axes() {
		v := s.On(a)
		if v == "" || contains(skip, a) {
			continue
		}
		text := a.String() + " " + v
		if say := axisWords[a]; say != nil {
			text = say(m, v)
		}
		if text != "" {
			w = append(w, text)
		}
	}
	if len(w) == 0 {
		if len(skip) > 0 {
			return ""
		}
		return "every state"
	}
	return strings.Join(w, ", ")
}

func contains[T comparable](list []T, x T) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

func plugWords(p string) string {
	if p == "as-listed" {
		return "plugs as listed"
	}
	var w []string
	for _, move := range strings.Split(p, "+") {
		load, source, _ := strings.Cut(move, ">")
		w = append(w, load+" on "+source)
	}
	return strings.Join(w, ", ")
}

func fillWords(m *rig.Model, name string) string {
	if full, ok := strings.CutPrefix(name, "corner:"); ok {
		if full == "dry" {
			return "tanks empty, fuel as it comes home"
		}
		return "full: " + strings.ReplaceAll(full, "+", ", ") + "; the rest empty or as it comes home"
	}
	for _, f := range m.Fills() {
		if f.ID == name {
			return f.Title
		}
	}
	return name
}

// listWord is the name of a list for one of its elements: "fuel tank".
func listWord(list string) string {
	switch list {
	case "batteries":
		return "battery"
	case "supplies":
		return "supply"
	}
	return strings.TrimSuffix(strings.ReplaceAll(list, "_", " "), "s")
}

// listOf is the list a path begins with: "lines" for lines[left].flow, empty
// for trailer.total.
func listOf(p rig.Path) string {
	list, _, ok := strings.Cut(string(p), "[")
	if !ok {
		return ""
	}
	return list
}

// component says which component a reading belongs to: "line left".
func component(r rig.Reading) string {
	list, _, _ := strings.Cut(string(r.Path()), "[")
	if r.Part == "" {
		list, _, _ = strings.Cut(list, ".")
		return strings.ReplaceAll(list, "_", " ")
	}
	return named(listWord(list), r.Part)
}

// named says a component by list and id; one whose id is the word of its list is
// said once.
func named(word, id string) string {
	if word == id {
		return "the " + id
	}
	return word + " " + id
}

// against says a value against its limit with the margin: "20.06 hp against
// 16.63 hp, 21 % over".
func against(f rig.Finding, sys units.System) string {
	m := f.Reading.Metric
	if m == nil {
		return ""
	}
	if !f.Reading.Value.Given() {
		return standing(f)
	}
	if !f.Limit.Given() {
		return m.Label + " " + f.Reading.Text(sys, digits)
	}
	value, limit := apart(m, f.Reading.Value, f.Limit, sys)
	s := m.Label + " " + value + " against " + limit
	if d := distance(m, f.Reading.Value, f.Limit, f.Margin, sys); d != "" {
		s += ", " + d
	}
	return s
}

// standing says what stands at the path of a judgement on words, and what should.
func standing(f rig.Finding) string {
	s := f.Reading.Metric.Label
	switch {
	case f.Found != "":
		s += ": " + f.Found
	case f.Wanted != "":
		s += ": nothing"
	}
	if f.Wanted != "" {
		s += "; wanted: " + f.Wanted
	}
	return s
}

// apart prints a value and its limit with as many digits as it takes to tell them
// apart: no breach reads as two equal numbers.
func apart(m *rig.Metric, value, limit units.Quantity, sys units.System) (string, string) {
	for d := digits; ; d++ {
		a, b := m.Text(value, sys, d), m.Text(limit, sys, d)
		if a != b || value.SI() == limit.SI() || d == 12 {
			return a, b
		}
	}
}

// distance says how far a value is from its limit: a share of the limit, or the
// difference where a share means nothing.
func distance(m *rig.Metric, value, limit units.Quantity, margin float64, sys units.System) string {
	if !limit.Given() {
		return ""
	}
	if limit.SI() == 0 && margin < 0 && value.Kind() != units.KindTemperature {
		if d, err := units.NewQuantity(value.Kind(), math.Abs(value.SI())); err == nil {
			return beyond(value, limit) + m.Text(d, sys, 3) // no share of nothing
		}
	}
	if limit.SI() == 0 {
		return ""
	}
	switch kind := value.Kind(); kind {
	case units.KindTemperature, units.KindTemperatureDelta, units.KindDuration:
		if kind == units.KindTemperature {
			kind = units.KindTemperatureDelta
		}
		d, err := units.NewQuantity(kind, math.Abs(value.SI()-limit.SI()))
		if err != nil {
			return ""
		}
		if margin < 0 {
			return beyond(value, limit) + d.Text(sys, 3)
		}
		return d.Text(sys, 3) + " to spare"
	}
	p := 100 * margin
	switch {
	case p < 0:
		return fmt.Sprintf("%s%s %%", beyond(value, limit), units.FormatNumber(-p, 3))
	case p > 300:
		return ""
	}
	return fmt.Sprintf("%s %% to spare", units.FormatNumber(p, 2))
}

// beyond says on which side of its limit a bad value lies.
func beyond(value, limit units.Quantity) string {
	if value.SI() < limit.SI() {
		return "short of it by "
	}
	return "past it by "
}

func signed(s string) string {
	if strings.HasPrefix(s, "-") {
		return "−" + s[1:]
	}
	return "+" + s
}

// leanWords says what a verdict rests on and where it turns.
func leanWords(m *rig.Model, f rig.Finding, sys units.System) string {
	if len(f.Leans) == 0 {
		return ""
	}
	if f.Severity == rig.CannotJudge && !f.Turns.Given() {
		return "Give " + string(f.Leans[0]) + "."
	}
	o := m.Origin(f.Leans[0])
	taken, _ := m.Quantity(f.Leans[0])
	text := func(q units.Quantity) string { return rig.FieldText(f.Leans[0], q, sys, digits) }
	s := fmt.Sprintf("Leans on %s, assumed %s", f.Leans[0], text(taken))
	if o.Why != "" {
		s += " (" + o.Why + ")"
	}
	if f.Turns.Given() {
		s += "; the verdict turns at " + text(f.Turns)
	}
	if f.Typical.Given() {
		s += ", inside the usual " + text(f.Typical.Low) + " to " + text(f.Typical.High) + ": measure it"
	}
	return s + "."
}

// basisWord says a basis in a cell.
func basisWord(f rig.Footing) string {
	switch {
	case len(f.Assumed) > 0:
		return fmt.Sprintf("assumed (%d)", len(f.Assumed))
	case f.Basis == "":
		return "stated"
	}
	return string(f.Basis)
}

// days says a lead time in days.
func days(d units.Duration) string {
	n := d.In(units.Day)
	if n == 1 {
		return "1 day"
	}
	return units.FormatNumber(n, 3) + " days"
}
