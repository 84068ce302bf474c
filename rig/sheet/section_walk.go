package sheet

import (
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// walkRound is the dozen figures asked for when a rig is shown, as the walk-round card
// has them.
func walkRound(d *Document, in *source) error {
	t := &Table{Columns: []Column{left("figure"), right("value"), left("state"), left("basis")}}
	share := "" // of the tongue, in one row with its weight
	for _, f := range in.rep.WalkCard().Figures {
		value := in.figure(f)
		if f.Path == "trailer.tongue_share" {
			share = value + ", "
			continue
		}
		t.Rows = append(t.Rows, []string{f.What, share + value, in.figureState(f), in.figureBasis(f)})
		share = ""
	}
	d.Add(Heading{Text: "What a visitor asks"}, *t)
	return nil
}

// figure says the value of a figure and what it is held against.
func (in *source) figure(f rig.CardFigure) string {
	mt, _ := rig.MetricOf(f.Path)
	text := func(q units.Quantity) string {
		switch {
		case !f.Computed:
			return rig.FieldText(f.Path, q, in.o.System, digits)
		case q.Kind() == units.KindDuration:
			return mt.Text(q, in.o.System, 3)
		}
		return mt.Text(q, in.o.System, digits)
	}
	value := text(f.Low)
	if high := text(f.High); high != value {
		value += " to " + high
	}
	switch {
	case !f.Of.Given():
		return value
	case !f.Computed:
		return value + " of " + text(f.Of)
	}
	value += " asked of " + text(f.Of)
	if w := distance(&mt, f.Low, f.Of, 1-f.Low.SI()/f.Of.SI(), in.o.System); f.Of.SI() > 0 && w != "" {
		value += ", " + w
	}
	return value
}

// figureState says the states of a figure in words; hours name the tank as well.
func (in *source) figureState(f rig.CardFigure) string {
	if strings.HasPrefix(string(f.Path), "trailer.") {
		return f.When // of the fill alone
	}
	var words []string
	for _, st := range f.At {
		if w := stateWords(in.m, st); w != "" && !contains(words, w) {
			words = append(words, w)
		}
	}
	out := strings.Join(words, "; ")
	if f.Low.Kind() == units.KindDuration {
		out = componentsOf([]rig.Path{f.Path[:strings.LastIndexByte(string(f.Path), '.')]}) + ", " + out
	}
	switch {
	case f.When == "":
		return out
	case out == "":
		return f.When
	}
	return out + ", " + f.When
}

// figureBasis says what a figure rests on.
func (in *source) figureBasis(f rig.CardFigure) string {
	if !f.Computed {
		return in.origin(f.Path)
	}
	foot := in.footing(f.Path)
	if f.Path.Pattern() == "engines[].demand" {
		foot = weaker(foot, in.footing("engines[].available"))
	}
	return basisWord(foot)
}
