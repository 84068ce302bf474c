package sheet

import (
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// heatSide is the water at the guns by hour, the burner's cycles and faults, its
// service, and what the cold does.
func heatSide(d *Document, in *source) error {
	var blocks []Block
	in.used = nil
	for _, f := range []func(*source) ([]Block, error){(*source).gunRows, (*source).coilRows, (*source).serviceRows, (*source).frostRows} {
		b, err := f(in)
		if err != nil {
			return err
		}
		blocks = append(blocks, b...)
	}
	if len(blocks) > 0 {
		d.Add(Heading{Text: "Heat"})
		d.Add(blocks...)
		d.Add(in.basisOfUsed()...)
	}
	return nil
}

// filled keeps the tables that have rows, without the columns in which no row has a
// number.
func filled(t Table) []Block {
	if len(t.Rows) == 0 {
		return nil
	}
	var keep []int
	for i := range t.Columns {
		any := false
		for _, r := range t.Rows {
			any = any || r[i] != none
		}
		if any {
			keep = append(keep, i)
		}
	}
	out := Table{}
	for _, i := range keep {
		out.Columns = append(out.Columns, t.Columns[i])
	}
	for _, r := range t.Rows {
		row := make([]string, len(keep))
		for k, i := range keep {
			row[k] = r[i]
		}
		out.Rows = append(out.Rows, row)
	}
	return []Block{out}
}

// numbered reports whether a row has a number behind its first n cells.
func numbered(row []string, n int) bool {
	for _, c := range row[n:] {
		if c != none {
			return true
		}
	}
	return false
}

func (in *source) worstAt(p rig.Path, s rig.State) string {
	r, ok := in.rep.WorstIn(p, s)
	if !ok {
		return none
	}
	in.note(r)
	return r.Text(in.o.System, 3)
}

func (in *source) gunRows() ([]Block, error) {
	t := Table{Columns: []Column{left("line"), left("hour"), right("at the gun, at least"), right(in.inUnits("in 10 mph of wind", "in 4.5 m/s of wind")), right("lost in the hose"), right("hot water after"), right("burns skin within"),
		right("arrives, coolest"), right("arrives, warmest"), right("evaporates, usual"), right("evaporates, at most")}}
	for i := range in.spec.Lines {
		id := in.spec.Lines[i].ID
		for _, c := range in.spec.Site.Conditions {
			s, err := in.m.ParseState("site=" + c.ID)
			if err != nil {
				return nil, err
			}
			p := rig.Path("lines[" + id + "].")
			row := []string{id, c.ID, in.worstAt(p+"gun_temperature", s), in.worstAt(p+"gun_temperature_in_wind", s), in.worstAt(p+"hose_drop", s), in.worstAt(p+"hot_water_arrival", rig.State{}),
				in.worstAt(p+"scald_time", s), in.worstAt(p+"surface_coolest", s), in.worstAt(p+"surface_warmest", s), in.worstAt(p+"evaporated_share", s), in.worstAt(p+"evaporated_share_most", s)}
			if numbered(row[:5], 2) {
				t.Rows = append(t.Rows, row)
			}
		}
	}
	return filled(t), nil
}

func (in *source) coilRows() ([]Block, error) {
	t := Table{Columns: []Column{left("heater"), right("warm in"), right("shortest cycle"), right("hottest after release"), right("shut-in pressure then"), right("if the thermostat sticks"),
		right("boils if the flow switch sticks"), right("a cold coil drips for"), right("run cold to")}}
	for i := range in.spec.Heaters {
		p := rig.Path("heaters[" + in.spec.Heaters[i].ID + "].")
		row := []string{in.spec.Heaters[i].ID}
		for _, m := range []rig.Path{"warm_up_time", "cycle_time", "release_peak", "soak_pressure"} {
			row = append(row, in.worstAt(p+m, rig.State{}))
		}
		row = append(row, in.faulty(p+"stuck_highest", rig.Higher), in.faulty(p+"boil_dry_time", rig.Lower))
		for _, m := range []rig.Path{"condensing_time", "run_cold_to"} {
			row = append(row, in.worstAt(p+m, rig.State{}))
		}
		if numbered(row, 1) {
			t.Rows = append(t.Rows, row)
		}
	}
	return filled(t), nil
}

// faulty is the worst reading of a number that only a fault has.
func (in *source) faulty(p rig.Path, bad rig.Direction) string {
	var worst rig.Reading
	for r := range in.rep.All(p) {
		if worst.Metric == nil || (bad == rig.Higher) == (r.Value.SI() > worst.Value.SI()) {
			worst = r
		}
	}
	if worst.Metric == nil {
		return none
	}
	in.note(worst)
	return worst.Text(in.o.System, 3)
}

func (in *source) serviceRows() ([]Block, error) {
	t := Table{Columns: []Column{left("heater"), right("oil nozzle passes"), right("needed"), right("burns clean"), right("efficiency by the stack"), right("dew point"), right("soot and scale cost"), right(in.inUnits("scale costs 100 psi after", "scale costs 6.9 bar after"))}}
	for i := range in.spec.Heaters {
		p := rig.Path("heaters[" + in.spec.Heaters[i].ID + "].")
		row := []string{in.spec.Heaters[i].ID}
		for _, m := range []rig.Path{"oil_nozzle_rate", "firing_rate", "clean_firing", "stack_efficiency", "dew_point", "fouling_loss", "scale_time"} {
			row = append(row, in.worstAt(p+m, rig.State{}))
		}
		if row[1] != none || numbered(row, 4) {
			t.Rows = append(t.Rows, row)
		}
	}
	return filled(t), nil
}

func (in *source) frostRows() ([]Block, error) {
	t := Table{Columns: []Column{left("full of water"), right("freezes parked in"), right("freezes on the road in")}}
	for _, list := range []struct {
		name string
		ids  []string
	}{{"heaters", elements(in.spec.Heaters, func(h rig.Heater) string { return h.ID })}, {"lines", elements(in.spec.Lines, func(l rig.Line) string { return l.ID })},
		{"pumps", elements(in.spec.Pumps, func(p rig.Pump) string { return p.ID })}} {
		for _, id := range list.ids {
			p := rig.Path(list.name + "[" + id + "].")
			row := []string{listWord(list.name) + " " + id, in.worstAt(p+"freeze_time", rig.State{}), in.worstAt(p+"freeze_time_on_road", rig.State{})}
			if numbered(row, 1) {
				t.Rows = append(t.Rows, row)
			}
		}
	}
	out := filled(t)
	var words []string
	if r, ok := in.rep.Worst("winter.protects_to"); ok {
		words = append(words, "The antifreeze, pushed through in order, holds the weakest part down to "+r.Text(in.o.System, 3)+".")
	}
	if r, ok := in.rep.Worst("winter.antifreeze_needed"); ok {
		words = append(words, "Mixed with all the water left, "+r.Text(in.o.System, 3)+" of it would do for "+in.inUnits("10 °F", "5.6 K")+" below the coldest air.")
	}
	if len(words) > 0 {
		words = append(words, "Catch what comes out.")
		out = append(out, Paragraph{Text: strings.Join(words, " ")})
	}
	return out, nil
}

func elements[T any](list []T, id func(T) string) []string {
	out := make([]string, len(list))
	for i := range list {
		out[i] = id(list[i])
	}
	return out
}

// runCold says down to which temperature each heater is run before its pump is
// stopped, and how fast its water burns.
func runCold(d *Document, in *source) error {
	for i := range in.spec.Heaters {
		id := in.spec.Heaters[i].ID
		r, ok := in.rep.Worst(rig.Path("heaters[" + id + "].run_cold_to"))
		if !ok {
			continue
		}
		d.Add(Paragraph{Text: "Run " + named("heater", id) + " cold until the water that leaves it is below " + r.Text(in.o.System, 3) + "; what then stands in it gets no hotter than " +
			rig.SafeToTouch().Text(in.o.System, 3) + ".", Strong: true})
	}
	var hottest rig.Reading
	for r := range in.rep.All("lines[].gun_temperature") {
		if hottest.Metric == nil || r.Value.SI() > hottest.Value.SI() {
			hottest = r
		}
	}
	if hottest.Metric == nil {
		return nil
	}
	if t, ok := in.rep.At(rig.Path("lines["+hottest.Part+"].scald_time"), hottest.State); ok {
		d.Add(Paragraph{Text: "Water of " + hottest.Text(in.o.System, 3) + " at the gun burns the skin of most adults within " + t.Text(in.o.System, 2) + "; children and old people sooner."})
	}
	return nil
}

// inUnits chooses words by the system of the page.
func (in *source) inUnits(us, si string) string {
	if in.o.System == units.SI {
		return si
	}
	return us
}
