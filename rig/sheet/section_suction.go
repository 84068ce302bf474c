package sheet

import (
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// waterSide is the suction head of each pump in its worst state, and what tanks,
// vents, supplies and crossovers do.
func waterSide(d *Document, in *source) error {
	return in.lowSide(d, false)
}

// waterPage is the same for the technician: every state, every term and every cure.
func waterPage(d *Document, in *source) error {
	return in.lowSide(d, true)
}

func (in *source) lowSide(d *Document, whole bool) error {
	var blocks []Block
	in.used = nil
	add := func(t Table) {
		if len(t.Rows) > 0 {
			blocks = append(blocks, t)
		}
	}
	short := Table{Columns: []Column{left("pump"), left("worst state"), right("suction head"), right("needed"), right("in reserve"), left("gains most"), right("gain")}}
	for i := range in.spec.Pumps {
		p := &in.spec.Pumps[i]
		at := rig.Path("pumps[" + p.ID + "].")
		worst, ok := in.rep.Worst(at + "suction_head")
		if !ok {
			continue
		}
		in.note(worst)
		a, err := in.m.Suction(p.ID, worst.State)
		if err != nil {
			return err
		}
		if whole {
			add(in.suctionStates(p.ID))
			add(in.suctionSum(p.ID, a))
			add(in.suctionCures(a))
			continue
		}
		row := []string{p.ID, stateWords(in.m, worst.State), worst.Text(in.o.System, 3), none, in.reserve(at, worst.State), none, none}
		if p.RequiredHead != 0 {
			row[3] = in.head(p.RequiredHead)
		}
		if len(a.Cures) > 0 {
			row[5], row[6] = a.Cures[0].Kind.String(), in.head(a.Cures[0].Gain)
		}
		short.Rows = append(short.Rows, row)
	}
	add(short)
	add(in.tankRows())
	add(in.supplyRows())
	add(in.feedRows())
	add(in.crossoverRows())
	if len(blocks) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Suction, tanks and filling"})
	d.Add(blocks...)
	d.Add(in.basisOfUsed()...)
	return nil
}

// reserve is the suction head over what the pump needs, in a state.
func (in *source) reserve(at rig.Path, s rig.State) string {
	r, ok := in.rep.At(at+"suction_margin", s)
	if !ok {
		return none
	}
	in.note(r)
	return r.Text(in.o.System, 3)
}

func (in *source) suctionStates(pump string) Table {
	at := rig.Path("pumps[" + pump + "].")
	t := Table{Columns: []Column{left("pump " + pump), right("suction head"), right("in reserve")}}
	for r := range in.rep.All(at + "suction_head") {
		t.Rows = append(t.Rows, []string{stateWords(in.m, r.State), r.Text(in.o.System, 3), in.reserve(at, r.State)})
	}
	return t
}

// suctionSum is where the head goes in one state.
func (in *source) suctionSum(pump string, a *rig.SuctionAnswer) Table {
	t := Table{Columns: []Column{left("pump " + pump + ", " + stateWords(in.m, a.State)), right("head")}}
	h := a.Head
	for _, x := range []struct {
		name string
		head units.Length
	}{{"air at the site", h.Atmosphere}, {"vapour of the water", h.Vapour}, {"level over the inlet", h.Static}, {"vacuum in the tank", h.Vacuum}, {"hose and fittings", h.Line},
		{"strainer", h.Strainer}, {"pulses of the pump", h.Acceleration}, {"available", h.Available}} {
		t.Rows = append(t.Rows, []string{x.name, in.head(x.head)})
	}
	return t
}

func (in *source) suctionCures(a *rig.SuctionAnswer) Table {
	t := Table{Columns: []Column{left("one change alone"), right("gains")}}
	for _, c := range a.Cures {
		t.Rows = append(t.Rows, []string{c.Kind.String(), in.head(c.Gain)})
	}
	return t
}

// worstCell is the worst reading of a path.
func (in *source) worstCell(p rig.Path) string {
	r, ok := in.rep.Worst(p)
	if !ok {
		return none
	}
	in.note(r)
	return r.Text(in.o.System, 3)
}

func (in *source) tankRows() Table {
	t := Table{Columns: []Column{left("tank"), right("dumps in"), right("at first"), right("vacuum"), right("may bear"), right("vent"), right("vent needed")}}
	for i := range in.spec.Tanks {
		k := &in.spec.Tanks[i]
		at := rig.Path("tanks[" + k.ID + "].")
		row := []string{k.ID, in.worstCell(at + "dump_time"), in.worstCell(at + "dump_flow"), in.worstCell(at + "vacuum"), none, none, in.worstCell(at + "vent_needed")}
		if row[1] == none && row[3] == none && row[6] == none {
			continue
		}
		if k.MaximumVacuum != 0 {
			row[4] = in.metricText("tanks[].vacuum", k.MaximumVacuum.Quantity())
		}
		if k.Vent != 0 {
			row[5] = k.Vent.Quantity().Text(in.o.System, 3)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (in *source) supplyRows() Table {
	t := Table{Columns: []Column{left("supply"), left("fills"), right("gives"), right("full in"), right("gained while washing"), right("air gap"), right("needed")}}
	for i := range in.spec.Supplies {
		w := &in.spec.Supplies[i]
		if w.Pump != "" {
			continue
		}
		at := rig.Path("supplies[" + w.ID + "].")
		row := []string{w.ID, w.Tank, in.worstCell(at + "flow"), in.worstCell(at + "fill_time"), in.worstCell(at + "gain"), none, in.worstCell(at + "air_gap_needed")}
		if w.AirGap != 0 {
			row[5] = w.AirGap.Quantity().Text(in.o.System, 3)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// feedRows are the supplies that feed a pump without a tank between.
func (in *source) feedRows() Table {
	t := Table{Columns: []Column{left("supply"), left("feeds"), right("at its inlet, working"), right("asked for"), right("at its inlet, at rest"), right("may bear"), left("backflow device")}}
	for i := range in.spec.Supplies {
		w := &in.spec.Supplies[i]
		if w.Pump == "" {
			continue
		}
		at := rig.Path("supplies[" + w.ID + "].")
		row := []string{w.ID, "pump " + w.Pump, in.worstCell(at + "inlet_pressure"), none, in.worstCell(at + "inlet_static"), none, w.Device}
		if w.Device == "" {
			row[6] = "not given"
		}
		for k := range in.spec.Pumps {
			if p := &in.spec.Pumps[k]; p.ID == w.Pump {
				if p.MinimumInletPressure != 0 {
					row[3] = p.MinimumInletPressure.Quantity().Text(in.o.System, 3)
				}
				if p.MaximumInletPressure != 0 {
					row[5] = p.MaximumInletPressure.Quantity().Text(in.o.System, 3)
				}
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (in *source) crossoverRows() Table {
	t := Table{Columns: []Column{left("crossover, open"), right("lower while drawn"), right("left behind"), right("higher while filled"), right("not filled")}}
	for i := range in.spec.Crossovers {
		at := rig.Path("crossovers[" + in.spec.Crossovers[i].ID + "].")
		row := []string{in.spec.Crossovers[i].ID, in.worstCell(at + "draw_difference"), in.worstCell(at + "stranded"), in.worstCell(at + "fill_difference"), in.worstCell(at + "unfilled")}
		if row[1] != none || row[3] != none {
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// head is a head of water in a cell.
func (in *source) head(l units.Length) string {
	return in.metricText("pumps[].suction_head", l.Quantity())
}

// metricText is a quantity in the unit of a metric.
func (in *source) metricText(p rig.Path, q units.Quantity) string {
	m, ok := rig.MetricOf(p)
	if !ok {
		return q.Text(in.o.System, 3)
	}
	return m.Text(q, in.o.System, 3)
}
