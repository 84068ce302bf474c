package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// ModeCards returns one card for each mode, each on a sheet of paper of its own:
// valves, hose ends, plugs, what to wear, the order of switching on, what the mode
// does to weight and water, and the order of shutting down and letting the pressure
// out. Verdict, cautions and what was not checked stand on every one of them.
func ModeCards(rep *rig.Report, o *Options) (*Document, error) {
	in := newSource(rep, nil, o)
	list, err := rep.ModeCards()
	if err != nil {
		return nil, err
	}
	d, err := NewDocument(in.name("mode cards"), in.o.Letterhead)
	if err != nil {
		return nil, err
	}
	if len(list) == 0 {
		d.Add(Paragraph{Text: "No modes are listed."})
	}
	for i := range list {
		d.Add(Heading{Text: "Mode: " + list[i].Title, NewPage: i > 0})
		sections := []section{summary, grave, in.modeSection(&list[i]), overrides, cautions}
		if i == len(list)-1 {
			sections = append(sections, provenance)
		}
		for _, s := range sections {
			if err := s(d, in); err != nil {
				return nil, err
			}
		}
	}
	if len(list) == 0 {
		for _, s := range []section{summary, grave, overrides, cautions, provenance} {
			if err := s(d, in); err != nil {
				return nil, err
			}
		}
	}
	return d, nil
}

// modeSection is the body of one mode's card.
func (in *source) modeSection(c *rig.ModeCard) section {
	return func(d *Document, _ *source) error {
		in.modeStands(d, c)
		if len(c.Protect) > 0 {
			t := Table{Columns: []Column{left("against"), left("wear"), left("because")}}
			for _, p := range c.Protect {
				t.Rows = append(t.Rows, []string{p.Against, p.Wear, p.Why})
			}
			d.Add(Heading{Text: "What to wear", Minor: true}, t)
		}
		if len(c.Start) > 0 {
			d.Add(Heading{Text: "Switching on, in this order", Minor: true}, in.steps(c.Start))
		}
		if len(c.Plugs) > 0 {
			d.Add(Paragraph{Text: "When power comes back after a trip: every load off first, then again from the plugs on.", Strong: true})
		}
		in.modeChanges(d, c)
		if len(c.Stop) > 0 {
			d.Add(Heading{Text: "Shutting down and letting the pressure out, in this order", Minor: true}, in.steps(c.Stop))
		}
		if len(c.Trapped) > 0 {
			t := Table{Columns: []Column{left("section that can hold pressure with everything off"), right("up to"), left("how it is let out")}}
			for _, x := range c.Trapped {
				up := none
				if x.Pressure != 0 {
					up = x.Pressure.Quantity().Text(in.o.System, digits)
				}
				t.Rows = append(t.Rows, []string{x.Section, up, x.LetOut})
			}
			d.Add(t)
		}
		return nil
	}
}

// modeStands is where valves, hose ends and plugs stand in a mode.
func (in *source) modeStands(d *Document, c *rig.ModeCard) {
	line := "Guns open: " + orDash(c.Guns) + "."
	if c.Time != 0 {
		line += " " + c.Time.Quantity().Text(in.o.System, 3) + " of the day."
	}
	if len(c.Off) > 0 {
		line += " Stays off: " + componentsOf(c.Off) + "."
	}
	d.Add(Paragraph{Text: line})
	if len(c.Valves) > 0 {
		why := map[rig.Path]string{}
		for _, s := range c.Shut {
			why[s.Path] = s.Why
		}
		t := Table{Columns: []Column{left("valve"), left("position"), left("why")}}
		for _, v := range c.Valves {
			word, because := "SHUT", v.Why
			if v.Open {
				word = "OPEN"
			}
			if w := why[v.Path]; w != "" && !v.Open {
				because = w
			}
			t.Rows = append(t.Rows, []string{v.What, word, because})
			delete(why, v.Path)
		}
		for _, s := range c.Shut {
			if why[s.Path] != "" {
				t.Rows = append(t.Rows, []string{componentsOf([]rig.Path{s.Path}), "SHUT", s.Why})
			}
		}
		d.Add(Heading{Text: "Valves", Minor: true}, t)
	}
	if len(c.Ends) > 0 {
		t := Table{Columns: []Column{left("hose end"), left("carries"), left("put into")}}
		for _, e := range c.Ends {
			at := "stowed"
			if e.At != "" {
				at = "tank " + e.At
			}
			if e.Moved {
				at += ", MOVED for this mode"
			}
			t.Rows = append(t.Rows, []string{e.ID, e.Carries, at})
		}
		d.Add(Heading{Text: "Hose ends", Minor: true}, t)
	}
	if len(c.Plugs) > 0 {
		t := Table{Columns: []Column{left("load"), left("source"), left("outlet"), left("starts"), right("running"), right("starting")}}
		for _, p := range c.Plugs {
			starts := "by itself, at any time"
			if p.ByHand {
				starts = "by hand"
			}
			out := p.Outlet
			if out == "" {
				out = none
			}
			if p.Moved {
				out = "MOVED for this mode"
			}
			t.Rows = append(t.Rows, []string{p.Load, p.Source, out, starts, in.power(p.Runs), in.power(p.Starts)})
		}
		d.Add(Heading{Text: "Plugs", Minor: true}, t)
	}
}

// modeChanges is what a mode does to water and weight.
func (in *source) modeChanges(d *Document, c *rig.ModeCard) {
	if len(c.Water) == 0 {
		return
	}
	t := Table{Columns: []Column{left("tank"), left("holds"), left("after this mode"), right("drawn, by the clock"), right("put in, by the clock"), right("dry after"), right("full after")}}
	flow := func(q units.VolumeFlow) string {
		if q == 0 {
			return none
		}
		return in.gpm(q)
	}
	hours := func(q units.Duration) string {
		if q == 0 {
			return none
		}
		return in.hours(q)
	}
	warn := ""
	for _, w := range c.Water {
		becomes := w.Becomes
		if w.Becomes != w.Holds {
			becomes = strings.ToUpper(w.Becomes)
			warn += "Tank " + w.Tank + " does not stay " + w.Holds + " in this mode: flush and disinfect it before anybody breathes the mist. "
		}
		name := w.Tank
		if len(w.Joined) > 0 {
			name += ", joined to " + strings.Join(w.Joined, ", ")
		}
		t.Rows = append(t.Rows, []string{name, w.Holds, becomes, flow(w.Drawn), flow(w.Returned), hours(w.Lasts), hours(w.FullIn)})
	}
	d.Add(Heading{Text: "What this mode does to water and weight", Minor: true}, t)
	if warn != "" {
		d.Add(Paragraph{Text: strings.TrimSpace(warn), Strong: true})
	}
	if w := c.Weight; w.After != 0 {
		d.Add(Paragraph{Text: fmt.Sprintf("Tanks that give start full, tanks that take start empty, fuel full, nothing refilled: after %s %s. The trailer is then %s, its tongue %s.",
			in.hours(w.After), w.Until, change(w.Total, in.o.System, "heavier", "lighter"), change(w.Tongue, in.o.System, "heavier", "lighter"))})
	}
}

// change says a mass that came or went.
func change(m units.Mass, sys units.System, more, less string) string {
	switch {
	case m == 0:
		return "as heavy as before"
	case m < 0:
		return (-m).Quantity().Text(sys, 3) + " " + less
	}
	return m.Quantity().Text(sys, 3) + " " + more
}

func (in *source) hours(q units.Duration) string {
	return q.Quantity().Text(in.o.System, 3)
}

func (in *source) gpm(q units.VolumeFlow) string {
	m, ok := rig.MetricOf("tanks[].drawn_rate")
	if !ok {
		return q.Quantity().Text(in.o.System, 3)
	}
	return m.Text(q.Quantity(), in.o.System, 3)
}

// steps is a numbered order.
func (in *source) steps(list []rig.CardStep) Table {
	t := Table{Columns: []Column{right("step"), left("what to do")}}
	for i, s := range list {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), s.Text(in.o.System)})
	}
	return t
}

// componentsOf says the components of paths in words.
func componentsOf(list []rig.Path) string {
	var out []string
	for _, p := range list {
		kind, id, ok := strings.Cut(strings.TrimSuffix(string(p), "]"), "[")
		if !ok {
			out = append(out, strings.ReplaceAll(string(p), "_", " "))
			continue
		}
		out = append(out, named(listWord(kind), id))
	}
	return strings.Join(out, ", ")
}

// parked is how the trailer is set down.
func parked(d *Document, in *source) error {
	c := in.rep.ParkedCard()
	if len(c.Steps) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Setting the trailer down, in this order"}, in.steps(c.Steps))
	if len(c.Dump) > 0 {
		t := Table{Columns: []Column{right("dump"), left("tank"), left("holds"), left("stands"), right("emptied from full, the tongue is"), right("dumps in")}}
		held := true
		for i, x := range c.Dump {
			where := x.Behind.Quantity().Text(in.o.System, 3) + " behind the axles"
			if x.Behind < 0 {
				where = (-x.Behind).Quantity().Text(in.o.System, 3) + " ahead of the axles"
			}
			held = held && x.Tongue <= 0
			time := none
			if x.Time.Given() {
				time = x.Time.Text(in.o.System, 3)
			}
			t.Rows = append(t.Rows, []string{ordinal(i), x.Tank, x.Holds, where, change(x.Tongue, in.o.System, "heavier", "lighter"), time})
		}
		d.Add(Heading{Text: "Which tank first"}, t)
		if held {
			d.Add(Paragraph{Text: "Every tank stands ahead of the axles: its water holds the tongue down. Dump, if at all, after the trailer stands on jack and stands."})
		} else {
			d.Add(Paragraph{Text: "Water behind the axles lifts the tongue: it goes first, water ahead of them last, and only at a permitted point.", Strong: true})
		}
	}
	if len(c.States) > 0 {
		t := Table{Columns: []Column{left("tanks"), right("on the coupler, hitched"), right("on the jack, unhitched"), right("on the tail it lifts the jack")}}
		cell := func(q units.Quantity) string {
			if !q.Given() {
				return none
			}
			return q.Text(in.o.System, digits)
		}
		for _, x := range c.States {
			spare := cell(x.Spare)
			if x.Spare.Given() && x.Spare.SI() <= 0 {
				spare = "DROPS BY ITSELF"
			}
			t.Rows = append(t.Rows, []string{x.Title, cell(x.Tongue), cell(x.Jack), spare})
		}
		d.Add(Heading{Text: "Parked, unhitched"}, t)
		text := "On level ground. "
		switch {
		case !c.States[0].Jack.Given():
			text += "The place of the jack is not given: its load is not known."
		case c.JackRating != 0:
			text += "The jack is rated " + c.JackRating.Quantity().Text(in.o.System, digits) + "."
		default:
			text += "The rating of the jack is not given."
		}
		d.Add(Paragraph{Text: text})
	}
	return nil
}

func ordinal(i int) string {
	if words := []string{"first", "then"}; i < len(words) {
		return words[i]
	}
	return "then"
}

// winter is what the cold does and the order of draining and filling.
func winter(d *Document, in *source) error {
	c, err := in.rep.WinterCard()
	if err != nil {
		return err
	}
	if len(c.Steps) == 0 {
		return nil
	}
	sys := in.o.System
	d.Add(Heading{Text: "Winter", NewPage: true})
	if c.Coldest.Given() {
		d.Add(Paragraph{Text: "Coldest air " + c.Coldest.Quantity().Text(sys, 3) + "; antifreeze is wanted down to " + c.Wanted.Quantity().Text(sys, 3) + ", a margin of " + (10*units.FahrenheitDelta).Quantity().Text(sys, 3) + "."})
	} else {
		d.Add(Paragraph{Text: "The coldest air is not given (winter.coldest): hours to freezing and the antifreeze needed are not computed.", Strong: true})
	}
	d.Add(in.steps(c.Steps))
	volume := func(v units.Volume) string {
		if v == 0 {
			return none
		}
		return v.Quantity().Text(sys, 3)
	}
	if len(c.Parts) > 0 {
		t := Table{Columns: []Column{left("what holds water, in the order of the flow"), right("holds"), right("left after blowing down"), right("glycol then"), right("protects to")}}
		for _, p := range c.Parts {
			glycol, to := none, none
			if p.Glycol != 0 {
				glycol = p.Glycol.Quantity().TextIn(percent(), 3)
			}
			if p.Protects.Given() {
				to = p.Protects.Quantity().Text(sys, 3)
			}
			t.Rows = append(t.Rows, []string{p.Part, volume(p.Holds), volume(p.Left), glycol, to})
		}
		t.Rows = append(t.Rows, []string{"all of them", volume(c.Holds), volume(c.Left), none, none})
		d.Add(t)
	}
	var words []string
	if c.Volume != 0 {
		s := "Antifreeze pushed through: " + volume(c.Volume)
		if c.Strength != 0 {
			s += " with " + c.Strength.Quantity().TextIn(percent(), 3) + " glycol as poured"
		}
		words = append(words, s+".")
	}
	if c.Protects.Given() {
		s := "In the weakest part " + c.Mixture.Quantity().TextIn(percent(), 3) + " is left, which freezes at " + c.Protects.Quantity().Text(sys, 3)
		if c.Margin.Given() {
			if c.Margin.SI() >= 0 {
				s += ", " + c.Margin.Text(sys, 3) + " below the coldest air"
			} else {
				s += ", which is NOT as cold as the coldest air"
			}
		}
		words = append(words, s+".")
	}
	if c.Needed != 0 {
		words = append(words, volume(c.Needed)+" would do, mixed with all the water that is left.")
	}
	if len(words) > 0 {
		d.Add(Paragraph{Text: strings.Join(words, " ")})
	}
	d.Add(Paragraph{Text: glycolWords(c.Kind), Strong: true})
	if len(c.Freezing) > 0 {
		t := Table{Columns: []Column{left("full of water, in the coldest air"), right("freezes parked in"), right("on the road in")}}
		cell := func(q units.Duration) string {
			if q == 0 {
				return none
			}
			return q.Quantity().Text(sys, 3)
		}
		for _, f := range c.Freezing {
			if f.Parked != 0 || f.OnRoad != 0 {
				t.Rows = append(t.Rows, []string{componentsOf([]rig.Path{f.Path}), cell(f.Parked), cell(f.OnRoad)})
			}
		}
		if len(t.Rows) > 0 {
			d.Add(t)
		}
	}
	if len(c.Not) > 0 {
		d.Add(Paragraph{Text: "Not counted, because nobody gave their volumes (winter.parts): " + strings.Join(c.Not, "; ") + ". Drain and blow them down as well."})
	}
	return nil
}

// glycolWords say what an antifreeze does to people.
func glycolWords(kind string) string {
	switch kind {
	case "propylene-glycol":
		return "Propylene glycol only. Never top up with ethylene glycol: it is a poison, and what stays in the line is sprayed and breathed. Catch what comes out and hand it in."
	case "ethylene-glycol":
		return "ETHYLENE GLYCOL IS A POISON: what stays in the line is sprayed and breathed. Do not use it here; flush what is in it and hand it in."
	}
	return "The kind of antifreeze is not given. Use propylene glycol; ethylene glycol is a poison, and what stays in the line is sprayed and breathed. Catch what comes out and hand it in."
}

func percent() units.Unit {
	for _, u := range units.KindRatio.Units() {
		if u.Symbol() == "%" {
			return u
		}
	}
	return units.Unit{}
}

// ParkedCard returns the card for setting the trailer down and for winter: chocks,
// stands and the order of dumping, what stands on the jack, what holds water, what
// the antifreeze protects to and how soon a full line freezes.
func ParkedCard(rep *rig.Report, o *Options) (*Document, error) {
	in := newSource(rep, nil, o)
	return page(in.name("parked and winter card"), in, parkedSections)
}
