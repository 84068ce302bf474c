package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// A Site is the air an engine breathes.
type Site struct {
	Elevation units.Elevation        // above sea level; required
	Air       units.Temperature      // at the air filter, not in the weather report; required
	Pressure  units.AbsolutePressure // by barometer, not reduced to sea level; not given: standard atmosphere at Elevation
	Humidity  units.Ratio            // relative humidity, 0 to 1; zero is dry air, which flatters the engine
}

// Validate returns every problem of s, joined in field order.
func (s Site) Validate() error {
	var pressure error
	if s.Pressure != 0 {
		pressure = checkBarometer("pressure", s.Pressure)
	}
	return errors.Join(
		checkElevation("elevation", s.Elevation), checkAir("air", s.Air),
		pressure, checkShare("humidity", s.Humidity))
}
