package rig

import (
	"math"
	"sort"
	"strings"
)

// waterIn is what the balance of water by mode and day depends on.
type waterIn struct {
	work
	axes    *axisSet
	lines   *block[linesIn]
	trigger float64
	share   float64
	modes   []waterMode
	tanks   []waterHeld
	guns    []gunWater
	byName  [2][]int // tanks and guns by name, so that sums do not depend on the order of the lists
	pad     Pad
}

type waterMode struct {
	guns   int // value of AxisGuns, 0 without lines
	time   float64
	joined []int   // by tank: the first tank it is joined to by open crossovers, itself included
	put    [][]int // by gun: the tanks its recovered water is put into, one for each unit that picks it up
}

type waterHeld struct {
	id     string
	usable float64
}

type gunWater struct {
	id   string
	from int // the tank its pump draws from, −1: none of the rig's
}

func (m *Model) waterInput(b *blocks) waterIn {
	s := m.spec
	if len(s.Lines) == 0 || len(s.Tanks) == 0 && !s.Site.Pad.given() {
		return waterIn{}
	}
	in := waterIn{axes: m.axes, lines: b.lines, trigger: float64(s.Duty.TriggerShare), share: float64(s.Duty.RecoveredShare), pad: s.Site.Pad}
	index := map[string]int{}
	for i := range s.Tanks {
		index[s.Tanks[i].ID] = i
		in.tanks = append(in.tanks, waterHeld{s.Tanks[i].ID, float64(s.Tanks[i].Usable)})
	}
	place := func(id string) int {
		if i, ok := index[id]; ok {
			return i
		}
		return -1
	}
	from := map[string]int{}
	for i := range s.Pumps {
		from[s.Pumps[i].ID] = place(s.Pumps[i].Tank)
	}
	for i := range s.Lines {
		in.guns = append(in.guns, gunWater{s.Lines[i].ID, from[s.Lines[i].Pump]})
	}
	in.byName[0] = byName(elementIDs(s.Tanks, func(t *Tank) string { return t.ID }))
	in.byName[1] = byName(lineIDs(s))
	list := modesOf(s)
	for k, ms := range m.Modes() {
		w := waterMode{guns: int(ms.State.v[AxisGuns]), time: float64(list[k].Time), put: make([][]int, len(s.Lines))}
		w.joined = joinedIn(s, &list[k], index)
		for r := range s.Recovery {
			u := &s.Recovery[r]
			if u.motorsIn(&list[k]) == 0 {
				continue
			}
			to := place(returnTank(s, u, &list[k]))
			if to < 0 {
				continue
			}
			for g := range s.Lines {
				if u.picksUp(s.Lines[g].ID) {
					w.put[g] = append(w.put[g], to)
				}
			}
		}
		in.modes = append(in.modes, w)
	}
	return in
}

// byName returns the indices of ids in the order of the alphabet.
func byName(ids []string) []int {
	out := make([]int, len(ids))
	for i := range out {
		out[i] = i
	}
	sort.Slice(out, func(a, b int) bool { return ids[out[a]] < ids[out[b]] })
	return out
}

// openIn reports whether a crossover stands open in a mode.
func openIn(c *Crossover, mode *Mode) bool {
	if c.Valve == "open" {
		return true
	}
	for _, id := range mode.Open {
		if id == c.ID {
			return true
		}
	}
	return false
}

// joinedIn returns, by tank, the first tank that open crossovers of a mode join
// it to.
func joinedIn(s *Spec, mode *Mode, index map[string]int) []int {
	out := make([]int, len(s.Tanks))
	for i := range out {
		out[i] = i
	}
	for range s.Crossovers {
		for i := range s.Crossovers {
			c := &s.Crossovers[i]
			a, aok := index[c.From]
			b, bok := index[c.To]
			if !aok || !bok || !openIn(c, mode) {
				continue
			}
			low := min(out[a], out[b])
			for k, x := range out {
				if x == out[a] || x == out[b] {
					out[k] = low
				}
			}
		}
	}
	return out
}

// endIn is the place of a loose hose end in a mode, empty if it is stowed.
func endIn(e *HoseEnd, mode *Mode) string {
	at := e.At
	for _, move := range mode.Ends {
		if id, place, ok := strings.Cut(move, ">"); ok && id == e.ID {
			at = place
		}
	}
	return at
}

// returnTank is the tank that a recovery unit delivers to in a mode: the one it
// names, unless the mode puts a hose end of recovered or treated water that lies
// there into another.
func returnTank(s *Spec, u *Recovery, mode *Mode) string {
	for i := range s.HoseEnds {
		e := &s.HoseEnds[i]
		if e.At == u.Tank && u.Tank != "" && (e.Carries == "recovered" || e.Carries == "treated") {
			return endIn(e, mode)
		}
	}
	return u.Tank
}

// solveWater returns what each tank gives and takes in each mode and over the day.
func solveWater(in *waterIn) ([]*numbers, error) {
	if len(in.modes) == 0 {
		return nil, nil
	}
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	states := in.room(len(in.modes))
	rates := scratch[waterRates](in.w)
	rates.drawn, rates.back = rates.drawn[:0], rates.back[:0]
	for k := range in.modes {
		states = append(states, State{set: in.axes}.with(AxisMode, k+1))
		d, b := in.rates(lines, &in.modes[k])
		rates.drawn, rates.back = append(rates.drawn, d), append(rates.back, b)
	}
	drawn, back := rates.drawn, rates.back
	n, day := in.newNumbers(states), in.newNumbers(in.one(in.axes))
	if in.pad.given() {
		in.padTimes(lines, n, day)
	}
	timed := false
	for k := range in.modes {
		timed = timed || in.modes[k].time > 0
	}
	for i, t := range in.tanks {
		takes, gives := false, false
		for k := range in.modes {
			takes, gives = takes || drawn[k][i] > 0, gives || back[k][i] > 0
		}
		if takes {
			n.row(mWaterDrawn, t.id)
			hours := n.row(mWaterHours, t.id)
			row := n.values(len(n.rows) - 2)
			for k := range in.modes {
				row[k] = drawn[k][i]
				if net := drawn[k][i] - back[k][i]; net > 0 {
					hours[k] = in.held(i, k) / net
				}
			}
		}
		if gives {
			n.row(mWaterReturned, t.id)
			full := n.row(mWaterFull, t.id)
			row := n.values(len(n.rows) - 2)
			for k := range in.modes {
				row[k] = back[k][i]
				if net := back[k][i] - drawn[k][i]; net > 0 {
					full[k] = in.held(i, k) / net
				}
			}
		}
		if timed && (takes || gives) {
			in.day(i, drawn, back, func(m *Metric, v float64) { day.row(m, t.id)[0] = v }, takes, gives)
		}
	}
	return in.out(n, day), nil
}

// waterRates are what is drawn from each tank and put into it, by mode.
type waterRates struct{ drawn, back [][]float64 }

// padTimes adds what the pad holds and how soon each mode overtops it.
func (in *waterIn) padTimes(lines []*numbers, n, day *numbers) {
	holds := float64(in.pad.holds())
	day.row(mPadHolds, "")[0] = holds
	room := math.Max(holds-float64(in.pad.Rain)*float64(in.pad.Length)*float64(in.pad.Width), 0)
	row := n.row(mPadTime, "")
	for k := range in.modes {
		sum := 0.0
		for _, g := range in.byName[1] {
			sum += flowIn(lines, in.guns[g].id, in.modes[k].guns)
		}
		if sum > 0 {
			row[k] = room / sum
		}
	}
}

// flowIn is the flow of a gun in a mode, hot where there is a heater.
func flowIn(lines []*numbers, id string, guns int) float64 {
	flow := 0.0
	for _, n := range lines {
		row := n.of(mLineFlow, id)
		for k, s := range n.states {
			if row != nil && guns != 0 && int(s.v[AxisGuns]) == guns && (s.v[AxisHeat] == 0 || s.v[AxisHeat] == heatSteady) && !math.IsNaN(row[k]) {
				flow = math.Max(flow, row[k])
			}
		}
	}
	return flow
}

// held is the usable volume of a tank and all that a mode joins to it.
func (in *waterIn) held(tank, mode int) float64 {
	sum := 0.0
	for _, k := range in.byName[0] {
		if in.modes[mode].joined[k] == in.modes[mode].joined[tank] {
			sum += in.tanks[k].usable
		}
	}
	return sum
}

// rates are what is drawn from each tank and put into it, by the clock; joined
// tanks have the rates of all of them together.
func (in *waterIn) rates(lines []*numbers, w *waterMode) (drawn, back []float64) {
	drawn, back = in.floats(len(in.tanks)), in.floats(len(in.tanks))
	for _, g := range in.byName[1] {
		flow := in.trigger * flowIn(lines, in.guns[g].id, w.guns)
		if t := in.guns[g].from; t >= 0 {
			drawn[w.joined[t]] += flow
		}
		for _, t := range w.put[g] {
			back[w.joined[t]] += in.share * flow
		}
	}
	for k, first := range w.joined {
		drawn[k], back[k] = drawn[first], back[first]
	}
	return drawn, back
}

// day follows one tank, with whatever each mode joins to it, through the modes in
// their order. From mode to mode it keeps its share of what was drawn or put in.
func (in *waterIn) day(i int, drawn, back [][]float64, put func(*Metric, float64), takes, gives bool) {
	usable := in.tanks[i].usable
	out, returned, clock := 0.0, 0.0, 0.0
	down, lowest := 0.0, 0.0 // change from full, and its least
	up := 0.0                // change from empty
	dry, full := math.NaN(), math.NaN()
	for k := range in.modes {
		t := in.modes[k].time
		if t == 0 {
			continue
		}
		part := usable / in.held(i, k)
		net := (back[k][i] - drawn[k][i]) * part
		out += drawn[k][i] * part * t
		returned += back[k][i] * part * t
		if net < 0 && math.IsNaN(dry) && down+net*t <= -usable {
			dry = clock + (usable+down)/-net
		}
		if net > 0 && math.IsNaN(full) && up+net*t >= usable {
			full = clock + (usable-up)/net
		}
		down, up, clock = math.Min(down+net*t, 0), math.Max(up+net*t, 0), clock+t
		lowest = math.Min(lowest, down)
	}
	if clock == 0 {
		return
	}
	if takes {
		put(mWaterDay, out)
		put(mWaterMakeUp, math.Max(-lowest-usable, 0))
		if !math.IsNaN(dry) {
			put(mWaterRunsDry, dry)
		}
	}
	if gives {
		put(mWaterDayBack, returned)
		if !math.IsNaN(full) {
			put(mWaterRunsFull, full)
		}
	}
}
