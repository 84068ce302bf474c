package vacuum

import (
	"math"

	"example.com/washrig/units"
)

// Bounds of what is accepted as input. They are far outside the trade, and near
// enough that no product of them overflows.
const (
	minAir, maxAir             = 20e3, 120e3 // Pa, outside pressure
	coldest, hottest           = 220.0, 340.0
	minBore, maxBore           = 1e-3, 1.0   // m
	minLength, maxLength       = 1e-3, 1e4   // m
	maxRise                    = 100.0       // m
	minAirFlow, maxAirFlow     = 1e-6, 100.0 // m³/s
	minLift, maxLift           = 1.0, 100e3  // Pa
	minFlow, maxFlow           = 1e-9, 1.0   // m³/s of liquid
	minHead, maxHead           = 1e-3, 1e3   // m
	maxPressure                = 1e8         // Pa
	minArea, maxArea           = 1e-8, 1.0   // m²
	minDensity, maxDensity     = 100.0, 1e4  // kg/m³ of liquid
	minViscosity, maxViscosity = 1e-5, 10.0  // Pa·s of liquid
	minTension, maxTension     = 1e-4, 1.0   // N/m
	minPower, maxPower         = 1.0, 1e6    // W
	minVolume, maxVolume       = 1e-6, 1e4   // m³
	minMass, maxMass           = 1e-9, 1e6   // kg
	maxK                       = 1e6
	maxRoughness               = 0.05 // of the bore
	maxCount                   = 100
)

const gravity = float64(units.StandardGravity)

func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

func square(v float64) float64 { return v * v }

// circle is the area of a round bore.
func circle(d float64) float64 { return math.Pi / 4 * d * d }
