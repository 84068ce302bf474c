// Package unitsgen holds the one table from which units/zkinds.go is
// generated, and the generator.
package unitsgen

// A kind is one dimension with a Go type of its own.
type kind struct {
	typ     string // Go type: "Pressure"
	name    string // stable text of the Kind: "pressure"
	phrase  string // for messages: "a pressure"
	doc     string // what follows "A Pressure is", or a whole sentence for names that need one
	base    string // symbol of the SI base unit
	example string // as a person would type it
	point   bool   // a struct written by hand: only table and Kind are generated
	units   []unit // order: the trade's own unit first; decides ties when writing
}

// A unit is one row of a kind.
type unit struct {
	constant string   // exported constant; empty in kinds that are points
	expr     string   // exact untyped constant expression over units/exact.go, in the SI base unit
	symbol   string   // written form
	doc      string   // comment of the constant
	also     []string // further spellings, beside those derived from the symbol
	show     string   // "us", "si" or "us si": printed by Quantity.Text for that system
	least    float64  // smallest number written in this unit, 0 = no limit
	most     float64  // largest number written in this unit, 0 = no limit
	offset   string   // for points on a shifted scale: si = (value + offset) × expr
}

var lengthUnits = []unit{
	{constant: "Foot", expr: "foot", symbol: "ft", doc: "international foot, 12 inches", also: []string{"'", "foot", "feet"}, show: "us", least: 1},
	{constant: "Inch", expr: "inch", symbol: "in", doc: "inch, exactly 25.4 mm", also: []string{`"`, "inch", "inches"}, show: "us"},
	{constant: "Meter", expr: "1", symbol: "m", doc: "metre", also: []string{"meter", "meters", "metre", "metres"}, show: "si", least: 1},
	{constant: "Millimeter", expr: "1e-3", symbol: "mm", doc: "millimetre", show: "si", least: 0.1},
	{constant: "Micrometer", expr: "1e-6", symbol: "µm", doc: "micrometre, called a micron on filters", also: []string{"micron", "microns"}, show: "si"},
	{constant: "Centimeter", expr: "1e-2", symbol: "cm", doc: "centimetre"},
	{constant: "Kilometer", expr: "1e3", symbol: "km", doc: "kilometre", least: 1},
	{constant: "Mile", expr: "5280 * foot", symbol: "mi", doc: "international mile, 5280 feet", also: []string{"mile", "miles"}, least: 1},
}

// points drops the constants, which belong to Length, and re-orders the rows.
func points(symbols ...string) []unit {
	var out []unit
	for _, s := range symbols {
		for _, u := range lengthUnits {
			if u.symbol == s {
				u.constant, u.doc = "", ""
				out = append(out, u)
			}
		}
	}
	return out
}

var kinds = []kind{
	{
		typ: "Pressure", name: "pressure", phrase: "a pressure", base: "Pa", example: "3500 psi",
		doc: "A Pressure is a pressure difference, or a gauge pressure, in pascals.\n[AbsolutePressure] is a type of its own: one atmosphere is a costly mistake.",
		units: []unit{
			{constant: "PSI", expr: "poundForce / (inch * inch)", symbol: "psi", doc: "pound-force per square inch, difference or gauge", also: []string{"PSI", "psig", "PSIG", "lbf/in²", "lbf/in2", "lbf/in^2"}, show: "us"},
			{constant: "Bar", expr: "1e5", symbol: "bar", doc: "bar", also: []string{"barg", "bar(g)"}, show: "si", least: 0.1},
			{constant: "Kilopascal", expr: "1e3", symbol: "kPa", doc: "kilopascal", show: "si", least: 1},
			{constant: "Pascal", expr: "1", symbol: "Pa", doc: "pascal", show: "si"},
			{constant: "Megapascal", expr: "1e6", symbol: "MPa", doc: "megapascal"},
			{constant: "Gigapascal", expr: "1e9", symbol: "GPa", doc: "gigapascal, for elastic moduli"},
			{constant: "Millibar", expr: "1e2", symbol: "mbar", doc: "millibar, one hectopascal", also: []string{"hPa"}},
			{constant: "InchOfMercury", expr: "mercury * gravity * inch", symbol: "inHg", doc: "conventional inch of mercury, 13595.1 kg/m³ under standard gravity", also: []string{"in Hg"}},
			{constant: "InchOfWater", expr: "water * gravity * inch", symbol: "inH2O", doc: "conventional inch of water, 1000 kg/m³ under standard gravity", also: []string{"inH₂O", "in H2O", "in H₂O", "inWC", "in WC", "in wc"}},
			{constant: "FootOfWater", expr: "water * gravity * foot", symbol: "ftH2O", doc: "conventional foot of water, 1000 kg/m³ under standard gravity", also: []string{"ftH₂O", "ft H2O", "ft H₂O"}},
			{constant: "MeterOfWater", expr: "water * gravity", symbol: "mH2O", doc: "conventional metre of water, 1000 kg/m³ under standard gravity", also: []string{"mH₂O", "m H2O", "m H₂O"}},
			{constant: "InchOfMercury32F", expr: "3386.38", symbol: "inHg(32F)", doc: "inch of mercury at 32 °F as NIST SP 811 rounds it", also: []string{"inHg(32 °F)", "inHg(0C)"}},
			{constant: "InchOfMercury60F", expr: "3376.85", symbol: "inHg(60F)", doc: "inch of mercury at 60 °F as NIST SP 811 rounds it", also: []string{"inHg(60 °F)"}},
			{constant: "InchOfWater39F", expr: "249.082", symbol: "inH2O(39.2F)", doc: "inch of water at 39.2 °F as NIST SP 811 rounds it", also: []string{"inH2O(39.2 °F)", "inH2O(4C)"}},
			{constant: "InchOfWater60F", expr: "248.84", symbol: "inH2O(60F)", doc: "inch of water at 60 °F as NIST SP 811 rounds it", also: []string{"inH2O(60 °F)"}},
		},
	},
	{
		typ: "AbsolutePressure", name: "absolute-pressure", phrase: "an absolute pressure", base: "Pa abs", example: "14.7 psia",
		doc: "An AbsolutePressure is a pressure above vacuum, in pascals: a barometer\nreading, a vapour pressure.",
		units: []unit{
			{constant: "PSIA", expr: "poundForce / (inch * inch)", symbol: "psia", doc: "pound-force per square inch above vacuum", also: []string{"PSIA", "psi abs"}, show: "us"},
			{constant: "BarAbsolute", expr: "1e5", symbol: "bar abs", doc: "bar above vacuum", also: []string{"bara", "bar(a)"}, show: "si", least: 0.1},
			{constant: "KilopascalAbsolute", expr: "1e3", symbol: "kPa abs", doc: "kilopascal above vacuum", also: []string{"kPa(a)"}, show: "si", least: 1},
			{constant: "PascalAbsolute", expr: "1", symbol: "Pa abs", doc: "pascal above vacuum", also: []string{"Pa(a)"}, show: "si"},
			{constant: "MegapascalAbsolute", expr: "1e6", symbol: "MPa abs", doc: "megapascal above vacuum", also: []string{"MPa(a)"}},
			{constant: "HectopascalAbsolute", expr: "1e2", symbol: "hPa abs", doc: "hectopascal or millibar, as a barometer reads", also: []string{"hPa", "mbar", "mbar abs"}},
			{constant: "InchOfMercuryAbsolute", expr: "mercury * gravity * inch", symbol: "inHg abs", doc: "conventional inch of mercury, as a barometer reads", also: []string{"inHg", "in Hg", "inHg(a)"}},
			{constant: "AtmosphereAbsolute", expr: "101325", symbol: "atm", doc: "standard atmosphere, exactly 101325 Pa"},
		},
	},
	{
		typ: "VolumeFlow", name: "volume-flow", phrase: "a flow", base: "m³/s", example: "4 gpm",
		doc: "A VolumeFlow is a volume per time, in cubic metres per second.",
		units: []unit{
			{constant: "GallonPerMinute", expr: "gallon / 60", symbol: "gpm", doc: "US gallon per minute", also: []string{"GPM", "gal/min", "US gpm"}, show: "us"},
			{constant: "LiterPerMinute", expr: "1e-3 / 60.", symbol: "L/min", doc: "litre per minute", also: []string{"lpm", "LPM"}, show: "si"},
			{constant: "CubicFootPerMinute", expr: "foot * foot * foot / 60", symbol: "cfm", doc: "cubic foot per minute, actual and not standard conditions", also: []string{"CFM", "ft³/min", "ft3/min", "ft^3/min"}},
			{constant: "CubicMeterPerHour", expr: "1. / 3600", symbol: "m³/h", doc: "cubic metre per hour"},
			{constant: "LiterPerSecond", expr: "1e-3", symbol: "L/s", doc: "litre per second"},
			{constant: "CubicMeterPerSecond", expr: "1", symbol: "m³/s", doc: "cubic metre per second"},
			{constant: "ImperialGallonPerMinute", expr: "imperialGallon / 60", symbol: "imp gpm", doc: "imperial gallon per minute", also: []string{"imp gal/min", "igpm"}},
		},
	},
	{
		typ: "MassFlow", name: "mass-flow", phrase: "a mass flow", base: "kg/s", example: "500 lb/h",
		doc: "A MassFlow is a mass per time, in kilograms per second.",
		units: []unit{
			{constant: "PoundPerHour", expr: "pound / 3600", symbol: "lb/h", doc: "avoirdupois pound per hour", also: []string{"pph"}, show: "us"},
			{constant: "PoundPerMinute", expr: "pound / 60", symbol: "lb/min", doc: "avoirdupois pound per minute"},
			{constant: "PoundPerSecond", expr: "pound", symbol: "lb/s", doc: "avoirdupois pound per second"},
			{constant: "KilogramPerHour", expr: "1. / 3600", symbol: "kg/h", doc: "kilogram per hour", show: "si"},
			{constant: "KilogramPerMinute", expr: "1. / 60", symbol: "kg/min", doc: "kilogram per minute"},
			{constant: "KilogramPerSecond", expr: "1", symbol: "kg/s", doc: "kilogram per second"},
			{constant: "GramPerSecond", expr: "1e-3", symbol: "g/s", doc: "gram per second"},
		},
	},
	{
		typ: "FuelRate", name: "fuel-rate", phrase: "a fuel rate", base: "m³/s", example: "2.5 gph",
		doc: "A FuelRate is a volume of liquid fuel per time, in cubic metres per second.\nIt is kept apart from [VolumeFlow] because the trade reads it per hour.",
		units: []unit{
			{constant: "GallonPerHour", expr: "gallon / 3600", symbol: "gph", doc: "US gallon of fuel per hour", also: []string{"GPH", "gal/h", "gal/hr"}, show: "us"},
			{constant: "LiterPerHour", expr: "1e-3 / 3600.", symbol: "L/h", doc: "litre of fuel per hour", show: "si"},
			{constant: "FuelCubicMeterPerSecond", expr: "1", symbol: "m³/s", doc: "cubic metre of fuel per second"},
		},
	},
	{
		typ: "Length", name: "length", phrase: "a length", base: "m", example: "50 ft",
		doc:   "A Length is a distance, in metres. Points on a scale of length are\n[Elevation] and [Position].",
		units: lengthUnits,
	},
	{
		typ: "Area", name: "area", phrase: "an area", base: "m²", example: "12 ft²",
		doc: "An Area is a surface or a cross-section, in square metres.",
		units: []unit{
			{constant: "SquareFoot", expr: "foot * foot", symbol: "ft²", doc: "square foot", also: []string{"sq ft"}, show: "us", least: 1},
			{constant: "SquareInch", expr: "inch * inch", symbol: "in²", doc: "square inch", also: []string{"sq in"}, show: "us"},
			{constant: "SquareMeter", expr: "1", symbol: "m²", doc: "square metre", show: "si", least: 0.1},
			{constant: "SquareMillimeter", expr: "1e-6", symbol: "mm²", doc: "square millimetre", show: "si"},
			{constant: "SquareCentimeter", expr: "1e-4", symbol: "cm²", doc: "square centimetre"},
			{constant: "CircularMil", expr: "pi / 4 * inch * inch * 1e-6", symbol: "cmil", doc: "circular mil, the area of a circle of 0.001 inch"},
			{constant: "KilocircularMil", expr: "pi / 4 * inch * inch * 1e-3", symbol: "kcmil", doc: "thousand circular mils", also: []string{"MCM"}},
		},
	},
	{
		typ: "Volume", name: "volume", phrase: "a volume", base: "m³", example: "200 gal",
		doc: "A Volume is in cubic metres.",
		units: []unit{
			{constant: "Gallon", expr: "gallon", symbol: "gal", doc: "US gallon, 231 cubic inches; not the imperial one", also: []string{"gallon", "gallons", "US gal"}, show: "us", least: 0.1},
			{constant: "FluidOunce", expr: "gallon / 128", symbol: "fl oz", doc: "US fluid ounce, a 128th of a US gallon", show: "us"},
			{constant: "Quart", expr: "gallon / 4", symbol: "qt", doc: "US liquid quart"},
			{constant: "Liter", expr: "1e-3", symbol: "L", doc: "litre", also: []string{"liter", "liters", "litre", "litres"}, show: "si", least: 0.1},
			{constant: "Milliliter", expr: "1e-6", symbol: "mL", doc: "millilitre", also: []string{"cc", "cm³", "cm3", "cm^3"}, show: "si"},
			{constant: "CubicMeter", expr: "1", symbol: "m³", doc: "cubic metre"},
			{constant: "CubicFoot", expr: "foot * foot * foot", symbol: "ft³", doc: "cubic foot", also: []string{"cu ft"}},
			{constant: "CubicInch", expr: "inch * inch * inch", symbol: "in³", doc: "cubic inch", also: []string{"cu in"}},
			{constant: "ImperialGallon", expr: "imperialGallon", symbol: "imp gal", doc: "imperial gallon, exactly 4.54609 L", also: []string{"gal(imp)"}},
		},
	},
	{
		typ: "Mass", name: "mass", phrase: "a mass", base: "kg", example: "3500 lb",
		doc: "A Mass is in kilograms. Scale weights, tongue weights and ratings of axles\nare masses; [Force] is kept for thrust.",
		units: []unit{
			{constant: "Pound", expr: "pound", symbol: "lb", doc: "avoirdupois pound", also: []string{"lbs", "lbm", "pound", "pounds"}, show: "us"},
			{constant: "Kilogram", expr: "1", symbol: "kg", doc: "kilogram", show: "si", least: 0.1},
			{constant: "Gram", expr: "1e-3", symbol: "g", doc: "gram", show: "si"},
			{constant: "Ounce", expr: "pound / 16", symbol: "oz", doc: "avoirdupois ounce"},
		},
	},
	{
		typ: "MassPerLength", name: "mass-per-length", phrase: "a mass per length", base: "kg/m", example: "0.35 lb/ft",
		doc: "A MassPerLength is the mass of a length of hose, pipe or beam, in kilograms\nper metre.",
		units: []unit{
			{constant: "PoundPerFoot", expr: "pound / foot", symbol: "lb/ft", doc: "avoirdupois pound per foot", show: "us"},
			{constant: "KilogramPerMeter", expr: "1", symbol: "kg/m", doc: "kilogram per metre", show: "si"},
		},
	},
	{
		typ: "Density", name: "density", phrase: "a density", base: "kg/m³", example: "8.34 lb/gal",
		doc: "A Density is a mass per volume, in kilograms per cubic metre.",
		units: []unit{
			{constant: "PoundPerGallon", expr: "pound / gallon", symbol: "lb/gal", doc: "avoirdupois pound per US gallon", also: []string{"ppg"}, show: "us"},
			{constant: "PoundPerCubicFoot", expr: "pound / (foot * foot * foot)", symbol: "lb/ft³", doc: "avoirdupois pound per cubic foot", also: []string{"lb/cu ft"}},
			{constant: "KilogramPerCubicMeter", expr: "1", symbol: "kg/m³", doc: "kilogram per cubic metre", show: "si"},
			{constant: "KilogramPerLiter", expr: "1e3", symbol: "kg/L", doc: "kilogram per litre, the same as gram per millilitre", also: []string{"g/mL", "g/cm³", "g/cm3", "g/cm^3"}},
		},
	},
	{
		typ: "DynamicViscosity", name: "dynamic-viscosity", phrase: "a dynamic viscosity", base: "Pa·s", example: "1 cP",
		doc: "A DynamicViscosity is in pascal seconds.",
		units: []unit{
			{constant: "Centipoise", expr: "1e-3", symbol: "cP", doc: "centipoise, one millipascal second", also: []string{"mPa·s", "mPa*s", "mPa-s", "mPa s"}, show: "us si"},
			{constant: "PascalSecond", expr: "1", symbol: "Pa·s", doc: "pascal second"},
			{constant: "PoundPerFootSecond", expr: "pound / foot", symbol: "lb/(ft·s)", doc: "avoirdupois pound per foot second"},
		},
	},
	{
		typ: "KinematicViscosity", name: "kinematic-viscosity", phrase: "a kinematic viscosity", base: "m²/s", example: "1 cSt",
		doc: "A KinematicViscosity is dynamic viscosity over density, in square metres per\nsecond.",
		units: []unit{
			{constant: "Centistokes", expr: "1e-6", symbol: "cSt", doc: "centistokes, one square millimetre per second", also: []string{"mm²/s", "mm2/s", "mm^2/s"}, show: "us si"},
			{constant: "SquareMeterPerSecond", expr: "1", symbol: "m²/s", doc: "square metre per second"},
			{constant: "SquareFootPerSecond", expr: "foot * foot", symbol: "ft²/s", doc: "square foot per second"},
		},
	},
	{
		typ: "Force", name: "force", phrase: "a force", base: "N", example: "12 lbf",
		doc: "A Force is in newtons.",
		units: []unit{
			{constant: "PoundForce", expr: "poundForce", symbol: "lbf", doc: "avoirdupois pound under standard gravity", show: "us"},
			{constant: "Newton", expr: "1", symbol: "N", doc: "newton", show: "si"},
			{constant: "Kilonewton", expr: "1e3", symbol: "kN", doc: "kilonewton", least: 1},
			{constant: "KilogramForce", expr: "gravity", symbol: "kgf", doc: "kilogram under standard gravity"},
		},
	},
	{
		typ: "Moment", name: "moment", phrase: "a moment", base: "N·m", example: "40 ft·lbf",
		doc: "A Moment is a torque or a moment about an axle, in newton metres.",
		units: []unit{
			{constant: "FootPoundForce", expr: "foot * poundForce", symbol: "ft·lbf", doc: "foot pound-force", also: []string{"lbf·ft", "lbf-ft", "ft-lb", "lb-ft", "ft·lb", "lb·ft"}, show: "us"},
			{constant: "InchPoundForce", expr: "inch * poundForce", symbol: "in·lbf", doc: "inch pound-force", also: []string{"lbf·in", "lbf-in", "in-lb", "lb-in"}},
			{constant: "NewtonMeter", expr: "1", symbol: "N·m", doc: "newton metre", also: []string{"Nm"}, show: "si"},
			{constant: "KilonewtonMeter", expr: "1e3", symbol: "kN·m", doc: "kilonewton metre", also: []string{"kNm"}, least: 1},
		},
	},
	{
		typ: "Power", name: "power", phrase: "a power", base: "W", example: "16 hp",
		doc: "A Power is work or heat per time, in watts.",
		units: []unit{
			{constant: "Horsepower", expr: "550 * foot * poundForce", symbol: "hp", doc: "mechanical horsepower, 550 foot pounds-force per second", also: []string{"HP", "bhp", "BHP"}, show: "us"},
			{constant: "Kilowatt", expr: "1e3", symbol: "kW", doc: "kilowatt", show: "si", least: 10},
			{constant: "Watt", expr: "1", symbol: "W", doc: "watt", also: []string{"watt", "watts"}, show: "si"},
			{constant: "BTUPerHour", expr: "btu / 3600", symbol: "BTU/h", doc: "International Table BTU per hour", also: []string{"BTUH", "Btuh"}},
			{constant: "MetricHorsepower", expr: "75 * gravity", symbol: "hp(metric)", doc: "metric horsepower, 75 kilogram-force metres per second", also: []string{"PS"}},
			{constant: "ElectricHorsepower", expr: "746", symbol: "hp(electric)", doc: "electric horsepower, 746 W, the plate value of motors"},
			{constant: "BoilerHorsepower", expr: "9809.5", symbol: "hp(boiler)", doc: "boiler horsepower as NIST SP 811 rounds it"},
		},
	},
	{
		typ: "ApparentPower", name: "apparent-power", phrase: "an apparent power", base: "VA", example: "7000 VA",
		doc: "An ApparentPower is volts times amperes, in volt-amperes.",
		units: []unit{
			{constant: "VoltAmpere", expr: "1", symbol: "VA", doc: "volt-ampere", show: "us si"},
			{constant: "KilovoltAmpere", expr: "1e3", symbol: "kVA", doc: "kilovolt-ampere"},
		},
	},
	{
		typ: "Energy", name: "energy", phrase: "an energy", base: "J", example: "5 kWh",
		doc: "An Energy is in joules.",
		units: []unit{
			{constant: "BTU", expr: "btu", symbol: "BTU", doc: "International Table British thermal unit", show: "us"},
			{constant: "KilowattHour", expr: "3.6e6", symbol: "kWh", doc: "kilowatt hour", also: []string{"kW·h"}},
			{constant: "WattHour", expr: "3600", symbol: "Wh", doc: "watt hour", also: []string{"W·h"}},
			{constant: "Megajoule", expr: "1e6", symbol: "MJ", doc: "megajoule", show: "si", least: 1},
			{constant: "Kilojoule", expr: "1e3", symbol: "kJ", doc: "kilojoule", show: "si", least: 1},
			{constant: "Joule", expr: "1", symbol: "J", doc: "joule", show: "si"},
		},
	},
	{
		typ: "HeatingValueByVolume", name: "heating-value-by-volume", phrase: "a heating value by volume", base: "J/m³", example: "137000 BTU/gal",
		doc: "A HeatingValueByVolume is the heat of combustion of a volume of fuel, in\njoules per cubic metre.",
		units: []unit{
			{constant: "BTUPerGallon", expr: "btu / gallon", symbol: "BTU/gal", doc: "International Table BTU per US gallon", show: "us"},
			{constant: "BTUPerCubicFoot", expr: "btu / (foot * foot * foot)", symbol: "BTU/ft³", doc: "International Table BTU per cubic foot"},
			{constant: "MegajoulePerLiter", expr: "1e9", symbol: "MJ/L", doc: "megajoule per litre", show: "si", least: 0.1},
			{constant: "MegajoulePerCubicMeter", expr: "1e6", symbol: "MJ/m³", doc: "megajoule per cubic metre", show: "si", least: 0.1},
			{constant: "JoulePerCubicMeter", expr: "1", symbol: "J/m³", doc: "joule per cubic metre", show: "si"},
		},
	},
	{
		typ: "HeatingValueByMass", name: "heating-value-by-mass", phrase: "a heating value by mass", base: "J/kg", example: "18500 BTU/lb",
		doc: "A HeatingValueByMass is the heat of combustion of a mass of fuel, in joules\nper kilogram.",
		units: []unit{
			{constant: "BTUPerPound", expr: "btu / pound", symbol: "BTU/lb", doc: "International Table BTU per pound of fuel", show: "us"},
			{constant: "MegajoulePerKilogram", expr: "1e6", symbol: "MJ/kg", doc: "megajoule per kilogram of fuel", show: "si", least: 0.1},
			{constant: "FuelKilojoulePerKilogram", expr: "1e3", symbol: "kJ/kg", doc: "kilojoule per kilogram of fuel", show: "si"},
			{constant: "FuelJoulePerKilogram", expr: "1", symbol: "J/kg", doc: "joule per kilogram of fuel"},
			{constant: "KilowattHourPerKilogram", expr: "3.6e6", symbol: "kWh/kg", doc: "kilowatt hour per kilogram of fuel"},
		},
	},
	{
		typ: "SpecificEnthalpy", name: "specific-enthalpy", phrase: "a specific enthalpy", base: "J/kg", example: "148 BTU/lb",
		doc: "A SpecificEnthalpy is heat content per mass, in joules per kilogram.",
		units: []unit{
			{constant: "EnthalpyBTUPerPound", expr: "btu / pound", symbol: "BTU/lb", doc: "International Table BTU per pound", show: "us"},
			{constant: "KilojoulePerKilogram", expr: "1e3", symbol: "kJ/kg", doc: "kilojoule per kilogram", show: "si"},
			{constant: "JoulePerKilogram", expr: "1", symbol: "J/kg", doc: "joule per kilogram"},
		},
	},
	{
		typ: "SpecificHeat", name: "specific-heat", phrase: "a specific heat", base: "J/(kg·K)", example: "1 BTU/(lb·°F)",
		doc: "A SpecificHeat is heat capacity per mass, in joules per kilogram kelvin.",
		units: []unit{
			{constant: "BTUPerPoundFahrenheit", expr: "btu / pound * 9 / 5", symbol: "BTU/(lb·°F)", doc: "International Table BTU per pound and degree Fahrenheit", show: "us"},
			{constant: "KilojoulePerKilogramKelvin", expr: "1e3", symbol: "kJ/(kg·K)", doc: "kilojoule per kilogram kelvin", show: "si"},
			{constant: "JoulePerKilogramKelvin", expr: "1", symbol: "J/(kg·K)", doc: "joule per kilogram kelvin"},
		},
	},
	{
		typ: "SpecificFuelConsumption", name: "specific-fuel-consumption", phrase: "a specific fuel consumption", base: "kg/J", example: "0.5 lb/(hp·h)",
		doc: "A SpecificFuelConsumption is fuel mass per shaft work, in kilograms per joule.",
		units: []unit{
			{constant: "PoundPerHorsepowerHour", expr: "pound / (550 * foot * poundForce * 3600)", symbol: "lb/(hp·h)", doc: "pound of fuel per mechanical horsepower hour", also: []string{"lb/hp-hr"}, show: "us"},
			{constant: "GramPerKilowattHour", expr: "1. / 3.6e9", symbol: "g/kWh", doc: "gram of fuel per kilowatt hour", also: []string{"g/(kW·h)"}, show: "si"},
			{constant: "KilogramPerJoule", expr: "1", symbol: "kg/J", doc: "kilogram of fuel per joule"},
		},
	},
	{
		typ: "TemperatureDelta", name: "temperature-difference", phrase: "a temperature difference", base: "K", example: "100 °F",
		doc: "A TemperatureDelta is a rise or a drop, in kelvins. A [Temperature] is a\npoint on the scale.",
		units: []unit{
			{constant: "FahrenheitDelta", expr: "5. / 9", symbol: "°F", doc: "difference of one degree Fahrenheit", also: []string{"F", "°R", "R"}, show: "us"},
			{constant: "KelvinDelta", expr: "1", symbol: "K", doc: "difference of one kelvin, the same as one degree Celsius", also: []string{"°C", "degC", "C"}, show: "si"},
		},
	},
	{
		typ: "Velocity", name: "velocity", phrase: "a velocity", base: "m/s", example: "6 ft/s",
		doc: "A Velocity is in metres per second.",
		units: []unit{
			{constant: "FootPerSecond", expr: "foot", symbol: "ft/s", doc: "foot per second", also: []string{"fps"}, show: "us"},
			{constant: "FootPerMinute", expr: "foot / 60", symbol: "ft/min", doc: "foot per minute", also: []string{"fpm"}},
			{constant: "MilePerHour", expr: "5280 * foot / 3600", symbol: "mph", doc: "mile per hour", also: []string{"MPH", "mi/h"}},
			{constant: "MeterPerSecond", expr: "1", symbol: "m/s", doc: "metre per second", show: "si"},
			{constant: "KilometerPerHour", expr: "1. / 3.6", symbol: "km/h", doc: "kilometre per hour", also: []string{"kph"}},
		},
	},
	{
		typ: "RotationalSpeed", name: "rotational-speed", phrase: "a rotational speed", base: "rad/s", example: "1450 rpm",
		doc: "A RotationalSpeed is in radians per second.",
		units: []unit{
			{constant: "RPM", expr: "2 * pi / 60", symbol: "rpm", doc: "revolution per minute", also: []string{"RPM", "r/min", "rev/min"}, show: "us si"},
			{constant: "RadianPerSecond", expr: "1", symbol: "rad/s", doc: "radian per second"},
			{constant: "RevolutionPerSecond", expr: "2 * pi", symbol: "r/s", doc: "revolution per second", also: []string{"rps", "rev/s"}},
		},
	},
	{
		typ: "Frequency", name: "frequency", phrase: "a frequency", base: "Hz", example: "60 Hz",
		doc: "A Frequency is in hertz.",
		units: []unit{
			{constant: "Hertz", expr: "1", symbol: "Hz", doc: "hertz", also: []string{"hz"}, show: "us si"},
			{constant: "Kilohertz", expr: "1e3", symbol: "kHz", doc: "kilohertz"},
		},
	},
	{
		typ: "Voltage", name: "voltage", phrase: "a voltage", base: "V", example: "240 V",
		doc: "A Voltage is in volts.",
		units: []unit{
			{constant: "Volt", expr: "1", symbol: "V", doc: "volt", also: []string{"volt", "volts"}, show: "us si"},
			{constant: "Millivolt", expr: "1e-3", symbol: "mV", doc: "millivolt"},
			{constant: "Kilovolt", expr: "1e3", symbol: "kV", doc: "kilovolt"},
		},
	},
	{
		typ: "Current", name: "current", phrase: "a current", base: "A", example: "15 A",
		doc: "A Current is in amperes.",
		units: []unit{
			{constant: "Ampere", expr: "1", symbol: "A", doc: "ampere", also: []string{"amp", "amps"}, show: "us si", least: 0.1},
			{constant: "Milliampere", expr: "1e-3", symbol: "mA", doc: "milliampere", show: "us si"},
		},
	},
	{
		typ: "Resistance", name: "resistance", phrase: "a resistance", base: "Ω", example: "0.5 Ω",
		doc: "A Resistance is an electrical resistance or reactance, in ohms.",
		units: []unit{
			{constant: "Ohm", expr: "1", symbol: "Ω", doc: "ohm", also: []string{"ohms"}, show: "us si", least: 0.1},
			{constant: "Milliohm", expr: "1e-3", symbol: "mΩ", doc: "milliohm", show: "us si"},
			{constant: "Kilohm", expr: "1e3", symbol: "kΩ", doc: "kilohm"},
		},
	},
	{
		typ: "ResistancePerLength", name: "resistance-per-length", phrase: "a resistance per length", base: "Ω/m", example: "1.24 Ω/kft",
		doc: "A ResistancePerLength is the resistance of a length of conductor, in ohms per\nmetre.",
		units: []unit{
			{constant: "OhmPerKilofoot", expr: "1 / (1000 * foot)", symbol: "Ω/kft", doc: "ohm per thousand feet", show: "us"},
			{constant: "OhmPerKilometer", expr: "1e-3", symbol: "Ω/km", doc: "ohm per kilometre", show: "si"},
			{constant: "OhmPerMeter", expr: "1", symbol: "Ω/m", doc: "ohm per metre"},
		},
	},
	{
		typ: "Charge", name: "charge", phrase: "a charge", base: "C", example: "100 A·h",
		doc: "A Charge is an electric charge, the capacity of a battery, in coulombs.",
		units: []unit{
			{constant: "AmpereHour", expr: "3600", symbol: "A·h", doc: "ampere hour", also: []string{"Ah", "AH"}, show: "us si"},
			{constant: "Coulomb", expr: "1", symbol: "C", doc: "coulomb", also: []string{"A·s"}},
		},
	},
	{
		typ: "Angle", name: "angle", phrase: "an angle", base: "rad", example: "25 °",
		doc: "An Angle is a plane angle, in radians.",
		units: []unit{
			{constant: "Degree", expr: "pi / 180", symbol: "°", doc: "degree, a 360th of a turn", also: []string{"degree", "degrees"}, show: "us si"},
			{constant: "Radian", expr: "1", symbol: "rad", doc: "radian"},
		},
	},
	{
		typ: "Duration", name: "duration", phrase: "a duration", base: "s", example: "6 h",
		doc: "A Duration is a length of time, in seconds. It is written \"6 h\" or \"90 s\",\nwhich [time.Duration] cannot be.",
		units: []unit{
			{constant: "Hour", expr: "3600", symbol: "h", doc: "hour", also: []string{"hr", "hour", "hours"}, show: "us si", least: 1},
			{constant: "Minute", expr: "60", symbol: "min", doc: "minute", also: []string{"minute", "minutes"}, show: "us si", least: 1},
			{constant: "Second", expr: "1", symbol: "s", doc: "second", also: []string{"sec", "second", "seconds"}, show: "us si"},
			{constant: "Millisecond", expr: "1e-3", symbol: "ms", doc: "millisecond"},
			{constant: "Day", expr: "86400", symbol: "d", doc: "24 hours exactly; not a calendar day", also: []string{"day", "days"}, least: 1},
		},
	},
	{
		typ: "Acceleration", name: "acceleration", phrase: "an acceleration", base: "m/s²", example: "32.2 ft/s²",
		doc: "An Acceleration is in metres per second squared.",
		units: []unit{
			{constant: "FootPerSecondSquared", expr: "foot", symbol: "ft/s²", doc: "foot per second squared", show: "us"},
			{constant: "MeterPerSecondSquared", expr: "1", symbol: "m/s²", doc: "metre per second squared", show: "si"},
			{constant: "StandardGravity", expr: "gravity", symbol: "g", doc: "standard gravity, exactly 9.80665 m/s²"},
		},
	},
	{
		typ: "ThermalConductance", name: "thermal-conductance", phrase: "a thermal conductance", base: "W/K", example: "20 BTU/(h·°F)",
		doc: "A ThermalConductance is heat flow per temperature difference, in watts per\nkelvin.",
		units: []unit{
			{constant: "BTUPerHourFahrenheit", expr: "btu / 3600 * 9 / 5", symbol: "BTU/(h·°F)", doc: "International Table BTU per hour and degree Fahrenheit", show: "us"},
			{constant: "WattPerKelvin", expr: "1", symbol: "W/K", doc: "watt per kelvin", also: []string{"W/°C"}, show: "si"},
		},
	},
	{
		typ: "ThermalConductivity", name: "thermal-conductivity", phrase: "a thermal conductivity", base: "W/(m·K)", example: "0.25 W/(m·K)",
		doc: "A ThermalConductivity is in watts per metre kelvin.",
		units: []unit{
			{constant: "BTUPerHourFootFahrenheit", expr: "btu / 3600 / foot * 9 / 5", symbol: "BTU/(h·ft·°F)", doc: "International Table BTU per hour, foot and degree Fahrenheit", show: "us"},
			{constant: "BTUInchPerHourSquareFootFahrenheit", expr: "btu / 3600 * inch / (foot * foot) * 9 / 5", symbol: "BTU·in/(h·ft²·°F)", doc: "International Table BTU inch per hour, square foot and degree Fahrenheit"},
			{constant: "WattPerMeterKelvin", expr: "1", symbol: "W/(m·K)", doc: "watt per metre kelvin", show: "si"},
		},
	},
	{
		typ: "HeatTransferCoefficient", name: "heat-transfer-coefficient", phrase: "a heat transfer coefficient", base: "W/(m²·K)", example: "2 BTU/(h·ft²·°F)",
		doc: "A HeatTransferCoefficient is in watts per square metre kelvin.",
		units: []unit{
			{constant: "BTUPerHourSquareFootFahrenheit", expr: "btu / 3600 / (foot * foot) * 9 / 5", symbol: "BTU/(h·ft²·°F)", doc: "International Table BTU per hour, square foot and degree Fahrenheit", show: "us"},
			{constant: "WattPerSquareMeterKelvin", expr: "1", symbol: "W/(m²·K)", doc: "watt per square metre kelvin", show: "si"},
		},
	},
	{
		typ: "SurfaceTension", name: "surface-tension", phrase: "a surface tension", base: "N/m", example: "72.7 mN/m",
		doc: "A SurfaceTension is in newtons per metre.",
		units: []unit{
			{constant: "PoundForcePerFoot", expr: "poundForce / foot", symbol: "lbf/ft", doc: "pound-force per foot"},
			{constant: "MillinewtonPerMeter", expr: "1e-3", symbol: "mN/m", doc: "millinewton per metre, one dyne per centimetre", also: []string{"dyn/cm"}, show: "us si"},
			{constant: "NewtonPerMeter", expr: "1", symbol: "N/m", doc: "newton per metre"},
		},
	},
	{
		typ: "Ratio", name: "ratio", phrase: "a ratio", base: "", example: "88 %",
		doc: "A Ratio is a dimensionless share or quotient: an efficiency, a duty, a belt\nratio. \"88 %\" and \"0.88\" are the same Ratio.",
		units: []unit{
			{constant: "Percent", expr: "1e-2", symbol: "%", doc: "hundredth", also: []string{"percent", "pct"}, show: "us si", most: 100},
			{constant: "Whole", expr: "1", symbol: "", doc: "one", show: "us si"},
		},
	},
	{
		typ: "NozzleNumber", name: "nozzle-number", phrase: "a nozzle number", base: "", example: "4.5",
		doc: "A NozzleNumber is the trade's number of a spray tip: the flow of water in US\ngallons per minute at 4000 psi. It is written without a unit.",
		units: []unit{
			{constant: "Nozzle", expr: "1", symbol: "", doc: "nozzle number one, 1 US gallon per minute at 4000 psi", show: "us si"},
		},
	},
	{
		typ: "Temperature", name: "temperature", phrase: "a temperature", base: "K", example: "180 °F", point: true,
		units: []unit{
			{expr: "5. / 9", offset: "459.67", symbol: "°F", also: []string{"F"}, show: "us"},
			{expr: "1", offset: "273.15", symbol: "°C", also: []string{"C"}, show: "si"},
			{expr: "1", offset: "0", symbol: "K"},
		},
	},
	{
		typ: "Elevation", name: "elevation", phrase: "an elevation", base: "m", example: "5280 ft", point: true,
		units: func() []unit {
			u := points("ft", "m", "km")
			u[0].least, u[1].least = 0, 0
			return u
		}(),
	},
	{
		typ: "Position", name: "position", phrase: "a position", base: "m", example: "96 in", point: true,
		units: func() []unit {
			u := points("in", "ft", "m", "mm", "cm")
			u[1].show = "" // positions are printed in inches throughout
			u[2].least, u[3].show = 0, ""
			return u
		}(),
	},
}
