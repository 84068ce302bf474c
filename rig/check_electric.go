package rig

import "example.com/washrig/units"

// electricChecks judge running loads and starts.
func electricChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mRunning, root: "source", severity: Stop, limit: fromMetric(mRunLimit, "run rating at the site"), also: []*Metric{mRunLimit},
			doc: plate(CodeDoc{Code: "source-overload", Bad: Higher, Title: "running load above the run rating",
				Meaning: "The loads plugged into a source draw more than its run rating at the site.", Defers: "generator maker; licensed electrician"})},
		{metric: mStart, root: "source", severity: Stop, limit: startLimit, also: []*Metric{mStartLimit},
			doc: plate(CodeDoc{Code: "source-start", Bad: Higher, Title: "worst start above the start rating",
				Meaning: "Even in the best hand order, loads that start by themselves can start on top of everything that runs and pass the start rating at the site.", Defers: "generator maker; licensed electrician"})},
		{metric: mRestart, root: "restart", severity: Fix, limit: fromMetric(mStartLimit, "start rating at the site"), also: []*Metric{mStartLimit},
			doc: CodeDoc{Code: "source-restart", Bad: Higher, Title: "restart with everything switched on above the start rating",
				Meaning: "After a trip everything left switched on starts at once. Needs a start card and a no-volt release.", Defers: "generator maker; licensed electrician"}},
	}
}

// startLimit is the start rating at the site; a source without one leaves a
// stop unguarded.
func startLimit(v *View, r Reading) (units.Quantity, string, Path, bool) {
	q, ok := v.value(mStartLimit, r.Part, r.State)
	if ok {
		return q, "start rating at the site", "", true
	}
	p := Path("sources[" + r.Part + "].starting")
	if _, given := v.model.Quantity(p); !given && r.Value.SI() > 0 {
		return q, "", p, false
	}
	return q, "", "", false
}
