// Package units gives every quantity a type, so that a pressure cannot be taken
// for a flow or 60 for 60 °C, and reads and writes quantities as people type
// them: "3500 psi", "6 1/2 gpm", "180 °F".
//
// A quantity is a defined float64 in its SI base unit, made by multiplying with
// a constant and read with In:
//
//	p := 3500 * units.PSI            // a Pressure
//	bar := p.In(units.Bar)           // 241.3…
//	q := units.VolumeFlow(x) * units.GallonPerMinute // x is a variable
//	p, err := units.ParsePressure("241.3 bar")
//	s := p.Text(units.PSI, 0)        // "3500 psi"
//
// A plain number assigned to a quantity counts in the base unit, as an untyped
// constant given to [time.Sleep] counts in nanoseconds; the range checks of
// the packages that take quantities are what catches it. Do not multiply or
// divide two quantities: convert with In or float64 first. The unit given to In
// is one of the constants, and never zero.
//
// [Temperature], [Elevation] and [Position] are points on a scale whose zero is
// real. They are structs that know whether they were given, and their zero
// value was not. [TemperatureDelta] and [Length] are the differences between
// them. Everywhere else zero is an ordinary value, and the type that uses a
// quantity says whether it means "not given".
//
// # Conventions
//
// [Pressure] is a difference or a gauge pressure; [AbsolutePressure] counts from
// vacuum. [VolumeFlow] is at the conditions of the place, never at standard
// ones. A scale weight is a [Mass]. [FuelRate] is kept from VolumeFlow because
// it is read by the hour. Elevations are geopotential heights.
//
// Conversion factors are exact constant expressions of the definitions: the
// international foot and pound of 1959, standard gravity, the US gallon of 231
// cubic inches, the International Table BTU (2326 J/kg is 1 BTU/lb). A column
// of water or mercury without a temperature in its name is the conventional
// one, of 1000 or 13595.1 kg/m³ under standard gravity; the columns at 39.2 °F
// and 60 °F (water), 32 °F and 60 °F (mercury) are separate units, with the
// figures that NIST SP 811 rounds.
//
// # Text that is read
//
// A text is one number and one unit. The number has a decimal point, may have
// an exponent, and has no thousands separator; positive numbers may be shop
// fractions (3/8, 6 1/2, 1-1/2). Space between number and unit may be left out.
// [Unit.Spellings] is the closed list of spellings: upper and lower case are
// distinct, as mW and MW must be, and each symbol has a spelling in ASCII. A
// number without a unit is an error that offers two likely units, and a unit
// of another dimension is an error that names it; the plain numbers [Ratio]
// and [NozzleNumber] are the exception. [Duration] is "6 h" or "90 s", not the
// compound text of [time.ParseDuration].
//
// What is read as something else elsewhere is decided once:
//
//   - gal, gpm, gph, qt, fl oz are US; the imperial gallon is "imp gal", "imp gpm"
//   - hp is 550 ft·lbf/s; the others are "hp(metric)" or "PS", "hp(electric)" of
//     746 W, and "hp(boiler)"
//   - psi, psig and bar are a Pressure, psia and "bar abs" an AbsolutePressure,
//     and neither is taken for the other; inHg, hPa and mbar, which barometers
//     show, are taken for either
//   - C is degree Celsius for a Temperature or a TemperatureDelta and coulomb
//     for a [Charge]; F is degree Fahrenheit; ° alone is an [Angle]
//   - g is gram for a Mass and standard gravity for an [Acceleration]
//   - oz is a mass, "fl oz" a volume; lb is a mass, lbf a [Force]; ft-lb is a
//     [Moment]
//   - BTU is the International Table one; cfm is actual cubic feet per minute;
//     a day is 24 hours
//
// # Text that is written
//
// MarshalText, and with it encoding/json, is exact: reading the text gives the
// same bits. Among the units of the kind the one is taken that needs the
// fewest significant digits, the first of [Kind.Units] on a tie, which is the
// trade's own; some units are not written below or above a size, so that 528 ft
// does not become 0.1 mi. What was typed comes back as typed unless another
// unit says the same with fewer digits: 3500 psi stays 3500 psi, 120 min is
// written 2 h. NaN and infinities are errors.
//
// A text in a decimal unit such as bar or mm is read as one decimal number of
// the base unit, correctly rounded. A text in any other unit is read as the
// number times the constant, each rounded, so that it has the bits of the same
// product in Go: ParsePressure("3500 psi") == 3500*PSI. The last bit of "12 in"
// and of "1 ft" may differ.
//
// String is for logs: SI, at most six significant digits. Text(unit, prec)
// prints in one unit with prec decimals, or with as many as are of use if prec
// is negative, and never with more than six significant digits; a unit that is
// not one of the constants falls back to the SI unit of the kind.
// [Quantity.Text] chooses the unit for a [System]. [FormatNumber] and
// [Decimals] help with other numbers. No package variable switches a format.
//
// A [Quantity] carries its [Kind] along, for tables of results and for decoders
// that work by reflection; its JSON is {"kind":"pressure","value":3500,"unit":"psi"}.
//
// # Errors
//
// Bad input is a [*FieldError], which wraps one of [ErrMissing], [ErrRange],
// [ErrConflict] and [ErrSyntax]; [At] puts the path of the owner in front of
// it. A solver without an answer returns a [*SolverError].
//
// # Sizes and sources
//
//	SteelPipe   bore of schedule 40 and 80 pipe      ASME B36.10M, Table 1
//	HoseBore    bore of rubber hose                  ISO 1307:2006, Table 1
//	AWG         diameter and area of wire            ASTM B258
//	constants   exact definitions                    NIST SP 811, NIST Handbook 44 Appendix C
//
// All functions are safe for concurrent use.
package units
