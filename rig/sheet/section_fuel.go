package sheet

import (
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/quote"
	"example.com/washrig/units"
)

// burns is what each fuel tank gives in each mode and over the day: who draws
// from it, how fast, how long it lasts, and what the day's fuel leaves in the
// air and costs.
func burns(d *Document, in *source) error {
	t := Table{Columns: []Column{left("tank"), left("mode"), right("burned"), right("lasts"), right("by the engines"), right("by generators"), right("by the burners"), left("basis")}}
	for _, tank := range in.spec.FuelTanks {
		for _, mode := range in.m.Modes() {
			s, err := in.m.ParseState("mode=" + mode.ID)
			if err != nil {
				return err
			}
			at := rig.Path("fuel_tanks[" + tank.ID + "].")
			rate, ok := in.rep.At(at+"rate", s)
			if !ok {
				continue
			}
			lasts := none
			if h, ok := in.rep.At(at+"hours", s); ok {
				lasts = h.Text(in.o.System, 3)
			}
			t.Rows = append(t.Rows, []string{tank.ID, mode.Title, rate.Text(in.o.System, 3), lasts,
				in.share("engines", tank.ID, s), in.share("sources", tank.ID, s), in.share("heaters", tank.ID, s), basisWord(in.footing("fuel_tanks[].rate"))})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	d.Add(Heading{Text: "What it burns"}, t)
	in.used = nil
	day := Table{Columns: []Column{left("tank"), right("burned in the day"), right("of usable"), right("of nominal"), right("carbon dioxide, fossil")}}
	for _, tank := range in.spec.FuelTanks {
		at := rig.Path("fuel_tanks[" + tank.ID + "].")
		x, ok := in.rep.Worst(at + "day")
		if !ok {
			continue
		}
		usable, _ := in.rep.Worst(at + "usable_fuel")
		in.note(x)
		in.note(usable)
		carbon := none
		if c, ok := in.rep.Worst(at + "carbon_dioxide"); ok {
			carbon = c.Text(in.o.System, 3)
			in.note(c)
		}
		day.Rows = append(day.Rows, []string{tank.ID, x.Text(in.o.System, 3), usable.Text(in.o.System, 3), tank.Volume.Quantity().Text(in.o.System, 3), carbon})
	}
	if len(day.Rows) > 0 {
		d.Add(day)
		d.Add(in.basisOfUsed()...)
	}
	costs, err := quote.FuelCosts(in.rep)
	if err != nil {
		return err
	}
	if len(costs) > 0 {
		f := Table{Columns: []Column{left("cost of fuel"), right("per day"), right("per hour"), right("per 1,000 ft²")}}
		for _, x := range costs {
			f.Rows = append(f.Rows, []string{x.Tank, x.Day.String(), x.Hour.String(), orNone(x.PerThousandSquareFeet.String())})
		}
		d.Add(f)
	}
	d.Add(Paragraph{Text: "Engines run at their governed speed whether the triggers are pulled or not; burners fire for the trigger share of the time. Idle engines, cold starts and a gelled tank are not in it."})
	return nil
}

// share is what the components of one list take from a tank in a mode.
func (in *source) share(list, tank string, s rig.State) string {
	sum := 0.0
	any := false
	for r := range in.rep.All(rig.Path(list + "[].fuel_rate")) {
		if r.State != s || in.drawsFrom(list, r.Part) != tank {
			continue
		}
		sum += r.Value.SI()
		any = true
	}
	if !any {
		return none
	}
	return units.FuelRate(sum).Quantity().Text(in.o.System, 3)
}

func (in *source) drawsFrom(list, id string) string {
	text, _, err := in.m.Get(rig.Path(list + "[" + id + "].fuel_tank"))
	if err != nil {
		return ""
	}
	return text
}

func orNone(s string) string {
	if strings.TrimSpace(s) == "" {
		return none
	}
	return s
}
