package units_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"example.com/washrig/units"
	"gonum.org/v1/gonum/unit"
)

// SI units by the dimensions that gonum gives them.
var coherent = map[string]unit.Dimensions{
	"Pa": unit.Pressure(1).Unit().Dimensions(),
	"N":  unit.Force(1).Unit().Dimensions(),
	"J":  unit.Energy(1).Unit().Dimensions(),
	"W":  unit.Power(1).Unit().Dimensions(),
	"V":  unit.Voltage(1).Unit().Dimensions(),
	"A":  unit.Current(1).Unit().Dimensions(),
	"Ω":  unit.Resistance(1).Unit().Dimensions(),
	"C":  unit.Charge(1).Unit().Dimensions(),
	"Hz": unit.Frequency(1).Unit().Dimensions(),
	"kg": unit.Mass(1).Unit().Dimensions(),
	"m":  unit.Length(1).Unit().Dimensions(),
	"s":  unit.Time(1).Unit().Dimensions(),
	"K":  unit.Temperature(1).Unit().Dimensions(),
	// Angles have a dimension in gonum, which physics does not follow.
	"rad": {},
}

// times returns a·bⁿ.
func times(a, b unit.Dimensions, n int) unit.Dimensions {
	out := unit.Dimensions{}
	for d, e := range a {
		out[d] += e
	}
	for d, e := range b {
		out[d] += e * n
	}
	for d, e := range out {
		if e == 0 {
			delete(out, d)
		}
	}
	return out
}

// dimensions reads a symbol such as "W/(m²·K)" in coherent SI units.
func dimensions(symbol string) (unit.Dimensions, error) {
	out := unit.Dimensions{}
	sign := 1
	fields := strings.FieldsFunc(strings.TrimSuffix(strings.ReplaceAll(symbol, "/", "·/"), " abs"), func(r rune) bool { return r == '·' })
	for _, f := range fields {
		if rest, ok := strings.CutPrefix(f, "/"); ok {
			f, sign = rest, -1
		}
		f = strings.Trim(f, "()")
		power := 1
		for text, p := range map[string]int{"²": 2, "³": 3} {
			if rest, ok := strings.CutSuffix(f, text); ok {
				f, power = rest, p
			}
		}
		if f == "VA" {
			f = "W"
		}
		d, ok := coherent[f]
		if !ok {
			return nil, fmt.Errorf("%q in %q is no coherent unit of SI", f, symbol)
		}
		out = times(out, d, sign*power)
	}
	return out, nil
}

// Each kind is the product of other kinds that physics makes it, in dimensions
// that come from gonum and from the symbol of the base unit.
func TestDimensions(t *testing.T) {
	of := map[string]unit.Dimensions{}
	for _, k := range units.Kinds() {
		d, err := dimensions(k.Base())
		if err != nil {
			t.Fatal(err)
		}
		of[goName(k)] = d

		// The base unit is in the table, with the factor one.
		if u, ok := k.UnitOf(k.Base()); !ok || u.Factor() != 1 || u.Offset() != 0 {
			t.Errorf("%v: the base unit %q is %+v, %v", k, k.Base(), u, ok)
		}
	}
	for name, d := range map[string]unit.Dimensions{
		"Pressure": unit.Pressure(1).Unit().Dimensions(), "AbsolutePressure": unit.Pressure(1).Unit().Dimensions(),
		"Length": unit.Length(1).Unit().Dimensions(), "Elevation": unit.Length(1).Unit().Dimensions(), "Position": unit.Length(1).Unit().Dimensions(),
		"Area": unit.Area(1).Unit().Dimensions(), "Volume": unit.Volume(1).Unit().Dimensions(), "Mass": unit.Mass(1).Unit().Dimensions(),
		"Force": unit.Force(1).Unit().Dimensions(), "Moment": unit.Torque(1).Unit().Dimensions(), "Power": unit.Power(1).Unit().Dimensions(),
		"Energy": unit.Energy(1).Unit().Dimensions(), "Velocity": unit.Velocity(1).Unit().Dimensions(), "Frequency": unit.Frequency(1).Unit().Dimensions(),
		"Voltage": unit.Voltage(1).Unit().Dimensions(), "Current": unit.Current(1).Unit().Dimensions(), "Resistance": unit.Resistance(1).Unit().Dimensions(),
		"Charge": unit.Charge(1).Unit().Dimensions(), "Acceleration": unit.Acceleration(1).Unit().Dimensions(), "Temperature": unit.Temperature(1).Unit().Dimensions(),
		"Duration": unit.Time(1).Unit().Dimensions(),
	} {
		if !unit.DimensionsMatch(unit.New(1, of[name]), unit.New(1, d)) {
			t.Errorf("%s has the dimensions %v, gonum has %v", name, of[name], d)
		}
		delete(of, name)
		of["gonum "+name] = d
	}

	// The rest, from those that gonum has.
	for name, formula := range map[string]string{
		"VolumeFlow":              "Volume / Duration",
		"FuelRate":                "Volume / Duration",
		"MassFlow":                "Mass / Duration",
		"MassPerLength":           "Mass / Length",
		"Density":                 "Mass / Volume",
		"DynamicViscosity":        "Pressure Duration",
		"KinematicViscosity":      "Area / Duration",
		"ApparentPower":           "Voltage Current",
		"HeatingValueByVolume":    "Energy / Volume",
		"HeatingValueByMass":      "Energy / Mass",
		"SpecificEnthalpy":        "Energy / Mass",
		"SpecificHeat":            "Energy / Mass Temperature",
		"SpecificFuelConsumption": "Mass / Energy",
		"TemperatureDelta":        "Temperature",
		"RotationalSpeed":         "Frequency",
		"ResistancePerLength":     "Resistance / Length",
		"Angle":                   "Length / Length",
		"ThermalConductance":      "Power / Temperature",
		"ThermalConductivity":     "Power / Length Temperature",
		"HeatTransferCoefficient": "Power / Area Temperature",
		"SurfaceTension":          "Force / Length",
		"Ratio":                   "Mass / Mass",
		"NozzleNumber":            "Mass / Mass",
	} {
		want, sign := unit.Dimensions{}, 1
		for word := range strings.FieldsSeq(formula) {
			if word == "/" {
				sign = -1
				continue
			}
			want = times(want, of["gonum "+word], sign)
		}
		if got := of[name]; !unit.DimensionsMatch(unit.New(1, got), unit.New(1, want)) {
			t.Errorf("%s has the dimensions %v, %s has %v", name, got, formula, want)
		}
		delete(of, name)
	}
	for name := range of {
		if !strings.HasPrefix(name, "gonum ") {
			t.Errorf("%s is not compared with anything", name)
		}
	}
}

// A decimal unit agrees with the prefix in its symbol.
func TestPrefixes(t *testing.T) {
	prefixes := map[string]int{"µ": -6, "m": -3, "c": -2, "h": 2, "k": 3, "M": 6, "G": 9}
	checked := 0
	for _, k := range units.Kinds() {
		base := strings.TrimSuffix(k.Base(), " abs")
		for _, u := range k.Units() {
			symbol := strings.TrimSuffix(u.Symbol(), " abs")
			for prefix, exp := range prefixes {
				rest, ok := strings.CutPrefix(symbol, prefix)
				if !ok || rest != base || strings.IndexFunc(base, unicode.IsLetter) != 0 {
					continue
				}
				power := 1
				switch base {
				case "m²":
					power = 2
				case "m³":
					power = 3
				}
				want, err := strconv.ParseFloat(fmt.Sprintf("1e%d", exp*power), 64)
				if err != nil {
					t.Fatal(err)
				}
				if u.Factor() != want {
					t.Errorf("%v: %s has the factor %v", k, u.Symbol(), u.Factor())
				}
				checked++
			}
		}
	}
	if checked < 20 {
		t.Errorf("only %d prefixed units were found", checked)
	}
}
