// Package rig answers whether a wash trailer will work as a whole: in every
// state it is used in, with every part on one engine, one axle and one site.
//
//	spec, err := rig.ReadSpec(file, rig.ReadLimits{})
//	model, err := rig.New(spec, shelf)
//	report, err := model.Assess(nil, nil)
//	if report.Verdict() >= rig.CannotJudge {
//		for _, f := range report.Findings() {
//			fmt.Println(f.Severity, f.Code, f.Reading.State, f.Reading.Text(units.US, 4))
//		}
//	}
//
// A [Spec] is what a person wrote; a [Model] is a resolved, checked rig that
// never changes and may be shared; a [Report] holds every number of every
// [State] and the findings. [Model.With] makes a changed copy that shares the
// blocks of numbers a change does not touch.
//
// The physics lives in packages hydraulics, thermal, electrical, fuel and
// rig/statics, which know nothing of each other. This package composes them
// and holds the judgement: which limit applies in which state, how grave it is
// to pass it, and who decides. It computes and warns; it never certifies.
//
// # Conventions
//
// Pressures are gauge unless a name says absolute. Positions run aft from the
// coupler, or from an origin that trailer.coupler counts from, left from the
// centreline, up from the ground. Nozzles are numbered
// in gpm at 4,000 psi. Flows are metered cold, at the pump. Weights are masses:
// what a scale reads.
//
// # Reading what comes out
//
// A [Metric] is a row of the table of results: path, unit, formula, source. A
// [Reading] is its value for one component in one state. A [Finding] is a
// reading held against a limit. Severities rank note, fix, cannot judge, stop;
// cannot judge means that an input that guards a stop is missing, and ranks
// beside the stops. [Report.Passed] lists the judgements that found nothing,
// with their margins. [Cautions] are standing texts that travel with every
// output.
//
// # Where to look
//
//	a form or a schema           Fields
//	a price                      package rig/quote
//	a page                       package rig/sheet
//	many variants, comparison    package rig/batch
//	the dealer's parts           package rig/parts
package rig
