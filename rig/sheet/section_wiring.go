package sheet

import (
	"errors"
	"fmt"
	"sort"
	"strings"

	"example.com/washrig/rig"
)

// plugCard says which plugs pass, which loads cannot all be on, what leaving a
// source off saves, and how a plug is moved.
func plugCard(d *Document, in *source) error {
	if len(in.spec.Sources) == 0 || len(in.spec.Loads) == 0 {
		return nil
	}
	card, err := in.rep.PlugCard()
	var many *rig.StatesError
	if err != nil && !errors.As(err, &many) {
		return err
	}
	movable := false
	for i := range in.spec.Loads {
		for _, s := range in.spec.Loads[i].May {
			movable = movable || s != in.spec.Loads[i].Source
		}
	}
	if !movable && len(card.Unplaceable) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Plugs that may be moved"})
	if many != nil {
		d.Add(Paragraph{Text: "Too many loads or sources to look for the smallest set that cannot be placed.", Strong: true})
	}
	if movable {
		var l List
		for _, x := range card.Passing {
			line := plugWords(x.State.On(rig.AxisPlugs))
			if x.Reading.Metric != nil {
				line += fmt.Sprintf(": passes with %s to spare (%s, %s)", share(x.Margin), component(x.Reading), x.Reading.Metric.Label)
			}
			l.Items = append(l.Items, line)
		}
		if len(l.Items) > 0 {
			d.Add(Paragraph{Text: "These ways to plug in carry everything at once, widest margin first. No other way passes."}, l)
		} else {
			d.Add(Paragraph{Text: "No way to plug in carries everything at once.", Strong: true})
		}
	}
	if len(card.Unplaceable) > 0 {
		d.Add(Paragraph{Strong: true, Text: fmt.Sprintf("Cannot all be on at once, wherever they are plugged in: %s. With %s left off the others can.",
			strings.Join(card.Unplaceable, ", "), strings.Join(card.LeaveOut, ", "))})
	}
	off := Table{Columns: []Column{left("leave off all day"), right("fuel saved"), right("engine hours saved"), right("quieter by"), left("plugs then")}}
	for _, s := range card.Off {
		if !s.Passes {
			continue
		}
		var plugs []string
		for load, at := range s.Plugs {
			plugs = append(plugs, load+" on "+at)
		}
		sort.Strings(plugs)
		quiet := none
		if s.Noise != 0 {
			quiet = fmt.Sprintf("%.0f dB", s.Noise)
		}
		off.Rows = append(off.Rows, []string{s.Source, s.Fuel.Quantity().Text(in.o.System, 3), s.Hours.Quantity().Text(in.o.System, 3), quiet, strings.Join(plugs, ", ")})
	}
	if len(off.Rows) > 0 {
		d.Add(off)
	}
	if !movable {
		return nil
	}
	d.Add(Paragraph{Strong: true, Text: "To move a plug: switch the load off, stop both sources, dry hands and plug, move it, start one source. Never tie two sources together; no cord has two plugs with pins."})
	if unknown := in.unknownNeutrals(); len(unknown) > 0 {
		d.Add(Paragraph{Strong: true, Text: "Not given: whether the neutral is bonded or floating on " + strings.Join(unknown, ", ") + ". Ask a licensed electrician before a plug is moved."})
	}
	return nil
}

// unknownNeutrals lists the sources that a movable plug meets whose neutral is
// not given.
func (in *source) unknownNeutrals() []string {
	var out []string
	for i := range in.spec.Sources {
		s := &in.spec.Sources[i]
		for k := range in.spec.Loads {
			l := &in.spec.Loads[k]
			if s.Neutral == "" && len(l.May) > 0 && (l.Source == s.ID || contains(l.May, s.ID)) && !contains(out, s.ID) {
				out = append(out, s.ID)
			}
		}
	}
	return out
}

func share(x float64) string { return fmt.Sprintf("%.1f %%", 100*x) }

// wires are outlets, cords, the burner's supply and the 12 V side.
func wires(d *Document, in *source) error {
	cell := func(p rig.Path) string { return in.span(p, rig.State{}, rig.Reachable).text(in.o.System) }
	var blocks []Block
	in.used = nil
	if len(in.spec.Outlets) > 0 {
		t := Table{Columns: []Column{left("outlet"), left("of"), right("breaker"), right("current"), right("of the breaker, lasting at 125 %"), right("leakage"), left("ground-fault protection")}}
		for i := range in.spec.Outlets {
			o := &in.spec.Outlets[i]
			breaker := none
			if o.Breaker != 0 {
				breaker = o.Breaker.Quantity().Text(in.o.System, digits)
			}
			guarded := o.GroundFault
			if guarded == "" {
				guarded = "NOT GIVEN"
			}
			at := rig.Path("outlets[" + o.ID + "]")
			t.Rows = append(t.Rows, []string{o.ID, o.Source, breaker, cell(at + ".current"), cell(at + ".loading"), cell(at + ".leakage"), guarded})
		}
		blocks = append(blocks, t)
	}
	if len(in.spec.Cords) > 0 {
		t := Table{Columns: []Column{left("cord"), left("loads"), right("length"), left("gauge"), right("current"), right("carries"), right("lost, running"), right("lost, starting"), left("thinnest that does")}}
		for i := range in.spec.Cords {
			c := &in.spec.Cords[i]
			thin, ok, err := in.rep.ThinnestCord(c.ID)
			if err != nil {
				return err
			}
			if !ok {
				thin = none
			}
			gauge := c.Gauge
			if gauge == "" {
				gauge = "NOT GIVEN"
			}
			run, start := none, none
			if len(c.Loads) == 1 {
				run, start = cell(rig.Path("loads["+c.Loads[0]+"].cord_drop")), cell(rig.Path("loads["+c.Loads[0]+"].cord_start_drop"))
			}
			at := rig.Path("cords[" + c.ID + "]")
			t.Rows = append(t.Rows, []string{c.ID, strings.Join(c.Loads, ", "), c.Length.Quantity().Text(in.o.System, digits), gauge, cell(at + ".current"), cell(at + ".ampacity"), run, start, thin})
		}
		blocks = append(blocks, t)
	}
	supply := Table{Columns: []Column{left("load"), right("voltage, running"), right("of its plate"), right("voltage, starting"), right("air of its fan"), right("in the deepest dip")}}
	for i := range in.spec.Loads {
		at := rig.Path("loads[" + in.spec.Loads[i].ID + "]")
		row := []string{in.spec.Loads[i].ID, cell(at + ".supply"), cell(at + ".supply_share"), cell(at + ".start_supply"), cell(at + ".fan_air"), cell(at + ".fan_air_in_dip")}
		if row[1] != none {
			supply.Rows = append(supply.Rows, row)
		}
	}
	if len(supply.Rows) > 0 {
		blocks = append(blocks, supply)
	}
	fan := Table{Columns: []Column{left("heater"), right("firing needed"), right("clean, fan at its plate"), right("clean, fan at its voltage"), right("clean, in the dip")}}
	for i := range in.spec.Heaters {
		at := rig.Path("heaters[" + in.spec.Heaters[i].ID + "]")
		row := []string{in.spec.Heaters[i].ID, cell(at + ".firing_rate"), cell(at + ".clean_firing"), cell(at + ".clean_firing_at_voltage"), cell(at + ".clean_firing_in_dip")}
		if row[3] != none {
			fan.Rows = append(fan.Rows, row)
		}
	}
	if len(fan.Rows) > 0 {
		blocks = append(blocks, fan)
	}
	if len(blocks) > 0 {
		d.Add(Heading{Text: "Outlets, cords and voltage"})
		d.Add(blocks...)
		d.Add(in.basisOfUsed()...)
		d.Add(Paragraph{Text: "Everything switched on, plugs as listed. Wires are taken at the temperature of each cord; a start is computed with everything else on the cord running."})
	}
	return in.direct(d)
}

// direct is the 12 V side.
func (in *source) direct(d *Document) error {
	if len(in.spec.Batteries) == 0 {
		return nil
	}
	cell := func(p rig.Path) string { return in.span(p, rig.State{}, rig.Reachable).text(in.o.System) }
	in.used = nil
	t := Table{Columns: []Column{left("battery"), left("engine"), right("left of the charging"), right("everything on"), right("left when cranking"), right("loads with the engine off"), right("standing")}}
	for i := range in.spec.Batteries {
		b := &in.spec.Batteries[i]
		at := rig.Path("batteries[" + b.ID + "]")
		t.Rows = append(t.Rows, []string{b.ID, b.Engine, cell(at + ".net_current"), cell(at + ".peak_current"), cell(at + ".cranking_reserve"), cell(at + ".engine_off_time"), cell(at + ".standing_time")})
	}
	d.Add(Heading{Text: "The 12 V side"}, t)
	t = Table{Columns: []Column{left("load"), left("battery"), right("current"), right("on, as counted"), right("on without draining it"), right("lost in its cable")}}
	for i := range in.spec.DirectLoads {
		l := &in.spec.DirectLoads[i]
		at := rig.Path("direct_loads[" + l.ID + "]")
		t.Rows = append(t.Rows, []string{l.ID, l.Battery, l.Current.Quantity().Text(in.o.System, digits), l.Duty.Quantity().Text(in.o.System, 3), cell(at + ".sustained_duty"), cell(at + ".cable_drop")})
	}
	if len(t.Rows) > 0 {
		d.Add(t)
	}
	d.Add(in.basisOfUsed()...)
	return nil
}
