package rig

// A Headline is a metric that pages for people and comparisons show first, with
// a short heading for a column whose list is known.
type Headline struct {
	Path  Path
	Short string
}

// headlines are in the order of pages. A metric that belongs there is added as
// one line; it then appears in every mode, fill state, source or comparison
// that has a reading of it.
var headlines = []Headline{
	{"lines[].nozzle_pressure", "at the nozzle"},
	{"lines[].flow", "flow"},
	{"lines[].loss", "loss"},
	{"lines[].reaction", "reaction"},
	{"lines[].gun_temperature", "at the gun"},
	{"pumps[].pressure", "at the pump"},
	{"pumps[].bypass_flow", "bypassed"},
	{"pumps[].bypass_time", "bypass, time to the inlet limit"},
	{"engines[].demand", "asked"},
	{"engines[].available", "available at the site"},
	{"heaters[].outlet_temperature", "out of the coil"},
	{"heaters[].firing_rate", "firing needed"},
	{"heaters[].clean_firing", "clean up to"},
	{"heaters[].burner_share", "burner on"},
	{"recovery[].recovered_flow", "comes back"},
	{"recovery[].pick_up", "picked up"},
	{"recovery[].air_speed", "air in the hose"},
	{"recovery[].dump_flow", "dump pump moves"},
	{"sources[].running", "running"},
	{"sources[].run_limit", "rated to run"},
	{"sources[].start_peak", "worst start"},
	{"sources[].start_limit", "rated to start"},
	{"sources[].restart_peak", "restart"},
	{"trailer.total", "total"},
	{"trailer.tongue", "tongue"},
	{"trailer.tongue_share", "share"},
	{"trailer.axle", "each axle"},
	{"tow_vehicle.combination", "with vehicle"},
	{"tow_vehicle.load", "in the vehicle"},
}

// Headlines returns the metrics that pages for people show first, in order.
func Headlines() []Headline { return append([]Headline(nil), headlines...) }

// MetricOf returns the row of the metric table for a pattern or the path of a
// reading; ok is false if there is none.
func MetricOf(p Path) (m Metric, ok bool) {
	pat := p.Pattern()
	for _, have := range metricTable {
		if have.Path == pat {
			m = *have
			m.Inputs = append([]Path(nil), have.Inputs...)
			return m, true
		}
	}
	return Metric{}, false
}
