package rig

// plumbingMetrics lists the metrics of nozzles, hoses, unloaders and injection beyond the line block, in the
// order of reports.
var plumbingMetrics = []*Metric{}
