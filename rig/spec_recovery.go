package rig

import (
	"strconv"

	"example.com/washrig/units"
)

// A Recovery is one recovery unit: a tool or ring, its hose, a tank under
// vacuum with its motors, and the dump-out pump with its filters.
type Recovery struct {
	Stock
	Guns  []string `json:"guns" ref:"lines" doc:"lines whose water it picks up; nothing means all"`
	Loads []string `json:"loads" ref:"loads" doc:"its vacuum motors, one each, so that modes and plugs say which run"`

	Motors      int         `json:"motors" range:"1..12" doc:"vacuum motors; nothing means one for each load"`
	Arrangement string      `json:"arrangement" choice:"parallel|series" default:"parallel" why:"motors side by side, common practice" doc:"side by side, or one behind another"`
	Motor       VacuumMotor `json:"motor" doc:"one of its motors, by its plate"`

	Hose      RecoveryHose  `json:"hose" doc:"the hose from the tool to the tank"`
	Hoses     int           `json:"hoses" range:"1..8" doc:"equal hoses side by side; nothing means one"`
	Lift      units.Length  `json:"lift" range:"0 ft..60 ft" doc:"from the tool up to the highest point of the hose"`
	Tool      AirLoss       `json:"tool" doc:"the tool, wand or ring on the ground"`
	AirFilter VacuumFilter  `json:"air_filter" doc:"the filter between tank and motors"`
	Drum      Drum          `json:"drum" doc:"the tank under vacuum"`
	DumpPump  DumpPump      `json:"dump_pump" doc:"the pump that empties it"`
	Discharge Discharge     `json:"discharge" doc:"the way from the dump pump to where the water goes"`
	Filters   []WaterFilter `json:"filters" doc:"filters behind the dump pump, in the order of flow"`

	Tank               string            `json:"tank" ref:"tanks" doc:"the tank it delivers to; nothing: away from the rig"`
	Dirt               units.Density     `json:"dirt" range:"0 lb/gal..2 lb/gal" doc:"solids in the recovered water"`
	Evaporated         units.Ratio       `json:"evaporated" range:"0 %..50 %" doc:"share of the sprayed water that evaporates; nothing means none"`
	DoseLimit          units.Ratio       `json:"dose_limit" range:"0.1..1000" doc:"where water is used again: concentration at which it is changed, in units of what one pass adds"`
	ReturnTemperature  units.Temperature `json:"return_temperature" range:"33 °F..180 °F" doc:"temperature of the water that comes back"`
	MaximumTemperature units.Temperature `json:"maximum_temperature" range:"33 °F..250 °F" doc:"hottest water that its hose, drum, dump pump and filter housings may carry: the lowest of their ratings"`
	Flammables         string            `json:"flammables" choice:"yes|no" doc:"yes: fuel, solvent or another flammable liquid may lie where it picks up"`
	Oil                string            `json:"oil" choice:"yes|no" doc:"yes: oil may be in the recovered water"`
}

// A VacuumMotor is one vacuum motor by its plate.
type VacuumMotor struct {
	OpenFlow    units.VolumeFlow `json:"open_flow" range:"5 cfm..5000 cfm" doc:"air with nothing in its way, at sea level"`
	SealedLift  units.Pressure   `json:"sealed_lift" range:"5 inH2O..390 inH2O" doc:"vacuum behind a closed inlet, at sea level"`
	Curve       string           `json:"curve" choice:"straight|parabola" default:"straight" why:"plates print the two ends alone; a straight line between them is the cautious guess, common practice" doc:"shape assumed between the two ends"`
	Points      []AirPoint       `json:"points" doc:"points between the two ends, where the sheet has them"`
	Type        string           `json:"type" choice:"centrifugal|displacement" default:"centrifugal" why:"nearly every vacuum motor has fan wheels, common practice" doc:"how it moves the air: it decides how its current moves"`
	OpenPower   units.Power      `json:"open_power" range:"50 W..50000 W" doc:"power it draws with nothing in its way"`
	SealedPower units.Power      `json:"sealed_power" range:"50 W..50000 W" doc:"power it draws behind a closed inlet"`
}

// An AirPoint is one point of a motor's curve.
type AirPoint struct {
	ID   string           `json:"id" doc:"name of the point"`
	Flow units.VolumeFlow `json:"flow" need:"yes" range:"1 cfm..5000 cfm" doc:"air"`
	Lift units.Pressure   `json:"lift" need:"yes" range:"0.1 inH2O..390 inH2O" doc:"vacuum"`
}

// A RecoveryHose leads air and water to the tank.
type RecoveryHose struct {
	Bore        units.Length `json:"bore" range:"0.5 in..12 in" doc:"true inside diameter"`
	Length      units.Length `json:"length" range:"1 ft..1000 ft" doc:"length from the tool to the tank"`
	Wall        string       `json:"wall" choice:"smooth|corrugated" default:"corrugated" why:"the harder case is taken when nothing is given" doc:"smooth or lined inside, or corrugated"`
	Corrugation units.Ratio  `json:"corrugation" range:"1..10" default:"2" when:"wall=corrugated" why:"about twice a smooth hose, common practice" doc:"friction over that of a smooth hose"`
}

// An AirLoss is a vacuum lost at a flow of air.
type AirLoss struct {
	Loss units.Pressure   `json:"loss" range:"0.1 inH2O..200 inH2O" default:"8 inH2O" why:"wand or ring of the trade at 100 cfm, common practice" doc:"vacuum lost in it at the flow beside it"`
	Flow units.VolumeFlow `json:"flow" range:"5 cfm..5000 cfm" default:"100 cfm" why:"flow at which such tools are told, common practice" doc:"air at which the loss was measured, at sea level"`
}

// A VacuumFilter cleans the air in front of the motors.
type VacuumFilter struct {
	Flow        units.VolumeFlow `json:"flow" range:"5 cfm..5000 cfm" doc:"air at which its losses are told"`
	Clean       units.Pressure   `json:"clean" range:"0.01 inH2O..200 inH2O" doc:"vacuum lost in it when new"`
	Dirty       units.Pressure   `json:"dirty" range:"0.01 inH2O..300 inH2O" doc:"vacuum lost in it at change-out"`
	LinearShare units.Ratio      `json:"linear_share" range:"0 %..100 %" doc:"share of the loss that grows in proportion to the flow"`
}

// A Drum is the tank under vacuum.
type Drum struct {
	Volume        units.Volume   `json:"volume" range:"1 gal..5000 gal" doc:"from the level at which the dump pump starts to the float that shuts the vacuum"`
	MaximumVacuum units.Pressure `json:"maximum_vacuum" range:"1 inH2O..407 inH2O" doc:"vacuum it may bear"`
	History       string         `json:"history" choice:"new|inspected|unknown" doc:"what is known of the age and state of the drum"`
}

// A DumpPump empties the drum, by its curve.
type DumpPump struct {
	Loads       []string         `json:"loads" ref:"loads" doc:"its motors, one for each pump side by side"`
	Count       int              `json:"count" range:"1..8" doc:"equal pumps side by side; nothing means one for each load, or one"`
	ShutOffHead units.Length     `json:"shut_off_head" range:"1 ft..500 ft" doc:"head of one pump against a shut valve"`
	RunOutFlow  units.VolumeFlow `json:"run_out_flow" range:"0.1 gpm..1000 gpm" doc:"flow of one pump with nothing against it"`
	Curve       string           `json:"curve" choice:"straight|parabola" default:"parabola" why:"usual shape of a centrifugal pump, common practice" doc:"shape assumed between the two ends"`
	Points      []HeadPoint      `json:"points" doc:"points between the two ends, where the sheet has them"`
}

// A HeadPoint is one point of a pump's curve.
type HeadPoint struct {
	ID   string           `json:"id" doc:"name of the point"`
	Flow units.VolumeFlow `json:"flow" need:"yes" range:"0.01 gpm..1000 gpm" doc:"flow"`
	Head units.Length     `json:"head" need:"yes" range:"0.1 ft..500 ft" doc:"head"`
}

// A Discharge leads from the dump pump to where the water goes.
type Discharge struct {
	Lift       units.Length   `json:"lift" range:"-20 ft..60 ft" doc:"from the water in the drum up to the end of the hose"`
	Bore       units.Length   `json:"bore" range:"0.2 in..12 in" doc:"true inside diameter of the hose"`
	Length     units.Length   `json:"length" range:"0.1 ft..1000 ft" doc:"length of the hose"`
	Fittings   units.Ratio    `json:"fittings" range:"0..1000" default:"4" why:"inlet, two bends, a valve and the outlet, common practice" doc:"what else it passes, in velocity heads"`
	CheckValve string         `json:"check_valve" choice:"yes|no" default:"no" why:"a check valve counts where it is named" doc:"whether one keeps the vacuum from drawing the line back"`
	Cracking   units.Pressure `json:"cracking" range:"0 psi..20 psi" doc:"pressure that opens the check valve"`
}

// A WaterFilter is one stage of the filters behind the dump pump.
type WaterFilter struct {
	ID          string           `json:"id" doc:"name of the filter"`
	Flow        units.VolumeFlow `json:"flow" need:"yes" range:"0.1 gpm..1000 gpm" doc:"flow at which its losses are told"`
	Clean       units.Pressure   `json:"clean" need:"yes" range:"0.001 psi..200 psi" doc:"loss when new"`
	Dirty       units.Pressure   `json:"dirty" need:"yes" range:"0.001 psi..200 psi" doc:"loss at change-out"`
	LinearShare units.Ratio      `json:"linear_share" range:"0 %..100 %" default:"50 %" why:"between a screen and a cake, common practice" doc:"share of the clean loss that grows in proportion to the flow"`
	Capacity    units.Mass       `json:"capacity" range:"0.01 lb..10000 lb" doc:"dirt it holds at change-out"`
	Captures    units.Ratio      `json:"captures" range:"1 %..100 %" doc:"share of the dirt that stays in it"`
}

// motorCount is how many vacuum motors a unit has.
func (r *Recovery) motorCount() int {
	if r.Motors > 0 {
		return r.Motors
	}
	return max(len(r.Loads), 1)
}

// pumpCount is how many dump pumps a unit has.
func (r *Recovery) pumpCount() int {
	if r.DumpPump.Count > 0 {
		return r.DumpPump.Count
	}
	return max(len(r.DumpPump.Loads), 1)
}

// motorsIn is how many vacuum motors run in a mode: those whose loads it names,
// or all where the unit names no loads.
func (r *Recovery) motorsIn(mode *Mode) int {
	if len(r.Loads) == 0 {
		return r.motorCount()
	}
	n := 0
	for _, l := range r.Loads {
		for _, on := range mode.Loads {
			if on == l {
				n++
			}
		}
	}
	return min(n, r.motorCount())
}

// picksUp reports whether a unit takes the water of a line.
func (r *Recovery) picksUp(line string) bool {
	if len(r.Guns) == 0 {
		return true
	}
	for _, g := range r.Guns {
		if g == line {
			return true
		}
	}
	return false
}

// recoveryMotors is the greatest number of motors of any unit.
func recoveryMotors(s *Spec) int {
	n := 0
	for i := range s.Recovery {
		n = max(n, s.Recovery[i].motorCount())
	}
	return n
}

// deriveRecovery fills what follows from other values where there is a recovery
// unit: the share that comes back, and how warm it is.
func (m *Model) deriveRecovery() {
	s := m.spec
	if len(s.Recovery) == 0 {
		return
	}
	if s.Duty.RecoveredShare == 0 {
		of := func(r units.Ratio) units.Quantity { return r.Quantity() }
		s.Duty.RecoveredShare = 0.70
		m.assume("duty.recovered_share", Band{of(0.60), of(0.70), of(0.85), "60 to 85 % of the wash water comes back, less on hot, dry or porous ground (common practice)"})
	}
	for i := range s.Recovery {
		r := &s.Recovery[i]
		if r.ReturnTemperature.Given() {
			continue
		}
		p := Path("recovery[" + r.ID + "].return_temperature")
		if len(s.Heaters) > 0 {
			r.ReturnTemperature = units.Fahrenheit(85)
			of := func(f float64) units.Quantity { return units.Fahrenheit(f).Quantity() }
			m.assume(p, Band{of(80), of(85), of(100), "80 to 100 °F comes back from a hot wash, common practice"})
		} else if s.Site.Water.Given() {
			r.ReturnTemperature = s.Site.Water
			m.origins[p] = Origin{Basis: Assumed, Why: "as cold as the supply"}
		}
	}
	m.deriveWarmest()
}

// deriveWarmest takes the recovered water that comes to the tank of a pump, in any
// mode, for the warmest it draws.
func (m *Model) deriveWarmest() {
	s := m.spec
	warmest := s.Site.Water
	for i := range s.Recovery {
		if t := s.Recovery[i].ReturnTemperature; t.Given() && t.Kelvin() > warmest.Kelvin() {
			warmest = t
		}
	}
	if !s.Site.Water.Given() || warmest.Kelvin() <= s.Site.Water.Kelvin() {
		return
	}
	comes := map[string]bool{}
	for _, w := range watersOf(s) {
		comes[w.Tank] = comes[w.Tank] || foulness[w.Holds] >= foulness["recovered"]
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		if l := &p.Suction; l.given() && !l.Warmest.Given() && comes[p.Tank] {
			l.Warmest = warmest
			m.origins[Path("pumps["+p.ID+"].suction.warmest_water")] = Origin{Basis: Assumed, Why: "recovered water comes to its tank, as warm as it is picked up"}
		}
	}
}

// senseOfRecovery refuses values of a recovery unit that contradict one another.
func senseOfRecovery(s *Spec) []error {
	var errs []error
	for i := range s.Recovery {
		r := &s.Recovery[i]
		at := "recovery[" + r.ID + "]"
		conflict := func(field, value, want string) {
			errs = append(errs, &units.FieldError{Path: at + "." + field, Value: value, Want: want, Err: units.ErrConflict})
		}
		missing := func(field, want string) {
			errs = append(errs, &units.FieldError{Path: at + "." + field, Want: want, Err: units.ErrMissing})
		}
		if r.Motors > 0 && len(r.Loads) > r.Motors {
			conflict("motors", strconv.Itoa(r.Motors), "at least its loads, "+strconv.Itoa(len(r.Loads)))
		}
		if (r.Motor.OpenFlow != 0) != (r.Motor.SealedLift != 0) {
			missing("motor", "open_flow and sealed_lift together")
		}
		if (r.Motor.OpenPower != 0) != (r.Motor.SealedPower != 0) {
			missing("motor", "open_power and sealed_power together")
		}
		if o, c := r.Motor.OpenPower, r.Motor.SealedPower; o != 0 && c != 0 {
			if r.Motor.Type == "centrifugal" && c > o {
				conflict("motor.sealed_power", exact(c), "at most open_power, "+exact(o)+": a centrifugal blower works less when sealed")
			}
			if r.Motor.Type == "displacement" && c < o {
				conflict("motor.sealed_power", exact(c), "at least open_power, "+exact(o)+": a displacement blower works most when sealed")
			}
		}
		flow, lift := units.VolumeFlow(0), r.Motor.SealedLift
		for k, p := range r.Motor.Points {
			id := "motor.points[" + p.ID + "]"
			if p.Flow <= flow || (r.Motor.OpenFlow != 0 && p.Flow >= r.Motor.OpenFlow) {
				conflict(id+".flow", exact(p.Flow), "flows that rise from point to point, below open_flow")
			}
			if (k > 0 || lift != 0) && p.Lift >= lift {
				conflict(id+".lift", exact(p.Lift), "lifts that fall from point to point, below sealed_lift")
			}
			flow, lift = p.Flow, p.Lift
		}
		if (r.DumpPump.ShutOffHead != 0) != (r.DumpPump.RunOutFlow != 0) {
			missing("dump_pump", "shut_off_head and run_out_flow together")
		}
		q, head := units.VolumeFlow(0), r.DumpPump.ShutOffHead
		for k, p := range r.DumpPump.Points {
			id := "dump_pump.points[" + p.ID + "]"
			if p.Flow <= q || (r.DumpPump.RunOutFlow != 0 && p.Flow >= r.DumpPump.RunOutFlow) {
				conflict(id+".flow", exact(p.Flow), "flows that rise from point to point, below run_out_flow")
			}
			if (k > 0 || head != 0) && p.Head >= head {
				conflict(id+".head", exact(p.Head), "heads that fall from point to point, below shut_off_head")
			}
			q, head = p.Flow, p.Head
		}
		if h := r.Hose; h.Length != 0 && r.Lift > h.Length {
			conflict("lift", exact(r.Lift), "at most the length of the hose, "+exact(h.Length))
		}
		if f := r.AirFilter; (f.Clean != 0 || f.Dirty != 0) && (f.Flow == 0 || f.Clean == 0 || f.Dirty == 0) {
			missing("air_filter", "flow, clean and dirty together")
		} else if f.Dirty < f.Clean {
			conflict("air_filter.dirty", exact(f.Dirty), "at least clean, "+exact(f.Clean))
		}
		if r.Discharge.Length != 0 && r.Discharge.Bore == 0 {
			missing("discharge.bore", "the bore of the hose")
		}
		if r.Discharge.Cracking != 0 && r.Discharge.CheckValve == "no" {
			conflict("discharge.cracking", exact(r.Discharge.Cracking), "a check valve")
		}
		for k := range r.Filters {
			f := &r.Filters[k]
			if f.Dirty < f.Clean {
				conflict("filters["+f.ID+"].dirty", exact(f.Dirty), "at least clean, "+exact(f.Clean))
			}
			if (f.Capacity != 0) != (f.Captures != 0) {
				missing("filters["+f.ID+"]", "capacity and captures together")
			}
		}
		if share := s.Duty.RecoveredShare; share != 0 && share+r.Evaporated > 1+1e-12 {
			conflict("evaporated", exact(r.Evaporated), "at most what is not recovered, "+exact(1-share))
		}
	}
	return errs
}

// openRecovery lists what a recovery unit leaves out.
func openRecovery(s *Spec) []Open {
	var out []Open
	for i := range s.Recovery {
		r := &s.Recovery[i]
		at := Path("recovery[" + r.ID + "]")
		if r.Motor.OpenFlow == 0 {
			out = append(out, Open{at + ".motor.open_flow", "air flow, pick-up and the vacuum in the drum"})
		}
		if r.Hose.Bore == 0 || r.Hose.Length == 0 {
			out = append(out, Open{at + ".hose", "air flow, pick-up and the vacuum in the drum"})
		}
		if r.DumpPump.ShutOffHead == 0 {
			out = append(out, Open{at + ".dump_pump.shut_off_head", "whether the drum can be emptied"})
		}
		if r.Drum.Volume == 0 {
			out = append(out, Open{at + ".drum.volume", "minutes to the float"})
		}
		if r.Tank == "" {
			out = append(out, Open{at + ".tank", "whether the recovered water has room, and what it mixes with"})
		}
	}
	return out
}

// withMotors adds the vacuum motors of a mode to its state.
func (m *Model) withMotors(s State, mode *Mode) State {
	if len(m.spec.Recovery) == 0 {
		return s
	}
	n := 0
	for i := range m.spec.Recovery {
		n = max(n, m.spec.Recovery[i].motorsIn(mode))
	}
	return s.with(AxisMotors, n+1)
}
