package rig

// recoveryMetrics lists the metrics of vacuum, pick-up, dump-out and filters, in the
// order of reports.
var recoveryMetrics = []*Metric{}
