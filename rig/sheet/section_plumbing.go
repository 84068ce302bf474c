package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/hydraulics"
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// plumbingPage is the tips and their stocked neighbours, the losses from pump
// to nozzle by element, and the ladder of pressures.
func plumbingPage(d *Document, in *source) error {
	if len(in.spec.Lines) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Tips, losses and valves"})
	if err := tips(d, in); err != nil {
		return err
	}
	for _, p := range in.spec.Pumps {
		if err := waterfall(d, in, p.ID); err != nil {
			return err
		}
	}
	ladder(d, in)
	d.Add(Paragraph{Text: "A trigger that closes sends a wave through the hose; its peak is a band until the hose is measured, and a relief valve does not see it."})
	return nil
}

// tipsAndLadder is for the dealer's page: tips and the ladder, without the losses.
func tipsAndLadder(d *Document, in *source) error {
	if len(in.spec.Lines) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Tips and valves"})
	if err := tips(d, in); err != nil {
		return err
	}
	ladder(d, in)
	return nil
}

// tips shows the exact number for the middle of the wanted band and both
// stocked neighbours.
func tips(d *Document, in *source) error {
	if in.spec.Duty.NozzlePressureLow == 0 || in.spec.Duty.NozzlePressureHigh == 0 {
		return nil
	}
	list, err := in.m.Nozzles()
	if err != nil {
		return err
	}
	t := Table{Columns: []Column{left("pump"), left("tip"), right("number"), right("at the nozzle"), right("flow a gun"), right("bypassed"), right("needed at the pump"), left("band")}}
	add := func(pump, which string, c hydraulics.NozzleChoice) {
		if c.Number == 0 {
			return
		}
		word := "met"
		if !c.Meets {
			word = "not met"
		}
		sys := in.o.System
		t.Rows = append(t.Rows, []string{pump, which, fmt.Sprintf("%.3g", float64(c.Number)), c.Pressure.Quantity().Text(sys, digits), c.Flow.Quantity().Text(sys, 3),
			c.Bypass.Quantity().Text(sys, 3), c.Needed.Quantity().Text(sys, digits), word})
	}
	for _, a := range list {
		add(a.Pump, "exact for "+a.Wanted.Quantity().Text(in.o.System, digits), a.Exact)
		add(a.Pump, "stocked below", a.Below)
		add(a.Pump, "stocked above", a.Above)
	}
	if len(t.Rows) > 0 {
		d.Add(t)
	}
	for _, a := range list {
		if a.Neither {
			d.Add(Paragraph{Text: "Pump " + a.Pump + ": neither stocked neighbour meets the wanted band."})
		}
	}
	return nil
}

// waterfall shows where the pressure goes between a pump and its nozzles, with
// every gun of the pump open.
func waterfall(d *Document, in *source, pump string) error {
	var guns []string
	for _, l := range in.spec.Lines {
		if l.Pump == pump {
			guns = append(guns, l.ID)
		}
	}
	if len(guns) == 0 {
		return nil
	}
	text := "guns=" + strings.Join(sorted(guns), "+")
	if len(in.spec.Heaters) > 0 {
		text += " heat=steady"
	}
	s, err := in.m.ParseState(text)
	if err != nil {
		return err
	}
	net, res, err := in.m.LineResult(pump, s)
	if err != nil {
		return nil // no answer in this state: the findings say why
	}
	sys := in.o.System
	t := Table{Columns: []Column{left("pump " + pump), left("element"), right("loss"), right("speed"), right("Reynolds"), left("flow is")}}
	for i, sec := range net.Sections {
		for k, e := range sec.Elements {
			r := res.Sections[i].Elements[k]
			name := e.Plate().Name
			if name == "" {
				name = "tube"
			}
			row := []string{sec.Name, name, r.Loss.Quantity().Text(sys, 3), none, none, none}
			if r.Velocity != 0 {
				row[3] = r.Velocity.Quantity().Text(sys, 3)
			}
			if r.Reynolds != 0 {
				row[4] = units.FormatNumber(r.Reynolds, 3)
				row[5] = r.Regime.String()
			}
			t.Rows = append(t.Rows, row)
		}
		if sec.Outlet != nil && !sec.Outlet.Closed {
			t.Rows = append(t.Rows, []string{sec.Name, "nozzle", res.Sections[i].Outlet.Quantity().Text(sys, digits), none, none, none})
		}
	}
	d.Add(t)
	return nil
}

func sorted(list []string) []string {
	out := append([]string(nil), list...)
	for i := range out {
		for j := i; j > 0 && out[j] < out[j-1]; j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

// ladder shows the pressures that have to lie in order, and the peak of the
// trigger beside them.
func ladder(d *Document, in *source) {
	in.used = nil
	t := Table{Columns: []Column{left("pump"), right("working"), right("unloader"), right("gap"), right("relief"), right("gap"), right("peak at the trigger")}}
	for _, p := range in.spec.Pumps {
		at := rig.Path("pumps[" + p.ID + "].")
		sys := in.o.System
		cell := func(path rig.Path) string {
			r, ok := in.rep.Worst(path)
			if !ok {
				return none
			}
			in.note(r)
			return r.Text(sys, 3)
		}
		working := none
		for r := range in.rep.All(at + "unloader_gap") {
			if x, ok := in.rep.At(at+"pressure", r.State); ok {
				working = x.Text(sys, digits)
				in.note(x)
			}
		}
		peak := none
		low, high := 0.0, 0.0
		for _, l := range in.spec.Lines {
			if l.Pump != p.ID {
				continue
			}
			if r, ok := in.rep.Worst(rig.Path("lines[" + l.ID + "].surge_least")); ok {
				low = max(low, r.Value.SI())
				in.note(r)
			}
			if r, ok := in.rep.Worst(rig.Path("lines[" + l.ID + "].surge_most")); ok {
				high = max(high, r.Value.SI())
				in.note(r)
			}
		}
		if high > 0 {
			peak = units.Pressure(low).Quantity().Text(sys, 3) + " to " + units.Pressure(high).Quantity().Text(sys, 3)
		}
		t.Rows = append(t.Rows, []string{p.ID, working, cell(at + "unloader_setting"), cell(at + "unloader_gap"), cell(at + "relief_setting"), cell(at + "relief_gap"), peak})
	}
	if len(t.Rows) > 0 {
		d.Add(t)
		d.Add(in.basisOfUsed()...)
	}
}
