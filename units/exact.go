package units

import "math"

// Exact by definition. Untyped, so that the compiler carries them without
// rounding; each unit's constant is rounded once, when it gets its type.
const (
	inch           = 0.0254                   // m; 1959 yard and pound agreement
	foot           = 12 * inch                // m
	pound          = 0.45359237               // kg; 1959 yard and pound agreement
	gravity        = 9.80665                  // m/s²; standard gravity, CGPM 1901
	poundForce     = pound * gravity          // N
	gallon         = 231 * inch * inch * inch // m³; US liquid gallon, NIST Handbook 44 Appendix C
	imperialGallon = 4.54609e-3               // m³; UK Weights and Measures Act 1985
	btu            = 2326 * pound             // J; International Table: 2326 J/kg to 1 BTU/lb exactly
	water          = 1000                     // kg/m³; conventional water column, NIST SP 811
	mercury        = 13595.1                  // kg/m³; conventional mercury column, NIST SP 811
	pi             = math.Pi
)
