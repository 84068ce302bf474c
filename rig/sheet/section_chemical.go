package sheet

import (
	"example.com/washrig/rig"
)

// chemicalSide is what injectors draw with each set of open guns, and what
// chemical pumps give.
func chemicalSide(d *Document, in *source) error {
	drawn := Table{Columns: []Column{left("chemical"), left("guns open"), right("water through the injector"), right("pressure behind over before"), right("vacuum left"), right("drawn"), right("strength at the nozzle"), right("lasts"), right("other guns have")}}
	pumped := Table{Columns: []Column{left("chemical"), right("flow at the end"), right("pressure at its pump"), right("from start to start"), right("lasts")}}
	in.used = nil
	for i := range in.spec.Chemicals {
		c := &in.spec.Chemicals[i]
		at := rig.Path("chemicals[" + c.ID + "].")
		var sets []string
		for r := range in.rep.All(at + "draw") {
			if g := r.State.On(rig.AxisGuns); !contains(sets, g) {
				sets = append(sets, g)
			}
		}
		for _, g := range sets {
			s, err := in.m.ParseState("guns=" + g)
			if err != nil {
				return err
			}
			row := []string{c.ID, stateWords(in.m, s)}
			for _, p := range []rig.Path{"injector_flow", "back_pressure", "vacuum_left", "draw", "at_nozzle", "lasts", "partner_pressure"} {
				row = append(row, in.span(at+p, s, rig.Reachable).text(in.o.System))
			}
			drawn.Rows = append(drawn.Rows, row)
		}
		if _, ok := in.rep.Worst(at + "pumped_flow"); ok {
			pumped.Rows = append(pumped.Rows, []string{c.ID, in.worstCell(at + "pumped_flow"), in.worstCell(at + "pumped_pressure"), in.worstCell(at + "pump_cycle"), in.worstCell(at + "pumped_hours")})
		}
	}
	if len(drawn.Rows)+len(pumped.Rows) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Chemicals"})
	if len(drawn.Rows) > 0 {
		d.Add(drawn, Paragraph{Text: "With the low-pressure tip on the gun of the injector's line, burner off and on; an injector draws nothing with a high-pressure tip. One rated point of its sheet carries these numbers: measure the draw with a jug. The safety data sheet decides what may be sprayed where."})
	}
	if len(pumped.Rows) > 0 {
		d.Add(pumped)
	}
	d.Add(in.basisOfUsed()...)
	return nil
}
