package rig

import "example.com/washrig/units"

// Metrics of chemicals that are drawn or pumped into the water. An injector's
// numbers are those with its low-pressure tip on the gun of its line. They are
// never changed.
var (
	mInjectorWater = &Metric{Path: "chemicals[].injector_flow", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "water through the injector",
		Formula: "flow of its line, low-pressure tip on the gun", Source: "conservation of mass and momentum; Darcy–Weisbach, Colebrook–White", Inputs: injectorInputs}
	mInjectorBack = &Metric{Path: "chemicals[].back_pressure", Kind: units.KindRatio, Better: Lower, us: "%", si: "%", Label: "pressure behind the injector over pressure before it",
		Formula: "(pressure at the head of the line − loss of the injector) / pressure at the head of the line", Source: "loss rated at one flow, growing with its square", Inputs: injectorInputs}
	mInjectorVacuumLeft = &Metric{Path: "chemicals[].vacuum_left", Kind: units.KindPressure, Better: Higher, us: "inHg", si: "kPa", Label: "vacuum left after lifting the chemical",
		Formula: "rated vacuum × (water / rated water)² − density × g × lift", Source: "Bernoulli's equation at the throat; hydrostatics", Inputs: drawInputs}
	mChemicalDraw = &Metric{Path: "chemicals[].draw", Kind: units.KindVolumeFlow, us: "gpm", si: "L/min", Label: "chemical drawn",
		Formula: "what the vacuum left drives through tube and metering valve; the chemical's own flow is not added to the losses of the hose", Source: "Bernoulli's equation at the throat, one rated point", Inputs: drawInputs}
	mChemicalStrength = &Metric{Path: "chemicals[].at_nozzle", Kind: units.KindRatio, us: "%", si: "%", Label: "strength at the nozzle",
		Formula: "strength as supplied × draw / (draw + water)", Source: "balance of the active substance", Inputs: append([]Path{"chemicals[].strength"}, drawInputs...)}
	mChemicalLasts = &Metric{Path: "chemicals[].lasts", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "hours until the chemical is used up",
		Formula: "carried / (draw × trigger share)", Source: "balance of volumes", Inputs: append([]Path{"chemicals[].carried", "duty.trigger_share"}, drawInputs...)}
	mPartnerPressure = &Metric{Path: "chemicals[].partner_pressure", Kind: units.KindPressure, Better: Higher, Label: "least pressure at the other open guns meanwhile",
		Formula: "4000 psi × (flow / number)² at the others of the same pump", Source: "trade number: gpm at 4,000 psi (common practice)", Inputs: injectorInputs}

	mFeedFlow = &Metric{Path: "chemicals[].pumped_flow", Kind: units.KindVolumeFlow, Better: Higher, us: "gpm", si: "L/min", Label: "flow at the end of the chemical line",
		Formula: "where the pump's straight line meets hose, climb and tip", Source: "Darcy–Weisbach, Colebrook–White; Hagen–Poiseuille", Inputs: feedInputs}
	mFeedPressure = &Metric{Path: "chemicals[].pumped_pressure", Kind: units.KindPressure, Label: "pressure at the chemical pump",
		Formula: "as above; the mean of the two points where its switch cycles", Source: "Darcy–Weisbach, Colebrook–White; Hagen–Poiseuille", Inputs: feedInputs}
	mFeedCycle = &Metric{Path: "chemicals[].pump_cycle", Kind: units.KindDuration, Better: Higher, us: "s", si: "s", Label: "from start to start of the chemical pump",
		Formula: "stored / (flow of the pump − flow of the line) + stored / flow of the line", Source: "balance of volumes between the two points of the switch", Inputs: append([]Path{"chemicals[].chemical_pump.stored"}, feedInputs...)}
	mFeedLasts = &Metric{Path: "chemicals[].pumped_hours", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "hours until the pumped chemical is used up",
		Formula: "carried / (flow × trigger share)", Source: "balance of volumes", Inputs: append([]Path{"chemicals[].carried", "duty.trigger_share"}, feedInputs...)}

	injectorInputs = append([]Path{"chemicals[].injector.tip"}, hydraulicInputs...)
	drawInputs     = append([]Path{"chemicals[].injector.vacuum", "chemicals[].injector.draw", "chemicals[].injector.minimum_flow", "chemicals[].injector.maximum_back",
		"chemicals[].injector.linear_share", "chemicals[].injector.lift", "chemicals[].density", "chemicals[].viscosity"}, injectorInputs...)
	feedInputs = []Path{"chemicals[].chemical_pump.open_flow", "chemicals[].chemical_pump.stall_pressure", "chemicals[].chemical_pump.cut_out", "chemicals[].chemical_pump.cut_in",
		"chemicals[].chemical_pump.bore", "chemicals[].chemical_pump.length", "chemicals[].chemical_pump.rise", "chemicals[].chemical_pump.tip", "chemicals[].density", "chemicals[].viscosity"}
)

// chemicalMetrics lists them in the order of reports.
var chemicalMetrics = []*Metric{mInjectorWater, mInjectorBack, mInjectorVacuumLeft, mChemicalDraw, mChemicalStrength, mChemicalLasts, mPartnerPressure,
	mFeedFlow, mFeedPressure, mFeedCycle, mFeedLasts}
