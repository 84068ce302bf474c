package rig

// burnerMetrics lists the metrics of warm-up, faults, hose heat, soak and frost, in the
// order of reports.
var burnerMetrics = []*Metric{}
