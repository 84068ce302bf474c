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

// blower makes the motor's curve; nil where the plate is not given.
func (u *recoveryUnit) blower() (*vacuum.Blower, error) {
	if u.motor.OpenFlow == 0 {
		return nil, nil
	}
	p := vacuum.BlowerPlate{Points: []vacuum.BlowerPoint{{Lift: u.motor.SealedLift}}, Air: vacuum.StandardAir(), OpenPower: u.motor.OpenPower, SealedPower: u.motor.SealedPower, Type: vacuum.Centrifugal}
	for _, x := range u.motor.Points {
		p.Points = append(p.Points, vacuum.BlowerPoint{Flow: x.Flow, Lift: x.Lift})
	}
	p.Points = append(p.Points, vacuum.BlowerPoint{Flow: u.motor.OpenFlow})
	if len(u.motor.Points) == 0 {
		p.Between = shapeOf(u.motor.Curve)
	}
	if u.motor.Type == "displacement" {
		p.Type = vacuum.Displacement
	}
	return vacuum.NewBlower(p)
}

func shapeOf(word string) vacuum.Shape {
	if word == "parabola" {
		return vacuum.Parabola
	}
	return vacuum.Straight
}

// plant makes the air side without its motors; ok is false where the hose is not
// given.
func (u *recoveryUnit) plant(water vacuum.Liquid) (p vacuum.Plant, ok bool) {
	if u.hose.Bore == 0 || u.hose.Length == 0 {
		return p, false
	}
	h := vacuum.Hose{Bore: u.hose.Bore, Length: u.hose.Length, Rise: u.lift}
	if u.hose.Wall == "corrugated" {
		h.Corrugated = u.hose.Corrugation
	}
	p = vacuum.Plant{Liquid: water, Hoses: u.hoses, Path: []vacuum.Element{vacuum.RatedLoss{Flow: u.tool.Flow, Loss: u.tool.Loss, Air: vacuum.StandardAir()}, h}}
	return p, true
}

// duct is the filter in front of the motors, new or at change-out.
func (u *recoveryUnit) duct(filters int) []vacuum.Element {
	if u.filter.Flow == 0 {
		return nil
	}
	loss := u.filter.Clean
	if filters == filtersFull {
		loss = u.filter.Dirty
	}
	return []vacuum.Element{vacuum.RatedLoss{Flow: u.filter.Flow, Loss: loss, Linear: u.filter.LinearShare, Air: vacuum.StandardAir()}}
}

func (u *recoveryUnit) bank(b *vacuum.Blower, running int) vacuum.Bank {
	if u.series {
		return vacuum.Series(b, running)
	}
	return vacuum.Parallel(b, running)
}

// dump makes the dump-out with every pump; ok is false where the pump is not given.
func (u *recoveryUnit) dump(water vacuum.Liquid) (d vacuum.Dump, ok bool, err error) {
	d = vacuum.Dump{Liquid: water, Rise: u.discharge.Lift, CheckValve: u.discharge.CheckValve == "yes", Cracking: u.discharge.Cracking}
	if u.discharge.Bore != 0 {
		d.Bore, d.Length, d.K = u.discharge.Bore, u.discharge.Length, float64(u.discharge.Fittings)
	}
	for i := range u.filters {
		f := &u.filters[i]
		d.Filters = append(d.Filters, vacuum.Filter{Name: f.ID, Flow: f.Flow, Clean: f.Clean, Dirty: f.Dirty, Linear: f.LinearShare, Capacity: f.Capacity, Captures: f.Captures})
	}
	if d.Bore == 0 && len(d.Filters) == 0 {
		d.CheckValve = true // nothing is known that a back flow would meet; see back_flow
	}
	if u.pump.ShutOffHead == 0 {
		return d, false, nil
	}
	points := []vacuum.DumpPoint{{Head: u.pump.ShutOffHead}}
	for _, x := range u.pump.Points {
		points = append(points, vacuum.DumpPoint{Flow: x.Flow, Head: x.Head})
	}
	points = append(points, vacuum.DumpPoint{Flow: u.pump.RunOutFlow})
	shape := shapeOf(u.pump.Curve)
	if len(u.pump.Points) > 0 {
		shape = 0
	}
	d.Pump, err = vacuum.NewDumpPump(points, shape)
	d.Running = u.pumps
	return d, err == nil, err
}

// load says how full the water filters are.
func (u *recoveryUnit) load(filters int) []units.Ratio {
	if filters != filtersFull {
		return nil
	}
	out := make([]units.Ratio, len(u.filters))
	for i := range out {
		out[i] = 1
	}
	return out
}

// sprayed is the flow of a unit's guns in a set of open guns, heat steady, or NaN
// where there is no solution.
func (u *recoveryUnit) sprayed(lines []*numbers, guns int) float64 {
	sum := 0.0
	for _, n := range lines {
		for _, id := range u.lines {
			row := n.of(mLineFlow, id)
			if row == nil {
				continue
			}
			for k, s := range n.states {
				if int(s.v[AxisGuns]) == guns && (s.v[AxisHeat] == 0 || s.v[AxisHeat] == heatSteady) && !math.IsNaN(row[k]) {
					sum += row[k]
				}
			}
		}
	}
	return sum
}

// solveRecovery returns the numbers of vacuum, pick-up, dump-out and filters.
func solveRecovery(in *recoveryIn) ([]*numbers, error) {
	if len(in.units) == 0 {
		return nil, nil
	}
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	var out []*numbers
	for i := range in.units {
		u := &in.units[i]
		n, err := u.solve(in, lines)
		if err != nil {
			return nil, fmt.Errorf("recovery[%s]: %w", u.id, err)
		}
		out = append(out, n...)
	}
	return out, nil
}

func (u *recoveryUnit) solve(in *recoveryIn, lines []*numbers) ([]*numbers, error) {
	out := u.fixed(in, lines)
	if !u.warm.Given() {
		return out, nil
	}
	water, err := vacuum.Water(u.warm)
	if err != nil {
		return nil, units.At("return_temperature", err)
	}
	blower, err := u.blower()
	if err != nil {
		return nil, units.At("motor", err)
	}
	if blower == nil || !in.known || len(in.hours) == 0 {
		return out, nil
	}

	// by the hour and the motors that run; with none of them there is nothing to say
	motors := in.axes.count(AxisMotors) - 1
	var hourly, byMotors []State
	for _, h := range in.hours {
		hourly = append(hourly, State{set: in.axes}.with(AxisSite, h.state))
		for k := range motors {
			byMotors = append(byMotors, State{set: in.axes}.with(AxisSite, h.state).with(AxisMotors, k+2))
		}
	}
	air := func(h hour) vacuum.Air { return vacuum.Air{Pressure: in.site, Temperature: h.air} }
	running := func(k int) int { return min(k+1, u.motors) }
	n := in.newNumbers(hourly)
	carry := n.row(mCarrySpeed, u.id)
	for i, h := range in.hours {
		v, err := vacuum.CarryVelocity(air(h), water)
		if err != nil {
			return nil, err
		}
		carry[i] = float64(v)
	}
	out = append(out, n)
	n = in.newNumbers(byMotors)
	n.row(mSealedLift, u.id)
	n.row(mColumn, u.id)
	sealed, column := n.of(mSealedLift, u.id), n.of(mColumn, u.id)
	for i, h := range in.hours {
		for k := range motors {
			p, err := u.bank(blower, running(k)).SealedLift(air(h))
			if err != nil {
				return nil, err
			}
			sealed[i*motors+k] = float64(p)
			column[i*motors+k] = float64(p) / (float64(water.Density) * float64(units.StandardGravity))
		}
	}
	out = append(out, n)

	plant, ok := u.plant(water)
	if !ok {
		return out, nil
	}
	// by the filters as well, and by the guns
	guns := max(in.axes.count(AxisGuns), 1)
	back := make([]float64, guns)
	var dry, wet []State
	for g := range guns {
		back[g] = float64(in.share) * u.sprayed(lines, g+1)
	}
	each := func(do func(i int, h hour, k, f int) error) error {
		i := 0
		for _, h := range in.hours {
			for k := range motors {
				for _, f := range []int{filtersClean, filtersFull} {
					if err := do(i, h, k, f); err != nil {
						return err
					}
					i++
				}
			}
		}
		return nil
	}
	_ = each(func(_ int, h hour, k, f int) error {
		s := State{set: in.axes}.with(AxisSite, h.state).with(AxisMotors, k+2).with(AxisFilters, f)
		dry = append(dry, s)
		for g := range guns {
			if in.axes.count(AxisGuns) > 0 {
				s = s.with(AxisGuns, g+1)
			}
			wet = append(wet, s)
		}
		return nil
	})
	byDry, byWet := in.newNumbers(dry), in.newNumbers(wet)
	for _, m := range []*Metric{mAirFlow, mToolLift, mPickUp, mPickUpLow, mPickUpHigh} {
		byDry.row(m, u.id)
	}
	for _, m := range []*Metric{mRecovered, mAirSpeed, mDrumVacuum, mMotorPower, mDumpFlow, mDumpVacuumHead, mBackFlow, mFloatTrip, mFilterLoss, mDumpDuty, mCarried} {
		byWet.row(m, u.id)
	}
	dryOf := func(m *Metric) []float64 { return byDry.of(m, u.id) }
	wetOf := func(m *Metric) []float64 { return byWet.of(m, u.id) }
	dump, pumped, err := u.dump(water)
	if err != nil {
		return nil, units.At("dump_pump", err)
	}
	err = each(func(i int, h hour, k, f int) error {
		p := plant
		p.Air, p.Motors, p.Duct = air(h), u.bank(blower, running(k)), u.duct(f)
		fitted, err := p.Fit()
		if err != nil {
			return err
		}
		op, err := fitted.Operate(0)
		if err != nil {
			return err
		}
		dryOf(mAirFlow)[i], dryOf(mToolLift)[i] = float64(op.FreeAir), float64(op.Tool)
		pick, err := fitted.PickUp(op.Carry)
		if err != nil {
			return err
		}
		dryOf(mPickUp)[i], dryOf(mPickUpLow)[i], dryOf(mPickUpHigh)[i] = float64(pick.Rate), float64(pick.Low), float64(pick.High)
	guns:
		for g := range guns {
			w := back[g]
			for like := range g { // guns of equal flow share their state
				if back[like] == w {
					byWet.copy(i*guns+like, i*guns+g)
					continue guns
				}
			}
			if w > 0 {
				if op, err = fitted.Operate(units.VolumeFlow(w)); err != nil {
					return err
				}
			}
			if err := u.settle(byWet, i*guns+g, w, &op, dump, pumped, f); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if u.motor.OpenPower == 0 {
		row := wetOf(mMotorPower)
		for i := range row {
			row[i] = math.NaN()
		}
	}
	return append(out, byDry, byWet), nil
}

// copy gives one state the numbers of another.
func (n *numbers) copy(from, to int) {
	for r := range n.rows {
		n.value[r*len(n.states)+to] = n.value[r*len(n.states)+from]
	}
}

// settle writes the numbers of one state in which w m³/s come back.
func (u *recoveryUnit) settle(n *numbers, at int, w float64, op *vacuum.Operation, dump vacuum.Dump, pumped bool, filters int) error {
	put := func(m *Metric, v float64) { n.of(m, u.id)[at] = v }
	put(mRecovered, w)
	put(mAirSpeed, float64(op.Velocity))
	put(mDrumVacuum, float64(op.Tank))
	put(mMotorPower, float64(op.Load))
	put(mDumpVacuumHead, float64(op.Tank)/(float64(dump.Liquid.Density)*float64(units.StandardGravity)))
	dump.Loaded = u.load(filters)
	held := max(op.Tank, 0)
	if pumped {
		out, err := dump.At(held)
		if err != nil {
			return err
		}
		put(mDumpFlow, float64(out.Flow))
		if len(u.filters) > 0 {
			loss, err := dump.Filters.Loss(units.VolumeFlow(math.Max(float64(out.Flow), 0)), dump.Liquid, dump.Loaded)
			if err != nil {
				return err
			}
			put(mFilterLoss, float64(loss))
		}
		if w > 0 {
			share := 1.0
			if float64(out.Flow) < w {
				free, err := dump.At(0)
				if err != nil {
					return err
				}
				share = carriedShare(w, float64(out.Flow), float64(free.Flow))
			} else {
				put(mDumpDuty, w/float64(out.Flow))
			}
			put(mCarried, share)
		}
		if u.drum != 0 {
			l, err := vacuum.Fill(u.drum, 0, units.VolumeFlow(w), out.Flow)
			if err != nil {
				return err
			}
			if l.Trips {
				put(mFloatTrip, float64(l.Trip))
			}
		}
	}
	if dump.Bore != 0 {
		dump.Running = 0
		still, err := dump.At(held)
		if err != nil {
			return err
		}
		put(mBackFlow, math.Max(-float64(still.Flow), 0))
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
// loop, storage.
func (u *recoveryUnit) fixed(in *recoveryIn, lines []*numbers) []*numbers {
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
				most = math.Max(most, u.sprayed(lines, m.guns))
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
	out := []*numbers{n}
	if u.dirt == 0 || len(in.modes) == 0 {
		return out
	}
	states := make([]State, len(in.modes))
	for i := range states {
		states[i] = State{set: in.axes}.with(AxisMode, i+1)
	}
	n = in.newNumbers(states)
	row := n.row(mFilterTime, u.id)
	for i, m := range in.modes {
		left := float64(u.dirt) * float64(in.share) * u.sprayed(lines, m.guns)
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
	return append(out, n)
}
