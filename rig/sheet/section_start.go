package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// startCard is, for each mode, where each load is plugged in and the order in
// which the loads are switched on.
func startCard(d *Document, in *source) error {
	if len(in.spec.Loads) == 0 {
		d.Add(Paragraph{Text: "No electrical loads are listed."})
		return nil
	}
	d.Add(Heading{Text: "Where each load is plugged in"})
	t := Table{Columns: []Column{left("load"), left("plugged into"), left("its plug also fits"), left("starts"), right("running"), right("starting"), left("basis of the start")}}
	for i := range in.spec.Loads {
		l := &in.spec.Loads[i]
		var may []string
		for _, s := range l.May {
			if s != l.Source {
				may = append(may, s)
			}
		}
		t.Rows = append(t.Rows, []string{l.ID, l.Source, strings.Join(may, ", "), strings.ReplaceAll(l.Starts, "-", " "), in.power(l.Running), in.power(l.Starting), in.origin(rig.Path("loads[" + l.ID + "].starting"))})
	}
	d.Add(t)
	d.Add(Heading{Text: "Order of switching on"})
	for _, mode := range in.m.Modes() {
		loads := mode.Loads
		if loads == nil && len(in.spec.Modes) > 0 {
			loads = []string{}
		}
		at, err := in.m.ParseState("mode=" + mode.ID)
		if err != nil {
			return err
		}
		orders, err := in.m.StartOrders(at, loads)
		if err != nil {
			return err
		}
		d.Add(Heading{Text: mode.Title, Minor: true})
		if len(orders) == 0 {
			d.Add(Paragraph{Text: "Nothing is switched on."})
			continue
		}
		steps := Table{Columns: []Column{left("source"), right("step"), left("switch on"), right("runs already"), right("peak while it starts"), right("at the engine")}}
		for _, o := range orders {
			for i, st := range o.Steps {
				what := strings.Join(st.Loads, ", ")
				if !st.ByHand {
					what += " (by itself, at any time)"
				}
				steps.Rows = append(steps.Rows, []string{o.Source, fmt.Sprint(i + 1), what, in.watts(st.Running), in.watts(st.Peak), in.shaft(st.Shaft)})
			}
		}
		d.Add(steps)
	}
	d.Add(Paragraph{Text: "Steps follow one another on each source; the card of the mode sets them among everything else: a burner only with water running."})
	d.Add(Paragraph{Text: "When power comes back after a trip: switch every load off first, then start again in this order. A load that starts by itself may start at any moment; its peak counts on top of everything else.", Strong: true})
	return nil
}

func (in *source) watts(p units.Power) string {
	for _, u := range units.KindPower.Units() {
		if u.Symbol() == "W" {
			return p.Quantity().TextIn(u, digits)
		}
	}
	return p.Quantity().Text(in.o.System, digits)
}

// shaft is power at an engine's shaft.
func (in *source) shaft(p units.Power) string {
	if p == 0 {
		return none
	}
	return p.Quantity().Text(in.o.System, digits)
}

func (in *source) power(p units.Power) string {
	if p == 0 {
		return none
	}
	return in.watts(p)
}

// plates sets what a source is rated for beside what it carries for a start,
// as its plate says.
func plates(d *Document, in *source) error {
	t := Table{Columns: []Column{left("source"), right("rated to run, plate"), right("start, plate"), left("basis"), left("driven by")}}
	for i := range in.spec.Sources {
		s := &in.spec.Sources[i]
		by := "its own engine"
		switch {
		case s.Engine != "":
			by = "engine " + s.Engine
		case s.Battery != "":
			by = "battery " + s.Battery
		case s.Type == "shore":
			by = "the mains"
		}
		t.Rows = append(t.Rows, []string{s.ID, in.power(s.Running), in.power(s.Starting), in.origin(rig.Path("sources[" + s.ID + "].running")), by})
	}
	if len(t.Rows) > 0 {
		d.Add(Heading{Text: "Rated against start watts"}, t, Paragraph{Text: "Start watts last for the start of a motor and no longer. What a source may carry for hours is its run rating, less what the site takes."})
	}
	return nil
}

// valves are the positions of the valves and the settings a technician leaves
// them at, then the order of shutting down.
func valves(d *Document, in *source) error {
	t := Table{Columns: []Column{left("valve or setting"), left("where"), right("position or setting"), left("basis")}}
	contents := map[string]string{}
	for i := range in.spec.Tanks {
		contents[in.spec.Tanks[i].ID] = in.spec.Tanks[i].Contents
	}
	warn := false
	for i := range in.spec.Crossovers {
		c := &in.spec.Crossovers[i]
		where := c.From + " (" + contents[c.From] + ") to " + c.To + " (" + contents[c.To] + ")"
		warn = warn || contents[c.From] != contents[c.To]
		t.Rows = append(t.Rows, []string{"crossover " + c.ID, where, strings.ToUpper(c.Valve), in.origin(rig.Path("crossovers[" + c.ID + "].valve"))})
	}
	for _, m := range rig.Metrics() {
		if m.Source != "specification" {
			continue
		}
		for r := range in.rep.All(m.Path) {
			t.Rows = append(t.Rows, []string{m.Label, component(r), r.Text(in.o.System, digits), basisWord(in.footing(m.Path))})
		}
	}
	if len(t.Rows) > 0 {
		d.Add(Heading{Text: "Valves and settings"}, t)
	}
	if warn {
		d.Add(Paragraph{Text: "A crossover between tanks of different contents fouls the cleaner one when it is opened.", Strong: true})
	}
	for _, c := range rig.Cautions() {
		if c.Hazard == "Shutting down" {
			d.Add(Heading{Text: "Shutting down"}, Paragraph{Text: c.Text, Strong: true})
		}
	}
	return nil
}
