package rig

import (
	"fmt"
	"math"
	"sort"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/units"
)

// Values of AxisFilters.
const (
	filtersClean = 1
	filtersFull  = 2
)

// recoveryIn is what vacuum, pick-up, dump-out and filters depend on.
type recoveryIn struct {
	work
	axes    *axisSet
	lines   *block[linesIn]
	hours   []hour
	site    units.AbsolutePressure
	known   bool // the elevation was given
	share   units.Ratio
	trigger units.Ratio
	day     units.Duration
	modes   []recoveryMode
	units   []recoveryUnit
}

type recoveryMode struct{ guns int } // value of AxisGuns

// A recoveryUnit is one unit as values; slices of it are never changed.
type recoveryUnit struct {
	id        string
	lines     []string
	motors    int
	series    bool
	motor     VacuumMotor
	hose      RecoveryHose
	hoses     int
	lift      units.Length
	tool      AirLoss
	filter    VacuumFilter
	drum      units.Volume
	pump      DumpPump
	pumps     int
	discharge Discharge
	filters   []WaterFilter
	dirt      units.Density
	loop      vacuum.Loop
	reused    bool // what it delivers reaches the pump again
	content   units.Volume
	dose      units.Ratio
	warm      units.Temperature
	fresh     units.Volume // usable water of the tanks that feed its guns
	running   []int        // vacuum motors, by mode
}

func (m *Model) recoveryInput(b *blocks) recoveryIn {
	s := m.spec
	if len(s.Recovery) == 0 {
		return recoveryIn{}
	}
	in := recoveryIn{axes: m.axes, lines: b.lines, hours: m.hours(), share: s.Duty.RecoveredShare, trigger: s.Duty.TriggerShare}
	in.site, in.known = sitePressure(s)
	list := modesOf(s)
	for i, ms := range m.Modes() {
		in.modes = append(in.modes, recoveryMode{int(ms.State.v[AxisGuns])})
		if len(list[i].Guns) > 0 {
			in.day += list[i].Time
		}
	}
	for i := range s.Recovery {
		r := &s.Recovery[i]
		u := recoveryUnit{id: r.ID, motors: r.motorCount(), series: r.Arrangement == "series", motor: r.Motor, hose: r.Hose, hoses: max(r.Hoses, 1), lift: r.Lift, tool: r.Tool,
			filter: r.AirFilter, drum: r.Drum.Volume, pump: r.DumpPump, pumps: r.pumpCount(), discharge: r.Discharge, filters: r.Filters, dirt: r.Dirt,
			loop: vacuum.Loop{Return: s.Duty.RecoveredShare, Evaporate: r.Evaporated}, dose: r.DoseLimit, warm: r.ReturnTemperature}
		for k := range list {
			u.running = append(u.running, r.motorsIn(&list[k]))
		}
		feeds := map[string]bool{}
		for k := range s.Lines {
			if !r.picksUp(s.Lines[k].ID) {
				continue
			}
			u.lines = append(u.lines, s.Lines[k].ID)
			for p := range s.Pumps {
				if s.Pumps[p].ID == s.Lines[k].Pump {
					feeds[s.Pumps[p].Tank] = true
				}
			}
		}
		sort.Strings(u.lines) // sums run in order of name
		joined := joinedTanks(s, r.Tank)
		for _, k := range inOrder(s.Tanks, func(t *Tank) string { return t.ID }) {
			t := &s.Tanks[k]
			if feeds[t.ID] {
				u.fresh += t.Usable
				u.reused = u.reused || joined[t.ID]
			}
			if joined[t.ID] {
				u.content += t.Usable
			}
		}
		in.units = append(in.units, u)
	}
	return in
}

// inOrder lists the indices of a list in order of name.
func inOrder[T any](list []T, id func(*T) string) []int {
	out := make([]int, len(list))
	for i := range out {
		out[i] = i
	}
	sort.SliceStable(out, func(a, b int) bool { return id(&list[out[a]]) < id(&list[out[b]]) })
	return out
}

// joinedTanks returns the tank and every tank that open crossovers join to it.
func joinedTanks(s *Spec, tank string) map[string]bool {
	in := map[string]bool{}
	if tank == "" {
		return in
	}
	in[tank] = true
	for range s.Crossovers {
		for _, c := range s.Crossovers {
			if c.Valve == "open" && (in[c.From] || in[c.To]) {
				in[c.From], in[c.To] = true, true
			}
		}
	}
	return in
}

// recoveryWork is the memory in which the units are solved, one after another.
type recoveryWork struct {
	numbers []*numbers
	blower  vacuum.Blower
	points  []vacuum.BlowerPoint
	bank    vacuum.Bank
	tool    vacuum.RatedLoss
	hose    vacuum.Hose
	filter  vacuum.RatedLoss
	path    []vacuum.Element // tool and hose
	duct    []vacuum.Element // filter
	plant   vacuum.Fitted
	pump    vacuum.DumpPump
	heads   []vacuum.DumpPoint
	train   vacuum.Train
	loaded  []units.Ratio
	dumps   [2]vacuum.FittedDump // with clean filters and at change-out
}

// drawMotor draws the motor's curve; ok is false where the plate is not given.
func (u *recoveryUnit) drawMotor(k *recoveryWork) (ok bool, err error) {
	if u.motor.OpenFlow == 0 {
		return false, nil
	}
	k.points = append(k.points[:0], vacuum.BlowerPoint{Lift: u.motor.SealedLift})
	for _, x := range u.motor.Points {
		k.points = append(k.points, vacuum.BlowerPoint{Flow: x.Flow, Lift: x.Lift})
	}
	k.points = append(k.points, vacuum.BlowerPoint{Flow: u.motor.OpenFlow})
	p := vacuum.BlowerPlate{Points: k.points, Air: vacuum.StandardAir(), OpenPower: u.motor.OpenPower, SealedPower: u.motor.SealedPower, Type: vacuum.Centrifugal}
	if len(u.motor.Points) == 0 {
		p.Between = shapeOf(u.motor.Curve)
	}
	if u.motor.Type == "displacement" {
		p.Type = vacuum.Displacement
	}
	return true, k.blower.Redraw(p)
}

func shapeOf(word string) vacuum.Shape {
	if word == "parabola" {
		return vacuum.Parabola
	}
	return vacuum.Straight
}

// layPlant makes the air side without its motors; ok is false where the hose is not
// given.
func (u *recoveryUnit) layPlant(k *recoveryWork, water vacuum.Liquid) (p vacuum.Plant, ok bool) {
	if u.hose.Bore == 0 || u.hose.Length == 0 {
		return p, false
	}
	k.hose = vacuum.Hose{Bore: u.hose.Bore, Length: u.hose.Length, Rise: u.lift}
	if u.hose.Wall == "corrugated" {
		k.hose.Corrugated = u.hose.Corrugation
	}
	k.tool = vacuum.RatedLoss{Flow: u.tool.Flow, Loss: u.tool.Loss, Air: vacuum.StandardAir()}
	k.path = append(k.path[:0], &k.tool, &k.hose)
	return vacuum.Plant{Liquid: water, Hoses: u.hoses, Path: k.path}, true
}

// layDuct is the filter in front of the motors, new or at change-out.
func (u *recoveryUnit) layDuct(k *recoveryWork, filters int) []vacuum.Element {
	if u.filter.Flow == 0 {
		return nil
	}
	loss := u.filter.Clean
	if filters == filtersFull {
		loss = u.filter.Dirty
	}
	k.filter = vacuum.RatedLoss{Flow: u.filter.Flow, Loss: loss, Linear: u.filter.LinearShare, Air: vacuum.StandardAir()}
	k.duct = append(k.duct[:0], &k.filter)
	return k.duct
}

// layBank is the motors of which some run.
func (u *recoveryUnit) layBank(k *recoveryWork, running int) vacuum.Bank {
	k.bank = k.bank[:0]
	if !u.series {
		k.bank = append(k.bank, vacuum.Stage{Blower: &k.blower, Running: running})
		return k.bank
	}
	for range running {
		k.bank = append(k.bank, vacuum.Stage{Blower: &k.blower, Running: 1})
	}
	return k.bank
}

// dump makes the dump-out with every pump; ok is false where the pump is not given.
func (u *recoveryUnit) dump(water vacuum.Liquid) (d vacuum.Dump, ok bool, err error) {
	return u.layDump(new(recoveryWork), water)
}

func (u *recoveryUnit) layDump(k *recoveryWork, water vacuum.Liquid) (d vacuum.Dump, ok bool, err error) {
	d = vacuum.Dump{Liquid: water, Rise: u.discharge.Lift, CheckValve: u.discharge.CheckValve == "yes", Cracking: u.discharge.Cracking}
	if u.discharge.Bore != 0 {
		d.Bore, d.Length, d.K = u.discharge.Bore, u.discharge.Length, float64(u.discharge.Fittings)
	}
	k.train = k.train[:0]
	for i := range u.filters {
		f := &u.filters[i]
		k.train = append(k.train, vacuum.Filter{Name: f.ID, Flow: f.Flow, Clean: f.Clean, Dirty: f.Dirty, Linear: f.LinearShare, Capacity: f.Capacity, Captures: f.Captures})
	}
	d.Filters = k.train
	if d.Bore == 0 && len(d.Filters) == 0 {
		d.CheckValve = true // nothing is known that a back flow would meet; see back_flow
	}
	if u.pump.ShutOffHead == 0 {
		return d, false, nil
	}
	k.heads = append(k.heads[:0], vacuum.DumpPoint{Head: u.pump.ShutOffHead})
	for _, x := range u.pump.Points {
		k.heads = append(k.heads, vacuum.DumpPoint{Flow: x.Flow, Head: x.Head})
	}
	k.heads = append(k.heads, vacuum.DumpPoint{Flow: u.pump.RunOutFlow})
	shape := shapeOf(u.pump.Curve)
	if len(u.pump.Points) > 0 {
		shape = 0
	}
	d.Pump, d.Running = &k.pump, u.pumps
	err = k.pump.Redraw(k.heads, shape)
	return d, err == nil, err
}

// load says how full the water filters are.
func (u *recoveryUnit) load(k *recoveryWork, filters int) []units.Ratio {
	if filters != filtersFull {
		return nil
	}
	k.loaded = k.loaded[:0]
	for range u.filters {
		k.loaded = append(k.loaded, 1)
	}
	return k.loaded
}

// spray adds the flow of a unit's guns to each value of the axis of open guns, heat
// steady; nothing where there is no solution.
func (u *recoveryUnit) spray(lines []*numbers, sum []float64) []float64 {
	for _, n := range lines {
		for _, id := range u.lines {
			row := n.of(mLineFlow, id)
			if row == nil {
				continue
			}
			for k := range n.states {
				if v := &n.states[k].v; (v[AxisHeat] == 0 || v[AxisHeat] == heatSteady) && !math.IsNaN(row[k]) {
					sum[v[AxisGuns]] += row[k]
				}
			}
		}
	}
	return sum
}

// sprays is the room that spray needs.
func (in *recoveryIn) sprays() []float64 { return in.floats(max(in.axes.count(AxisGuns), 1) + 1) }

// solveRecovery returns the numbers of vacuum, pick-up, dump-out and filters.
func solveRecovery(in *recoveryIn) ([]*numbers, error) {
	if len(in.units) == 0 {
		return nil, nil
	}
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	k := scratch[recoveryWork](in.w)
	k.numbers = k.numbers[:0]
	for i := range in.units {
		if err := in.units[i].solve(k, in, lines); err != nil {
			return nil, fmt.Errorf("recovery[%s]: %w", in.units[i].id, err)
		}
	}
	return in.out(k.numbers...), nil
}

// solve adds the numbers of one unit.
func (u *recoveryUnit) solve(k *recoveryWork, in *recoveryIn, lines []*numbers) error {
	spray := u.spray(lines, in.sprays())
	u.fixed(k, in, spray)
	if !u.warm.Given() {
		return nil
	}
	water, err := vacuum.Water(u.warm)
	if err != nil {
		return units.At("return_temperature", err)
	}
	drawn, err := u.drawMotor(k)
	if err != nil {
		return units.At("motor", err)
	}
	if !drawn || !in.known || len(in.hours) == 0 {
		return nil
	}

	// by the hour and the motors that run; with none of them there is nothing to say
	motors := in.axes.count(AxisMotors) - 1
	hourly, byMotors := in.room(len(in.hours)), in.room(len(in.hours)*motors)
	for _, h := range in.hours {
		at := State{set: in.axes}.with(AxisSite, h.state)
		hourly = append(hourly, at)
		for m := range motors {
			byMotors = append(byMotors, at.with(AxisMotors, m+2))
		}
	}
	air := func(h hour) vacuum.Air { return vacuum.Air{Pressure: in.site, Temperature: h.air} }
	running := func(m int) int { return min(m+1, u.motors) }
	n := in.newNumbers(hourly)
	carry := n.row(mCarrySpeed, u.id)
	for i, h := range in.hours {
		v, err := vacuum.CarryVelocity(air(h), water)
		if err != nil {
			return err
		}
		carry[i] = float64(v)
	}
	k.numbers = append(k.numbers, n)
	n = in.newNumbers(byMotors)
	n.row(mSealedLift, u.id)
	n.row(mColumn, u.id)
	sealed, column := n.values(0), n.values(1)
	for i, h := range in.hours {
		for m := range motors {
			p, err := u.layBank(k, running(m)).SealedLift(air(h))
			if err != nil {
				return err
			}
			sealed[i*motors+m] = float64(p)
			column[i*motors+m] = float64(p) / (float64(water.Density) * float64(units.StandardGravity))
		}
	}
	k.numbers = append(k.numbers, n)

	plant, ok := u.layPlant(k, water)
	if !ok {
		return nil
	}
	// by the filters as well, and by the guns
	guns := max(in.axes.count(AxisGuns), 1)
	returned := spray[1:]
	for g := range returned {
		returned[g] *= float64(in.share)
	}
	dry, wet := in.room(2*len(byMotors)), in.room(2*len(byMotors)*guns)
	for _, s := range byMotors {
		for _, f := range [...]int{filtersClean, filtersFull} {
			s := s.with(AxisFilters, f)
			dry = append(dry, s)
			for g := range guns {
				if in.axes.count(AxisGuns) > 0 {
					s = s.with(AxisGuns, g+1)
				}
				wet = append(wet, s)
			}
		}
	}
	byDry, byWet := in.newNumbers(dry), in.newNumbers(wet)
	for _, m := range [...]*Metric{mAirFlow, mToolLift, mPickUp, mPickUpLow, mPickUpHigh} {
		byDry.row(m, u.id)
	}
	w := wetRows{n: byWet, u: u}
	w.recovered, w.airSpeed, w.drumVacuum, w.motorPower, w.dumpFlow, w.dumpHead = w.add(mRecovered), w.add(mAirSpeed), w.add(mDrumVacuum), w.add(mMotorPower), w.add(mDumpFlow), w.add(mDumpVacuumHead)
	w.backFlow, w.floatTrip, w.filterLoss, w.dumpDuty, w.carried = w.add(mBackFlow), w.add(mFloatTrip), w.add(mFilterLoss), w.add(mDumpDuty), w.add(mCarried)
	dump, pumped, err := u.layDump(k, water)
	if err != nil {
		return units.At("dump_pump", err)
	}
	w.pumped, w.still = pumped, dump.Bore != 0
	for f := range k.dumps {
		if !w.pumped && !w.still {
			break // nothing is asked of it
		}
		dump.Loaded = u.load(k, f+1)
		if err := k.dumps[f].Refit(dump); err != nil {
			return err
		}
	}
	w.rhog = float64(water.Density) * float64(units.StandardGravity)
	for i := range dry {
		h, f := in.hours[i/(2*motors)], i%2
		bank, duct := u.layBank(k, running(i/2%motors)), u.layDuct(k, f+1)
		if i%(2*motors) == 0 {
			plant.Air, plant.Motors, plant.Duct = air(h), bank, duct
			err = k.plant.Refit(plant)
		} else {
			err = k.plant.Equip(bank, duct)
		}
		if err != nil {
			return err
		}
		free, err := k.plant.Operate(0)
		if err != nil {
			return err
		}
		pick, err := k.plant.PickUp(free.Carry)
		if err != nil {
			return err
		}
		for r, v := range [...]float64{float64(free.FreeAir), float64(free.Tool), float64(pick.Rate), float64(pick.Low), float64(pick.High)} {
			byDry.value[r*len(dry)+i] = v
		}
	guns:
		for g, back := range returned {
			for like := range g { // guns of equal flow share their state
				if returned[like] == back {
					byWet.copy(i*guns+like, i*guns+g)
					continue guns
				}
			}
			op := free
			if back > 0 {
				if op, err = k.plant.Operate(units.VolumeFlow(back)); err != nil {
					return err
				}
			}
			if err := w.settle(i*guns+g, back, &op, &k.dumps[f]); err != nil {
				return err
			}
		}
	}
	k.numbers = append(k.numbers, byDry, byWet)
	return nil
}

// values returns the numbers of a row by state.
func (n *numbers) values(row int) []float64 { return place{n, row}.values() }

// copy gives one state the numbers of another.
func (n *numbers) copy(from, to int) {
	for r := range n.rows {
		n.value[r*len(n.states)+to] = n.value[r*len(n.states)+from]
	}
}

// wetRows are the rows of what depends on the water that comes back.
type wetRows struct {
	n      *numbers
	u      *recoveryUnit
	pumped bool
	still  bool // a hose through which water may come back
	rhog   float64

	recovered, airSpeed, drumVacuum, motorPower, dumpFlow, dumpHead, backFlow, floatTrip, filterLoss, dumpDuty, carried int
}

func (w *wetRows) add(m *Metric) int {
	w.n.row(m, w.u.id)
	return len(w.n.rows) - 1
}

// settle writes the numbers of one state in which back m³/s come back.
func (w *wetRows) settle(at int, back float64, op *vacuum.Operation, dump *vacuum.FittedDump) error {
	u := w.u
	put := func(row int, v float64) { w.n.value[row*len(w.n.states)+at] = v }
	put(w.recovered, back)
	put(w.airSpeed, float64(op.Velocity))
	put(w.drumVacuum, float64(op.Tank))
	if u.motor.OpenPower != 0 {
		put(w.motorPower, float64(op.Load))
	}
	put(w.dumpHead, float64(op.Tank)/w.rhog)
	held := max(op.Tank, 0)
	if w.pumped {
		out, loss, err := dump.Flow(held)
		if err != nil {
			return err
		}
		put(w.dumpFlow, float64(out))
		if len(u.filters) > 0 {
			put(w.filterLoss, float64(loss))
		}
		if back > 0 {
			share := 1.0
			if float64(out) < back {
				free, _, err := dump.Flow(0)
				if err != nil {
					return err
				}
				share = carriedShare(back, float64(out), float64(free))
			} else {
				put(w.dumpDuty, back/float64(out))
			}
			put(w.carried, share)
		}
		if u.drum != 0 {
			l, err := vacuum.Fill(u.drum, 0, units.VolumeFlow(back), out)
			if err != nil {
				return err
			}
			if l.Trips {
				put(w.floatTrip, float64(l.Trip))
			}
		}
	}
	if w.still {
		q, err := dump.BackFlow(held)
		if err != nil {
			return err
		}
		put(w.backFlow, float64(q))
	}
	return nil
}

// carriedShare is the share of the time that a drum picks up whose dump pump does
// not keep up. While the vacuum runs the drum fills with w − q; then the float shuts
// the vacuum and the pump empties it with free, the flow without vacuum:
//
//	(V/(w − q)) / (V/(w − q) + V/free) = free / (free + w − q)
//
// Nothing where the pump moves nothing even then; back flow counts in q.
func carriedShare(w, q, free float64) float64 {
	if free <= 0 {
		return 0
	}
	return free / (free + w - q)
}

// fixed returns what depends on no site: room for the water, filters by dirt, the
// loop, storage. Spray is the flow of its guns by the axis of open guns.
func (u *recoveryUnit) fixed(k *recoveryWork, in *recoveryIn, spray []float64) {
	n := in.newNumbers(in.one(in.axes))
	put := func(m *Metric, v float64) { n.row(m, u.id)[0] = v }
	if u.fresh > 0 && !u.reused {
		put(mReturned, float64(in.share)*float64(u.fresh))
	}
	if in.day > 0 {
		put(mWorkDay, float64(in.day))
	}
	if u.reused {
		if b, err := u.loop.Added(); err == nil && !b.Without {
			put(mBuildAdded, float64(b.Tank))
			most := 0.0
			for _, m := range in.modes {
				most = math.Max(most, spray[m.guns])
			}
			if u.dose > 0 && u.content > 0 && most > 0 {
				if c, err := b.ChangeOutAt(u.dose, u.content, units.VolumeFlow(most), units.Day); err == nil && c.Reached {
					put(mChangeOut, float64(c.Worked))
				}
			}
		}
		if b, err := u.loop.MakeUp(); err == nil && !b.Without {
			put(mBuildMakeUp, float64(b.Tank))
		}
	}
	k.numbers = append(k.numbers, n)
	if u.dirt == 0 || len(in.modes) == 0 {
		return
	}
	states := in.room(len(in.modes))
	for i := range in.modes {
		states = append(states, State{set: in.axes}.with(AxisMode, i+1))
	}
	n = in.newNumbers(states)
	row := n.row(mFilterTime, u.id)
	for i, m := range in.modes {
		left := float64(u.dirt) * float64(in.share) * spray[m.guns]
		if in.trigger > 0 {
			left *= float64(in.trigger)
		}
		first := math.Inf(1)
		for _, f := range u.filters {
			if f.Capacity == 0 {
				continue
			}
			keeps := left * float64(f.Captures)
			if keeps > 0 {
				first = math.Min(first, float64(f.Capacity)/keeps)
			}
			left -= keeps
		}
		if !math.IsInf(first, 1) {
			row[i] = first
		}
	}
	k.numbers = append(k.numbers, n)
}
