// Package sheet writes a judged rig for people. It reads metrics and findings
// of a report and never derives a number of its own.
//
// Every page carries the standing cautions, what was not checked, every
// override and what the verdicts rest on.
package sheet
