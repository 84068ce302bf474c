package rig

import "example.com/washrig/units"

// Metrics of the water balance by mode and day. They are never changed.
var (
	mWaterDrawn = &Metric{Path: "tanks[].drawn_rate", Kind: units.KindVolumeFlow, Better: Lower, us: "gpm", si: "L/min", Label: "water drawn from the tank, by the clock",
		Formula: "trigger share × Σ flow of the open guns whose pumps draw from it or from a tank joined to it", Source: "balance of volumes", Inputs: append([]Path{"duty.trigger_share", "modes[].open"}, hydraulicInputs...)}
	mWaterReturned = &Metric{Path: "tanks[].returned_rate", Kind: units.KindVolumeFlow, us: "gpm", si: "L/min", Label: "recovered water put into the tank, by the clock",
		Formula: "recovered share × trigger share × Σ flow of the open guns, where the hose end is in this mode", Source: "balance of volumes", Inputs: waterInputs}
	mWaterHours = &Metric{Path: "tanks[].hours", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "hours from full to dry in this mode, without refilling",
		Formula: "usable volume / (drawn − returned), joined tanks together", Source: "balance of volumes", Inputs: append([]Path{"tanks[].usable"}, waterInputs...)}
	mWaterFull = &Metric{Path: "tanks[].hours_to_full", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "hours from empty to full in this mode",
		Formula: "usable volume / (returned − drawn), joined tanks together", Source: "balance of volumes", Inputs: append([]Path{"tanks[].usable"}, waterInputs...)}
	mWaterDay = &Metric{Path: "tanks[].day_drawn", Kind: units.KindVolume, Better: Lower, Label: "water drawn in the day",
		Formula: "Σ drawn × hours of each mode", Source: "balance of volumes", Inputs: append([]Path{"modes[].time"}, waterInputs...)}
	mWaterDayBack = &Metric{Path: "tanks[].day_returned", Kind: units.KindVolume, Label: "recovered water of the day",
		Formula: "Σ returned × hours of each mode", Source: "balance of volumes", Inputs: append([]Path{"modes[].time"}, waterInputs...)}
	mWaterMakeUp = &Metric{Path: "tanks[].day_make_up", Kind: units.KindVolume, Better: Lower, Label: "water to be filled in during the day, from a full start",
		Formula: "least filling that keeps it from running dry, modes in the listed order", Source: "balance of volumes", Inputs: append([]Path{"modes[].time", "tanks[].usable"}, waterInputs...)}
	mWaterRunsDry = &Metric{Path: "tanks[].day_dry_after", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "hours of the day until the tank is dry, without refilling",
		Formula: "modes in the listed order, each for its hours, from full", Source: "balance of volumes", Inputs: append([]Path{"modes[].time", "tanks[].usable"}, waterInputs...)}
	mWaterRunsFull = &Metric{Path: "tanks[].day_full_after", Kind: units.KindDuration, Better: Higher, us: "h", si: "h", Label: "hours of the day until the tank is full",
		Formula: "modes in the listed order, each for its hours, from empty", Source: "balance of volumes", Inputs: append([]Path{"modes[].time", "tanks[].usable"}, waterInputs...)}

	waterInputs = append([]Path{"duty.trigger_share", "duty.recovered_share", "modes[].open", "crossovers[].valve"}, hydraulicInputs...)
)

// waterMetrics lists them in the order of reports.
var waterMetrics = []*Metric{mWaterDrawn, mWaterReturned, mWaterHours, mWaterFull, mWaterDay, mWaterDayBack, mWaterMakeUp, mWaterRunsDry, mWaterRunsFull}
