package fuel

import "example.com/washrig/units"

// A Status says how far a printed figure can be relied on.
type Status uint8

// The statuses. The zero Status is invalid.
const (
	Published      Status = iota + 1 // printed in the named source
	Computed                         // follows from published figures by the arithmetic named
	CommonPractice                   // what the trade does; no better authority
	FromMemory                       // recalled, not looked up
)

// String returns the status in words.
func (s Status) String() string {
	switch s {
	case Published:
		return "published"
	case Computed:
		return "computed"
	case CommonPractice:
		return "common practice"
	case FromMemory:
		return "from memory"
	}
	return "invalid"
}

// A Property names a column of the fuel table.
type Property uint8

// The properties with figures. The zero Property is invalid.
const (
	PropertyDensity Property = iota + 1
	PropertyHigher
	PropertyLower
	PropertyFossil
	PropertyBiogenic
	PropertyCloud
	PropertyGel
	PropertyBoiling
	PropertyViscosity
)

// String returns the property in words.
func (p Property) String() string {
	switch p {
	case PropertyDensity:
		return "density"
	case PropertyHigher:
		return "higher heating value"
	case PropertyLower:
		return "lower heating value"
	case PropertyFossil:
		return "fossil carbon dioxide"
	case PropertyBiogenic:
		return "biogenic carbon dioxide"
	case PropertyCloud:
		return "cloud point"
	case PropertyGel:
		return "gel point"
	case PropertyBoiling:
		return "boiling point"
	case PropertyViscosity:
		return "viscosity"
	}
	return "invalid"
}

// A Figure is one value for one property of one fuel, as a source has it.
type Figure struct {
	Kind     Kind
	Property Property
	Value    float64 // in Unit
	Unit     string  // the source's own unit
	Basis    string  // what the value is per, and at which condition
	Source   string
	Status   Status
	Used     bool // whether the table takes this one
}

// Figures returns every figure this package knows for a fuel, the used one of
// each property first among its peers, so that disagreement between agencies can
// be read. The list is the caller's own.
//
// Error: a *[units.FieldError] for a kind that is not in the table.
func Figures(k Kind) ([]Figure, error) {
	if !k.Known() {
		return nil, unknownKind("kind", k)
	}
	var out []Figure
	for _, f := range figures {
		if f.Kind == k {
			out = append(out, f)
		}
	}
	return out, nil
}

// Sources of the figures.
const (
	greet      = "GREET fuel specifications, reprinted by the Hydrogen Analysis Resource Center"
	afdc       = "Alternative Fuels Data Center, U.S. Department of Energy"
	cfr98      = "40 CFR 98, Table C-1 (81 FR 89188, 2016)"
	hub        = "EPA Emission Factors for Greenhouse Gas Inventories"
	eia2021    = "U.S. Energy Information Administration, 2021"
	eiaFuels   = "U.S. Energy Information Administration, carbon dioxide coefficients, 2016"
	eiaFAQ     = "U.S. Energy Information Administration, FAQ 307, 2015"
	ap42       = "EPA AP-42"
	cec        = "California Energy Commission, CEC-600-2007-002-D, Table 2-5, 2008"
	nbs97      = "C. S. Cragoe, NBS Miscellaneous Publication 97, 1929, at 41.5 °API"
	sp854      = "NIST Special Publication 854, 1993"
	trade      = "trade"
	byVolume   = "volume shares of the parts above"
	perGallon  = "US gallon at 60 °F"
	perFoot    = "cubic foot at 60 °F and 14.7 psia"
	asCrystals = "first wax, ASTM D2500"
	asPoured   = "no longer pours, ASTM D97"
	at40       = "40 °C, ASTM D445"
)

// figures is in the order of the kinds, of the properties, used first.
var figures = [...]Figure{
	{GasolineE0, PropertyDensity, 2819, "g/gal", perGallon, greet, Published, true},
	{GasolineE0, PropertyDensity, 6.17, "lb/gal", perGallon, "EPA nonroad modelling convention", FromMemory, false},
	{GasolineE0, PropertyDensity, 6.1, "lb/gal", perGallon, trade, CommonPractice, false},
	{GasolineE0, PropertyHigher, 124_340, "BTU/gal", perGallon, greet, Published, true},
	{GasolineE0, PropertyHigher, 125_000, "BTU/gal", perGallon, cfr98 + ", motor gasoline", Published, false},
	{GasolineE0, PropertyLower, 116_090, "BTU/gal", perGallon, afdc, Published, true},
	{GasolineE0, PropertyLower, 111_800, "BTU/gal", perGallon, cec + " (revised there)", Published, false},
	{GasolineE0, PropertyFossil, 0.125 * 70.22, "kg/gal", perGallon, cfr98 + ", 0.125 × 70.22", Computed, true},
	{GasolineE0, PropertyFossil, 8.78, "kg/gal", perGallon, hub, Published, false},
	{GasolineE0, PropertyFossil, 19.64, "lb/gal", perGallon, eiaFAQ, Published, false},
	{GasolineE0, PropertyFossil, 8.89, "kg/gal", perGallon, eiaFuels, Published, false},

	{GasolineE10, PropertyDensity, 0.9*2819 + 0.1*2988, "g/gal", perGallon, byVolume + ", ethanol 2,988 g/gal (GREET)", Computed, true},
	{GasolineE10, PropertyHigher, 120_388, "BTU/gal", perGallon, afdc, Published, true},
	{GasolineE10, PropertyHigher, 120_238, "BTU/gal", perGallon, eia2021 + ", finished motor gasoline", Published, false},
	{GasolineE10, PropertyLower, 112_114, "BTU/gal", perGallon, afdc, Published, true},
	{GasolineE10, PropertyFossil, 0.9 * 0.125 * 70.22, "kg/gal", perGallon, cfr98 + ", nine tenths of gasoline", Computed, true},
	{GasolineE10, PropertyFossil, 17.68, "lb/gal", perGallon, eiaFAQ, Published, false},
	{GasolineE10, PropertyBiogenic, 0.1 * 0.084 * 68.44, "kg/gal", perGallon, cfr98 + ", a tenth of ethanol, 0.084 × 68.44", Computed, true},
	{GasolineE10, PropertyBiogenic, 18.95 - 17.68, "lb/gal", perGallon, eiaFAQ + ", all less fossil", Computed, false},

	{Diesel1, PropertyDensity, 817.1, "kg/m³", perGallon, "41.5 °API, the middle of grade No. 1", FromMemory, true},
	{Diesel1, PropertyHigher, 134_950, "BTU/gal", perGallon, "middle of grade No. 1, 132,900 to 137,000, ASHRAE Handbook Fundamentals", FromMemory, true},
	{Diesel1, PropertyHigher, 139_000, "BTU/gal", perGallon, cfr98 + ", No. 1; above No. 2 there", Published, false},
	{Diesel1, PropertyLower, 126_460, "BTU/gal", perGallon, nbs97, Computed, true},
	{Diesel1, PropertyFossil, 0.139 * 73.25, "kg/gal", perGallon, cfr98 + ", 0.139 × 73.25", Computed, true},
	{Diesel1, PropertyFossil, 10.18, "kg/gal", perGallon, hub, FromMemory, false},
	{Diesel1, PropertyCloud, -40, "°F", asCrystals, trade, CommonPractice, true},
	{Diesel1, PropertyGel, -50, "°F", asPoured, trade, CommonPractice, true},
	{Diesel1, PropertyViscosity, 1.5, "cSt", at40, "middle of ordinary supply; ASTM D975 allows 1.3 to 2.4", FromMemory, true},

	{Diesel2, PropertyDensity, 3206, "g/gal", perGallon, greet, Published, true},
	{Diesel2, PropertyDensity, 7.1, "lb/gal", perGallon, trade, CommonPractice, false},
	{Diesel2, PropertyDensity, 7.05, "lb/gal", perGallon, ap42 + ", distillate oil", FromMemory, false},
	{Diesel2, PropertyHigher, 138_490, "BTU/gal", perGallon, afdc, Published, true},
	{Diesel2, PropertyHigher, 137_381, "BTU/gal", perGallon, eia2021 + ", distillate of 15 ppm sulphur or less", Published, false},
	{Diesel2, PropertyHigher, 138_500, "BTU/gal", perGallon, "U.S. Energy Information Administration, heating oil", Published, false},
	{Diesel2, PropertyHigher, 138_000, "BTU/gal", perGallon, cfr98 + ", No. 2", Published, false},
	{Diesel2, PropertyHigher, 140_000, "BTU/gal", perGallon, ap42 + " and burner sizing", FromMemory, false},
	{Diesel2, PropertyLower, 129_488, "BTU/gal", perGallon, greet, Published, true},
	{Diesel2, PropertyLower, 128_488, "BTU/gal", perGallon, afdc + ", which takes it from GREET", Published, false},
	{Diesel2, PropertyLower, 127_500, "BTU/gal", perGallon, cec, Published, false},
	{Diesel2, PropertyFossil, 0.138 * 73.96, "kg/gal", perGallon, cfr98 + ", 0.138 × 73.96", Computed, true},
	{Diesel2, PropertyFossil, 10.21, "kg/gal", perGallon, hub, Published, false},
	{Diesel2, PropertyFossil, 22.38, "lb/gal", perGallon, eiaFAQ, Published, false},
	{Diesel2, PropertyFossil, 10.16, "kg/gal", perGallon, eiaFuels, Published, false},
	{Diesel2, PropertyCloud, 14, "°F", asCrystals, trade + "; sold from about -20 to 40 °F", CommonPractice, true},
	{Diesel2, PropertyGel, 10, "°F", asPoured, trade, CommonPractice, true},
	{Diesel2, PropertyViscosity, 2.6, "cSt", at40, "middle of ordinary supply; ASTM D975 allows 1.9 to 4.1", FromMemory, true},

	{Kerosene, PropertyDensity, 817.1, "kg/m³", perGallon, "41.5 °API, as No. 1 diesel", FromMemory, true},
	{Kerosene, PropertyHigher, 135_000, "BTU/gal", perGallon, cfr98 + "; EIA 5.67 million BTU a barrel", Published, true},
	{Kerosene, PropertyLower, 126_510, "BTU/gal", perGallon, "the higher less the water of No. 1 diesel", Computed, true},
	{Kerosene, PropertyFossil, 0.135 * 75.20, "kg/gal", perGallon, cfr98 + ", 0.135 × 75.20", Computed, true},
	{Kerosene, PropertyFossil, 10.15, "kg/gal", perGallon, hub, Published, false},
	{Kerosene, PropertyFossil, 9.75, "kg/gal", perGallon, eiaFuels, Published, false},
	{Kerosene, PropertyCloud, -40, "°F", asCrystals, trade, CommonPractice, true},
	{Kerosene, PropertyCloud, -22, "°F", "freezing point, at most", "ASTM D3699", FromMemory, false},
	{Kerosene, PropertyGel, -50, "°F", asPoured, trade, CommonPractice, true},
	{Kerosene, PropertyViscosity, 1.4, "cSt", at40, "middle of ASTM D3699, 1.0 to 1.9", FromMemory, true},

	{BiodieselB5, PropertyDensity, 0.95*3206 + 0.05*3361, "g/gal", perGallon, byVolume, Computed, true},
	{BiodieselB5, PropertyHigher, 0.95*138_490 + 0.05*127_960, "BTU/gal", perGallon, byVolume, Computed, true},
	{BiodieselB5, PropertyLower, 0.95*129_488 + 0.05*119_550, "BTU/gal", perGallon, byVolume, Computed, true},
	{BiodieselB5, PropertyFossil, 0.95 * 0.138 * 73.96, "kg/gal", perGallon, byVolume, Computed, true},
	{BiodieselB5, PropertyBiogenic, 0.05 * 0.128 * 73.84, "kg/gal", perGallon, byVolume, Computed, true},

	{BiodieselB20, PropertyDensity, 0.8*3206 + 0.2*3361, "g/gal", perGallon, byVolume + ", biodiesel 3,361 g/gal (GREET)", Computed, true},
	{BiodieselB20, PropertyHigher, 0.8*138_490 + 0.2*127_960, "BTU/gal", perGallon, byVolume + ", biodiesel 127,960 (GREET)", Computed, true},
	{BiodieselB20, PropertyLower, 0.8*129_488 + 0.2*119_550, "BTU/gal", perGallon, byVolume + ", biodiesel 119,550 (GREET)", Computed, true},
	{BiodieselB20, PropertyLower, 126_700, "BTU/gal", perGallon, afdc + ", on its own diesel", Published, false},
	{BiodieselB20, PropertyLower, 125_400, "BTU/gal", perGallon, cec, Published, false},
	{BiodieselB20, PropertyFossil, 0.8 * 0.138 * 73.96, "kg/gal", perGallon, byVolume, Computed, true},
	{BiodieselB20, PropertyFossil, 17.90, "lb/gal", perGallon, eiaFAQ, Published, false},
	{BiodieselB20, PropertyBiogenic, 0.2 * 0.128 * 73.84, "kg/gal", perGallon, cfr98 + ", biodiesel 0.128 × 73.84", Computed, true},
	{BiodieselB20, PropertyBiogenic, 0.2 * 20.13, "lb/gal", perGallon, eiaFAQ + ", a fifth of biodiesel", Computed, false},

	{Propane, PropertyDensity, 4.24, "lb/gal", perGallon, "handbook value at 60 °F", Published, true},
	{Propane, PropertyDensity, 506.6873, "kg/m³", perGallon, "pure propane, Lemmon, McLinden and Wagner 2009", Computed, false},
	{Propane, PropertyHigher, 91_420, "BTU/gal", perGallon, afdc, FromMemory, true},
	{Propane, PropertyHigher, 91_410, "BTU/gal", perGallon, greet + ", liquefied petroleum gas", Published, false},
	{Propane, PropertyHigher, 91_452, "BTU/gal", perGallon, "U.S. Energy Information Administration", Published, false},
	{Propane, PropertyHigher, 91_000, "BTU/gal", perGallon, cfr98, Published, false},
	{Propane, PropertyHigher, 3.84e6 / 42, "BTU/gal", perGallon, "40 CFR 98, Table NN-1, 3.84 million BTU a barrel", Computed, false},
	{Propane, PropertyHigher, 91_500, "BTU/gal", perGallon, ap42, FromMemory, false},
	{Propane, PropertyLower, 84_250, "BTU/gal", perGallon, afdc, Published, true},
	{Propane, PropertyLower, 84_950, "BTU/gal", perGallon, greet + ", liquefied petroleum gas", Published, false},
	{Propane, PropertyLower, 83_200, "BTU/gal", perGallon, cec, Published, false},
	{Propane, PropertyFossil, 0.091 * 62.87, "kg/gal", perGallon, cfr98 + ", 0.091 × 62.87", Computed, true},
	{Propane, PropertyFossil, 5.72, "kg/gal", perGallon, hub, Published, false},
	{Propane, PropertyFossil, 5.76, "kg/gal", perGallon, eiaFuels, Published, false},
	{Propane, PropertyBoiling, -44, "°F", "at 14.696 psia", "Lemmon, McLinden and Wagner 2009, to the degree", Computed, true},

	{NaturalGas, PropertyDensity, 0.0458, "lb/ft³", perFoot, sp854, Published, true},
	{NaturalGas, PropertyHigher, 22_453 * 0.0458, "BTU/ft³", perFoot, greet + ", 22,453 BTU/lb", Computed, true},
	{NaturalGas, PropertyHigher, 1026, "BTU/ft³", perFoot, cfr98, Published, false},
	{NaturalGas, PropertyHigher, 1039, "BTU/ft³", perFoot, eia2021, Published, false},
	{NaturalGas, PropertyHigher, 1020, "BTU/ft³", perFoot, ap42, FromMemory, false},
	{NaturalGas, PropertyLower, 20_160 * 0.0458, "BTU/ft³", perFoot, afdc + ", 20,160 BTU/lb", Computed, true},
	{NaturalGas, PropertyLower, 923, "BTU/ft³", perFoot, "Transportation Energy Data Book", Published, false},
	{NaturalGas, PropertyFossil, 1.026e-3 * 53.06, "kg/ft³", perFoot, cfr98 + ", 0.001026 × 53.06", Computed, true},
	{NaturalGas, PropertyFossil, 53.12e-3, "kg/ft³", perFoot, eiaFuels, Published, false},
}

// Quantity returns the value with its unit as a quantity: a density, which for
// carbon dioxide is the mass made by a volume of fuel, a heating value by volume,
// a temperature or a kinematic viscosity.
func (f Figure) Quantity() units.Quantity {
	switch f.Unit {
	case "g/gal":
		return units.Density(f.Value * float64(gramPerGallon)).Quantity()
	case "kg/gal":
		return units.Density(f.Value * float64(kilogramPerGallon)).Quantity()
	case "lb/gal":
		return units.Density(f.Value * float64(units.PoundPerGallon)).Quantity()
	case "lb/ft³":
		return units.Density(f.Value * float64(units.PoundPerCubicFoot)).Quantity()
	case "kg/ft³":
		return units.Density(f.Value * float64(kilogramPerCubicFoot)).Quantity()
	case "kg/m³":
		return units.Density(f.Value).Quantity()
	case "BTU/gal":
		return units.HeatingValueByVolume(f.Value * float64(units.BTUPerGallon)).Quantity()
	case "BTU/ft³":
		return units.HeatingValueByVolume(f.Value * float64(units.BTUPerCubicFoot)).Quantity()
	case "°F":
		return units.Fahrenheit(f.Value).Quantity()
	case "cSt":
		return units.KinematicViscosity(f.Value * float64(units.Centistokes)).Quantity()
	}
	return units.Quantity{}
}
