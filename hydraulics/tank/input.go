package tank

import (
	"math"

	"example.com/washrig/units"
)

// Bounds of what is accepted as input. They are far outside the trade, and near
// enough that no product of them overflows.
const (
	minBore, maxBore           = 1e-4, 5   // m
	maxLength                  = 1e4       // m
	minSize, maxSize           = 1e-3, 100 // m, of a tank
	maxHeight                  = 1e3       // m, of anything above anything
	minFlow, maxFlow           = 1e-9, 10  // m³/s
	maxPressure                = 1e8       // Pa
	minDensity, maxDensity     = 1, 2e4    // kg/m³
	minViscosity, maxViscosity = 1e-8, 10  // Pa·s
	minK, maxK                 = 1e-3, 1e9
	maxRoughness               = 0.05 // of the bore
	maxTilt                    = 30 * units.Degree
)

const gravity = float64(units.StandardGravity)

func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

func square(x float64) float64 { return x * x }
