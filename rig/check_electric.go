package rig

import "example.com/washrig/units"

// electricChecks judge running loads and starts.
func electricChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mRunning, root: "source", severity: Stop, against: mRunLimit, by: "run rating at the site", also: []*Metric{mRunLimit},
			doc: plate(CodeDoc{Code: "source-overload", Bad: Higher, Title: "running load above the run rating",
				Meaning: "The loads plugged into a source draw more than its run rating at the site.", Defers: "generator maker; licensed electrician"})},
		{metric: mStart, root: "source", severity: Stop, limit: startLimit, also: []*Metric{mStartLimit},
			doc: plate(CodeDoc{Code: "source-start", Bad: Higher, Title: "worst start above the start rating",
				Meaning: "Even in the best hand order, loads that start by themselves can start on top of everything that runs and pass the start rating at the site.", Defers: "generator maker; licensed electrician"})},
		{metric: mRunApparent, root: "source", severity: Stop, against: mRunApparentLimit, by: "volt-amperes of the winding", also: []*Metric{mRunApparentLimit},
			doc: plate(CodeDoc{Code: "source-apparent", Bad: Higher, Title: "running volt-amperes above those of the winding",
				Meaning: "Motors draw more current than their watts tell; a winding or electronics are rated for the current.", Defers: "generator maker; licensed electrician"})},
		{metric: mStartApparent, root: "source", severity: Stop, against: mStartApparentLimit, by: "volt-amperes for a start", also: []*Metric{mStartApparentLimit},
			doc: plate(CodeDoc{Code: "source-start-apparent", Bad: Higher, Title: "volt-amperes of the worst start above the rating",
				Meaning: "Even in the best hand order the volt-amperes of a start pass what the source gives for a start.", Defers: "generator maker; licensed electrician"})},
		{metric: mStartAny, root: "start order", severity: Fix, against: mStartLimit, by: "start rating at the site", also: []*Metric{mStartLimit},
			when: func(v *View, r *Reading) bool {
				best, ok := v.value(mStart, r.Part, r.State)
				return ok && r.Value.SI() > best.SI()*(1+1e-9) // else the order does not matter
			},
			doc: CodeDoc{Code: "source-start-order", Bad: Higher, Title: "started in another order than the card's it passes the start rating",
				Meaning: "Loads started by hand have to be switched on in the order of the start card; in the worst order they pass the start rating.", Defers: "operator training"}},
		{metric: mRestart, root: "restart", severity: Fix, against: mStartLimit, by: "start rating at the site", also: []*Metric{mStartLimit},
			doc: CodeDoc{Code: "source-restart", Bad: Higher, Title: "restart with everything switched on above the start rating",
				Meaning: "After a trip everything left switched on starts at once. Needs a start card and a no-volt release.", Defers: "generator maker; licensed electrician"}},
	}
}

var sourceStarting = fieldOf("sources[].starting")

// startLimit is the start rating at the site; a source without one leaves a
// stop unguarded. How long a breaker of a shore cord holds is on its curve and
// not on its plate: there is no such rating.
func startLimit(v *View, r Reading) (units.Quantity, string, Path, bool) {
	q, ok := v.value(mStartLimit, r.Part, r.State)
	if ok {
		return q, "start rating at the site", "", true
	}
	for i := range v.model.spec.Sources {
		if g := &v.model.spec.Sources[i]; g.ID == r.Part && g.Type == "shore" {
			return q, "", "", false
		}
	}
	if _, given := sourceStarting.at(v.model, r.Part); !given && r.Value.SI() > 0 {
		return q, "", sourceStarting.path(v, r.Part), false
	}
	return q, "", "", false
}
