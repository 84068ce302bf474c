package rig

import (
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A SuctionLine leads from a tank to a pump's inlet.
type SuctionLine struct {
	Bore               units.Length      `json:"bore" range:"0.2 in..12 in" doc:"true bore of the suction hose"`
	Length             units.Length      `json:"length" range:"0.1 ft..200 ft" doc:"length of the suction hose"`
	Roughness          units.Length      `json:"roughness" range:"0 mm..2 mm" doc:"absolute roughness of the inside; nothing means smooth"`
	K                  units.Ratio       `json:"k" range:"0.1..1000" doc:"entry, valves and bends together, in velocity heads of the bore"`
	MaximumTemperature units.Temperature `json:"maximum_temperature" range:"33 °F..500 °F" doc:"highest temperature of the water in hose and strainer"`
	Wall               string            `json:"wall" choice:"stiff|compliant" doc:"stiff: pipe; compliant: hose that gives way to the pulses; nothing means stiff, the harder case"`
	Stabiliser         string            `json:"stabiliser" choice:"yes|no" doc:"whether a suction stabiliser sits at the pump; nothing means no, the harder case"`
	Moved              units.Length      `json:"moved" range:"0.05 ft..50 ft" doc:"length that moves with the pulses of the pump, in a compliant or stabilised line"`
	Low                units.Position    `json:"low" range:"-20 ft..20 ft" doc:"height of the water over the pump's inlet with the tank drawn down; negative where the pump lifts"`
	High               units.Position    `json:"high" range:"-20 ft..20 ft" doc:"height of the water over the pump's inlet with the tank full"`
	Warmest            units.Temperature `json:"warmest_water" range:"33 °F..212 °F" doc:"hottest water it draws, such as filtered recovered water; nothing means the supply's"`
	Strainer           Strainer          `json:"strainer" doc:"the strainer in it"`
}

// A Strainer of a suction line.
type Strainer struct {
	Loss    units.Pressure `json:"loss" range:"0.001 psi..100 psi" doc:"loss when clean, at the pump's rated flow"`
	Blocked units.Ratio    `json:"blocked" range:"0.1 %..95 %" doc:"share of its open area that is blocked when it is cleaned"`
	Opening units.Length   `json:"opening" range:"0.01 mm..10 mm" doc:"clear width of its mesh"`
	Valve   string         `json:"valve" choice:"yes|no" doc:"whether a valve on the tank's side lets it be cleaned with the tank full"`
}

// A DumpOutlet lets a tank run out by its own weight.
type DumpOutlet struct {
	Bore   units.Length `json:"bore" range:"0.2 in..24 in" doc:"true bore of valve and pipe"`
	Length units.Length `json:"length" range:"0 ft..200 ft" doc:"length of the pipe"`
	K      units.Ratio  `json:"k" range:"0.5..1000" doc:"entry, valve, bends and exit together, in velocity heads of the bore"`
}

// A WaterSupply fills a tank, or feeds a pump without one: a hydrant, a bibb, the
// water cart's pump.
type WaterSupply struct {
	ID         string           `json:"id" doc:"name of the supply"`
	Title      string           `json:"title" doc:"words for the sheet"`
	Tank       string           `json:"tank" ref:"tanks" doc:"the tank it fills"`
	Pump       string           `json:"pump" ref:"pumps" doc:"the pump it feeds straight, without a tank between"`
	Static     units.Pressure   `json:"static" need:"yes" range:"0.5 psi..300 psi" doc:"pressure at the connection with nothing flowing"`
	Residual   units.Pressure   `json:"residual" range:"0.1 psi..300 psi" doc:"pressure there at the test flow; nothing means it holds its static pressure, the best case"`
	TestFlow   units.VolumeFlow `json:"test_flow" range:"0.1 gpm..5000 gpm" doc:"flow at which the residual pressure was read"`
	Hose       SupplyHose       `json:"hose" doc:"the fill hose"`
	Meter      parts.RatedLoss  `json:"meter" doc:"meter, valves and couplings together"`
	Device     string           `json:"device" choice:"none|vacuum-breaker|double-check|reduced-pressure" doc:"the backflow device between the main and the tank"`
	DeviceLoss units.Pressure   `json:"device_loss" range:"0 psi..50 psi" doc:"pressure the backflow device takes at any flow"`
	Climb      units.Length     `json:"climb" range:"-50 ft..100 ft" doc:"end of the hose above the connection"`
	Spout      units.Length     `json:"spout" range:"0.2 in..12 in" doc:"bore of the end over the tank; nothing means that of the hose"`
	AirGap     units.Length     `json:"air_gap" range:"0.01 in..10 ft" doc:"clear height between the end and the edge over which the tank overflows"`
	ByWall     string           `json:"by_wall" choice:"yes|no" doc:"whether the end hangs beside a wall, which asks for a larger gap"`
}

// A SupplyHose of a water supply.
type SupplyHose struct {
	Bore      units.Length `json:"bore" need:"yes" range:"0.2 in..12 in" doc:"true bore"`
	Length    units.Length `json:"length" need:"yes" range:"0.5 ft..2000 ft" doc:"length"`
	Roughness units.Length `json:"roughness" range:"0 mm..2 mm" doc:"absolute roughness of the inside; nothing means smooth"`
}

// given reports whether the suction line is described.
func (l *SuctionLine) given() bool { return l.Bore != 0 }

// requiredHeadBand is the suction head that plunger pumps of this size ask for
// where their sheet says nothing.
func requiredHeadBand() Band {
	return Band{(4 * units.Foot).Quantity(), (9 * units.Foot).Quantity(), (20 * units.Foot).Quantity(), "plunger pumps on wash rigs, common practice"}
}

// deriveSuction fills what a suction line, a dump outlet and a crossover leave
// out, and records it as assumed.
func (m *Model) deriveSuction() {
	s := m.spec
	usual := func(p Path, why string) { m.origins[p] = Origin{Basis: Assumed, Why: why} }
	for i := range s.Pumps {
		p := &s.Pumps[i]
		l := &p.Suction
		if !l.given() {
			continue
		}
		at := Path("pumps[" + p.ID + "]")
		if l.K == 0 {
			l.K = 2.5
			usual(at+".suction.k", "sharp entry, open valve and two bends, common practice")
		}
		if l.Wall == "" {
			l.Wall = "stiff"
			usual(at+".suction.wall", "the harder case is taken when nothing is given")
		}
		if l.Stabiliser == "" {
			l.Stabiliser = "no"
			usual(at+".suction.stabiliser", "the harder case is taken when nothing is given")
		}
		if l.Moved == 0 && (l.Wall == "compliant" || l.Stabiliser == "yes") {
			b := tank.TypicalMoved()
			l.Moved = b.Usual
			m.assume(at+".suction.moved", Band{b.Low.Quantity(), b.Usual.Quantity(), b.High.Quantity(), b.Source})
		}
		if l.Strainer.Loss != 0 && l.Strainer.Blocked == 0 {
			l.Strainer.Blocked = 0.5
			m.assume(at+".suction.strainer.blocked", Band{units.Ratio(0.3).Quantity(), units.Ratio(0.5).Quantity(), units.Ratio(0.8).Quantity(), "cleaned when about half is blocked, common practice"})
		}
		if p.RequiredHead == 0 {
			b := requiredHeadBand()
			p.RequiredHead = units.Length(b.Usual.SI())
			m.assume(at+".required_head", b)
		}
	}
	for i := range s.Tanks {
		if d := &s.Tanks[i].Dump; d.Bore != 0 && d.K == 0 {
			d.K = 1.7
			usual(Path("tanks["+s.Tanks[i].ID+"].dump.k"), "sharp entry, open full-port valve and exit, common practice")
		}
	}
	for i := range s.Crossovers {
		if c := &s.Crossovers[i]; c.Bore != 0 && c.K == 0 {
			c.K = 1.7
			usual(Path("crossovers["+c.ID+"].k"), "sharp entry, open full-port valve and exit, common practice")
		}
	}
}

// senseOfSuction reports what contradicts itself on the low-pressure side.
func senseOfSuction(s *Spec) []error {
	var errs []error
	missing := func(path, want string) {
		errs = append(errs, &units.FieldError{Path: path, Want: want, Err: units.ErrMissing})
	}
	conflict := func(path, value, want string) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrConflict})
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		l := &p.Suction
		at := "pumps[" + p.ID + "].suction"
		if *l != (SuctionLine{}) && l.Bore == 0 {
			missing(at+".bore", "the true bore of the suction hose, such as 1.25 in")
			continue
		}
		if l.given() && l.Length == 0 {
			missing(at+".length", "the length of the suction hose, such as 4 ft")
		}
		if l.Roughness > l.Bore/20 && l.given() {
			conflict(at+".roughness", exact(l.Roughness), "at most a twentieth of the bore")
		}
		if l.Low.Given() && l.High.Given() && l.High.Length() < l.Low.Length() {
			conflict(at+".high", exact(l.High), "at least low, "+exact(l.Low))
		}
		if w := s.Site.Water; l.Warmest.Given() && w.Given() && l.Warmest.Kelvin() < w.Kelvin() {
			conflict(at+".warmest_water", exact(l.Warmest), "at least the supply's, "+exact(w))
		}
	}
	for i := range s.Tanks {
		t := &s.Tanks[i]
		if t.Overflow != 0 && t.Height != 0 && t.Overflow > t.Height {
			conflict("tanks["+t.ID+"].overflow", exact(t.Overflow), "at most the height of the tank, "+exact(t.Height))
		}
		if d := t.Dump; d != (DumpOutlet{}) && d.Bore == 0 {
			missing("tanks["+t.ID+"].dump.bore", "the true bore of the dump outlet, such as 2.067 in")
		}
	}
	for i := range s.Supplies {
		w := &s.Supplies[i]
		at := "supplies[" + w.ID + "]"
		switch {
		case w.Tank == "" && w.Pump == "":
			missing(at+".tank", "the tank it fills, or the pump it feeds")
		case w.Tank != "" && w.Pump != "":
			conflict(at+".pump", w.Pump, "either a tank or a pump")
		case w.Pump != "" && (w.AirGap != 0 || w.Spout != 0):
			conflict(at+".air_gap", exact(w.AirGap), "nothing: a pump that is fed straight has no gap")
		}
		for k := range s.Pumps {
			if p := &s.Pumps[k]; w.Pump != "" && p.ID == w.Pump && p.Tank != "" {
				conflict(at+".pump", w.Pump, "a pump that draws from no tank; this one draws from "+p.Tank)
			}
		}
		if w.Hose.Roughness > w.Hose.Bore/20 && w.Hose.Bore != 0 {
			conflict(at+".hose.roughness", exact(w.Hose.Roughness), "at most a twentieth of the bore")
		}
		switch {
		case w.Residual != 0 && w.TestFlow == 0:
			missing(at+".test_flow", "the flow at which the residual pressure was read, or no residual")
		case w.Residual == 0 && w.TestFlow != 0:
			missing(at+".residual", "the pressure that was read at test_flow, or no test_flow")
		}
		if w.Residual >= w.Static && w.Residual != 0 && w.Static != 0 {
			residual, static := inOneUnit(w.Residual.Quantity(), w.Static.Quantity())
			conflict(at+".residual", residual, "less than the static pressure, "+static)
		}
		if (w.Meter.Loss != 0) != (w.Meter.Flow != 0) {
			missing(at+".meter", "loss and flow together")
		}
		if w.Device == "none" && w.DeviceLoss != 0 {
			conflict(at+".device_loss", exact(w.DeviceLoss), "nothing without a device")
		}
	}
	return errs
}

// openSuction lists what the low-pressure side leaves out.
func openSuction(s *Spec) []Open {
	var out []Open
	add := func(p Path, leave string) { out = append(out, Open{p, leave}) }
	fed := map[string]bool{}
	for i := range s.Supplies {
		fed[s.Supplies[i].Pump] = true
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		at := Path("pumps[" + p.ID + "]")
		switch {
		case fed[p.ID]:
			if p.MaximumInletPressure == 0 {
				add(at+".maximum_inlet_pressure", "whether its inlet bears the main's pressure")
			}
		case !p.Suction.given():
			add(at+".suction", "suction head")
		case !p.Suction.Low.Given():
			add(at+".suction.low", "suction head")
		case p.Plungers == 0:
			add(at+".plungers", "what its pulses cost of the suction head")
		case p.Speed == 0:
			add(at+".speed", "what its pulses cost of the suction head")
		}
	}
	for i := range s.Tanks {
		t := &s.Tanks[i]
		at := Path("tanks[" + t.ID + "]")
		if t.Vent == 0 {
			add(at+".vent", "the vacuum in the tank while it is dumped or drawn")
		}
		if t.Dump.Bore == 0 {
			add(at+".dump", "minutes to dump")
		} else if t.Height == 0 {
			add(at+".height", "minutes to dump")
		}
	}
	return out
}
