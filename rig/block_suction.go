package rig

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/internal/air"
	"example.com/washrig/units"
)

// Values of AxisStrainer, AxisWater and AxisLevel.
const (
	strainerClean = 1
	strainerDirty = 2
	waterCold     = 1
	waterWarm     = 2
	levelFull     = 1
	levelLow      = 2
)

// What the block takes where the specification has no field.
const (
	ventCoefficient = 0.6             // of discharge: a plain hole or a short nipple
	pulseLiquid     = 1.4             // K of the acceleration head for water without air, the harder case
	lastInch        = 1 * units.Inch  // a dump ends here: the rest goes by swirls
	spoutLoss       = 1               // velocity head that leaves the end of a fill hose
	steadyShare     = 1. / 3          // of a tank's height: beyond it levels are integrated in time
	longestRun      = 24 * units.Hour // of such an integration
)

// suctionIn is what suction, vents, dumping and filling depend on.
type suctionIn struct {
	work
	axes     *axisSet
	site     units.AbsolutePressure
	known    bool // the elevation was given
	water    units.Temperature
	coldest  units.Temperature // hour of the site: its air is the densest
	pumps    []suctionPump
	tanks    []waterTank
	supplies []fillSupply
	feeds    []feedSupply
	joints   []joint
}

type suctionPump struct {
	id       string
	flow     units.VolumeFlow
	line     SuctionLine
	required units.Length
	plungers int
	speed    units.RotationalSpeed
	vent     units.Length       // of its tank
	holds    units.Volume       // its tank, full
	nozzle   units.NozzleNumber // the smallest behind it
}

type waterTank struct {
	id       string
	shape    tank.Shape // Form 0: the height is not given
	overflow units.Length
	vent     units.Length
	vacuum   units.Pressure
	dump     DumpOutlet
	drawn    units.VolumeFlow // by pumps
	filled   []int            // supplies
}

type fillSupply struct {
	WaterSupply
	usable units.Volume
	use    units.VolumeFlow // mean, of the pumps that draw from its tank
}

// A joint is a crossover, seen from the tank whose level moves.
type joint struct {
	id      string
	opening tank.Opening
	ends    [2]int // tanks
	drawn   int    // 0 or 1: the end that pumps draw from, −1 none
	draw    units.VolumeFlow
	filled  int // the end that a supply fills, −1 none
	supply  int
	height  units.Length // of the lower of the two
}

// suctionAxes adds the values of the axes of suction.
func suctionAxes(s *Spec, a *axisSet) {
	strainer, warm, level := false, false, false
	for i := range s.Pumps {
		l := &s.Pumps[i].Suction
		if !l.given() {
			continue
		}
		strainer = strainer || l.Strainer.Loss != 0
		warm = warm || l.warms(s.Site.Water)
		level = level || l.Low.Given() && l.High.Given()
	}
	if strainer {
		a.add(AxisStrainer, "clean", Reachable)
		a.add(AxisStrainer, "dirty", Reachable)
	}
	if warm {
		a.add(AxisWater, "cold", Reachable)
		a.add(AxisWater, "warm", Reachable)
	}
	if level {
		a.add(AxisLevel, "full", Reachable)
		a.add(AxisLevel, "low", Reachable)
	}
}

// warms reports whether the line ever draws warmer water than the supply's.
func (l *SuctionLine) warms(supply units.Temperature) bool {
	return l.Warmest.Given() && supply.Given() && l.Warmest.Kelvin() > supply.Kelvin()
}

// insideForm is the inside of a tank as package tank takes it. A tank whose sheet
// has no form is taken as upright.
func (t *Tank) insideForm() tank.Shape {
	switch {
	case t.Shape == "lengthwise-cylinder" && t.Diameter != 0 && t.InsideLength != 0:
		return tank.Shape{Form: tank.LyingCylinder, Diameter: t.Diameter, Length: t.InsideLength}
	case t.Shape == "crosswise-cylinder" && t.Diameter != 0 && t.InsideWidth != 0:
		return tank.Shape{Form: tank.LyingCylinder, Diameter: t.Diameter, Length: t.InsideWidth}
	case t.Nominal != 0 && t.Height != 0:
		return tank.UprightOf(t.Nominal, t.Height)
	}
	return tank.Shape{}
}

func (m *Model) suctionInput(*blocks) suctionIn {
	s := m.spec
	in := suctionIn{axes: m.axes, water: s.Site.Water}
	in.site, in.known = sitePressure(s)
	if !in.known {
		in.site = standardAtmosphere
	}
	for _, c := range s.Site.Conditions {
		if c.Air.Given() && (!in.coldest.Given() || c.Air.Kelvin() < in.coldest.Kelvin()) {
			in.coldest = c.Air
		}
	}
	index := map[string]int{}
	for i := range s.Tanks {
		t := &s.Tanks[i]
		index[t.ID] = i
		in.tanks = append(in.tanks, waterTank{id: t.ID, shape: t.insideForm(), overflow: t.Overflow, vent: t.Vent, vacuum: t.MaximumVacuum, dump: t.Dump})
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		sp := suctionPump{id: p.ID, flow: p.RatedFlow, line: p.Suction, required: p.RequiredHead, plungers: p.Plungers, speed: p.Speed}
		if k, ok := index[p.Tank]; ok {
			in.tanks[k].drawn += p.RatedFlow
			sp.vent, sp.holds = s.Tanks[k].Vent, s.Tanks[k].Nominal
		}
		for k := range s.Lines {
			if l := &s.Lines[k]; l.Pump == p.ID && (sp.nozzle == 0 || l.Nozzle.Number < sp.nozzle) {
				sp.nozzle = l.Nozzle.Number
			}
		}
		in.pumps = append(in.pumps, sp)
	}
	for i := range s.Supplies {
		w := &s.Supplies[i]
		if w.Pump != "" {
			in.feeds = append(in.feeds, feedOf(s, w))
			continue
		}
		f := fillSupply{WaterSupply: *w}
		if k, ok := index[w.Tank]; ok {
			in.tanks[k].filled = append(in.tanks[k].filled, len(in.supplies))
			f.usable = s.Tanks[k].Usable
			f.use = in.tanks[k].drawn * units.VolumeFlow(s.Duty.TriggerShare)
		}
		in.supplies = append(in.supplies, f)
	}
	for i := range s.Crossovers {
		c := &s.Crossovers[i]
		a, aok := index[c.From]
		b, bok := index[c.To]
		if c.Bore == 0 || !aok || !bok || in.tanks[a].shape.Form != tank.Upright || in.tanks[b].shape.Form != tank.Upright {
			continue
		}
		j := joint{id: c.ID, opening: tank.Opening{Bore: c.Bore, Length: c.Length, K: float64(c.K)}, ends: [2]int{a, b}, drawn: -1, filled: -1,
			height: min(in.tanks[a].shape.Height, in.tanks[b].shape.Height)}
		for e, k := range j.ends {
			if q := in.tanks[k].drawn; q > j.draw {
				j.drawn, j.draw = e, q
			}
			if list := in.tanks[k].filled; len(list) > 0 && j.filled < 0 {
				j.filled, j.supply = e, list[0]
			}
		}
		in.joints = append(in.joints, j)
	}
	return in
}

// suctionWork is the memory in which the block is solved.
type suctionWork struct {
	numbers []*numbers
	fill    []units.VolumeFlow
	tank    tank.Workspace
	run     hydraulics.Run
	line    []hydraulics.Element
	hose    hydraulics.Hose
	fitting hydraulics.Fitting
	device  hydraulics.CheckValve
	meter   hydraulics.RatedLoss
	suction tank.Suction
	head    [2]tank.SuctionHead // with cold and with warm water
	filling tank.Filling
	filled  tank.FillFlow
	drained tank.Drained
}

// solveSuction returns the numbers of suction, vents, dumping and filling.
func solveSuction(in *suctionIn) ([]*numbers, error) {
	k := scratch[suctionWork](in.w)
	k.numbers = k.numbers[:0]
	fixed := in.newNumbers(in.one(in.axes))
	put := func(m *Metric, part string, v float64) { fixed.row(m, part)[0] = v }
	fluid, err := fluidAt(in.site, in.water)
	if err != nil {
		return nil, err
	}
	breath, err := in.breath()
	if err != nil {
		return nil, err
	}
	for i := range in.pumps {
		p := &in.pumps[i]
		if !p.line.given() {
			continue
		}
		if err := in.solvePump(k, p, breath); err != nil {
			return nil, units.At("pumps["+p.id+"].suction", err)
		}
		bore := float64(p.line.Bore)
		put(mSuctionSpeed, p.id, float64(p.flow)/(math.Pi/4*bore*bore))
		deep, err := tank.LeastSubmergence(p.line.Bore, p.flow)
		if err != nil {
			return nil, units.At("pumps["+p.id+"].suction", err)
		}
		put(mSubmergence, p.id, float64(deep))
		if p.line.Strainer.Opening != 0 && p.nozzle != 0 {
			d, err := hydraulics.NozzleBore(p.nozzle, 1)
			if err != nil {
				return nil, err
			}
			put(mMesh, p.id, float64(p.line.Strainer.Opening/d))
		}
		switch p.line.Strainer.Valve {
		case "yes":
			put(mServiceLoss, p.id, 0)
		case "no":
			put(mServiceLoss, p.id, float64(p.holds))
		}
		if p.line.Warmest.Given() {
			put(mDrawnWarm, p.id, p.line.Warmest.Kelvin())
		}
	}
	k.fill = k.fill[:0]
	for i := range in.supplies {
		w := &in.supplies[i]
		q, err := w.flow(k, fluid)
		if err != nil {
			return nil, units.At("supplies["+w.ID+"]", err)
		}
		k.fill = append(k.fill, q)
		put(mFillFlow, w.ID, float64(q))
		put(mFillGain, w.ID, float64(q-w.use))
		if q > 0 && w.usable != 0 {
			put(mFillTime, w.ID, float64(w.usable)/float64(q))
		}
		gap, err := tank.AirGap(w.end(), w.ByWall == "yes")
		if err != nil {
			return nil, units.At("supplies["+w.ID+"]", err)
		}
		put(mGapNeeded, w.ID, float64(gap))
	}
	for i := range in.feeds {
		if err := in.feeds[i].solve(k, fluid, put); err != nil {
			return nil, units.At("supplies["+in.feeds[i].ID+"]", err)
		}
	}
	for i := range in.tanks {
		t := &in.tanks[i]
		if err := t.solve(k, in.site, fluid, breath, put); err != nil {
			return nil, units.At("tanks["+t.id+"]", err)
		}
	}
	for i := range in.joints {
		j := &in.joints[i]
		if err := in.solveJoint(j, fluid, k.fill, put); err != nil {
			return nil, units.At("crossovers["+j.id+"]", err)
		}
	}
	if len(fixed.rows) > 0 {
		k.numbers = append(k.numbers, fixed)
	}
	return in.out(k.numbers...), nil
}

// breath is the density of the air a tank breathes: that of the coldest hour, or
// of the standard atmosphere's temperature.
func (in *suctionIn) breath() (units.Density, error) {
	t := air.SeaLevelTemperature
	if in.coldest.Given() {
		t = in.coldest.Kelvin()
	}
	rho, err := air.Density(float64(in.site), t)
	return units.Density(rho), err
}

// suction lays out a pump's suction line with cold or warm water, the strainer clean
// and the water at its low level. Vacuum is that of its tank.
func (in *suctionIn) suction(k *suctionWork, p *suctionPump, water int, vacuum units.Pressure) *tank.Suction {
	l := &p.line
	k.fitting = hydraulics.Fitting{Bore: l.Bore, K: float64(l.K)}
	k.hose = hydraulics.Hose{Bore: l.Bore, Length: l.Length, Roughness: l.Roughness}
	k.line = append(k.line[:0], &k.fitting, &k.hose)
	x := &k.suction
	*x = tank.Suction{Site: in.site, Water: in.water, Level: l.Low.Length(), Flow: p.flow, Vacuum: vacuum, Line: k.line, Strainer: p.strainer(strainerClean)}
	if water == waterWarm {
		x.Water = l.Warmest
	}
	if p.plungers != 0 && p.speed != 0 {
		x.Pulsation = tank.Pulsation{Plungers: p.plungers, Speed: p.speed, Line: tank.StiffPipe, Bore: l.Bore, Length: l.Length, Liquid: pulseLiquid}
		switch {
		case l.Stabiliser == "yes":
			x.Pulsation.Line = tank.Stabilised
		case l.Wall == "compliant":
			x.Pulsation.Line = tank.CompliantHose
		}
		if x.Pulsation.Line != tank.StiffPipe {
			x.Pulsation.Moved = min(l.Moved, l.Length)
		}
	}
	return x
}

// vacuum is what a pump that draws makes in its tank, less than the air there is.
func (in *suctionIn) vacuum(p *suctionPump, breath units.Density) (units.Pressure, error) {
	if p.vent == 0 {
		return 0, nil
	}
	v, err := tank.Vent{Bore: p.vent, Coefficient: ventCoefficient, Air: breath}.Pressure(p.flow)
	return min(v, units.Pressure(in.site)), err
}

// strainer is the strainer of a pump's line, clean or dirty.
func (p *suctionPump) strainer(state int) (s tank.Strainer) {
	if l := &p.line.Strainer; l.Loss != 0 {
		s = tank.Strainer{Loss: l.Loss, Flow: p.flow}
		if state == strainerDirty {
			s.Blocked = l.Blocked
		}
	}
	return s
}

// solvePump adds the suction head of a pump over strainer, water and level; nothing
// where the height of the water or of the site is not given. The hour does not
// matter: the standard atmosphere's pressure follows the elevation alone. Strainer
// and level each add to the head and change nothing else of it.
func (in *suctionIn) solvePump(k *suctionWork, p *suctionPump, breath units.Density) error {
	l := &p.line
	if !l.Low.Given() || !in.known {
		return nil
	}
	warms := l.warms(in.water)
	ends := func(split bool) (first, last int) { // values of an axis; 0 where it does not matter
		if split {
			return 1, 2
		}
		return 0, 0
	}
	strainer0, strainer1 := ends(l.Strainer.Loss != 0)
	water0, water1 := ends(warms)
	level0, level1 := ends(l.High.Given())
	states := in.room(8)
	for strainer := strainer0; strainer <= strainer1; strainer++ {
		for water := water0; water <= water1; water++ {
			for level := level0; level <= level1; level++ {
				states = append(states, State{set: in.axes}.with(AxisStrainer, strainer).with(AxisWater, water).with(AxisLevel, level))
			}
		}
	}
	vacuum, err := in.vacuum(p, breath)
	if err != nil {
		return err
	}
	for water := waterCold; water <= max(water1, waterCold); water++ {
		if err := k.tank.Head(in.suction(k, p, water, vacuum), &k.head[water-1]); err != nil {
			return err
		}
	}
	n := in.newNumbers(states)
	for _, m := range [...]*Metric{mSuctionHead, mSuctionMargin, mSuctionLine, mStrainerHead, mPulseHead} {
		n.row(m, p.id)
	}
	for i := range states {
		v := &states[i].v
		level, loss := l.Low.Length(), units.Pressure(0)
		if v[AxisLevel] == levelFull {
			level = l.High.Length()
		}
		if l.Strainer.Loss != 0 {
			if loss, err = p.strainer(int(v[AxisStrainer])).Drop(p.flow); err != nil {
				return err
			}
		}
		h := k.head[max(int(v[AxisWater]), waterCold)-1].With(level, loss)
		set := func(row int, v units.Length) { n.value[row*len(states)+i] = float64(v) }
		set(0, h.Available)
		if p.required != 0 {
			set(1, h.Available-p.required)
		}
		set(2, -h.Line)
		if l.Strainer.Loss != 0 {
			set(3, -h.Strainer)
		}
		if k.suction.Pulsation.Given() {
			set(4, -h.Acceleration)
		}
	}
	k.numbers = append(k.numbers, n)
	return nil
}

// end is the bore over the tank.
func (w *fillSupply) end() units.Length {
	if w.Spout != 0 {
		return w.Spout
	}
	return w.Hose.Bore
}

// flow is what the supply brings into its tank.
func (w *fillSupply) flow(k *suctionWork, fluid hydraulics.Fluid) (units.VolumeFlow, error) {
	w.lay(k)
	k.fitting = hydraulics.Fitting{Bore: w.end(), K: spoutLoss}
	k.line = append(k.line, &k.fitting)
	k.filling = tank.Filling{Supply: tank.Supply{Static: w.Static, Residual: w.Residual, Flow: w.TestFlow}, Line: k.line, Lift: w.Climb, Fluid: fluid}
	if err := k.tank.Fill(&k.filling, &k.filled); err != nil {
		return 0, err
	}
	return k.filled.Flow, nil
}

// solve adds dump, vent and vacuum of one tank.
func (t *waterTank) solve(k *suctionWork, site units.AbsolutePressure, fluid hydraulics.Fluid, breath units.Density, put func(*Metric, string, float64)) error {
	most := t.drawn // greatest flow of air through the vent if it were wide
	vacuum := units.Pressure(math.NaN())
	vent := tank.Vent{Bore: t.vent, Coefficient: ventCoefficient, Air: breath}
	if t.vent != 0 && t.drawn > 0 {
		v, err := vent.Pressure(t.drawn)
		if err != nil {
			return err
		}
		vacuum = min(v, units.Pressure(site)) // no vacuum is deeper than the air
	}
	if t.dump.Bore != 0 && t.shape.Form != 0 {
		top, err := t.shape.Top()
		if err != nil {
			return err
		}
		d := tank.Drain{Shape: t.shape, From: top, To: min(lastInch, top/2), Fluid: fluid,
			Outlet: tank.Opening{Bore: t.dump.Bore, Length: t.dump.Length, K: float64(t.dump.K)}}
		if t.overflow != 0 {
			d.From = max(min(t.overflow, top), d.To)
		}
		if t.vent != 0 {
			d.Vent = vent
		}
		r := &k.drained
		if err := d.Into(r); err != nil {
			return err
		}
		put(mDrainTime, t.id, float64(r.Time))
		put(mDumpOut, t.id, float64(r.First))
		most = max(most, r.Unvented)
		if t.vent != 0 && !(r.Vacuum <= vacuum) {
			vacuum = r.Vacuum
		}
	}
	if vacuum == vacuum {
		put(mTankVacuum, t.id, float64(vacuum))
	}
	for _, s := range t.filled {
		most = max(most, k.fill[s])
	}
	if t.vacuum != 0 && most > 0 {
		d, err := vent.BoreFor(most, t.vacuum)
		if err != nil {
			return err
		}
		put(mVentNeeded, t.id, float64(d))
	}
	return nil
}

// solveJoint adds what an open crossover does to the levels of its tanks.
func (in *suctionIn) solveJoint(j *joint, fluid hydraulics.Fluid, fill []units.VolumeFlow, put func(*Metric, string, float64)) error {
	if j.drawn >= 0 {
		x, far, err := in.cross(j, j.drawn, j.draw, fluid)
		if err != nil {
			return err
		}
		put(mDrawDifference, j.id, float64(x.Difference))
		left := float64(x.Difference) * float64(far.Area)
		if float64(x.Difference) > steadyShare*float64(j.height) {
			s := in.pair(j, j.drawn, fluid)
			s.Draws = []tank.Draw{{Tank: 0, Flow: j.draw}}
			st, err := s.Stranded(full(s), 0)
			if err != nil {
				return err
			}
			left = float64(st.Total)
		}
		put(mStranded, j.id, left)
	}
	if j.filled >= 0 && fill[j.supply] > 0 {
		x, far, err := in.cross(j, j.filled, fill[j.supply], fluid)
		if err != nil {
			return err
		}
		put(mFillDifference, j.id, float64(x.Difference))
		left := float64(x.Difference) * float64(far.Area)
		if float64(x.Difference) > steadyShare*float64(j.height) {
			s := in.pair(j, j.filled, fluid)
			s.Fills = []tank.Fill{{Tank: 0, Flow: fill[j.supply]}}
			o, err := s.Run(make([]tank.Content, 2), longestRun, tank.RunOptions{StopAt: []tank.EventKind{tank.SpillBegins}})
			if err != nil {
				return err
			}
			left = float64(full(s)[1].Volume - o.End[1].Volume)
		}
		put(mUnfilled, j.id, left)
	}
	return nil
}

// cross is the steady flow through a crossover when q enters or leaves at one end;
// it also returns the tank at the other end.
func (in *suctionIn) cross(j *joint, end int, q units.VolumeFlow, fluid hydraulics.Fluid) (tank.Crossing, tank.Shape, error) {
	near, far := in.tanks[j.ends[end]].shape, in.tanks[j.ends[1-end]].shape
	x, err := tank.SteadyCrossing(q, near.Area, far.Area, j.opening, fluid)
	return x, far, err
}

// pair is the two tanks of a crossover, the end first whose level moves.
func (in *suctionIn) pair(j *joint, end int, fluid hydraulics.Fluid) *tank.System {
	return &tank.System{Fluid: fluid, Tanks: []tank.Tank{{Shape: in.tanks[j.ends[end]].shape}, {Shape: in.tanks[j.ends[1-end]].shape}},
		Links: []tank.Link{{From: 0, To: 1, Opening: j.opening}}}
}

// full is the contents of upright tanks filled to their lids.
func full(s *tank.System) []tank.Content {
	out := make([]tank.Content, len(s.Tanks))
	for i := range out {
		f := s.Tanks[i].Shape
		out[i].Volume = units.Volume(float64(f.Area) * float64(f.Height))
	}
	return out
}
