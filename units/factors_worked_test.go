package units_test

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

// NIST SP 811 (2008), Appendix B.8, prints factors to seven digits. They were
// read in the reproduction of that appendix in the R package NISTunits, in
// which a zero at the end of a factor is lost; it is put back here.
func TestFactors_SP811_B8(t *testing.T) {
	const source = "NIST SP 811 (2008), Appendix B.8, as reproduced in the R package NISTunits"
	for _, c := range []struct {
		what    string
		printed string
		got     float64
	}{
		{"psi", "6894.757 Pa", units.PSI.In(units.Pascal)},
		{"bar", "100000 Pa", units.Bar.In(units.Pascal)},
		{"standard atmosphere", "101325 Pa", units.AtmosphereAbsolute.In(units.PascalAbsolute)},
		{"inch of mercury, conventional", "3386.389 Pa", units.InchOfMercury.In(units.Pascal)},
		{"inch of mercury (32 °F)", "3386.38 Pa", units.InchOfMercury32F.In(units.Pascal)},
		{"inch of mercury (60 °F)", "3376.85 Pa", units.InchOfMercury60F.In(units.Pascal)},
		{"inch of water, conventional", "249.0889 Pa", units.InchOfWater.In(units.Pascal)},
		{"inch of water (39.2 °F)", "249.082 Pa", units.InchOfWater39F.In(units.Pascal)},
		{"inch of water (60 °F)", "248.84 Pa", units.InchOfWater60F.In(units.Pascal)},
		{"foot of water, conventional", "2989.067 Pa", units.FootOfWater.In(units.Pascal)},
		{"gallon (U.S.) per minute", "6.309020E-05 m³/s", units.GallonPerMinute.In(units.CubicMeterPerSecond)},
		{"cubic foot per minute", "4.719474E-04 m³/s", units.CubicFootPerMinute.In(units.CubicMeterPerSecond)},
		{"pound per hour", "1.259979E-04 kg/s", units.PoundPerHour.In(units.KilogramPerSecond)},
		{"pound per minute", "7.559873E-03 kg/s", units.PoundPerMinute.In(units.KilogramPerSecond)},
		{"pound per second", "0.4535924 kg/s", units.PoundPerSecond.In(units.KilogramPerSecond)},
		{"inch", "0.0254 m", units.Inch.In(units.Meter)},
		{"foot", "0.3048 m", units.Foot.In(units.Meter)},
		{"mile", "1609.344 m", units.Mile.In(units.Meter)},
		{"circular mil", "5.067075E-10 m²", units.CircularMil.In(units.SquareMeter)},
		{"gallon (U.S.)", "3.785412E-03 m³", units.Gallon.In(units.CubicMeter)},
		{"fluid ounce (U.S.)", "2.957353E-05 m³", units.FluidOunce.In(units.CubicMeter)},
		{"quart (U.S. liquid)", "9.463529E-04 m³", units.Quart.In(units.CubicMeter)},
		{"gallon [Canadian and U.K. (Imperial)]", "4.54609E-03 m³", units.ImperialGallon.In(units.CubicMeter)},
		{"cubic foot", "2.831685E-02 m³", units.CubicFoot.In(units.CubicMeter)},
		{"cubic inch", "1.638706E-05 m³", units.CubicInch.In(units.CubicMeter)},
		{"pound (avoirdupois)", "0.4535924 kg", units.Pound.In(units.Kilogram)},
		{"ounce (avoirdupois)", "2.834952E-02 kg", units.Ounce.In(units.Kilogram)},
		{"pound per foot", "1.488164 kg/m", units.PoundPerFoot.In(units.KilogramPerMeter)},
		{"pound per gallon (U.S.)", "119.8264 kg/m³", units.PoundPerGallon.In(units.KilogramPerCubicMeter)},
		{"pound per cubic foot", "16.01846 kg/m³", units.PoundPerCubicFoot.In(units.KilogramPerCubicMeter)},
		{"centipoise", "0.001 Pa·s", units.Centipoise.In(units.PascalSecond)},
		{"pound per foot second", "1.488164 Pa·s", units.PoundPerFootSecond.In(units.PascalSecond)},
		{"centistokes", "1E-06 m²/s", units.Centistokes.In(units.SquareMeterPerSecond)},
		{"pound-force", "4.448222 N", units.PoundForce.In(units.Newton)},
		{"kilogram-force", "9.80665 N", units.KilogramForce.In(units.Newton)},
		{"pound-force foot", "1.355818 N·m", units.FootPoundForce.In(units.NewtonMeter)},
		{"pound-force inch", "0.1129848 N·m", units.InchPoundForce.In(units.NewtonMeter)},
		{"horsepower (550 ft·lbf/s)", "745.6999 W", units.Horsepower.In(units.Watt)},
		{"horsepower (metric)", "735.4988 W", units.MetricHorsepower.In(units.Watt)},
		{"horsepower (electric)", "746 W", units.ElectricHorsepower.In(units.Watt)},
		{"horsepower (boiler)", "9809.50 W", units.BoilerHorsepower.In(units.Watt)},
		{"British thermal unit (IT) per hour", "0.2930711 W", units.BTUPerHour.In(units.Watt)},
		{"British thermal unit (IT)", "1055.056 J", units.BTU.In(units.Joule)},
		{"kilowatt hour", "3.6E+06 J", units.KilowattHour.In(units.Joule)},
		{"British thermal unit (IT) per cubic foot", "37258.95 J/m³", units.BTUPerCubicFoot.In(units.JoulePerCubicMeter)},
		{"British thermal unit (IT) per pound", "2326 J/kg", units.BTUPerPound.In(units.FuelJoulePerKilogram)},
		{"British thermal unit (IT) per pound, of heat content", "2326 J/kg", units.EnthalpyBTUPerPound.In(units.JoulePerKilogram)},
		{"British thermal unit (IT) per pound degree Fahrenheit", "4186.8 J/(kg·K)", units.BTUPerPoundFahrenheit.In(units.JoulePerKilogramKelvin)},
		{"pound per horsepower hour", "1.689659E-07 kg/J", units.PoundPerHorsepowerHour.In(units.KilogramPerJoule)},
		{"degree Fahrenheit (interval)", "0.5555556 K", units.FahrenheitDelta.In(units.KelvinDelta)},
		{"foot per minute", "5.08E-03 m/s", units.FootPerMinute.In(units.MeterPerSecond)},
		{"mile per hour", "0.44704 m/s", units.MilePerHour.In(units.MeterPerSecond)},
		{"kilometer per hour", "0.2777778 m/s", units.KilometerPerHour.In(units.MeterPerSecond)},
		{"revolution per minute", "0.1047198 rad/s", units.RPM.In(units.RadianPerSecond)},
		{"ampere hour", "3600 C", units.AmpereHour.In(units.Coulomb)},
		{"degree (angle)", "1.745329E-02 rad", units.Degree.In(units.Radian)},
		{"day", "86400 s", units.Day.In(units.Second)},
		{"foot per second squared", "0.3048 m/s²", units.FootPerSecondSquared.In(units.MeterPerSecondSquared)},
		{"acceleration of free fall, standard", "9.80665 m/s²", units.StandardGravity.In(units.MeterPerSecondSquared)},
		{"British thermal unit (IT) foot per hour square foot degree Fahrenheit", "1.730735 W/(m·K)", units.BTUPerHourFootFahrenheit.In(units.WattPerMeterKelvin)},
		{"British thermal unit (IT) inch per hour square foot degree Fahrenheit", "0.1442279 W/(m·K)", units.BTUInchPerHourSquareFootFahrenheit.In(units.WattPerMeterKelvin)},
		{"British thermal unit (IT) per hour square foot degree Fahrenheit", "5.678263 W/(m²·K)", units.BTUPerHourSquareFootFahrenheit.In(units.WattPerSquareMeterKelvin)},
		{"pound-force per foot", "14.59390 N/m", units.PoundForcePerFoot.In(units.NewtonPerMeter)},
	} {
		worked.Check(t, worked.Case{
			Question: "How much is one unit of the data sheet in SI?",
			Source:   source,
			Status:   worked.Published,
			Given:    []string{c.what},
			Printed:  c.printed,
			Got:      c.got,
		})
	}
}

// The definitions behind all US volumes and weights.
func TestFactors_HB44_C(t *testing.T) {
	const source = "NIST Handbook 44, Appendix C, exact values"
	for _, c := range []struct {
		what, printed string
		got           float64
	}{
		{"1 US gallon", "231 in³", units.Gallon.In(units.CubicInch)},
		{"1 US gallon, in metric", "3.785411784 L", units.Gallon.In(units.Liter)},
		{"1 avoirdupois pound", "0.45359237 kg", units.Pound.In(units.Kilogram)},
		{"1 quart", "0.946352946 L", units.Quart.In(units.Liter)},
		{"1 US fluid ounce", "29.5735295625 mL", units.FluidOunce.In(units.Milliliter)},
		{"1 cubic foot", "28.316846592 L", units.CubicFoot.In(units.Liter)},
		{"1 mile", "5280 ft", units.Mile.In(units.Foot)},
	} {
		worked.Check(t, worked.Case{
			Question: "What is the unit of the trade by law?",
			Source:   source,
			Status:   worked.Identity,
			Given:    []string{c.what},
			Printed:  c.printed,
			Got:      c.got,
		})
	}
}

func TestFactors_derived(t *testing.T) {
	for _, c := range []worked.Case{
		{
			Question: "What power does 1 gpm at 1 psi carry?",
			Source:   "231 in³/gal × 1 lbf/in² / (12 in/ft × 60 s/min × 550 ft·lbf/s)",
			Status:   worked.Identity,
			Given:    []string{"Q = 1 gpm", "Δp = 1 psi", "7/12000 hp exactly"},
			Printed:  "0.000583333333333333 hp",
			Got:      float64(units.GallonPerMinute) * float64(units.PSI) / float64(units.Horsepower),
		},
		{
			Question: "How many feet of conventional water are 1 psi?",
			Source:   "GNU units 2.22: psi in foot H2O",
			Status:   worked.Computed,
			Given:    []string{"1 psi"},
			Printed:  "2.306658726 ft",
			Got:      units.PSI.In(units.FootOfWater),
		},
		{
			Question: "How many inches of conventional water are 1 psi?",
			Source:   "GNU units 2.22: psi in inch H2O",
			Status:   worked.Computed,
			Given:    []string{"1 psi"},
			Printed:  "27.67990471 in",
			Got:      units.PSI.In(units.InchOfWater),
		},
		{
			Question: "How many BTU an hour is a horsepower?",
			Source:   "GNU units 2.22: hp in btu_IT/hour",
			Status:   worked.Computed,
			Given:    []string{"1 hp, 550 ft·lbf/s"},
			Printed:  "2544.43357764402 BTU/h",
			Got:      units.Horsepower.In(units.BTUPerHour),
		},
		{
			Question: "How many BTU is a kilowatt hour?",
			Source:   "GNU units 2.22: kWh in btu_IT",
			Status:   worked.Computed,
			Given:    []string{"1 kWh"},
			Printed:  "3412.14163312794 BTU",
			Got:      units.KilowattHour.In(units.BTU),
		},
		{
			Question: "How many US gallons are a cubic foot?",
			Source:   "1728 in³ / 231 in³",
			Status:   worked.Identity,
			Given:    []string{"1 ft³"},
			Printed:  "7.48051948051948 gal",
			Got:      units.CubicFoot.In(units.Gallon),
		},
		{
			Question: "How many psi is a standard atmosphere?",
			Source:   "GNU units 2.22: atm in psi",
			Status:   worked.Computed,
			Given:    []string{"101325 Pa"},
			Printed:  "14.6959487755135 psia",
			Got:      units.AtmosphereAbsolute.In(units.PSIA),
		},
		{
			Question: "Which Celsius reading is 180 °F water?",
			Source:   "°C = (°F - 32) × 5/9, exact",
			Status:   worked.Identity,
			Given:    []string{"t = 180 °F"},
			Printed:  "82.22222222 °C",
			Got:      units.Fahrenheit(180).Celsius(),
		},
		{
			Question: "Which Fahrenheit reading is absolute zero?",
			Source:   "definition of the Celsius and Fahrenheit scales",
			Status:   worked.Identity,
			Given:    []string{"T = 0 K, approached from above: 1e-9 K"},
			Printed:  "-459.67 °F",
			Got:      units.Kelvin(1e-9).Fahrenheit(),
		},
	} {
		worked.Check(t, c)
	}
}
