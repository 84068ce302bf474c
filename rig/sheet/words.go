package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// digits is how many significant digits a sheet prints.
const digits = 4

// stateWords says a state in words: "left and right open, heat steady, on the
// afternoon".
func stateWords(m *rig.Model, s rig.State) string {
	var w []string
	if g := s.On(rig.AxisGuns); g != "" {
		if g == "none" {
			w = append(w, "every gun closed")
		} else {
			w = append(w, strings.ReplaceAll(g, "+", " and ")+" open")
		}
	}
	switch s.On(rig.AxisHeat) {
	case "off":
		w = append(w, "cold")
	case "steady":
		w = append(w, "hot")
	case "stuck":
		w = append(w, "burner stuck on")
	}
	if h := s.On(rig.AxisSite); h != "" {
		w = append(w, h)
	}
	if p := s.On(rig.AxisPlugs); p != "" && p != "as-listed" {
		w = append(w, plugWords(p))
	}
	if f := s.On(rig.AxisFill); f != "" {
		w = append(w, fillWords(m, f))
	}
	if len(w) == 0 {
		return "every state"
	}
	return strings.Join(w, ", ")
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

// component says which component a reading belongs to: "line left".
func component(r rig.Reading) string {
	list, _, _ := strings.Cut(string(r.Path()), "[")
	if r.Part == "" {
		list, _, _ = strings.Cut(list, ".")
		return strings.ReplaceAll(list, "_", " ")
	}
	return strings.TrimSuffix(strings.ReplaceAll(list, "_", " "), "s") + " " + r.Part
}

// against says a value against its limit with the margin: "20.06 hp against
// 16.63 hp, 21 % over".
func against(f rig.Finding, sys units.System) string {
	m := f.Reading.Metric
	if m == nil {
		return ""
	}
	if !f.Reading.Value.Given() {
		return m.Label
	}
	s := m.Label + " " + f.Reading.Text(sys, digits)
	if !f.Limit.Given() {
		return s
	}
	s += " against " + m.Text(f.Limit, sys, digits)
	if f.Limit.SI() == 0 {
		return s
	}
	switch f.Reading.Value.Kind() {
	case units.KindTemperature, units.KindTemperatureDelta, units.KindDuration:
		kind := f.Reading.Value.Kind()
		if kind == units.KindTemperature {
			kind = units.KindTemperatureDelta
		}
		d, err := units.NewQuantity(kind, f.Reading.Value.SI()-f.Limit.SI())
		if err == nil {
			s += ", " + signed(d.Text(sys, 3))
		}
		return s
	}
	p := 100 * f.Margin
	switch {
	case p < 0:
		return s + fmt.Sprintf(", past it by %.3g %%", -p)
	case p > 300:
		return s
	}
	return s + fmt.Sprintf(", %.2g %% to spare", p)
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
	s := fmt.Sprintf("Leans on %s, assumed %s", f.Leans[0], taken.Text(sys, digits))
	if o.Why != "" {
		s += " (" + o.Why + ")"
	}
	if f.Turns.Given() {
		s += "; the verdict turns at " + f.Turns.Text(sys, digits)
	}
	if f.Typical.Given() {
		s += ", inside the usual " + f.Typical.Low.Text(sys, digits) + " to " + f.Typical.High.Text(sys, digits) + ": measure it"
	}
	return s + "."
}

// days says a lead time in days.
func days(d units.Duration) string {
	n := d.In(units.Day)
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%.3g days", n)
}
