// Package importgraph holds tests over the whole module: which package may
// import which, which other modules may be required, and whose types may stand
// in an exported signature.
//
// The direction is
//
//	units, internal ← hydraulics, thermal, electrical, fuel, rig/statics, rig/parts
//	                ← rig ← rig/mend, rig/day, rig/batch ← rig/quote ← rig/sheet ← examples
//
// The four domains never import each other, nor do packages that share a place
// in that row. A subpackage may import the root of its own domain.
package importgraph
