package rig

// metricTable lists every metric in the order of reports. It is never changed.
// Sources name the definition or the correlation behind a number; the domain
// packages give the details.
var metricTable = concat(linesMetrics, plumbingMetrics, suctionMetrics, heatMetrics, burnerMetrics, driveMetrics, electricMetrics, wiringMetrics, coupledMetrics,
	recoveryMetrics, fuelMetrics, staticsMetrics, stabilityMetrics, chemicalMetrics, waterMetrics, noiseMetrics, padMetrics, faultMetrics)

// concat joins the lists and numbers the metrics, before anything reads them.
func concat(lists ...[]*Metric) []*Metric {
	var out []*Metric
	for _, l := range lists {
		for _, m := range l {
			out = append(out, m)
			m.row = len(out)
		}
	}
	return out
}

// Metrics returns the table of metrics in the order of reports.
func Metrics() []Metric {
	out := make([]Metric, len(metricTable))
	for i, m := range metricTable {
		out[i] = *m
		out[i].Inputs = append([]Path(nil), m.Inputs...)
	}
	return out
}

// dependsOn reports whether the metric reads the specification field at a path.
func (m *Metric) dependsOn(p Path) bool { return m.reads(p.Pattern()) }

// reads is dependsOn of a pattern.
func (m *Metric) reads(pat Path) bool {
	for _, in := range m.Inputs {
		if in == pat || in.covers(pat) {
			return true
		}
	}
	return false
}
