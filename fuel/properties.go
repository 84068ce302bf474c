package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// Properties is what one fuel is like. Volumes are at 60 °F.
type Properties struct {
	Kind          Kind
	Density       units.Density      // at 60 °F; natural gas at 14.696 psia as well
	Higher        HigherHeatingValue // with the water condensed
	Lower         LowerHeatingValue  // with the water as vapour
	CarbonDioxide EmissionFactor     // for each volume burned
	Cold          ColdLimits         // typical of the season's ordinary supply

	// Of fuel oils; zero for gasoline, propane and natural gas.
	Viscosity      units.KinematicViscosity // at 40 °C (104 °F), typical
	ViscositySlope float64                  // B of ASTM D341
}

// An EmissionFactor is the mass of carbon dioxide that a volume of fuel makes.
type EmissionFactor struct {
	Fossil   units.Density // from petroleum and natural gas
	Biogenic units.Density // from ethanol and biodiesel; inventories count it apart
}

// Validate returns every problem of p, joined in field order. What is zero is not
// given.
func (p Properties) Validate() error {
	var errs []error
	if p.Density != 0 {
		errs = append(errs, checkDensity("density", p.Density))
	}
	if p.Higher != 0 {
		errs = append(errs, checkHeatingValue("higher", p.Higher.ByVolume()))
	}
	if p.Lower != 0 {
		errs = append(errs, checkHeatingValue("lower", p.Lower.ByVolume()))
	}
	errs = append(errs,
		checkEmission("carbonDioxide.fossil", p.CarbonDioxide.Fossil),
		checkEmission("carbonDioxide.biogenic", p.CarbonDioxide.Biogenic),
		units.At("cold", checkColdLimits(p.Cold)))
	if p.Viscosity != 0 {
		errs = append(errs, checkViscosity("viscosity", p.Viscosity))
	}
	if p.ViscositySlope != 0 && !within(p.ViscositySlope, 1, 10) {
		errs = append(errs, outside("viscositySlope", number(p.ViscositySlope), "1 to 10"))
	}
	return errors.Join(errs...)
}

// PropertiesOf returns the table's row of a fuel.
//
// Error: a *[units.FieldError] for a kind that is not in the table.
func PropertiesOf(k Kind) (Properties, error) {
	if !k.Known() {
		return Properties{}, unknownKind("kind", k)
	}
	p := properties[k]
	p.Kind = k
	return p, nil
}

// Units of the sources, in SI.
const (
	kilogramPerGallon    = units.KilogramPerCubicMeter / (231 * 0.0254 * 0.0254 * 0.0254)
	gramPerGallon        = 1e-3 * kilogramPerGallon
	kilogramPerCubicFoot = units.KilogramPerCubicMeter / (0.3048 * 0.3048 * 0.3048)
)

// The figures the table is built from, in the units of their sources.
//
// GREET is Argonne National Laboratory's fuel-cycle model; its fuel
// specifications are reprinted by the Hydrogen Analysis Resource Center, "Lower
// and Higher Heating Values of Hydrogen and Fuels", and by the Alternative Fuels
// Data Center (AFDC) of the U.S. Department of Energy. 40 CFR 98 is Table C-1 of
// Subpart C as of 9 December 2016 (81 FR 89188). NBS 97 is C. S. Cragoe,
// "Thermal Properties of Petroleum Products", National Bureau of Standards
// Miscellaneous Publication 97, 1929.
const (
	gasolineDensity = 2819 * gramPerGallon         // GREET, conventional gasoline
	gasolineHigher  = 124_340 * units.BTUPerGallon // GREET
	gasolineLower   = 116_090 * units.BTUPerGallon // GREET, AFDC

	ethanolDensity = 2988 * gramPerGallon // GREET

	e10Higher = 120_388 * units.BTUPerGallon // AFDC, E10
	e10Lower  = 112_114 * units.BTUPerGallon // AFDC, E10

	dieselDensity = 3206 * gramPerGallon         // GREET, low-sulfur diesel
	dieselHigher  = 138_490 * units.BTUPerGallon // GREET, AFDC
	dieselLower   = 129_488 * units.BTUPerGallon // GREET; AFDC prints 128,488

	// No. 1 fuel: 41.5 °API, the middle of the band for grade No. 1, and NBS 97
	// for the lower heating value per pound. The higher is the middle of the band.
	lightDensity = 817.1 * units.KilogramPerCubicMeter
	diesel1Gross = 134_950 * units.BTUPerGallon
	diesel1Net   = 126_460 * units.BTUPerGallon

	keroseneHigher = 135_000 * units.BTUPerGallon // EIA, 5.670 million Btu per barrel
	keroseneLower  = 126_510 * units.BTUPerGallon // less the same water as No. 1 fuel

	biodieselDensity = 3361 * gramPerGallon         // GREET, methyl ester
	biodieselHigher  = 127_960 * units.BTUPerGallon // GREET, AFDC
	biodieselLower   = 119_550 * units.BTUPerGallon // GREET, AFDC

	propaneDensity = 4.24 * units.PoundPerGallon             // handbook value at 60 °F
	propaneHigher  = 91_420 * units.BTUPerGallon             // AFDC
	propaneLower   = 84_250 * units.BTUPerGallon             // AFDC
	naturalDensity = 0.0458 * units.PoundPerCubicFoot        // NIST SP 854, 78th National Conference on Weights and Measures, 1993
	naturalHigher  = 22_453 * 0.0458 * units.BTUPerCubicFoot // AFDC, Btu/lb
	naturalLower   = 20_160 * 0.0458 * units.BTUPerCubicFoot // AFDC, Btu/lb

	// Viscosity at 40 °C: the middle of ordinary supply inside the limits of ASTM
	// D975 (No. 1: 1.3 to 2.4, No. 2: 1.9 to 4.1), D3699 (1.0 to 1.9) and D6751
	// (1.9 to 6.0 mm²/s).
	diesel1Viscosity   = 1.5 * units.Centistokes
	diesel2Viscosity   = 2.6 * units.Centistokes
	keroseneViscosity  = 1.4 * units.Centistokes
	biodieselViscosity = 4.1 * units.Centistokes
	distillateSlope    = 3.7

	// 40 CFR 98: million Btu per gallon (per cubic foot) × kg per million Btu.
	gasolineCarbonDioxide  = 0.125 * 70.22 * kilogramPerGallon
	ethanolCarbonDioxide   = 0.084 * 68.44 * kilogramPerGallon
	diesel1CarbonDioxide   = 0.139 * 73.25 * kilogramPerGallon
	diesel2CarbonDioxide   = 0.138 * 73.96 * kilogramPerGallon
	keroseneCarbonDioxide  = 0.135 * 75.20 * kilogramPerGallon
	biodieselCarbonDioxide = 0.128 * 73.84 * kilogramPerGallon
	propaneCarbonDioxide   = 0.091 * 62.87 * kilogramPerGallon
	naturalCarbonDioxide   = 1.026e-3 * 53.06 * kilogramPerCubicFoot
)

// The diesels, and the biodiesel that their blends are made of.
//
// Cold limits are typical of ordinary supply. No. 2 clouds near 14 °F and gels
// near 10 °F, No. 1 and kerosene do neither above −40 °F (common practice);
// ASTM D3699 allows a freezing point of −22 °F at most for kerosene. Biodiesel
// from soy clouds near 32 °F.
var (
	diesel1Row = Properties{
		Kind:           Diesel1,
		Density:        lightDensity,
		Higher:         HigherHeatingValue(diesel1Gross),
		Lower:          LowerHeatingValue(diesel1Net),
		CarbonDioxide:  EmissionFactor{Fossil: diesel1CarbonDioxide},
		Cold:           ColdLimits{Cloud: units.Fahrenheit(-40), Gel: units.Fahrenheit(-50)},
		Viscosity:      diesel1Viscosity,
		ViscositySlope: distillateSlope,
	}
	diesel2Row = Properties{
		Kind:           Diesel2,
		Density:        dieselDensity,
		Higher:         HigherHeatingValue(dieselHigher),
		Lower:          LowerHeatingValue(dieselLower),
		CarbonDioxide:  EmissionFactor{Fossil: diesel2CarbonDioxide},
		Cold:           ColdLimits{Cloud: units.Fahrenheit(14), Gel: units.Fahrenheit(10)},
		Viscosity:      diesel2Viscosity,
		ViscositySlope: distillateSlope,
	}
	biodieselRow = Properties{
		Density:        biodieselDensity,
		Higher:         HigherHeatingValue(biodieselHigher),
		Lower:          LowerHeatingValue(biodieselLower),
		CarbonDioxide:  EmissionFactor{Biogenic: biodieselCarbonDioxide},
		Cold:           ColdLimits{Cloud: units.Fahrenheit(32), Gel: units.Fahrenheit(27)},
		Viscosity:      biodieselViscosity,
		ViscositySlope: distillateSlope,
	}
)

// properties holds one row a fuel, in the order of the kinds.
var properties = [...]Properties{
	GasolineE0: {
		Density:       gasolineDensity,
		Higher:        HigherHeatingValue(gasolineHigher),
		Lower:         LowerHeatingValue(gasolineLower),
		CarbonDioxide: EmissionFactor{Fossil: gasolineCarbonDioxide},
	},
	GasolineE10: {
		Density: 0.9*gasolineDensity + 0.1*ethanolDensity,
		Higher:  HigherHeatingValue(e10Higher),
		Lower:   LowerHeatingValue(e10Lower),
		CarbonDioxide: EmissionFactor{
			Fossil:   0.9 * gasolineCarbonDioxide,
			Biogenic: 0.1 * ethanolCarbonDioxide,
		},
	},
	Diesel1: diesel1Row,
	Diesel2: diesel2Row,
	Kerosene: {
		Density:        lightDensity,
		Higher:         HigherHeatingValue(keroseneHigher),
		Lower:          LowerHeatingValue(keroseneLower),
		CarbonDioxide:  EmissionFactor{Fossil: keroseneCarbonDioxide},
		Cold:           ColdLimits{Cloud: units.Fahrenheit(-40), Gel: units.Fahrenheit(-50)},
		Viscosity:      keroseneViscosity,
		ViscositySlope: distillateSlope,
	},
	BiodieselB5:  blend(diesel2Row, biodieselRow, 0.05),
	BiodieselB20: blend(diesel2Row, biodieselRow, 0.20),
	Propane: {
		Density:       propaneDensity,
		Higher:        HigherHeatingValue(propaneHigher),
		Lower:         LowerHeatingValue(propaneLower),
		CarbonDioxide: EmissionFactor{Fossil: propaneCarbonDioxide},
		Cold:          ColdLimits{Boiling: units.Fahrenheit(-44)},
	},
	NaturalGas: {
		Density:       naturalDensity,
		Higher:        HigherHeatingValue(naturalHigher),
		Lower:         LowerHeatingValue(naturalLower),
		CarbonDioxide: EmissionFactor{Fossil: naturalCarbonDioxide},
	},
}
