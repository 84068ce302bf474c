package rig

import (
	"math"

	"example.com/washrig/units"
)

// given reports whether the pad's room can be told.
func (p *Pad) given() bool { return p.Length != 0 && p.Width != 0 && p.Berm != 0 }

// holds is the water that stands on the pad with its surface level with the top of
// the berm at the lowest point of the floor:
//
//	W (L h − L² s/2)   where the floor is wet to its upper end, L s ≤ h
//	W h²/(2 s)         where it is not
//
// L and W are length and width, h the berm, s the tangent of the floor's slope.
// Source: geometry of a wedge.
func (p *Pad) holds() units.Volume {
	l, w, h, s := float64(p.Length), float64(p.Width), float64(p.Berm), math.Tan(float64(p.Slope))
	if l*s <= h {
		return units.Volume(w * (l*h - l*l*s/2))
	}
	return units.Volume(w * h * h / (2 * s))
}

// Metrics of the bermed pad. They are never changed.
var (
	mPadHolds = &Metric{Path: "site.pad_holds", Kind: units.KindVolume, Better: Higher, Label: "water the pad holds",
		Formula: "width × (length × berm − length² × slope / 2), or width × berm² / (2 × slope) where its upper end stays dry", Source: "geometry of a wedge", Inputs: padInputs}
	mPadTime = &Metric{Path: "site.pad_overtops", Kind: units.KindDuration, Better: Higher, us: "min", si: "min", Label: "time until the pad overtops if nothing is picked up",
		Formula: "(what the pad holds − rain × area) / Σ flow of the open guns, triggers held", Source: "balance of volumes", Inputs: append(append([]Path{"site.pad.rain"}, padInputs...), hydraulicInputs...)}

	padInputs = []Path{"site.pad.length", "site.pad.width", "site.pad.berm", "site.pad.slope"}
)

// padMetrics lists them in the order of reports.
var padMetrics = []*Metric{mPadHolds, mPadTime}

// usualLag is the time in which somebody notices that the pick-up has stopped and
// washing stops; our own threshold.
const usualLag = 10 * units.Minute

// padChecks judge whether the pad holds what lands on it.
func padChecks() []*limitCheck {
	return []*limitCheck{
		{metric: mPadTime, root: "pad", severity: Fix, limit: func(v *View, r Reading) (units.Quantity, string, Path, bool) {
			if lag := v.model.spec.Site.Pad.Lag; lag != 0 {
				return lag.Quantity(), "time until washing stops, as given", "", true
			}
			return usualLag.Quantity(), "time until somebody notices and stops, our own threshold", "", true
		},
			doc: CodeDoc{Code: "pad-overtops", Bad: Lower, Title: "the pad overtops before washing stops",
				Meaning: "If the pick-up stops while the guns go on, the bermed pad is full, with the rain that lies on it, sooner than washing stops: water goes over the berm.", Defers: "discharge authority"}},
	}
}
