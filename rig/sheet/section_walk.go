package sheet

import (
	"strings"

	"example.com/washrig/rig"
)

// walkRound is the dozen figures asked for when a rig is shown, in a fixed
// order, each at its worst in the states of the day.
func walkRound(d *Document, in *source) error {
	t := &Table{Columns: []Column{left("figure"), right("value"), left("state"), left("basis")}}
	row := func(what, value, state, basis string) { t.Rows = append(t.Rows, []string{what, value, state, basis}) }
	any := rig.State{}

	for i := range in.spec.Tanks {
		k := &in.spec.Tanks[i]
		row("usable of nominal, "+k.ID+" tank", in.volume(k.Usable)+" of "+in.volume(k.Nominal), "full", in.origin(rig.Path("tanks["+k.ID+"].usable")))
	}
	for i := range in.spec.Sources {
		s := &in.spec.Sources[i]
		row("rated to run, source "+s.ID, in.power(s.Running), "plate", in.origin(rig.Path("sources["+s.ID+"].running")))
		if s.Starting != 0 {
			row("start, source "+s.ID, in.power(s.Starting), "plate", in.origin(rig.Path("sources["+s.ID+"].starting")))
		}
		if x := in.span(rig.Path("sources["+s.ID+"].run_limit"), any, rig.Reachable); x.ok && x.worst.State.On(rig.AxisSite) != "" {
			row("rated to run at the site, source "+s.ID, x.text(in.o.System), in.where(x.readings()), basisWord(in.footing("sources[].run_limit")))
		}
	}
	for i := range in.spec.Lines {
		id := in.spec.Lines[i].ID
		for _, m := range []struct {
			path rig.Path
			what string
		}{{"lines[].nozzle_pressure", "pressure at the nozzle, "}, {"lines[].flow", "flow, "}} {
			if x := in.span(at(m.path, id), any, rig.Reachable); x.ok {
				row(m.what+id, x.text(in.o.System), in.where(x.readings()), basisWord(in.footing(m.path)))
			}
		}
	}
	for i := range in.spec.Heaters {
		id := in.spec.Heaters[i].ID
		p := rig.Path("heaters[" + id + "].outlet_temperature")
		least, most := in.byGuns(p)
		if least.ok {
			row("hottest water with one gun, "+named("heater", id), least.text(in.o.System), in.where(least.readings())+", at the coil", basisWord(in.footing(p)))
		}
		if most.ok {
			row("hottest water with every gun, "+named("heater", id), most.text(in.o.System), in.where(most.readings())+", at the coil", basisWord(in.footing(p)))
		}
	}
	for i := range in.spec.Engines {
		id := in.spec.Engines[i].ID
		worst, ok := in.narrowest(rig.Path("engines[" + id + "].demand"))
		if ok {
			value := worst.Reading.Text(in.o.System, digits) + " asked of " + worst.Reading.Metric.Text(worst.Limit, in.o.System, digits)
			if w := distance(worst.Reading.Metric, worst.Reading.Value, worst.Limit, worst.Margin, in.o.System); w != "" {
				value += ", " + w
			}
			row("power at the site, "+named("engine", id), value, stateWords(in.m, worst.Reading.State), basisWord(weaker(in.footing("engines[].demand"), in.footing("engines[].available"))))
		}
	}
	if r, ok := in.rep.WorstAmong("fuel_tanks[].hours", any, rig.Reachable); ok {
		row("hours to the first fuel tank that runs out", r.Text(in.o.System, 3), component(r)+", "+stateWords(in.m, r.State), basisWord(in.footing("fuel_tanks[].hours")))
	}
	if r, ok := in.rep.WorstAmong("tanks[].hours", any, rig.Reachable); ok {
		row("hours to the first water tank that runs out, not refilled", r.Text(in.o.System, 3), component(r)+", "+stateWords(in.m, r.State), basisWord(in.footing("tanks[].hours")))
	}
	if r, ok := in.rep.WorstAmong("tanks[].hours_to_full", any, rig.Reachable); ok {
		row("hours to the first tank that is full", r.Text(in.o.System, 3), component(r)+", "+stateWords(in.m, r.State), basisWord(in.footing("tanks[].hours_to_full")))
	}
	for _, f := range in.m.Fills() {
		if f.Reach != rig.Reachable {
			continue
		}
		share, weight := in.span("trailer.tongue_share", f.State, rig.Reachable), in.span("trailer.tongue", f.State, rig.Reachable)
		if share.ok && weight.ok {
			row("weight on the tongue", share.text(in.o.System)+", "+weight.text(in.o.System), f.Title, basisWord(in.footing("trailer.tongue")))
		}
	}
	d.Add(Heading{Text: "What a visitor asks"}, *t)
	return nil
}

// byGuns returns a heater's number with one gun open and with the most guns its
// states have, steady.
func (in *source) byGuns(p rig.Path) (one, every span) {
	most := 0
	add := func(x *span, r rig.Reading) {
		if !x.ok || r.Value.SI() < x.low.Value.SI() {
			x.low = r
		}
		if !x.ok || r.Value.SI() > x.high.Value.SI() {
			x.high, x.worst = r, r
		}
		x.ok = true
	}
	for r := range in.rep.Among(p, rig.State{}, rig.Reachable) {
		guns := r.State.On(rig.AxisGuns)
		if guns == "" || guns == "none" || r.State.On(rig.AxisHeat) != "steady" {
			continue
		}
		n := strings.Count(guns, "+") + 1
		if n == 1 {
			add(&one, r)
		}
		if n > most {
			most, every = n, span{}
		}
		if n == most && n > 1 {
			add(&every, r)
		}
	}
	return one, every
}

// narrowest returns the judgement of a path with the least margin in the states
// of the day.
func (in *source) narrowest(p rig.Path) (rig.Judgement, bool) {
	var worst rig.Judgement
	ok := false
	for j := range in.rep.Judgements() {
		if j.Reading.Path() == p && j.Reading.State.Reach() == rig.Reachable && j.Limit.Given() && (!ok || j.Margin < worst.Margin) {
			worst, ok = j, true
		}
	}
	return worst, ok
}
