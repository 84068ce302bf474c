// Package thermal answers what the burner of a wash rig really delivers, to which
// gun, and what happens when the trigger is let go.
package thermal
