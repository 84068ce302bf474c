package rig

import "example.com/washrig/units"

// Metrics of sources of current. They are never changed.
var (
	mRunning = &Metric{Path: "sources[].running", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "running load",
		Formula: "Σ running powers", Source: "addition", Inputs: []Path{"loads[].running", "loads[].voltage", "loads[].current", "loads[].shaft_power", "loads[].efficiency"}}
	mRunLimit = &Metric{Path: "sources[].run_limit", Kind: units.KindPower, Better: Higher, us: "W", si: "W", Label: "run rating at the site",
		Formula: "run rating × derating of its own engine", Source: "plate derating (common practice)", Inputs: sourceInputs}
	mStart = &Metric{Path: "sources[].start_peak", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "worst start in hand order",
		Formula: "hand loads in the best order, then all that start by themselves at once", Source: "exact search of the start orders",
		Inputs: startInputs}
	mStartLimit = &Metric{Path: "sources[].start_limit", Kind: units.KindPower, Better: Higher, us: "W", si: "W", Label: "start rating at the site",
		Formula: "start rating × derating of its own engine", Source: "plate derating (common practice)", Inputs: sourceInputs}
	mRestart = &Metric{Path: "sources[].restart_peak", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "restart with everything switched on",
		Formula: "Σ starting powers", Source: "addition", Inputs: startInputs}

	mStartAny = &Metric{Path: "sources[].start_peak_any_order", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "worst start in any order",
		Formula: "hand loads in the worst order, all that start by themselves at once at any point of it", Source: "exact search of the start orders", Inputs: startInputs}
	mRunApparent = &Metric{Path: "sources[].running_apparent", Kind: units.KindApparentPower, Better: Lower, us: "VA", si: "VA", Label: "running volt-amperes",
		Formula: "√((Σ watts)² + (Σ of what is not watts)²)", Source: "sum of lagging loads", Inputs: startInputs}
	mRunApparentLimit = &Metric{Path: "sources[].run_apparent_limit", Kind: units.KindApparentPower, Better: Higher, us: "VA", si: "VA", Label: "volt-amperes of the winding",
		Formula: "as given", Source: "plate; windings and electronics do not follow the air", Inputs: []Path{"sources[].running_apparent"}}
	mStartApparent = &Metric{Path: "sources[].start_apparent", Kind: units.KindApparentPower, Better: Lower, us: "VA", si: "VA", Label: "volt-amperes of the worst start in hand order",
		Formula: "greatest step of the start order in volt-amperes", Source: "exact search of the start orders", Inputs: append([]Path{"sources[].starting", "sources[].starting_apparent", "site.elevation", "site.conditions[].air"}, startInputs...)}
	mStartApparentLimit = &Metric{Path: "sources[].start_apparent_limit", Kind: units.KindApparentPower, Better: Higher, us: "VA", si: "VA", Label: "volt-amperes for a start",
		Formula: "as given", Source: "plate; windings and electronics do not follow the air", Inputs: []Path{"sources[].starting_apparent"}}

	startInputs = []Path{"loads[].running", "loads[].starting", "loads[].soft_start", "loads[].voltage", "loads[].current", "loads[].shaft_power", "loads[].efficiency", "loads[].power_factor",
		"loads[].running_apparent", "loads[].measured_start", "loads[].locked_rotor", "loads[].start_power_factor", "loads[].starting_apparent"}
	sourceInputs = []Path{"sources[].running", "sources[].starting", "sources[].alternator_running", "sources[].alternator_starting", "sources[].breaker", "sources[].voltage", "sources[].loss_per_1000_ft", "sources[].loss_per_10_f", "site.elevation", "site.conditions[].air"}
)

// electricMetrics lists them in the order of reports.
var electricMetrics = []*Metric{mRunning, mRunLimit, mStart, mStartLimit, mRestart, mStartAny, mRunApparent, mRunApparentLimit, mStartApparent, mStartApparentLimit}
