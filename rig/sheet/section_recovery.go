package sheet

import (
	"fmt"

	"example.com/washrig/rig"
)

// recovers is what each recovery unit picks up in each mode, whether its drum can
// be emptied, and what the gauges of its filters should read.
func recovers(d *Document, in *source) error {
	any, err := in.m.ParseState("any")
	if err != nil {
		return err
	}
	for i := range in.spec.Recovery {
		u := &in.spec.Recovery[i]
		at := rig.Path("recovery[" + u.ID + "].")
		in.used = nil
		head := "What it picks up"
		if len(in.spec.Recovery) > 1 {
			head += ": " + u.ID
		}
		cell := func(p rig.Path, s rig.State) string { return in.span(at+p, s, rig.Reachable).text(in.o.System) }
		t := Table{Columns: []Column{left("mode"), right("comes back"), right("pick-up"), right("by the spread"), right("air in the hose"), right("carries from"), right("drum vacuum"), right("dump pump moves"), right("float shuts after")}}
		for _, m := range in.m.Modes() {
			back := cell("recovered_flow", m.State)
			if back == none || m.State.On(rig.AxisMotors) == "none" {
				continue
			}
			low, high := in.span(at+"pick_up_low", m.State, rig.Reachable), in.span(at+"pick_up_high", m.State, rig.Reachable)
			spread := none
			if low.ok && high.ok {
				spread = low.worst.Text(in.o.System, 2) + " to " + high.worst.Text(in.o.System, 2)
			}
			t.Rows = append(t.Rows, []string{m.Title, back, cell("pick_up", m.State), spread, cell("air_speed", m.State), cell("carry_speed", m.State),
				cell("drum_vacuum", m.State), cell("dump_flow", m.State), cell("float_time", m.State)})
		}
		if len(t.Rows) == 0 {
			continue
		}
		d.Add(Heading{Text: head}, t, Paragraph{Text: "The worst hour, filters at change-out where that is worse. Pick-up is while the air carries the water; a drowned tool takes more, in gulps. The spread is that of the two-phase correlation."})
		motors := Table{Columns: []Column{left("motors running"), right("air at the tool, dry"), right("vacuum at the tool"), right("sealed lift"), right("holds a column of"), right("pick-up, filters new"), right("at change-out")}}
		for k := 1; ; k++ {
			s, err := in.m.ParseState(fmt.Sprintf("motors=%d", k))
			if err != nil {
				break
			}
			row := []string{fmt.Sprint(k)}
			for _, p := range []rig.Path{"air_flow", "tool_lift", "sealed_lift", "column"} {
				row = append(row, cell(p, s))
			}
			for _, f := range []string{"clean", "change-out"} {
				x, err := in.m.ParseState(fmt.Sprintf("motors=%d filters=%s", k, f))
				if err != nil {
					return err
				}
				row = append(row, cell("pick_up", x))
			}
			motors.Rows = append(motors.Rows, row)
		}
		d.Add(motors)
		gauges, err := in.rep.FilterGauges(u.ID)
		if err != nil {
			return err
		}
		if len(gauges) > 0 && gauges[0].PumpRuns {
			f := Table{Columns: []Column{left("filter"), right("gauge before it, new"), right("behind it"), right("before it, at change-out"), right("behind it, at change-out"), right("lasts, washing")}}
			for _, g := range gauges {
				lasts, before, behind := none, none, none
				if g.Lasts != 0 {
					lasts = g.Lasts.Quantity().Text(in.o.System, 3)
				}
				if g.Steady {
					before, behind = g.ChangeOutBefore.Quantity().Text(in.o.System, 3), g.ChangeOutBehind.Quantity().Text(in.o.System, 3)
				}
				f.Rows = append(f.Rows, []string{g.ID, g.NewBefore.Quantity().Text(in.o.System, 3), g.NewBehind.Quantity().Text(in.o.System, 3), before, behind, lasts})
			}
			d.Add(f)
		}
		d.Add(in.basisOfUsed()...)
		for _, x := range []struct {
			path rig.Path
			text string
		}{
			{"build_up", "Used again: what each pass adds settles in the tank at %s doses of one pass."},
			{"hardness", "Used again: what the make-up water brings settles at %s times the make-up water's."},
			{"change_out", "The water is changed after %s of spraying."},
		} {
			if r, ok := in.rep.At(at+x.path, any); ok {
				d.Add(Paragraph{Text: fmt.Sprintf(x.text, r.Text(in.o.System, 3))})
			}
		}
	}
	return nil
}

// motorWords say how many vacuum motors run.
func motorWords(_ *rig.Model, v string) string {
	switch v {
	case "none":
		return "no vacuum motor running"
	case "1":
		return "one vacuum motor running"
	}
	return v + " vacuum motors running"
}
