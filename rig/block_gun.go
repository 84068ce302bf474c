package rig

import (
	"math"
	"slices"

	"example.com/washrig/internal/water"
	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// A hose of a line as heat sees it, in round numbers that no sheet gives: rubber
// and thermoplastic radiate like any dull surface, and a wall of rubber and wire
// holds some 1.3 kJ/(kg·K) in 1,900 kg/m³ (common practice).
const (
	hoseEmissivity  units.Ratio        = 0.9
	hoseWallDensity units.Density      = 1900
	hoseWallHeat    units.SpecificHeat = 1300
)

// windyAir is the wind of the number that says what a hose loses in wind.
const windyAir = 10 * units.MilePerHour

// arrivedShare is the share of the rise at which hot water counts as arrived.
const arrivedShare units.Ratio = 0.9

// gunIn is what the temperatures at the guns depend on.
type gunIn struct {
	work
	axes    *axisSet
	lines   *block[linesIn]
	site    units.AbsolutePressure
	known   bool
	water   units.Temperature
	hours   []gunHour
	guns    []gunLine
	trunks  []thermal.Hose
	shared  [][]string // lines of each trunk
	stand   units.Length
	heaters []gunFire
}

type gunHour struct {
	hour
	wind     units.Velocity
	humidity units.Ratio
}

type gunLine struct {
	id, pump string
	bit      int
	heater   int // index, −1 without
	trunk    int // index, −1 without
	hose     thermal.Hose
}

type gunFire struct {
	id   string
	fire fire
}

// heatHose is a hose as heat sees it; ok is false where its outside or its wall is
// not known.
func heatHose(h *Hose) (thermal.Hose, bool) {
	t := thermal.Hose{Length: h.Length, Bore: h.Bore, Outside: h.OutsideDiameter, Conductivity: h.WallConductivity,
		Emissivity: hoseEmissivity, WallDensity: hoseWallDensity, WallHeat: hoseWallHeat}
	return t, t.Outside != 0 && t.Conductivity != 0 && t.Validate() == nil
}

func (m *Model) gunInput(lines *block[linesIn]) gunIn {
	s := m.spec
	in := gunIn{axes: m.axes, lines: lines, site: standardAtmosphere, water: s.Site.Water, stand: s.Duty.Standoff}
	if p, ok := sitePressure(s); ok {
		in.site, in.known = p, true
	}
	for i, h := range m.hours() {
		in.hours = append(in.hours, gunHour{h, s.Site.Conditions[i].Wind, s.Site.Conditions[i].Humidity})
	}
	heater := map[string]int{}
	for i := range s.Heaters {
		heater[s.Heaters[i].Pump] = i
		in.heaters = append(in.heaters, gunFire{s.Heaters[i].ID, fireOf(&s.Heaters[i])})
	}
	trunk := map[string]int{}
	for i := range s.Trunks {
		if t, ok := heatHose(&s.Trunks[i].Hose); ok {
			trunk[s.Trunks[i].ID] = len(in.trunks)
			in.trunks, in.shared = append(in.trunks, t), append(in.shared, nil)
		}
	}
	for _, i := range inOrder(s.Lines, func(l *Line) string { return l.ID }) { // sums run in order of name
		l := &s.Lines[i]
		g := gunLine{id: l.ID, pump: l.Pump, bit: i, heater: -1, trunk: -1}
		if k, ok := heater[l.Pump]; ok {
			g.heater = k
		}
		if k, ok := trunk[l.Trunk]; ok {
			g.trunk = k
			in.shared[k] = append(in.shared[k], l.ID)
		} else if l.Trunk != "" {
			continue // the shared hose cannot be computed, and so what lies behind it
		}
		t, ok := heatHose(&l.Hose)
		if !ok || g.heater < 0 {
			continue
		}
		g.hose = t
		in.guns = append(in.guns, g)
	}
	return in
}

// An overall is one surface temperature that was solved.
type overall struct {
	hose thermal.Hose
	flow units.MassFlow
	at   units.Temperature
	line units.AbsolutePressure
	air  units.Temperature
	wind units.Velocity
}

// gunSolver holds what the states of one solution share.
type gunSolver struct {
	in      *gunIn
	g       *gunStates
	streams []streamed // by line, guns
	done    memo[overall, units.ThermalConductance]
	outlets memo[heated, thermal.Outlet]
	calm    []pair // by hour
	windy   []pair
	seen    memo[arriving, arrived]
	dried   memo[drying, thermal.EvaporatedShare]
	bands   memo[thermal.Spray, thermal.SprayBand]
	warmed  memo[warming, float64]
	flights thermal.Flights
	flash   thermal.Flashing
	humid   []*gunHour
}

// begin makes s ready for another solution in the memory it has.
func (s *gunSolver) begin(in *gunIn, g *gunStates) {
	s.in, s.g = in, g
	s.streams = slices.Grow(s.streams[:0], len(in.guns)*(int(g.all)+1))[:len(in.guns)*(int(g.all)+1)]
	clear(s.streams)
	s.done.forget()
	s.outlets.forget()
	s.seen.forget()
	s.dried.forget()
	s.bands.forget()
	s.warmed.forget()
	s.humid = s.humid[:0]
}

// A streamed is the water of a line in one state, once it was asked for.
type streamed struct {
	asked bool
	x     stream
	ok    bool
	err   error
}

// drying, warming: what the evaporated share and the arrival of hot water depend on.
type drying struct {
	T    units.Temperature
	line units.AbsolutePressure
	hour int
}

type warming struct {
	hose  thermal.Hose
	trunk int
	x     stream
}

// heated is what the outlet of a fire depends on.
type heated struct {
	flow units.VolumeFlow
	heat units.Power
	line units.AbsolutePressure
}

// A memo keeps answers to questions that equal lines ask again: the same inputs, the
// same bits. It looks back only so far, which covers lines side by side.
type memo[K comparable, V any] struct {
	keys   []K
	values []V
}

func (m *memo[K, V]) find(k K) (v V, ok bool) {
	for i := len(m.keys) - 1; i >= max(len(m.keys)-64, 0); i-- {
		if m.keys[i] == k {
			return m.values[i], true
		}
	}
	return v, false
}

func (m *memo[K, V]) keep(k K, v V) { m.keys, m.values = append(m.keys, k), append(m.values, v) }

func (m *memo[K, V]) forget() { m.keys, m.values = m.keys[:0], m.values[:0] }

// A stream is the hot water of one line in one state.
type stream struct {
	flow, trunk units.MassFlow // trunk: all that passes the shared hose
	hot         units.Temperature
	line        units.AbsolutePressure
	nozzle      units.AbsolutePressure
	heat        units.SpecificHeat
	density     float64
}

// stream returns the water of a line with some guns open; ok is false where it does
// not flow, boils or lies outside the correlations.
func (s *gunSolver) stream(k int, guns uint16) (*stream, bool, error) {
	at := &s.streams[k*(int(s.g.all)+1)+int(guns)]
	if !at.asked {
		at.asked = true
		at.x, at.ok, at.err = s.findStream(&s.in.guns[k], guns)
	}
	return &at.x, at.ok, at.err
}

func (s *gunSolver) findStream(l *gunLine, guns uint16) (stream, bool, error) {
	q, ok := s.g.at(mLineFlow, l.id, guns)
	p, ok2 := s.g.at(mPumpPressure, l.pump, guns)
	nozzle, ok3 := s.g.at(mNozzlePressure, l.id, guns)
	T, ok4 := s.g.at(mOutlet, s.in.heaters[l.heater].id, guns)
	if !ok || !ok2 || !ok3 || !ok4 {
		return stream{}, false, nil
	}
	x := stream{hot: units.Kelvin(T), line: lineAbsolute(p, s.in.site), nozzle: lineAbsolute(nozzle, s.in.site)}
	cold, err := water.Density(float64(x.line), s.in.water.Kelvin())
	if err != nil || !liquidBelow(min(x.line, x.nozzle), T) || !liquidBelow(x.line, s.in.water.Kelvin()) { // a line that falls has more pressure at its end
		return stream{}, false, err
	}
	// A fire too small for this flow leaves it below the thermostat.
	f := &s.in.heaters[l.heater].fire
	if r, has, err := f.rate(); err != nil {
		return stream{}, false, err
	} else if has && r > 0 {
		out, err := f.output(0)
		if err != nil {
			return stream{}, false, err
		}
		key := heated{units.VolumeFlow(s.g.through(&s.in.lines.in, l.pump, guns)), out, x.line}
		o, have := s.outlets.find(key)
		if !have {
			if o, err = thermal.OutletTemperature(key.flow, s.in.water, out, x.line); err != nil {
				return stream{}, false, err
			}
			s.outlets.keep(key, o)
		}
		if o.Phase == thermal.Liquid && o.Temperature.Kelvin() < x.hot.Kelvin() {
			x.hot = o.Temperature
		}
	}
	rho, _, cp, err := water.Caloric(float64(x.line), x.hot.Kelvin())
	if err != nil {
		return stream{}, false, err
	}
	x.heat, x.density = units.SpecificHeat(cp), rho
	x.flow = units.MassFlow(cold * q)
	if l.trunk >= 0 {
		for _, id := range s.in.shared[l.trunk] {
			if q, ok := s.g.at(mLineFlow, id, guns); ok {
				x.trunk += units.MassFlow(cold * q)
			}
		}
	}
	const least, most = 1 * units.GramPerSecond, 100 * units.KilogramPerSecond
	return x, x.flow >= least && x.flow <= most && x.trunk <= most, nil
}

// conductances are those of the hoses that a line's water passes.
func (s *gunSolver) conductances(l *gunLine, x *stream, a *gunHour, wind units.Velocity) (ua pair, err error) {
	if ua[0], err = s.conductance(&l.hose, x.flow, x, a, wind); err == nil && l.trunk >= 0 {
		ua[1], err = s.conductance(&s.in.trunks[l.trunk], x.trunk, x, a, wind)
	}
	return ua, err
}

// conductance is that of a hose to the air of an hour.
func (s *gunSolver) conductance(h *thermal.Hose, flow units.MassFlow, x *stream, a *gunHour, wind units.Velocity) (units.ThermalConductance, error) {
	if math.Abs(float64(x.hot.Sub(a.air))) < 0.1 {
		return 0, nil
	}
	key := overall{*h, flow, x.hot, x.line, a.air, wind}
	if ua, done := s.done.find(key); done {
		return ua, nil
	}
	u, err := h.Overall(flow, x.hot, x.line, thermal.Surroundings{Air: a.air, Site: s.in.site, Wind: wind})
	if err != nil {
		return 0, err
	}
	ua := units.ThermalConductance(float64(u) * math.Pi * float64(h.Outside) * float64(h.Length))
	s.done.keep(key, ua)
	return ua, nil
}

// solveGun returns the numbers of the water at the guns.
func solveGun(in *gunIn) ([]*numbers, error) {
	lines, err := in.lines.within(in.w)
	if err != nil {
		return nil, err
	}
	g, ok := scratch[gunStates](in.w).of(lines, in.axes)
	if !ok || len(in.guns) == 0 {
		return nil, nil
	}
	s := scratch[gunSolver](in.w)
	s.begin(in, g)
	if in.known {
		if s.flash, err = thermal.FlashAt(in.site); err != nil {
			return nil, err
		}
	}
	var out [3]*numbers
	k := 0
	for _, f := range [...]func(*gunSolver) (*numbers, error){(*gunSolver).temperatures, (*gunSolver).surface, (*gunSolver).arrivals} {
		n, err := f(s)
		if err != nil {
			return nil, err
		}
		if n != nil {
			out[k] = n
			k++
		}
	}
	return in.out(out[:k]...), nil
}

// temperatures by guns and hour, in the air of the hour and in wind.
func (s *gunSolver) temperatures() (*numbers, error) {
	if len(s.in.hours) == 0 {
		return nil, nil
	}
	states := s.in.room(int(s.g.all-1) * len(s.in.hours))
	for guns := uint16(2); guns <= s.g.all; guns++ {
		for i := range s.in.hours {
			states = append(states, State{set: s.in.axes}.with(AxisGuns, int(guns)).with(AxisHeat, heatSteady).with(AxisSite, s.in.hours[i].state))
		}
	}
	n := s.in.newNumbers(states)
	for k := range s.in.guns {
		l := &s.in.guns[k]
		ref, ok, err := s.stream(k, s.g.all)
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		calm, windy := s.calm[:0], s.windy[:0]
		for i := range s.in.hours {
			a := &s.in.hours[i]
			c, err := s.conductances(l, ref, a, a.wind)
			if err != nil {
				return nil, err
			}
			w, err := s.conductances(l, ref, a, max(a.wind, windyAir))
			if err != nil {
				return nil, err
			}
			calm, windy = append(calm, c), append(windy, w)
		}
		s.calm, s.windy = calm, windy
		n.row(mGunTemperature, l.id) // rows are added before any is kept, because adding moves the array
		n.row(mGunWindy, l.id)
		n.row(mHoseDrop, l.id)
		n.row(mScald, l.id)
		if s.in.known {
			n.row(mFlash, l.id)
		}
		gun, wind, drop, scald, flash := n.of(mGunTemperature, l.id), n.of(mGunWindy, l.id), n.of(mHoseDrop, l.id), n.of(mScald, l.id), n.of(mFlash, l.id)
		at := -1
		for guns := uint16(2); guns <= s.g.all; guns++ {
			x, ok, err := (*stream)(nil), false, error(nil)
			if (guns-1)&(1<<l.bit) != 0 {
				x, ok, err = s.stream(k, guns)
			}
			if err != nil {
				return nil, err
			}
			for i := range s.in.hours {
				at++
				if !ok {
					continue
				}
				key := arriving{*x, calm[i], windy[i], i}
				v, have := s.seen.find(key)
				if !have {
					if v, err = s.arrive(x, calm[i], windy[i], s.in.hours[i].air); err != nil {
						return nil, err
					}
					s.seen.keep(key, v)
				}
				gun[at], wind[at], drop[at], scald[at] = v.calm, v.windy, v.drop, v.scald
				if flash != nil {
					flash[at] = v.flash
				}
			}
		}
	}
	if len(n.rows) == 0 {
		return nil, nil
	}
	return n, nil
}

// A pair is the conductance of a line's own hose and of the shared one.
type pair [2]units.ThermalConductance

// arriving is what the water at a gun depends on; arrived is that water.
type arriving struct {
	x           stream
	calm, windy pair
	hour        int
}

type arrived struct{ calm, windy, drop, scald, flash float64 }

// arrive cools a stream on its way to the gun.
func (s *gunSolver) arrive(x *stream, calm, windy pair, air units.Temperature) (v arrived, err error) {
	T, err := x.cooled(calm, air)
	if err != nil {
		return v, err
	}
	W, err := x.cooled(windy, air)
	if err != nil {
		return v, err
	}
	v = arrived{calm: T.Kelvin(), windy: W.Kelvin(), drop: float64(x.hot.Sub(T)), scald: math.NaN()}
	if c, err := thermal.ScaldTime(thermal.ScaldCPSC, T); err == nil && !c.Below {
		v.scald = float64(c.Time)
	}
	if s.in.known {
		f, err := s.flash.Fraction(T, x.nozzle)
		if err != nil {
			return v, err
		}
		v.flash = float64(f)
	}
	return v, nil
}

// cooled is the temperature behind the shared hose, if there is one, and the own:
// no colder than 0 °C, where the water begins to freeze in the hose.
func (x *stream) cooled(ua pair, air units.Temperature) (units.Temperature, error) {
	T := x.hot
	step := func(ua units.ThermalConductance, flow units.MassFlow) error {
		t, err := thermal.Cooled(T, air, ua, flow, x.heat)
		if t.Kelvin() < 273.15 {
			t = units.Celsius(0)
		}
		T = t
		return err
	}
	if x.trunk > 0 {
		if err := step(ua[1], x.trunk); err != nil {
			return T, err
		}
	}
	err := step(ua[0], x.flow)
	return T, err
}

// surface is what becomes of the spray, by hour with every gun open: the share
// that evaporates, and the band in which it arrives.
func (s *gunSolver) surface() (*numbers, error) {
	states := s.in.room(len(s.in.hours))
	for i := range s.in.hours {
		if h := &s.in.hours[i]; h.humidity != 0 {
			s.humid = append(s.humid, h)
			states = append(states, State{set: s.in.axes}.with(AxisGuns, int(s.g.all)).with(AxisHeat, heatSteady).with(AxisSite, h.state))
		}
	}
	if len(states) == 0 || !s.in.known {
		return nil, nil
	}
	n := s.in.newNumbers(states)
	for k := range s.in.guns {
		l := &s.in.guns[k]
		x, ok, err := s.stream(k, s.g.all)
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		velocity := units.Velocity(math.Sqrt(2 * float64(x.nozzle-s.in.site) / x.density))
		lands := s.in.stand != 0 && velocity >= 5 && velocity <= 400
		n.row(mEvaporated, l.id)
		n.row(mEvaporatedMost, l.id)
		n.row(mPickable, l.id)
		if lands {
			n.row(mSurfaceWarmest, l.id)
			n.row(mSurfaceCoolest, l.id)
		}
		usual, most, pickable := n.of(mEvaporated, l.id), n.of(mEvaporatedMost, l.id), n.of(mPickable, l.id)
		warmest, coolest := n.of(mSurfaceWarmest, l.id), n.of(mSurfaceCoolest, l.id)
		for i, a := range s.humid {
			ua, err := s.conductances(l, x, a, a.wind)
			if err != nil {
				return nil, err
			}
			T, err := x.cooled(ua, a.air)
			if err != nil {
				return nil, err
			}
			key := drying{T, x.nozzle, i}
			e, have := s.dried.find(key)
			if !have {
				if e, err = thermal.Evaporated(T, x.nozzle, a.air, a.humidity, s.in.site); err != nil {
					return nil, err
				}
				s.dried.keep(key, e)
			}
			usual[i], most[i], pickable[i] = float64(e.Usual), float64(e.Most), 1-float64(e.Least)
			if !lands {
				continue
			}
			spray := thermal.Spray{Temperature: T, Line: x.nozzle, Standoff: s.in.stand, Velocity: velocity, Fine: fineDrop, Coarse: coarseDrop, Slowed: slowedDrop,
				Air: a.air, Humidity: a.humidity, Site: s.in.site}
			band, have := s.bands.find(spray)
			if !have {
				if band, err = spray.AtSurfaceIn(&s.flights); err != nil {
					return nil, err
				}
				s.bands.keep(spray, band)
			}
			warmest[i], coolest[i] = band.Warmest.Kelvin(), band.Coolest.Kelvin()
		}
	}
	if len(n.rows) == 0 {
		return nil, nil
	}
	return n, nil
}

// Drops of a flat high-pressure spray and the share of its speed that a fine one
// keeps, common practice; nobody measures them on a washer.
const (
	fineDrop               = 100 * units.Micrometer
	coarseDrop             = 1 * units.Millimeter
	slowedDrop units.Ratio = 0.3
)

// arrivals are the seconds from a pulled trigger to hot water at the gun, the
// heater hot and the hose cold, with every gun open and with each alone.
func (s *gunSolver) arrivals() (*numbers, error) {
	states := s.in.room(len(s.g.few))
	for _, guns := range s.g.few {
		states = append(states, State{set: s.in.axes}.with(AxisGuns, int(guns)).with(AxisHeat, heatSteady))
	}
	n := s.in.newNumbers(states)
	for k := range s.in.guns {
		l := &s.in.guns[k]
		row := n.row(mArrival, l.id)
		for i, guns := range s.g.few {
			if (guns-1)&(1<<l.bit) == 0 {
				continue
			}
			x, ok, err := s.stream(k, guns)
			if err != nil {
				return nil, err
			}
			if !ok {
				continue
			}
			key := warming{l.hose, l.trunk, *x}
			if t, have := s.warmed.find(key); have {
				row[i] = t
				continue
			}
			a, err := l.hose.Arrival(x.flow, x.hot, x.line, arrivedShare)
			if err != nil {
				if outside(err) {
					continue
				}
				return nil, err
			}
			t := a.Time
			if l.trunk >= 0 {
				b, err := s.in.trunks[l.trunk].Arrival(x.trunk, x.hot, x.line, arrivedShare)
				if err != nil {
					if outside(err) {
						continue
					}
					return nil, err
				}
				t += b.Time
			}
			row[i] = float64(t)
			s.warmed.keep(key, row[i])
		}
	}
	return n, nil
}
