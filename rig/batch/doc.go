// Package batch runs many variants of a rig and compares rigs with one another.
//
// A plan is a list of variants, each a list of changes to one base model; Run
// yields one row a variant, in the order of the plan. Compare puts several
// reports side by side.
package batch
