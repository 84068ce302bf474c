package air_test

import (
	"fmt"

	"example.com/washrig/internal/air"
)

func ExamplePressureAt() {
	// A lot at 5,280 ft on a hot day, 95 °F.
	p, err := air.PressureAt(1609.344)
	if err != nil {
		fmt.Println(err)
		return
	}
	rho, err := air.Density(p, 308.15)
	fmt.Printf("%.0f Pa, %.3f kg/m³, %v\n", p, rho, err)
	// Output: 83428 Pa, 0.943 kg/m³, <nil>
}

func ExampleFromRelativeHumidity() {
	h, err := air.FromRelativeHumidity(101325, 303.15, 0.5)
	fmt.Printf("wet bulb %.1f °C, dew point %.1f °C, %.1f g/kg, %v\n",
		h.WetBulb-273.15, h.DewPoint-273.15, 1e3*h.HumidityRatio, err)
	// Output: wet bulb 22.0 °C, dew point 18.4 °C, 13.3 g/kg, <nil>
}
