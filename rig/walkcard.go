package rig

import (
	"encoding/json"
	"strings"

	"example.com/washrig/units"
)

// A WalkCard is the dozen figures that are asked for when a rig is shown, in a fixed
// order, each at its worst in the states of the day.
type WalkCard struct {
	Figures []CardFigure `json:"figures"`
}

// A CardFigure is one figure of the walk-round card.
type CardFigure struct {
	What string // in words, with the component
	Path Path   // of the number, or of the field of the specification
	Low  units.Quantity
	High units.Quantity // the same where there is one figure
	Of   units.Quantity // what it is held against; not given: nothing
	At   []State        // the states of Low and High; empty: a figure of the plate
	When string         // the fill state, the place or the plate, in words
	From Basis          // the weakest basis of its inputs; empty: stated

	// Computed tells a number from a field of the specification of the same path: what a
	// source is rated to run, and what it runs.
	Computed bool

	metric *Metric
}

// jsonFigure is the JSON form of a CardFigure.
type jsonFigure struct {
	What     string       `json:"what" doc:"the figure in words, with its component; may be reworded"`
	Path     Path         `json:"path" doc:"the number, or the field of the specification"`
	Low      jsonQuantity `json:"low" doc:"the figure; the lower end where neither way is better"`
	High     jsonQuantity `json:"high" doc:"the upper end; the same where there is one figure"`
	Of       jsonQuantity `json:"of,omitzero" doc:"what it is held against, such as the nominal volume or what an engine gives"`
	At       []State      `json:"at" doc:"the states it stands in; none: a figure of the plate"`
	When     string       `json:"when,omitempty" doc:"the fill state, the place or the plate in words"`
	Computed bool         `json:"computed" doc:"whether it is computed; else it is what the specification gives at the path"`
	Basis    Basis        `json:"basis" enum:"stated|measured|nameplate|catalogue|assumed" doc:"the weakest basis among its inputs; stated if the specification says no more"`
}

// MarshalJSON writes the figure in US units, one unit a metric.
func (f CardFigure) MarshalJSON() ([]byte, error) {
	basis := f.From
	if basis == "" {
		basis = "stated"
	}
	in := func(q units.Quantity) jsonQuantity {
		if u, ok := fieldUnit(f.Path, q.Kind(), units.US); ok && f.metric == nil {
			return jsonQuantity{q, u}
		}
		return f.metric.json(q)
	}
	return json.Marshal(jsonFigure{f.What, f.Path, in(f.Low), in(f.High), in(f.Of), append([]State{}, f.At...), f.When, f.Computed, basis})
}

// WalkCard returns the walk-round card of the rig.
func (r *Report) WalkCard() WalkCard {
	b := walkBuilder{r: r, m: r.model, any: State{set: r.model.axes}, card: WalkCard{Figures: []CardFigure{}}}
	b.plates()
	b.water()
	b.power()
	b.hours()
	b.tongue()
	return b.card
}

// A walkBuilder gathers the figures.
type walkBuilder struct {
	r    *Report
	m    *Model
	any  State
	card WalkCard
}

func (b *walkBuilder) add(f CardFigure) {
	f.Computed = f.metric != nil
	b.card.Figures = append(b.card.Figures, f)
}

// field adds a figure that the specification gives.
func (b *walkBuilder) field(what string, p Path, when string, of units.Quantity) {
	if q, ok := b.m.Quantity(p); ok {
		b.add(CardFigure{What: what, Path: p, Low: q, High: q, Of: of, When: when, From: b.m.Origin(p).Basis})
	}
}

// reading adds one figure.
func (b *walkBuilder) reading(what string, x Reading, where string) {
	b.add(CardFigure{What: what, Path: x.Path(), Low: x.Value, High: x.Value, At: []State{x.State}, When: where, From: b.m.Footing(x.Metric.Path).Basis, metric: x.Metric})
}

// span returns a number over the states of the day: the worse end, or both where neither
// way is better.
func (b *walkBuilder) span(what string, p Path, at State) (CardFigure, bool) {
	low, high, ok := extremes(b.r, p, at)
	if !ok {
		return CardFigure{}, false
	}
	switch low.Metric.Better {
	case Higher:
		high = low
	case Lower:
		low = high
	}
	f := CardFigure{What: what, Path: low.Path(), Low: low.Value, High: high.Value, At: []State{low.State}, From: b.m.Footing(low.Metric.Path).Basis, metric: low.Metric}
	if high.State != low.State {
		f.At = append(f.At, high.State)
	}
	return f, true
}

// extremes returns the least and the greatest reading of a path in the states of the day.
// Equal numbers name the state that is listed first.
func extremes(r *Report, p Path, at State) (low, high Reading, ok bool) {
	for x := range r.Among(p, at, Reachable) {
		if v := x.Value.SI(); !ok || less(v, low.Value.SI()) {
			low = x
		}
		if v := x.Value.SI(); !ok || less(high.Value.SI(), v) {
			high = x
		}
		ok = true
	}
	return low, high, ok
}

// less reports whether a is less than b by more than the last digits of a computation.
func less(a, b float64) bool {
	return a < b-1e-9*max(max(a, -a), max(b, -b))
}

func (b *walkBuilder) plates() {
	s := b.m.spec
	for i := range s.Tanks {
		t := &s.Tanks[i]
		b.field("usable of nominal, "+t.ID+" tank", Path("tanks["+t.ID+"].usable"), "full", t.Nominal.Quantity())
	}
	for i := range s.Sources {
		g := &s.Sources[i]
		at := Path("sources[" + g.ID + "]")
		b.field("rated to run, source "+g.ID, at+".running", "plate", units.Quantity{})
		b.field("start, source "+g.ID, at+".starting", "plate", units.Quantity{})
		if f, ok := b.span("rated to run at the site, source "+g.ID, at+".run_limit", b.any); ok && f.At[0].On(AxisSite) != "" {
			b.add(f)
		}
	}
}

func (b *walkBuilder) water() {
	s := b.m.spec
	for i := range s.Lines {
		id := s.Lines[i].ID
		for _, x := range [...]struct {
			what string
			m    *Metric
		}{{"pressure at the nozzle, ", mNozzlePressure}, {"flow, ", mLineFlow}} {
			if f, ok := b.span(x.what+id, x.m.at(id), b.any); ok {
				b.add(f)
			}
		}
	}
	for i := range s.Heaters {
		id := s.Heaters[i].ID
		name := names([]Path{Path("heaters[" + id + "]")})
		var one, every Reading
		most := 0
		for x := range b.r.Among(mOutlet.at(id), b.any, Reachable) {
			guns := x.State.On(AxisGuns)
			if guns == "" || guns == "none" || x.State.On(AxisHeat) != "steady" {
				continue
			}
			n := strings.Count(guns, "+") + 1
			if n == 1 && (one.Metric == nil || x.Value.SI() > one.Value.SI()) {
				one = x
			}
			if n > 1 && (n > most || n == most && x.Value.SI() > every.Value.SI()) {
				most, every = n, x
			}
		}
		if one.Metric != nil {
			b.reading("hottest water with one gun, "+name, one, "at the coil")
		}
		if every.Metric != nil {
			b.reading("hottest water with every gun, "+name, every, "at the coil")
		}
	}
}

func (b *walkBuilder) power() {
	worst := map[string]Judgement{}
	for j := range b.r.Judgements() {
		if j.Reading.Metric != mEngineDemand || j.Reading.State.Reach() != Reachable || !j.Limit.Given() {
			continue
		}
		if w, had := worst[j.Reading.Part]; !had || j.Margin < w.Margin {
			worst[j.Reading.Part] = j
		}
	}
	for i := range b.m.spec.Engines {
		id := b.m.spec.Engines[i].ID
		j, ok := worst[id]
		if !ok {
			continue
		}
		f := CardFigure{What: "power at the site, " + names([]Path{Path("engines[" + id + "]")}), Path: j.Reading.Path(), Low: j.Reading.Value, High: j.Reading.Value,
			Of: j.Limit, At: []State{j.Reading.State}, From: b.m.Footing(mEngineDemand.Path).Basis, metric: j.Reading.Metric}
		if other := b.m.Footing(mEngineHas.Path).Basis; weakness(other) > weakness(f.From) {
			f.From = other
		}
		b.add(f)
	}
}

func (b *walkBuilder) hours() {
	for _, x := range [...]struct {
		what string
		m    *Metric
	}{
		{"hours to the first fuel tank that runs out", mTankHours},
		{"hours to the first water tank that runs out, not refilled", mWaterHours},
		{"hours to the first tank that is full", mWaterFull},
	} {
		if have, ok := b.r.WorstAmong(x.m.Path, b.any, Reachable); ok {
			b.reading(x.what, have, "")
		}
	}
}

func (b *walkBuilder) tongue() {
	for _, fill := range b.m.Fills() {
		if fill.Reach != Reachable {
			continue
		}
		for _, x := range [...]struct {
			what string
			m    *Metric
		}{{"weight on the tongue, share", mTongueShare}, {"weight on the tongue", mTongue}} {
			if f, ok := b.span(x.what, x.m.Path, fill.State); ok {
				f.When = fill.Title
				b.add(f)
			}
		}
	}
}
