package parts

import "example.com/washrig/units"

// A Pump is a positive-displacement pump as its plate and sheet give it.
type Pump struct {
	RatedFlow               units.VolumeFlow      `json:"rated_flow" need:"yes" range:"0.01 gpm..1000 gpm" doc:"delivery at the speed it is driven at"`
	MaximumPressure         units.Pressure        `json:"maximum_pressure" range:"10 psi..40000 psi" doc:"highest pressure the pump may work at"`
	MaximumInletTemperature units.Temperature     `json:"maximum_inlet_temperature" range:"33 °F..250 °F" doc:"hottest water the pump may draw"`
	MinimumInletPressure    units.Pressure        `json:"minimum_inlet_pressure" range:"0.1 psi..500 psi" doc:"least pressure its inlet asks for when it is fed under pressure; nothing means that it must not draw on the main"`
	MaximumInletPressure    units.Pressure        `json:"maximum_inlet_pressure" range:"1 psi..1000 psi" doc:"highest pressure its inlet may bear"`
	RequiredHead            units.Length          `json:"required_head" range:"0 ft..60 ft" doc:"net positive suction head the pump needs"`
	Efficiency              units.Ratio           `json:"efficiency" range:"5 %..100 %" default:"85 %" why:"plunger pump overall, common practice" doc:"hydraulic power over shaft power"`
	Plungers                int                   `json:"plungers" range:"1..12" doc:"number of plungers"`
	PlungerDiameter         units.Length          `json:"plunger_diameter" range:"0.1 in..10 in" doc:"diameter of a plunger"`
	Stroke                  units.Length          `json:"stroke" range:"0.05 in..12 in" doc:"stroke of a plunger"`
	VolumetricEfficiency    units.Ratio           `json:"volumetric_efficiency" range:"30 %..100 %" doc:"share of the swept volume that is delivered"`
	Speed                   units.RotationalSpeed `json:"speed" range:"50 rpm..6000 rpm" doc:"speed at which it delivers its rated flow"`
	HeadWater               units.Volume          `json:"head_water" range:"0.001 gal..50 gal" doc:"water in its head and valves, for frost"`
	HeadMetal               units.Mass            `json:"head_metal" range:"0.1 lb..5000 lb" doc:"metal that cools with that water"`
}

// An Engine is a combustion engine with the derating its plate gives.
type Engine struct {
	GrossPower       units.Power           `json:"gross_power" need:"yes" range:"0.1 hp..2000 hp" doc:"rated power, new, at the plate's reference air"`
	ContinuousShare  units.Ratio           `json:"continuous_share" range:"10 %..100 %" default:"85 %" why:"gross rating to continuous use, common practice" doc:"share of the gross power that may be used for hours"`
	PerThousandFeet  units.Ratio           `json:"loss_per_1000_ft" range:"0 %..20 %" default:"3.5 %" why:"naturally aspirated plate rule, common practice" doc:"power lost per 1,000 ft of elevation"`
	PerTenFahrenheit units.Ratio           `json:"loss_per_10_f" range:"0 %..20 %" default:"1 %" why:"plate rule above 77 °F, common practice" doc:"power lost per 10 °F of air above 77 °F"`
	NetPower         units.Power           `json:"net_power" range:"0.1 hp..2000 hp" doc:"rated power with fan, filter and muffler on; used before the gross power"`
	Correction       string                `json:"correction" choice:"plate|j1349|iso3046" doc:"rule for elevation and heat; nothing means the plate's"`
	Burns            string                `json:"burns" choice:"gasoline|gasoline-e0|diesel|diesel-1|kerosene|biodiesel-b5|biodiesel-b20|propane|natural-gas" doc:"the fuel it is made for"`
	Aspiration       string                `json:"aspiration" choice:"natural|turbocharged" doc:"how it breathes; nothing means naturally"`
	FullLoadRate     units.FuelRate        `json:"full_load_rate" range:"0.01 gph..200 gph" doc:"fuel at its gross power"`
	HalfLoadRate     units.FuelRate        `json:"half_load_rate" range:"0.01 gph..200 gph" doc:"fuel at half its gross power"`
	NoLoadSpeed      units.RotationalSpeed `json:"no_load_speed" range:"100 rpm..10000 rpm" doc:"governed speed with nothing on the shaft"`
	Droop            units.Ratio           `json:"droop" range:"0 %..20 %" doc:"fall of speed from no load to full load"`
	Noise            int                   `json:"noise" range:"20..150" doc:"sound level in dB(A) at full speed, at the distance of duty.noise_distance"`
	Curve            []PowerPoint          `json:"curve" doc:"full-throttle power by speed, at the plate's reference air"`
}

// A PowerPoint is one point of an engine's full-throttle curve.
type PowerPoint struct {
	ID    string                `json:"id" doc:"name of the point"`
	Speed units.RotationalSpeed `json:"speed" need:"yes" range:"100 rpm..10000 rpm" doc:"speed of the crankshaft"`
	Power units.Power           `json:"power" need:"yes" range:"0.1 hp..2000 hp" doc:"power at full throttle"`
}

// A Heater is a fuel-fired coil heater.
type Heater struct {
	Fuel               string                     `json:"fuel" choice:"oil|diesel|kerosene|propane" doc:"what the burner burns"`
	Efficiency         units.Ratio                `json:"efficiency" range:"20 %..100 %" default:"82 %" why:"oil-fired coil on the higher heating value, common practice" doc:"heat to the water over fuel input on the higher heating value"`
	HeatingValue       units.HeatingValueByVolume `json:"heating_value" range:"50000 BTU/gal..200000 BTU/gal" default:"138500 BTU/gal" why:"heating oil, higher heating value, common practice" doc:"higher heating value of the fuel"`
	CleanFiring        units.FuelRate             `json:"clean_firing" range:"0.05 gph..100 gph" doc:"largest clean firing rate in standard sea-level air (59 °F, 1 atm)"`
	CoilBore           units.Length               `json:"coil_bore" range:"0.05 in..6 in" doc:"true inside diameter of the coil tube"`
	CoilLength         units.Length               `json:"coil_length" range:"1 ft..3000 ft" doc:"developed length of the coil tube"`
	CoilRoughness      units.Length               `json:"coil_roughness" range:"0 mm..2 mm" doc:"absolute roughness of the coil's inside; nothing means smooth"`
	HelixDiameter      units.Length               `json:"helix_diameter" range:"2 in..12 ft" doc:"diameter of the helix, tube centre to tube centre"`
	MaximumTemperature units.Temperature          `json:"maximum_temperature" range:"60 °F..500 °F" doc:"highest water temperature the heater may make"`
	MaximumPressure    units.Pressure             `json:"maximum_pressure" range:"10 psi..40000 psi" doc:"highest pressure of the coil"`
	Steel              units.Mass                 `json:"steel" range:"1 lb..5000 lb" doc:"steel that warms with the water, coil and what it touches"`
	OilNozzle          units.FuelRate             `json:"oil_nozzle" range:"0.1 gph..100 gph" doc:"flow printed on the oil nozzle, at 100 psi"`
	OilPressure        units.Pressure             `json:"oil_pressure" range:"50 psi..500 psi" doc:"pressure the oil pump is set to"`
	StopDelay          units.Duration             `json:"stop_delay" range:"0.01 s..120 s" doc:"from the opening of a control to the end of the fire"`
	FireDelay          units.Duration             `json:"fire_delay" range:"0.01 s..300 s" doc:"from the call for heat to the fire: purge and ignition"`
	FlowSwitch         string                     `json:"flow_switch" choice:"yes|no" doc:"whether a switch stops the burner without flow"`
	Noise              int                        `json:"noise" range:"20..150" doc:"sound level of the burner in dB(A), at the distance of duty.noise_distance"`
	PressureSwitch     string                     `json:"pressure_switch" choice:"yes|no" doc:"whether a switch stops the burner when the pump is off or bypasses without pressure"`
}

// A Hose is a length of hose with the ratings of its layline.
type Hose struct {
	Bore               units.Length              `json:"bore" need:"yes" range:"0.05 in..12 in" doc:"true inside diameter"`
	Length             units.Length              `json:"length" need:"yes" range:"0.1 ft..10000 ft" doc:"length between the fittings"`
	Roughness          units.Length              `json:"roughness" range:"0 mm..2 mm" doc:"absolute roughness of the inside; nothing means smooth"`
	MaximumPressure    units.Pressure            `json:"maximum_pressure" range:"1 psi..40000 psi" doc:"working pressure"`
	MaximumTemperature units.Temperature         `json:"maximum_temperature" range:"33 °F..500 °F" doc:"highest temperature of the water"`
	OutsideDiameter    units.Length              `json:"outside_diameter" range:"0.1 in..14 in" doc:"outside diameter, for the reel and for the heat it loses"`
	Wall               string                    `json:"wall" choice:"rubber|thermoplastic" doc:"what its wall is made of"`
	WallConductivity   units.ThermalConductivity `json:"wall_conductivity" range:"0.02 W/(m·K)..500 W/(m·K)" doc:"thermal conductivity of its wall; nothing means by what it is made of"`
	Expansion          units.Ratio               `json:"expansion" range:"0.01 %..30 %" doc:"growth of the volume it holds from no pressure to its working pressure"`
	WaveSpeed          units.Velocity            `json:"wave_speed" range:"100 ft/s..5000 ft/s" doc:"speed of a pressure wave in it, measured; nothing means the band of the trade"`
}

// A RatedLoss is a pressure loss known at one flow: a reel, a swivel and a gun
// together, or any part whose loss was measured. It grows with the square of
// the flow.
type RatedLoss struct {
	Loss units.Pressure   `json:"loss" range:"0 psi..5000 psi" doc:"pressure lost at the flow beside it"`
	Flow units.VolumeFlow `json:"flow" range:"0.01 gpm..1000 gpm" doc:"flow at which the loss was measured"`
}

// An Element is one thing in a line besides its hose: a fitting, valve,
// coupler, swivel, filter, gun or lance, a climb, or a measured loss. What is
// given decides how its loss is computed.
type Element struct {
	Sort               string            `json:"sort" choice:"fitting|valve|check-valve|coupler|swivel|filter|gun|lance|height|loss" doc:"what it is"`
	Bore               units.Length      `json:"bore" range:"0.02 in..12 in" doc:"bore its loss coefficient belongs to"`
	K                  units.Ratio       `json:"k" range:"0..100000" doc:"loss in velocity heads of the bore"`
	Loss               units.Pressure    `json:"loss" range:"0 psi..5000 psi" doc:"pressure lost, clean, at the flow beside it; of a check valve, the pressure that opens it"`
	Flow               units.VolumeFlow  `json:"flow" range:"0.01 gpm..1000 gpm" doc:"flow at which the loss was rated"`
	LinearShare        units.Ratio       `json:"linear_share" range:"0 %..100 %" doc:"share of the loss that grows in proportion to the flow"`
	DirtyLoss          units.Pressure    `json:"dirty_loss" range:"0 psi..5000 psi" doc:"loss of a filter at the end of its life, at the same flow"`
	Rise               units.Length      `json:"rise" range:"-300 ft..300 ft" doc:"climb from its inlet to its outlet"`
	MaximumPressure    units.Pressure    `json:"maximum_pressure" range:"1 psi..40000 psi" doc:"working pressure"`
	MaximumTemperature units.Temperature `json:"maximum_temperature" range:"33 °F..500 °F" doc:"highest temperature of the water"`
}

// A Reel is the drum of a hose reel.
type Reel struct {
	Core      units.Length `json:"core" range:"1 in..10 ft" doc:"diameter of the drum the first layer lies on"`
	Flange    units.Length `json:"flange" range:"2 in..12 ft" doc:"diameter of the discs"`
	Width     units.Length `json:"width" range:"1 in..10 ft" doc:"between the discs"`
	Clearance units.Length `json:"clearance" range:"0 in..1 ft" doc:"kept free below the rim"`
}

// A Nozzle is the metering hole at the end of a line.
type Nozzle struct {
	Number units.NozzleNumber `json:"number" need:"yes" range:"0.1..200" doc:"trade number: gpm at 4,000 psi"`
	Angle  units.Angle        `json:"angle" range:"0 deg..180 deg" doc:"spray angle; no part of the flow"`
	Tips   int                `json:"tips" range:"1..12" doc:"equal holes on one tool, such as a surface cleaner; the number is that of each; nothing means one"`
	Wear   units.Ratio        `json:"wear" range:"0 %..200 %" doc:"growth of the flow area; 5.4 % costs a tenth of the pressure"`
}

// An Unloader returns the flow the open guns do not take.
type Unloader struct {
	Type       string           `json:"type" choice:"pressure-regulating|flow-actuated|trapped-pressure" doc:"how the unloader works"`
	Setting    units.Pressure   `json:"setting" range:"10 psi..40000 psi" doc:"pressure at the pump when it bypasses"`
	ReturnTo   string           `json:"return_to" choice:"tank|inlet" doc:"where the bypassed water goes"`
	LoopVolume units.Volume     `json:"loop_volume" range:"0.01 gal..100 gal" doc:"water in the loop when the return goes to the pump inlet"`
	Rise       units.Pressure   `json:"rise" range:"0 psi..5000 psi" doc:"further rise until the whole flow is bypassed; nothing means none"`
	Unloaded   units.Pressure   `json:"unloaded" range:"0 psi..5000 psi" doc:"pressure at the pump when it is fully open"`
	Actuation  units.VolumeFlow `json:"actuation" range:"0.01 gpm..1000 gpm" doc:"flow below which a flow-actuated one opens"`
}

// A Relief is the valve that opens when everything else has failed.
type Relief struct {
	Setting      units.Pressure `json:"setting" range:"10 psi..40000 psi" doc:"pressure at which the valve opens"`
	Accumulation units.Pressure `json:"accumulation" range:"0 psi..5000 psi" doc:"further rise until the whole flow passes; nothing means none"`
}

// A Generator is a source of alternating current, driven by an engine of the
// rig or standing alone.
type Generator struct {
	Running          units.Power `json:"running" need:"yes" range:"10 W..1000000 W" doc:"power it carries for hours (its run rating)"`
	Starting         units.Power `json:"starting" range:"10 W..1000000 W" doc:"power it carries for the start of a motor (its start rating)"`
	Efficiency       units.Ratio `json:"efficiency" range:"10 %..100 %" default:"78 %" when:"type=belt" why:"small belt-driven generator, common practice" doc:"electric power over shaft power"`
	PerThousandFeet  units.Ratio `json:"loss_per_1000_ft" range:"0 %..20 %" default:"3.5 %" when:"type=portable" why:"naturally aspirated plate rule, common practice" doc:"power its own engine loses per 1,000 ft; not used when an engine of the rig drives it"`
	PerTenFahrenheit units.Ratio `json:"loss_per_10_f" range:"0 %..20 %" default:"1 %" when:"type=portable" why:"plate rule above 77 °F, common practice" doc:"power its own engine loses per 10 °F above 77 °F; not used when an engine of the rig drives it"`

	RunningApparent    units.ApparentPower   `json:"running_apparent" range:"10 VA..1000000 VA" doc:"volt-amperes its winding or electronics carry for hours"`
	StartingApparent   units.ApparentPower   `json:"starting_apparent" range:"10 VA..1000000 VA" doc:"volt-amperes it carries for the start of a motor"`
	AlternatorRunning  units.Power           `json:"alternator_running" range:"10 W..1000000 W" doc:"power its alternator carries for hours, where that is less than its engine could drive in good air"`
	AlternatorStarting units.Power           `json:"alternator_starting" range:"10 W..1000000 W" doc:"power its alternator carries for a start"`
	Voltage            units.Voltage         `json:"voltage" range:"5 V..700 V" doc:"voltage of its outlets, of one leg of a 120/240 V source"`
	Legs               int                   `json:"legs" range:"1..2" doc:"hot wires: 2 for a 120/240 V source that gives half of its rating on each"`
	Neutral            string                `json:"neutral" choice:"bonded|floating" doc:"whether its neutral is tied to its frame"`
	Frequency          units.Frequency       `json:"frequency" range:"40 Hz..70 Hz" doc:"rated frequency"`
	Poles              int                   `json:"poles" range:"2..24" doc:"poles of its alternator"`
	Speed              units.RotationalSpeed `json:"speed" range:"100 rpm..20000 rpm" doc:"speed of its alternator; with a droop, its speed without load"`
	IdleSpeed          units.RotationalSpeed `json:"idle_speed" range:"100 rpm..20000 rpm" doc:"speed it falls back to when its engine idles down; nothing: it does not"`
	Droop              units.Ratio           `json:"droop" range:"0.1 %..30 %" doc:"fall of speed from no load to the run rating, over the speed at the run rating"`
	RegulatorKnee      units.Ratio           `json:"regulator_knee" range:"50 %..120 %" doc:"share of the rated frequency below which its regulator lets the voltage fall"`
	TransientReactance units.Ratio           `json:"transient_reactance" range:"1 %..100 %" doc:"transient reactance X'd on its volt-amperes"`
	Inertia            units.Duration        `json:"inertia" range:"0.01 s..100 s" doc:"energy of all that turns, over the run rating (H)"`
	GovernorTime       units.Duration        `json:"governor_time" range:"0.001 s..100 s" doc:"time in which engine power follows speed"`
	Breaker            units.Current         `json:"breaker" range:"1 A..400 A" doc:"breaker that feeds a shore cord"`
	IdlePower          units.Power           `json:"idle_power" range:"0.1 W..10000 W" doc:"what an inverter draws from its battery without load"`
	Noise              int                   `json:"noise" range:"20..150" doc:"sound level in dB(A), at the distance of duty.noise_distance"`
	FullLoadRate       units.FuelRate        `json:"full_load_rate" range:"0.01 gph..200 gph" doc:"fuel of its own engine at the run rating; not used when an engine of the rig drives it"`
	HalfLoadRate       units.FuelRate        `json:"half_load_rate" range:"0.01 gph..200 gph" doc:"fuel of its own engine at half the run rating"`
}

// A Load is something that draws current.
type Load struct {
	Class    string      `json:"class" choice:"brush-motor|capacitor-start-motor|split-phase-motor|compressor|burner|resistance|charger" doc:"what kind of load it is, for a likely start when the plate gives none"`
	Running  units.Power `json:"running" need:"yes" range:"1 W..100000 W" doc:"power while it runs"`
	Starting units.Power `json:"starting" range:"1 W..1000000 W" doc:"power while it starts"`

	Voltage          units.Voltage         `json:"voltage" range:"5 V..700 V" doc:"voltage of its plate"`
	Current          units.Current         `json:"current" range:"0.01 A..10000 A" doc:"current of its plate, running"`
	ShaftPower       units.Power           `json:"shaft_power" range:"1 W..1000000 W" doc:"what a motor gives at its shaft, its horsepower"`
	Efficiency       units.Ratio           `json:"efficiency" range:"5 %..100 %" doc:"shaft power over power drawn"`
	PowerFactor      units.Ratio           `json:"power_factor" range:"5 %..100 %" doc:"watts over volt-amperes, running"`
	RunningApparent  units.ApparentPower   `json:"running_apparent" range:"1 VA..1000000 VA" doc:"volt-amperes while it runs"`
	MeasuredStart    units.Current         `json:"measured_start" range:"0.01 A..50000 A" doc:"current while it starts, by clamp meter"`
	LockedRotor      units.Current         `json:"locked_rotor" range:"0.01 A..50000 A" doc:"locked-rotor current of its plate"`
	CodeLetter       string                `json:"code_letter" choice:"A|B|C|D|E|F|G|H|J|K|L|M|N|P|R|S|T|U" doc:"locked-rotor code letter of its plate; needs the shaft power"`
	StartPowerFactor units.Ratio           `json:"start_power_factor" range:"5 %..100 %" doc:"watts over volt-amperes while it starts"`
	StartingApparent units.ApparentPower   `json:"starting_apparent" range:"1 VA..1000000 VA" doc:"volt-amperes while it starts"`
	Leakage          units.Current         `json:"leakage" range:"0 A..1 A" doc:"current to earth in good order, such as 0.5 mA"`
	Noise            int                   `json:"noise" range:"20..150" doc:"sound level in dB(A), at the distance of duty.noise_distance"`
	FanPoles         int                   `json:"fan_poles" range:"2..12" doc:"poles of a burner's motor"`
	FanSpeed         units.RotationalSpeed `json:"fan_speed" range:"100 rpm..10000 rpm" doc:"speed of a burner's motor at its plate voltage"`
	FanBreakdown     units.Ratio           `json:"fan_breakdown" range:"105 %..1000 %" doc:"greatest torque of a burner's motor over its torque at its speed"`
}

// A Tank holds water.
type Tank struct {
	Nominal units.Volume `json:"nominal" need:"yes" range:"0.1 gal..20000 gal" doc:"volume to the lid"`
	Usable  units.Volume `json:"usable" range:"0.1 gal..20000 gal" doc:"volume that can be drawn or held in use; nothing means the nominal volume"`
	Height  units.Length `json:"height" range:"1 in..30 ft" doc:"inside height, floor to lid"`

	Shape        string       `json:"shape" choice:"box|upright-cylinder|lengthwise-cylinder|crosswise-cylinder" doc:"inside form: a box, a standing cylinder, or one that lies fore and aft or across"`
	InsideLength units.Length `json:"inside_length" range:"1 in..60 ft" doc:"inside length, fore and aft; of a box and a cylinder that lies lengthwise"`
	InsideWidth  units.Length `json:"inside_width" range:"1 in..20 ft" doc:"inside width, across; of a box and a cylinder that lies crosswise"`
	Diameter     units.Length `json:"diameter" range:"1 in..20 ft" doc:"inside diameter of a cylinder"`
	Baffles      units.Ratio  `json:"baffles" range:"0 %..100 %" doc:"share of the free shift of the liquid that baffles hold back, as their maker states it; nothing means none"`
}

// A FuelTank holds fuel for engines or burners.
type FuelTank struct {
	Fuel        string        `json:"fuel" need:"yes" choice:"gasoline|gasoline-e0|diesel|diesel-1|oil|kerosene|biodiesel-b5|biodiesel-b20|propane" doc:"what is in it"`
	Volume      units.Volume  `json:"volume" need:"yes" range:"0.1 gal..2000 gal" doc:"volume it may hold"`
	Density     units.Density `json:"density" range:"3 lb/gal..9 lb/gal" doc:"mass of the fuel by volume; nothing means the usual value for the fuel"`
	UsableShare units.Ratio   `json:"usable_share" range:"10 %..100 %" default:"90 %" why:"90 to 95 % of the plate, common practice" doc:"share of the volume that reaches the pick-up; not used where its inside is given"`
	FuelPrice   Money         `json:"fuel_price" doc:"price of a US gallon"`

	InsideLength  units.Length   `json:"inside_length" range:"1 in..20 ft" doc:"inside length of a box, fore and aft"`
	InsideWidth   units.Length   `json:"inside_width" range:"1 in..20 ft" doc:"inside width, across"`
	InsideHeight  units.Length   `json:"inside_height" range:"1 in..10 ft" doc:"inside height, floor to lid"`
	PickUpHeight  units.Length   `json:"pick_up_height" range:"0 in..10 ft" doc:"end of the suction tube above the floor; nothing means on the floor"`
	PickUpForward units.Position `json:"pick_up_forward" range:"0 in..20 ft" doc:"end of the suction tube ahead of the rear wall; nothing means the middle"`
	PickUpLeft    units.Position `json:"pick_up_left" range:"0 in..20 ft" doc:"end of the suction tube left of the right wall; nothing means the middle"`
}

// A Trailer is the chassis with the ratings of its plates.
type Trailer struct {
	Axles         int            `json:"axles" need:"yes" range:"1..4" doc:"number of axles"`
	AxleRating    units.Mass     `json:"axle_rating" range:"100 lb..50000 lb" doc:"gross rating of one axle"`
	GrossRating   units.Mass     `json:"gross_rating" range:"100 lb..200000 lb" doc:"gross rating of the trailer"`
	CouplerRating units.Mass     `json:"coupler_rating" range:"10 lb..20000 lb" doc:"highest tongue weight of the coupler"`
	AxleGroup     units.Position `json:"axle_group" need:"yes" range:"-100 ft..200 ft" doc:"middle of the axle group, aft of the origin"`
	Coupler       units.Position `json:"coupler" range:"-100 ft..100 ft" doc:"the ball, aft of the origin of all places; nothing means that they are measured from the ball"`
	DeckLength    units.Length   `json:"deck_length" range:"1 ft..100 ft" doc:"length of the deck"`
	DeckWidth     units.Length   `json:"deck_width" range:"1 ft..20 ft" doc:"width of the deck"`

	DeckFront            units.Position `json:"deck_front" range:"-120 ft..200 ft" doc:"front edge of the deck, aft of the origin"`
	DeckHeight           units.Length   `json:"deck_height" range:"0.1 ft..10 ft" doc:"top of the deck above the ground"`
	Track                units.Length   `json:"track" range:"1 ft..12 ft" doc:"between the wheel centrelines of one axle; with twin tyres between the middles of the pairs"`
	AxleSpacing          units.Length   `json:"axle_spacing" range:"1 ft..15 ft" doc:"between neighbouring axles"`
	TyresPerEnd          int            `json:"tyres_per_end" range:"1..2" doc:"tyres on each end of an axle; nothing means one"`
	TyreRating           units.Mass     `json:"tyre_rating" range:"50 lb..20000 lb" doc:"load rating of one tyre at its stated pressure"`
	Suspension           string         `json:"suspension" choice:"equalised|independent" doc:"equalised: the axles share alike whatever the attitude of the frame; independent: torsion axles, or springs without an equaliser; nothing means equalised"`
	SpringLoad           units.Mass     `json:"spring_load" range:"50 lb..50000 lb" doc:"load on one independent axle at which it has sunk by spring_travel"`
	SpringTravel         units.Length   `json:"spring_travel" range:"0.05 in..24 in" doc:"how far an independent axle sinks under spring_load, from where it just touches"`
	CouplerHeight        units.Length   `json:"coupler_height" range:"0.2 ft..5 ft" doc:"middle of the ball above level ground, hitched"`
	FreeHeight           units.Length   `json:"free_height" range:"0.2 ft..8 ft" doc:"height of the coupler with the frame level and independent axles just touching the ground"`
	CouplerTrailerRating units.Mass     `json:"coupler_trailer_rating" range:"100 lb..200000 lb" doc:"heaviest trailer of the coupler"`
	Jack                 units.Position `json:"jack" range:"-110 ft..200 ft" doc:"the jack, aft of the origin"`
	JackRating           units.Mass     `json:"jack_rating" range:"50 lb..50000 lb" doc:"highest load of the jack"`
	Tail                 units.Position `json:"tail" range:"-100 ft..300 ft" doc:"furthest aft that someone may stand or a load be set; nothing means the end of the deck"`
	TyreHistory          string         `json:"tyre_history" choice:"new|inspected|unknown" doc:"what is known of the age and state of its tyres"`
	HosesTravel          string         `json:"hoses_travel" choice:"full|empty" doc:"full: what hoses and coils hold is counted in every weight; nothing means it is not"`
}

// A TowVehicle is the vehicle in front, with the ratings of its plates.
type TowVehicle struct {
	CombinationRating units.Mass `json:"combination_rating" range:"500 lb..200000 lb" doc:"gross rating of vehicle and trailer together"`
	CurbAndCrew       units.Mass `json:"curb_and_crew" range:"200 lb..100000 lb" doc:"the vehicle as it drives, with crew and gear, without trailer"`
	HitchRating       units.Mass `json:"hitch_rating" range:"10 lb..20000 lb" doc:"highest tongue weight of the hitch"`
	TrailerRating     units.Mass `json:"trailer_rating" range:"100 lb..200000 lb" doc:"heaviest trailer it may pull"`

	GrossRating           units.Mass `json:"gross_rating" range:"500 lb..100000 lb" doc:"gross rating of the vehicle itself"`
	PayloadRating         units.Mass `json:"payload_rating" range:"50 lb..50000 lb" doc:"payload of its door plate: crew, gear and tongue together"`
	Gear                  units.Mass `json:"gear" range:"0 lb..50000 lb" doc:"crew and gear in it, without the tongue; counted against the payload"`
	ReceiverRating        units.Mass `json:"receiver_rating" range:"10 lb..20000 lb" doc:"highest tongue weight of the receiver"`
	ReceiverTrailerRating units.Mass `json:"receiver_trailer_rating" range:"100 lb..200000 lb" doc:"heaviest trailer of the receiver"`
	BallRating            units.Mass `json:"ball_rating" range:"100 lb..200000 lb" doc:"heaviest trailer of the ball"`
}
