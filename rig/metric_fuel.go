package rig

// fuelMetrics lists the metrics of consumption, run time and cost of fuel, in the
// order of reports.
var fuelMetrics = []*Metric{}
