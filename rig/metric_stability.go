package rig

// stabilityMetrics lists the metrics of sides, axles, rollover, hitch and clashes beyond the static block, in the
// order of reports.
var stabilityMetrics = []*Metric{}
