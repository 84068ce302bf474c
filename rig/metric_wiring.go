package rig

// wiringMetrics lists the metrics of conductors, dips, 12 V and the start order beyond the electric block, in the
// order of reports.
var wiringMetrics = []*Metric{}
