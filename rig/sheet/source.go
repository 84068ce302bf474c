package sheet

import (
	"math"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/quote"
	"example.com/washrig/units"
)

// Options choose how a page is written. The zero value is US units and no
// letterhead; nil is the same.
type Options struct {
	System     units.System
	Full       bool        // every judgement that passed and every assumed value, not only the first
	Letterhead *Letterhead // the dealer's name block, terms and lines to sign on
}

// A source is what the sections of a page read from.
type source struct {
	rep  *rig.Report
	m    *rig.Model
	spec *rig.Spec
	q    *quote.Quote // nil on pages without a price
	o    Options
	foot map[rig.Path]rig.Footing
	used []rig.Path // metrics read since a section last began to count
}

func newSource(rep *rig.Report, q *quote.Quote, o *Options) *source {
	in := &source{rep: rep, m: rep.Model(), spec: rep.Model().Spec(), q: q, foot: map[rig.Path]rig.Footing{}}
	if o != nil {
		in.o = *o
	}
	return in
}

// A section adds one part of a page. A new one is a function in a file of its
// own and a line in the list of the page it belongs to.
type section func(d *Document, in *source) error

func page(title string, in *source, sections []section) (*Document, error) {
	d, err := NewDocument(title, in.o.Letterhead)
	if err != nil {
		return nil, err
	}
	for _, s := range sections {
		if err := s(d, in); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// name is the title of a page about the rig.
func (in *source) name(about string) string {
	t := "Rig " + in.m.Name()
	if in.m.Name() == "" {
		t = "Rig"
	}
	switch {
	case about != "":
		t += ": " + about
	case in.spec.Title != "":
		t += ": " + in.spec.Title
	}
	return t
}

// footing is what a metric rests on, looked up once a page.
func (in *source) footing(p rig.Path) rig.Footing {
	p = p.Pattern()
	f, ok := in.foot[p]
	if !ok {
		f = in.m.Footing(p)
		in.foot[p] = f
	}
	return f
}

// A span is a number over some states: the worst one, or both ends where
// neither way is better.
type span struct {
	ok        bool
	low, high rig.Reading
	worst     rig.Reading
}

func (in *source) span(p rig.Path, s rig.State, reach rig.Reach) span {
	var x span
	defer func() { in.note(x.worst) }()
	for r := range in.rep.Among(p, s, reach) {
		if !x.ok || below(r, x.low) {
			x.low = r
		}
		if !x.ok || below(x.high, r) {
			x.high = r
		}
		x.ok = true
	}
	x.worst = x.high
	if x.ok && x.high.Metric.Better == rig.Higher {
		x.worst = x.low
	}
	return x
}

// below reports whether a is less than b by more than the last digits of a
// computation, so that equal numbers name the state that is listed first.
func below(a, b rig.Reading) bool {
	x, y := a.Value.SI(), b.Value.SI()
	return x < y-1e-9*max(math.Abs(x), math.Abs(y))
}

// text is the span in a cell.
func (x span) text(sys units.System) string {
	if !x.ok {
		return none
	}
	low, high := x.low.Text(sys, digits), x.high.Text(sys, digits)
	if x.worst.Metric.Better != rig.Neither || low == high {
		return x.worst.Text(sys, digits)
	}
	return low + " to " + high
}

// readings are the one or two readings that the text of the span shows.
func (x span) readings() []rig.Reading {
	switch {
	case !x.ok:
		return nil
	case x.worst.Metric.Better != rig.Neither || x.low.Value == x.high.Value:
		return []rig.Reading{x.worst}
	}
	return []rig.Reading{x.low, x.high}
}

// where says the states of readings in words, without the axes in skip.
func (in *source) where(list []rig.Reading, skip ...rig.Axis) string {
	var w []string
	for _, r := range list {
		if t := stateWords(in.m, r.State, skip...); t != "" && !contains(w, t) {
			w = append(w, t)
		}
	}
	return strings.Join(w, "; ")
}

// headlines returns the headlines of one list of components, or of the single
// components where list is empty.
func headlines(list string) []rig.Headline {
	var out []rig.Headline
	for _, h := range rig.Headlines() {
		if listOf(h.Path) == list {
			out = append(out, h)
		}
	}
	return out
}

// headlineLists are the lists that have headlines, in order.
func headlineLists() []string {
	var out []string
	for _, h := range rig.Headlines() {
		if l := listOf(h.Path); l != "" && !contains(out, l) {
			out = append(out, l)
		}
	}
	return out
}

// dependsOn reports whether a metric's readings name an axis.
func (in *source) dependsOn(p rig.Path, a rig.Axis) bool {
	for r := range in.rep.All(p) {
		return r.State.On(a) != ""
	}
	return false
}

// note keeps the metric of a reading that stands in a cell.
func (in *source) note(r rig.Reading) {
	if r.Metric != nil && !contains(in.used, r.Metric.Path) {
		in.used = append(in.used, r.Metric.Path)
	}
}

// basisOfUsed says what the numbers read since in.used was emptied rest on, the
// weakest of them; nothing if none was read.
func (in *source) basisOfUsed() []Block {
	var weakest rig.Footing
	for i, p := range in.used {
		if f := in.footing(p); i == 0 {
			weakest = f
		} else {
			weakest = weaker(weakest, f)
		}
	}
	if len(in.used) == 0 {
		return nil
	}
	in.used = nil
	return []Block{Paragraph{Text: "Basis, the weakest of these figures: " + basisWord(weakest) + "."}}
}

// basisNote says what columns rest on, those of one basis together.
func (in *source) basisNote(columns []rig.Headline) string {
	var words []string
	by := map[string][]string{}
	for _, h := range columns {
		b := basisWord(in.footing(h.Path))
		if by[b] == nil {
			words = append(words, b)
		}
		by[b] = append(by[b], h.Short)
	}
	var out []string
	for _, b := range words {
		out = append(out, strings.Join(by[b], ", ")+": "+b)
	}
	return "Basis: " + strings.Join(out, "; ") + "."
}
