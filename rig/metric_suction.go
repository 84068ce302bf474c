package rig

// suctionMetrics lists the metrics of suction, vents, draining and filling, in the
// order of reports.
var suctionMetrics = []*Metric{}
