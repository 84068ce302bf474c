package thermal

import (
	"fmt"

	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// f writes a line of a worked example's inputs.
func f(format string, a ...any) string { return fmt.Sprintf(format, a...) }

// mixtureEnthalpy of liquid and steam at their boiling point T (K), J/kg.
func mixtureEnthalpy(T, quality float64) (float64, error) {
	l, err := water.SaturatedLiquid(T)
	if err != nil {
		return 0, err
	}
	latent, err := water.LatentHeat(T)
	return l.Enthalpy + quality*latent, err
}

// singleEnthalpy of liquid at T under one atmosphere, J/kg.
func singleEnthalpy(T units.Temperature) (float64, error) {
	return water.Enthalpy(float64(atm), T.Kelvin())
}
