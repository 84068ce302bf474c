package sheet

import (
	"strings"
)

// modeCard is what is done by hand in each mode: valves, loose hose ends, loads
// to switch on. The shutdown order stands below it on the card.
func modeCard(d *Document, in *source) error {
	if len(in.spec.Crossovers)+len(in.spec.HoseEnds) == 0 {
		return nil
	}
	t := Table{Columns: []Column{left("mode"), left("crossovers"), left("hose ends"), left("guns"), left("switched on")}}
	for _, m := range in.m.Modes() {
		open := map[string]bool{}
		put := map[string]string{}
		for _, mode := range in.spec.Modes {
			if mode.ID != m.ID {
				continue
			}
			for _, id := range mode.Open {
				open[id] = true
			}
			for _, move := range mode.Ends {
				if id, place, ok := strings.Cut(move, ">"); ok {
					put[id] = place
				}
			}
		}
		var valves, ends []string
		for _, c := range in.spec.Crossovers {
			word := "SHUT"
			if open[c.ID] || c.Valve == "open" {
				word = "OPEN"
			}
			valves = append(valves, c.ID+" "+word)
		}
		for _, e := range in.spec.HoseEnds {
			place := e.At
			if p, ok := put[e.ID]; ok {
				place = p
			}
			if place == "" {
				place = "stowed"
			}
			ends = append(ends, e.ID+" ("+e.Carries+") in "+place)
		}
		t.Rows = append(t.Rows, []string{m.Title, orDash(valves), orDash(ends), orDash(m.Guns), orDash(m.Loads)})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Valves and hose ends by mode"}, t,
		Paragraph{Text: "On the road: every dump valve locked shut and capped, crossovers shut, hose ends stowed, burner and engines off."})
	return nil
}

func orDash(list []string) string {
	if len(list) == 0 {
		return none
	}
	return strings.Join(list, ", ")
}
