package water_test

import (
	"errors"
	"fmt"

	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

func ExampleAt() {
	s, err := water.At(101325, 293.15)
	fmt.Printf("%.3f kg/m³, %.3f kJ/kg, %.2f kJ/(kg·K), %.4f mPa·s, %v\n",
		s.Density, s.Enthalpy/1e3, s.HeatCapacity/1e3, s.Viscosity*1e3, err)

	_, err = water.At(101325, 700)
	fmt.Println(err, errors.Is(err, units.ErrRange))
	// Output:
	// 998.206 kg/m³, 84.013 kJ/kg, 4.18 kJ/(kg·K), 1.0016 mPa·s, <nil>
	// temperature = 700 K: outside the accepted range (want 273.15 K to 623.15 K) true
}

func ExampleFlash() {
	// Water at 130 °C under 5 bar is let out to 1 atm.
	h, _ := water.Enthalpy(5e5, 403.15)
	m, err := water.Flash(101325, h)
	fmt.Printf("%v at %.2f K, %.1f %% steam, %v\n", m.Phase, m.Temperature, 100*m.Quality, err)
	// Output: liquid and steam at 373.12 K, 5.7 % steam, <nil>
}

func ExampleThermalPressureCoefficient() {
	x, _ := water.ThermalPressureCoefficient(101325, 313.15)
	fmt.Printf("%.1f bar for each kelvin\n", x/1e5)
	// Output: 8.7 bar for each kelvin
}
