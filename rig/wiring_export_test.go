package rig

import (
	"fmt"
	"slices"
)

// UnnamedInputs returns how many numbers of the electric and the wiring block a
// model has, and which of them move with a quantity that their metric does not
// name.
func UnnamedInputs(m *Model) (n int, unnamed []string, err error) {
	all, err := m.blocks.all()
	if err != nil {
		return 0, nil, err
	}
	moved, err := m.moveInputs()
	if err != nil {
		return 0, nil, err
	}
	v := &View{model: m, numbers: all}
	ours := append(append([]*Metric{}, electricMetrics...), wiringMetrics...)
	for _, metric := range ours {
		if metric == mEngineStart {
			continue // the greater part of it is the pumps', whose metrics say what they read
		}
		for r := range v.of(metric) {
			n++
			for _, in := range v.trace(r, r.State, moved, 5).Inputs {
				if in.Word == "" && !metric.dependsOn(in.Path) { // verdicts lean on quantities
					unnamed = append(unnamed, fmt.Sprintf("%s moves with %s", r.Path(), in.Path))
				}
			}
		}
	}
	slices.Sort(unnamed)
	return n, slices.Compact(unnamed), nil
}
