// Package batch runs many variants of a rig and compares rigs with one another.
//
// A [Plan] is a base model's variants, each a list of changes, and the columns
// that are kept; [Run] assesses the variants on several processors and yields
// one row each, in the order of the plan. A plan comes from [Sweep], [Grid],
// [List], or from a file by [ReadCSV] and [ReadLines]; rows leave as a tidy
// [Table] with a dictionary of its columns.
//
//	plan := batch.Plan{Variants: batch.Sweep("site.elevation", "0 ft", "8000 ft"),
//		Columns: []batch.Column{"engines[washer].demand", "lowest trailer.tongue_share"}}
//	for row, err := range batch.Run(ctx, model, plan) { … }
//
// The same plan gives the same bytes with any number of workers, and memory does
// not grow with the number of variants: a few megabytes, and 16 that are held and never
// touched, so that the collector runs less often. [Compare] puts reports side by side and
// calls a tie what stated tolerances cannot tell apart.
package batch
