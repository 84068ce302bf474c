package rig

import (
	"errors"
	"fmt"
	"io"

	"example.com/washrig/internal/fields"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// Format is the first field of a specification file.
const Format = "washrig/1"

// A Spec is a rig as a person wrote it, nothing resolved: parts may be named by
// number, and what is not given is zero. New turns it into a Model.
type Spec struct {
	Format string `json:"format" need:"yes" doc:"washrig/1"`
	Name   string `json:"name" doc:"name of the rig"`
	Title  string `json:"title" doc:"one line about the rig"`

	Site  Site   `json:"site" group:"site" doc:"where the rig works"`
	Duty  Duty   `json:"duty" group:"duty" doc:"what is wanted of it"`
	Modes []Mode `json:"modes" group:"duty" doc:"what the crew does, named and ordered by the dealer"`

	Engines    []Engine    `json:"engines" group:"drive" doc:"engines of the rig"`
	Pumps      []Pump      `json:"pumps" group:"water" doc:"pressure pumps"`
	Heaters    []Heater    `json:"heaters" group:"heat" doc:"coil heaters"`
	Trunks     []Trunk     `json:"trunks" group:"water" doc:"hoses that several lines share, between pump or heater and lines"`
	Lines      []Line      `json:"lines" group:"water" doc:"one entry a gun, from the pump or heater to the nozzle"`
	Tanks      []Tank      `json:"tanks" group:"water" doc:"water tanks"`
	Crossovers []Crossover `json:"crossovers" group:"water" doc:"pipes that join tanks at the bottom"`

	Supplies []WaterSupply `json:"supplies" group:"water" doc:"what fills the tanks or feeds a pump: hydrant, bibb, water cart"`

	Recovery  []Recovery `json:"recovery" group:"recovery" doc:"vacuum recovery units"`
	HoseEnds  []HoseEnd  `json:"hose_ends" group:"water" doc:"loose ends of hoses that are moved by hand"`
	Chemicals []Chemical `json:"chemicals" group:"water" doc:"what is carried or sprayed besides water"`

	Sources []Source `json:"sources" group:"electric" doc:"sources of alternating current"`
	Loads   []Load   `json:"loads" group:"electric" doc:"what draws current"`
	Outlets []Outlet `json:"outlets" group:"electric" doc:"outlets of the sources, with their breakers"`
	Cords   []Cord   `json:"cords" group:"electric" doc:"cords between sources and loads"`

	Batteries   []Battery    `json:"batteries" group:"electric" doc:"batteries of the 12 V side"`
	DirectLoads []DirectLoad `json:"direct_loads" group:"electric" doc:"what draws from a battery"`

	FuelTanks  []FuelTank  `json:"fuel_tanks" group:"fuel" doc:"fuel tanks"`
	Trailer    *Trailer    `json:"trailer" group:"chassis" doc:"the chassis"`
	TowVehicle *TowVehicle `json:"tow_vehicle" group:"chassis" doc:"the vehicle in front"`
	Items      []Item      `json:"items" group:"chassis" doc:"whatever has only a mass, a place and a price"`
	Zones      []Zone      `json:"zones" group:"chassis" doc:"places on the deck that are kept clear"`
	TieDowns   []TieDown   `json:"tie_downs" group:"chassis" doc:"what holds the load to the deck"`
	Fills      []Fill      `json:"fills" group:"chassis" doc:"fill states that are judged beside the corners"`

	Winter Winter `json:"winter" group:"heat" doc:"the cold the rig stands and drives in, and what is done against it"`

	Labour []Labour `json:"labour" group:"money" doc:"hours of work"`

	Basis     map[Path]string `json:"basis" group:"origin" doc:"where values come from, by path: nameplate, catalogue, measured or assumed"`
	Tolerance map[Path]string `json:"tolerance" group:"origin" doc:"half-width of the certain limits of a value, by path: 50 psi or 5 %; with k=2 a normal spread"`
}

// A Site is where the rig works.
type Site struct {
	Elevation      units.Elevation   `json:"elevation" range:"-1500 ft..15000 ft" doc:"height of the site above sea level"`
	SideSlope      units.Angle       `json:"side_slope" range:"0 deg..45 deg" doc:"steepest slope across the trailer, where it stands or drives"`
	Conditions     []Condition       `json:"conditions" doc:"the hours that are judged, such as morning and afternoon"`
	Water          units.Temperature `json:"water" range:"33 °F..212 °F" default:"60 °F" why:"usual supply water, common practice" doc:"temperature of the supplied water"`
	Hardness       units.Density     `json:"hardness" range:"0 kg/m³..5 kg/m³" doc:"hardness of the supplied water as calcium carbonate; 0.1 kg/m³ is 100 mg/L or 5.8 grains a gallon"`
	NearestOpening units.Length      `json:"nearest_opening" range:"0 ft..1000 ft" doc:"from the rig to the nearest door, window or air intake of a building"`
	Pad            Pad               `json:"pad" doc:"the bermed pad that holds the wash water"`
	Place          string            `json:"place" choice:"open|near-opening|enclosed|in-building" doc:"where the rig stands when it works; an open trailer in a building counts as in-building"`
}

// A Pad is a bermed pad with a rectangular floor that falls along its length.
type Pad struct {
	Length units.Length   `json:"length" range:"1 ft..1000 ft" doc:"inside, along the fall of its floor"`
	Width  units.Length   `json:"width" range:"1 ft..1000 ft" doc:"inside, across the fall"`
	Berm   units.Length   `json:"berm" range:"0.5 in..10 ft" doc:"height of the berm above the lowest point of the floor"`
	Slope  units.Angle    `json:"slope" range:"0 deg..20 deg" doc:"fall of its floor; nothing means level"`
	Rain   units.Length   `json:"rain" range:"0 in..40 in" doc:"rain that falls on it while it is in use"`
	Lag    units.Duration `json:"lag" range:"0.1 min..24 h" doc:"time until washing stops after the pick-up has; nothing means 10 min"`
}

// A Condition is one hour of the site.
type Condition struct {
	ID       string            `json:"id" doc:"name of the hour"`
	Air      units.Temperature `json:"air" need:"yes" range:"-60 °F..140 °F" doc:"air temperature"`
	Wind     units.Velocity    `json:"wind" range:"0 mph..60 mph" doc:"wind across the hoses; nothing means still air"`
	Humidity units.Ratio       `json:"humidity" range:"1 %..100 %" doc:"relative humidity of the air"`
}

// A Duty is what the customer wants. What is not given is not judged.
type Duty struct {
	GunTemperature     units.Temperature `json:"gun_temperature" range:"33 °F..300 °F" doc:"wanted at the gun"`
	NozzlePressureLow  units.Pressure    `json:"nozzle_pressure_low" range:"1 psi..40000 psi" doc:"least wanted at the nozzle"`
	NozzlePressureHigh units.Pressure    `json:"nozzle_pressure_high" range:"1 psi..40000 psi" doc:"most wanted at the nozzle"`
	TriggerShare       units.Ratio       `json:"trigger_share" range:"1 %..100 %" default:"55 %" why:"45 to 65 % of the clock time, common practice" doc:"trigger time over clock time"`
	RecoveredShare     units.Ratio       `json:"recovered_share" range:"0 %..100 %" doc:"share of the sprayed water that is picked up"`
	Area               units.Area        `json:"area" range:"1 sq ft..10000000 sq ft" doc:"surface washed in a day"`
	Steam              string            `json:"steam" choice:"yes|no" doc:"yes: steam at the nozzle is wanted"`
	Standoff           units.Length      `json:"standoff" range:"0.5 in..15 ft" doc:"from the nozzle to the surface"`
	Surface            []string          `json:"surface" choice:"soil|grease|oil|paint|lead-paint|asbestos|flammable|fuel|solvent|concrete|masonry|wood|metal|other" doc:"what the surface is or carries; fuel and solvent count as flammable"`
	RunOff             string            `json:"run_off" choice:"contained|sanitary|ground|storm-drain" doc:"where water goes that is not recovered"`
	NoiseDistance      units.Length      `json:"noise_distance" range:"1 ft..100 ft" doc:"distance at which the sound levels of its parts were measured; nothing means 7 m where any is given"`
	OperatorDistance   units.Length      `json:"operator_distance" range:"1 ft..300 ft" doc:"from the parts that make noise to the operator; nothing means 10 ft where a sound level is given"`
	Height             string            `json:"height" choice:"ground|lift|ladder" doc:"where operators stand"`
}

// A Mode is what the crew does: which guns are in use and which loads run.
type Mode struct {
	ID    string         `json:"id" doc:"name of the mode"`
	Title string         `json:"title" doc:"words for the sheet"`
	Guns  []string       `json:"guns" ref:"lines" doc:"lines with a gun open"`
	Loads []string       `json:"loads" ref:"loads" doc:"loads switched on"`
	Time  units.Duration `json:"time" range:"0 h..24 h" doc:"hours of it in a day, by the clock"`
	Open  []string       `json:"open" ref:"crossovers" doc:"crossovers whose valve is open in this mode; the others stand as listed"`
	Ends  []string       `json:"ends" doc:"where loose hose ends are put in this mode, such as return>recovered"`
	Plugs []string       `json:"plugs" doc:"where movable loads are plugged in in this mode, such as dump-pump>belt; the others stand as listed"`

	Sprays []string `json:"sprays" ref:"chemicals" doc:"chemicals sprayed in this mode; one that no mode names counts for every mode that opens the gun it is drawn into, or any gun"`
}

// Stock is what every component has besides its ratings.
type Stock struct {
	ID       string         `json:"id" doc:"name of the element in paths"`
	Part     string         `json:"part" doc:"part number on the dealer's shelf; fills what is not given here"`
	Note     string         `json:"note" doc:"words for the sheet"`
	Count    int            `json:"count" range:"1..1000" doc:"pieces bought, for the price; nothing means one"`
	Mass     units.Mass     `json:"mass" range:"0 lb..100000 lb" doc:"mass, dry"`
	Box      Box            `json:"box" doc:"the room it takes on the deck"`
	Within   string         `json:"within" ref:"items" doc:"the item whose mass already counts this component"`
	X        units.Position `json:"x" range:"-120 ft..300 ft" doc:"centre of mass, aft of the origin: the coupler, unless trailer.coupler says where that is"`
	Y        units.Position `json:"y" range:"-20 ft..20 ft" doc:"centre of mass, left of the centreline"`
	Z        units.Position `json:"z" range:"0 ft..30 ft" doc:"centre of mass, above the ground"`
	Cost     parts.Money    `json:"cost" doc:"what the dealer pays for it"`
	Price    parts.Money    `json:"price" doc:"what the customer pays, if it is not cost and mark-up"`
	LeadTime units.Duration `json:"lead_time" range:"0 day..1500 day" doc:"time from order to delivery"`
}

// An Engine drives pumps and belt generators.
type Engine struct {
	Stock
	parts.Engine
	FuelTank string `json:"fuel_tank" ref:"fuel_tanks" doc:"the tank it burns from"`
}

// A Pump is a pressure pump with its drive, unloader and relief valve.
type Pump struct {
	Stock
	parts.Pump
	Engine         string        `json:"engine" ref:"engines" doc:"the engine that drives it"`
	BeltEfficiency units.Ratio   `json:"belt_efficiency" range:"50 %..100 %" default:"96 %" why:"V-belt, common practice" doc:"shaft power at the pump over power taken from the engine"`
	Tank           string        `json:"tank" ref:"tanks" doc:"the tank it draws from"`
	Unloader       Unloader      `json:"unloader" doc:"the valve that returns the surplus"`
	Relief         Relief        `json:"relief" doc:"the valve of last resort"`
	ThermalRelief  ThermalRelief `json:"thermal_relief" doc:"a valve that lets hot water out of the bypass"`
	EnginePulley   units.Length  `json:"engine_pulley" range:"0.5 in..60 in" doc:"pitch diameter of the pulley on the engine"`
	PumpPulley     units.Length  `json:"pump_pulley" range:"0.5 in..60 in" doc:"pitch diameter of the pulley on the pump"`
	BeltSlip       units.Ratio   `json:"belt_slip" range:"0 %..20 %" doc:"slip of the belt"`
	PulleyStock    []string      `json:"pulley_stock" doc:"pitch diameters of engine pulleys in stock, such as 4 in"`

	Suction SuctionLine `json:"suction" doc:"the line from its tank to its inlet"`
}

// An Unloader of a pump.
type Unloader struct {
	Part string `json:"part" doc:"part number on the dealer's shelf"`
	parts.Unloader
}

// A Relief valve of a pump.
type Relief struct {
	Part string `json:"part" doc:"part number on the dealer's shelf"`
	parts.Relief
}

// A Heater warms the water of one pump.
type Heater struct {
	Stock
	parts.Heater
	Pump       string            `json:"pump" need:"yes" ref:"pumps" doc:"the pump whose water it warms"`
	Thermostat units.Temperature `json:"thermostat" range:"60 °F..400 °F" doc:"temperature at which the burner stops"`
	HighLimit  units.Temperature `json:"high_limit" range:"60 °F..400 °F" doc:"temperature at which the high limit stops the burner"`
	FuelTank   string            `json:"fuel_tank" ref:"fuel_tanks" doc:"the tank it burns from"`

	Differential units.TemperatureDelta `json:"differential" range:"0.5 K..60 K" doc:"how far the thermostat lets the water cool before it calls for heat again"`
	Relief       units.Pressure         `json:"relief" range:"10 psi..40000 psi" doc:"relief valve on the water shut in between the check valve and the guns; nothing means none"`
	Stack        FlueReading            `json:"stack" doc:"what was measured in its stack"`
	Soot         units.Length           `json:"soot" range:"0 mm..10 mm" doc:"soot on the outside of the coil"`
	History      string                 `json:"history" choice:"new|inspected|unknown" doc:"what is known of the age and state of its coil"`
	Scale        units.Length           `json:"scale" range:"0 mm..10 mm" doc:"scale on the inside of the coil"`
}

// A Line goes from a pump, through its heater if it has one, to one nozzle.
type Line struct {
	Stock
	Pump     string          `json:"pump" need:"yes" ref:"pumps" doc:"the pump that feeds it"`
	Hose     Hose            `json:"hose" doc:"the hose to the gun"`
	Fittings parts.RatedLoss `json:"fittings" doc:"reel, swivel and gun together"`
	Nozzle   Nozzle          `json:"nozzle" doc:"the hole at the end"`
	Trunk    string          `json:"trunk" ref:"trunks" doc:"a hose that this line shares with others, before its own"`
	Elements []Element       `json:"elements" doc:"what else stands in the line, in the order of flow, behind its hose"`
	Reel     parts.Reel      `json:"reel" doc:"the drum its hose is wound on"`
	Noise    int             `json:"noise" range:"20..150" doc:"sound level of the open gun and its jet in dB(A), at the ear of its operator"`
	Release  units.Duration  `json:"release" range:"0 s..10 s" doc:"time in which the trigger closes; nothing means at once"`
}

// An Element of a line.
type Element struct {
	ID   string `json:"id" doc:"name of the element in paths"`
	Part string `json:"part" doc:"part number on the dealer's shelf"`
	parts.Element
}

// A Trunk is a hose that several lines share.
type Trunk struct {
	Stock
	Pump     string    `json:"pump" need:"yes" ref:"pumps" doc:"the pump that feeds it"`
	Hose     Hose      `json:"hose" doc:"the shared hose"`
	Elements []Element `json:"elements" doc:"what else stands in it, in the order of flow"`
}

// A Hose of a line.
type Hose struct {
	Part string `json:"part" doc:"part number on the dealer's shelf"`
	parts.Hose
}

// A Nozzle of a line.
type Nozzle struct {
	Part string `json:"part" doc:"part number on the dealer's shelf"`
	parts.Nozzle
}

// A Tank of water.
type Tank struct {
	Stock
	parts.Tank
	Floor     units.Position `json:"floor" range:"0 ft..15 ft" doc:"inside floor above the ground"`
	Density   units.Density  `json:"density" range:"6 lb/gal..15 lb/gal" doc:"of what it holds; nothing means water at the temperature of the supply"`
	Contents  string         `json:"contents" choice:"clean|recovered|treated|chemical" default:"clean" why:"a tank holds clean water unless said otherwise" doc:"what it holds"`
	Stored    units.Duration `json:"stored" range:"0 day..400 day" doc:"how long its water stands"`
	DumpValve string         `json:"dump_valve" choice:"locked|free" doc:"whether its dump valve is locked shut on the road"`
	WayIn     string         `json:"way_in" choice:"yes|no" doc:"whether people can get in"`

	Vent               units.Length      `json:"vent" range:"0.05 in..24 in" doc:"bore of the vent"`
	MaximumTemperature units.Temperature `json:"maximum_temperature" range:"33 °F..250 °F" doc:"hottest water it may hold, from its maker"`
	MaximumVacuum      units.Pressure    `json:"maximum_vacuum" range:"0.01 inH2O..14 psi" doc:"vacuum the tank may bear, from its maker"`
	Overflow           units.Length      `json:"overflow" range:"1 in..30 ft" doc:"edge over which it spills, above its floor; nothing means the lid"`
	Dump               DumpOutlet        `json:"dump" doc:"the outlet through which it is emptied"`
}

// A Crossover joins two tanks at the bottom.
type Crossover struct {
	ID    string       `json:"id" doc:"name of the crossover"`
	From  string       `json:"from" need:"yes" ref:"tanks" doc:"one tank"`
	To    string       `json:"to" need:"yes" ref:"tanks" doc:"the other tank"`
	Bore  units.Length `json:"bore" range:"0.1 in..24 in" doc:"true bore of the pipe"`
	Valve string       `json:"valve" choice:"shut|open" default:"shut" why:"a crossover valve is shut unless said otherwise" doc:"position of its valve"`

	Length units.Length `json:"length" range:"0 ft..200 ft" doc:"length of the pipe"`
	K      units.Ratio  `json:"k" range:"0.5..1000" doc:"entry, valve, bends and exit together, in velocity heads of the bore"`
}

// A HoseEnd is the loose end of a hose and the places it may be put.
type HoseEnd struct {
	ID      string   `json:"id" doc:"name of the end, such as return"`
	Carries string   `json:"carries" choice:"clean|recovered|treated|chemical" doc:"what comes out of it"`
	At      string   `json:"at" ref:"tanks" doc:"the tank it is in unless a mode moves it"`
	Places  []string `json:"places" ref:"tanks" doc:"other tanks it may be put into"`
}

// A Source gives alternating current.
type Source struct {
	Stock
	parts.Generator
	Type           string      `json:"type" need:"yes" choice:"belt|portable|inverter|shore" doc:"belt: driven by an engine of the rig; portable: with its own engine; inverter: electronics behind its own engine, or behind the battery it names; shore: a cord to the mains"`
	Engine         string      `json:"engine" ref:"engines" doc:"the engine that drives a belt generator"`
	BeltEfficiency units.Ratio `json:"belt_efficiency" range:"50 %..100 %" default:"96 %" when:"type=belt" why:"V-belt, common practice" doc:"shaft power at a belt generator over power taken from the engine"`
	FuelTank       string      `json:"fuel_tank" ref:"fuel_tanks" doc:"the tank it burns from"`
	Tie            string      `json:"tie" choice:"none|interlock|parallel-kit|direct" doc:"how it is tied to another source or a building; direct: by nothing that keeps the two apart"`
	Battery        string      `json:"battery" ref:"batteries" doc:"the battery that feeds an inverter"`
}

// A Load draws current from the source it is plugged into.
type Load struct {
	Stock
	parts.Load
	Starts string   `json:"starts" choice:"by-hand|by-itself" default:"by-itself" why:"the harder case is taken when nothing is given" doc:"by-itself: a float, a switch or a thermostat may start it at any time"`
	Source string   `json:"source" need:"yes" ref:"sources" doc:"the source it is plugged into"`
	May    []string `json:"may" ref:"sources" doc:"other sources its plug fits"`

	Outlet    string      `json:"outlet" ref:"outlets" doc:"the outlet of its source; nothing: the only one there is"`
	Use       string      `json:"use" choice:"continuous|short" doc:"short: never on for three hours; nothing means continuous, the harder case"`
	SoftStart units.Ratio `json:"soft_start" range:"100 %..2000 %" doc:"start current that a soft starter allows, over the running current"`
	After     []string    `json:"after" ref:"loads" doc:"loads started by hand that must run before this one is"`
	Heater    string      `json:"heater" ref:"heaters" doc:"the heater whose burner it is; nothing: the only one there is"`
}

// A FuelTank of the rig.
type FuelTank struct {
	Stock
	parts.FuelTank
	Home units.Volume `json:"home" range:"0 gal..2000 gal" doc:"fuel left at the end of the day"`
}

// A Trailer carries everything.
type Trailer struct {
	Stock
	parts.Trailer
}

// A TowVehicle pulls it.
type TowVehicle struct {
	Part string `json:"part" doc:"part number on the dealer's shelf"`
	parts.TowVehicle
}

// An Item is anything with a mass, a place, a price and a lead time.
type Item struct {
	Stock
}

// A Fill is one fill state: what each tank holds.
type Fill struct {
	ID     string  `json:"id" doc:"name of the fill state"`
	Title  string  `json:"title" doc:"words for the sheet"`
	Reach  string  `json:"reach" choice:"reachable|conceivable" default:"reachable" why:"a listed fill state is one the day reaches" doc:"whether the day really takes the rig there"`
	Levels []Level `json:"levels" doc:"what each tank holds; a tank left out is empty"`
}

// A Level is the volume in one tank.
type Level struct {
	ID     string       `json:"id" doc:"the tank or fuel tank"`
	Volume units.Volume `json:"volume" range:"0 gal..20000 gal" doc:"what it holds"`
}

// Labour is hours of one task.
type Labour struct {
	ID    string         `json:"id" doc:"name of the task"`
	Title string         `json:"title" doc:"words for the quote"`
	Time  units.Duration `json:"time" range:"0 h..5000 h" doc:"time it takes"`
}

// ReadLimits bound a specification file. Zero fields take the defaults.
type ReadLimits struct {
	Bytes    int64 // default 1 MiB
	Depth    int   // default 32
	Elements int   // elements of all lists together, default 2000
}

// ReadSpec reads a specification. It is strict (see Format) and reports every
// problem it finds, each as a *Problem with line, column and path, joined.
func ReadSpec(r io.Reader, lim ReadLimits) (*Spec, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	s := new(Spec)
	if err := t.Decode(r, s, fields.Limits{Bytes: lim.Bytes, Depth: lim.Depth, Elements: lim.Elements}); err != nil {
		if newer := parts.CheckFormat(s.Format, Format); newer != nil && s.Format != "" {
			return nil, newer
		}
		return nil, err
	}
	if err := parts.CheckFormat(s.Format, Format); err != nil {
		return nil, err
	}
	return s, nil
}

// A Problem is one thing that is wrong in a specification file: line, column,
// path and the error behind it.
type Problem = fields.Problem

// Write writes the specification as ReadSpec reads it. Quantities are written
// with the fewest digits that give back the same bits.
func (s *Spec) Write(w io.Writer) error {
	t, err := specTable()
	if err != nil {
		return err
	}
	return t.Encode(w, s)
}

// Clone returns a deep copy.
func (s *Spec) Clone() *Spec {
	t, err := specTable()
	if err != nil { // a mistake in the tags of Spec; every constructor reports it
		c := *s
		return &c
	}
	return t.Clone(s).(*Spec)
}

// A Basis says where a value comes from.
type Basis string

// The bases of a value.
const (
	Nameplate Basis = "nameplate"
	Catalogue Basis = "catalogue"
	Measured  Basis = "measured"
	Assumed   Basis = "assumed"
)

func (b Basis) valid() bool {
	return b == Nameplate || b == Catalogue || b == Measured || b == Assumed
}

// A Remark is something noted about a value: its Basis, or its tolerance.
type Remark interface{ remark(s *Spec, p Path) error }

func (b Basis) remark(s *Spec, p Path) error {
	if !b.valid() {
		return &units.FieldError{Path: "basis." + string(p), Value: string(b), Want: basisWords, Err: units.ErrRange}
	}
	if s.Basis == nil {
		s.Basis = map[Path]string{}
	}
	s.Basis[p] = string(b)
	return nil
}

const basisWords = "nameplate, catalogue, measured or assumed"

type plusMinus string

func (t plusMinus) remark(s *Spec, p Path) error {
	if t == "" {
		return &units.FieldError{Path: "tolerance." + string(p), Want: "a tolerance of zero or more", Err: units.ErrRange}
	}
	if s.Tolerance == nil {
		s.Tolerance = map[Path]string{}
	}
	s.Tolerance[p] = string(t)
	return nil
}

// PlusMinus is a tolerance: the half-width of the certain limits of a value.
func PlusMinus(q interface{ MarshalText() ([]byte, error) }) Remark {
	b, err := q.MarshalText()
	if err != nil {
		return plusMinus("")
	}
	return plusMinus(b)
}

// Note records remarks about the field that pointer points at inside s:
//
//	err := spec.Note(&spec.Lines[0].Hose.Length, rig.Measured, rig.PlusMinus(2*units.Foot))
func (s *Spec) Note(pointer any, remarks ...Remark) error {
	t, err := specTable()
	if err != nil {
		return err
	}
	p, ok := t.PathOf(s, pointer)
	if !ok {
		return &units.FieldError{Path: "pointer", Value: fmt.Sprintf("%T", pointer), Want: "the address of a field inside this specification", Err: units.ErrRange}
	}
	var errs []error
	for _, r := range remarks {
		errs = append(errs, r.remark(s, Path(p)))
	}
	return errors.Join(errs...)
}
