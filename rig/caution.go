package rig

// A Caution is a standing text about a danger of the trade. Cautions are not
// findings: they travel with every sheet, card and export, whatever was found.
type Caution struct {
	Hazard string `json:"hazard"` // one or two words
	Text   string `json:"text"`   // what to do
	Defers string `json:"defers"` // who decides
}

// Cautions returns the standing texts in a fixed order.
func Cautions() []Caution {
	return []Caution{
		{"Pressure", "A jet or a burst hose can inject water under the skin. Treat every such wound as a surgical emergency, however small it looks. Never work on a line that may hold pressure.", "part makers' instructions; operator training"},
		{"Scald and steam", "Water above 120 °F (49 °C) burns skin within minutes and above 150 °F (66 °C) within seconds; above the local boiling point it turns to steam at the nozzle.", "burner and heater makers; the boiler and pressure rules of the place"},
		{"Carbon monoxide", "Engines and burners make carbon monoxide. Run them in the open, away from doors, windows and air intakes; an open trailer in a building counts as enclosed. No number printed here is a licence to enclose them.", "local fire and gas code; a ventilation engineer"},
		{"Shock", "Wet work needs ground-fault protection. Never tie two sources together or feed a building; a cord with a plug on both ends is cut up. To move a plug: load off, both sources off, dry hands and plug, move it, one source on.", "a licensed electrician; the electrical code in force"},
		{"Fuel", "Refuel with engine and burner off and cold. Cans are filled on the ground and away from the rig, never on a lined or coated deck, which sparks. Keep fuel away from hot parts.", "fire authority; fuel-tank standards"},
		{"Towing", "Weigh the trailer and its tongue before the road, with the tanks as they will travel. Lock and cap every dump valve. Before unhitching: chocks, rear stands, and mind the tail.", "trailer and vehicle plates; road authority"},
		{"Chemicals", "Read the safety data sheet. Never mix products; hypochlorite with acid makes chlorine.", "chemical supplier; safety data sheet"},
		{"Surfaces", "Paint with lead, asbestos and whatever can burn are not washed, heated or picked up.", "licensed abatement contractor; fire authority"},
		{"Hearing", "Engines, vacuum motors and the jet damage hearing, however used to them one is. Where one has to shout at arm's length, wear protection.", "employer's safety officer"},
		{"Footing", "Wet ground is slippery, and below 34 °F (1 °C) it freezes. Never wash from a ladder: the gun pushes.", "site owner; employer's safety officer"},
		{"Tanks", "Nobody climbs or reaches into a tank. Water that stood warm for days grows germs that are breathed with the mist: dump and disinfect. A plastic tank with its vent blocked collapses.", "confined-space permit; health authority; tank maker"},
		{"Age", "A coil, drum, hose or tyre of unknown age is inspected before it works.", "inspector; part makers"},
		{"Waste water", "Wash water may not reach ground or a storm drain without leave.", "discharge authority; licensed hauler"},
		{"Shutting down", "Burner off; run cold; pump off; squeeze each gun until the pressure is gone; only then uncouple, change a tip or open a filter. A line stays under pressure after the trigger is released.", "operator training"},
	}
}

// Disclaimer is the sentence that stands on every output.
const Disclaimer = "Computed from the figures given; it warns and never certifies. Plates, local codes and licensed practice decide. Where a value is marked assumed, measure it."

// NotChecked lists what this version does not look at, so that nobody reads
// silence as a pass.
func NotChecked() []string {
	return []string{
		"what a chemical does to a surface", "how exhaust gas spreads", "sound behind walls", "sway, braking and grades on the road",
	}
}
