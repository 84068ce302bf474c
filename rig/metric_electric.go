package rig

import "example.com/washrig/units"

// Metrics of sources of current. They are never changed.
var (
	mRunning = &Metric{Path: "sources[].running", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "running load",
		Formula: "Σ running powers", Source: "addition", Inputs: []Path{"loads[].running"}}
	mRunLimit = &Metric{Path: "sources[].run_limit", Kind: units.KindPower, Better: Higher, us: "W", si: "W", Label: "run rating at the site",
		Formula: "run rating × derating of its own engine", Source: "plate derating (common practice)", Inputs: sourceInputs}
	mStart = &Metric{Path: "sources[].start_peak", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "worst start in hand order",
		Formula: "hand loads in the best order, then all that start by themselves at once", Source: "exact search of the start orders",
		Inputs: []Path{"loads[].running", "loads[].starting"}}
	mStartLimit = &Metric{Path: "sources[].start_limit", Kind: units.KindPower, Better: Higher, us: "W", si: "W", Label: "start rating at the site",
		Formula: "start rating × derating of its own engine", Source: "plate derating (common practice)", Inputs: sourceInputs}
	mRestart = &Metric{Path: "sources[].restart_peak", Kind: units.KindPower, Better: Lower, us: "W", si: "W", Label: "restart with everything switched on",
		Formula: "Σ starting powers", Source: "addition", Inputs: []Path{"loads[].starting"}}

	sourceInputs = []Path{"sources[].running", "sources[].starting", "sources[].loss_per_1000_ft", "sources[].loss_per_10_f", "site.elevation", "site.conditions[].air"}
)

// electricMetrics lists them in the order of reports.
var electricMetrics = []*Metric{mRunning, mRunLimit, mStart, mStartLimit, mRestart}
