package units_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// A family is what every quantity type offers beside its own arithmetic.
type family interface {
	encoding.TextUnmarshaler
	encoding.TextMarshaler
	encoding.TextAppender
	fmt.Stringer
	Kind() units.Kind
	Quantity() units.Quantity
	SetQuantity(units.Quantity) error
}

// families has a zero value of every type of the package.
var families = []family{
	new(units.Pressure), new(units.AbsolutePressure), new(units.VolumeFlow), new(units.MassFlow), new(units.FuelRate),
	new(units.Length), new(units.Area), new(units.Volume), new(units.Mass), new(units.MassPerLength), new(units.Density),
	new(units.DynamicViscosity), new(units.KinematicViscosity), new(units.Force), new(units.Moment), new(units.Power),
	new(units.ApparentPower), new(units.Energy), new(units.HeatingValueByVolume), new(units.HeatingValueByMass),
	new(units.SpecificEnthalpy), new(units.SpecificHeat), new(units.SpecificFuelConsumption), new(units.TemperatureDelta),
	new(units.Velocity), new(units.RotationalSpeed), new(units.Frequency), new(units.Voltage), new(units.Current),
	new(units.Resistance), new(units.ResistancePerLength), new(units.Charge), new(units.Angle), new(units.Duration),
	new(units.Acceleration), new(units.ThermalConductance), new(units.ThermalConductivity), new(units.HeatTransferCoefficient),
	new(units.SurfaceTension), new(units.Ratio), new(units.NozzleNumber),
	new(units.Temperature), new(units.Elevation), new(units.Position),
}

func TestFamilies(t *testing.T) {
	if len(families) != len(units.Kinds()) {
		t.Fatalf("%d types listed, %d kinds declared", len(families), len(units.Kinds()))
	}
	for i, x := range families {
		k := x.Kind()
		if want := units.Kinds()[i]; k != want {
			t.Errorf("%T is of kind %v, want %v", x, k, want)
		}
		if want := "*units." + goName(k); fmt.Sprintf("%T", x) != want {
			t.Errorf("%T is of kind %v", x, k)
		}

		// In by text, out as a quantity, exact text, JSON.
		if err := x.UnmarshalText([]byte(k.Example())); err != nil {
			t.Errorf("%T: %v", x, err)
			continue
		}
		q, err := units.ParseQuantity(k, k.Example())
		if err != nil || x.Quantity() != q {
			t.Errorf("%T: %q is %v, as a quantity %v, %v", x, k.Example(), x.Quantity(), q, err)
		}
		if text, err := x.MarshalText(); err != nil || string(text) != k.Example() {
			t.Errorf("%T: %q is written %q, %v", x, k.Example(), text, err)
		}
		if text, err := x.AppendText([]byte("x ")); err != nil || string(text) != "x "+k.Example() {
			t.Errorf("%T: %q is appended as %q, %v", x, k.Example(), text, err)
		}
		if text, err := json.Marshal(x); err != nil || string(text) != strconv.Quote(k.Example()) {
			t.Errorf("%T: JSON %s, %v", x, text, err)
		}
		if x.String() != q.String() {
			t.Errorf("%T: String is %q, of the quantity %q", x, x, q)
		}

		// What is refused leaves the value.
		for _, bad := range []string{"about 5", "5 furlongs"} {
			var f *units.FieldError
			if err := x.UnmarshalText([]byte(bad)); !errors.As(err, &f) || f.Value != bad || x.Quantity() != q {
				t.Errorf("%T: %q: error %v, now %v", x, bad, err, x.Quantity())
			}
		}
		other, err := units.ParseQuantity(units.KindMass, "5 kg")
		if k == units.KindMass {
			other, err = units.ParseQuantity(units.KindForce, "5 N")
		}
		if err != nil {
			t.Fatal(err)
		}
		if err := x.SetQuantity(other); !errors.Is(err, units.ErrConflict) || x.Quantity() != q {
			t.Errorf("%T: set to %v: error %v, now %v", x, other, err, x.Quantity())
		}
		if err := x.SetQuantity(units.Quantity{}); !errors.Is(err, units.ErrMissing) || x.Quantity() != q {
			t.Errorf("%T: set to nothing: error %v, now %v", x, err, x.Quantity())
		}

		// Another value of the kind is taken.
		twice, err := units.NewQuantity(k, 2*q.SI())
		if err != nil {
			t.Fatal(err)
		}
		if err := x.SetQuantity(twice); err != nil || x.Quantity() != twice {
			t.Errorf("%T: set to %v: error %v, now %v", x, twice, err, x.Quantity())
		}
	}
}

// goName turns "volume-flow" into "VolumeFlow".
func goName(k units.Kind) string {
	if k == units.KindTemperatureDelta {
		return "TemperatureDelta"
	}
	var b strings.Builder
	for part := range strings.SplitSeq(k.String(), "-") {
		b.WriteString(strings.ToUpper(part[:1]) + part[1:])
	}
	return b.String()
}

// Text as a person types it comes back as it was typed.
func TestMarshalText(t *testing.T) {
	for _, c := range []struct {
		kind        units.Kind
		typed, want string // want "" is as typed
	}{
		{units.KindPressure, "3500 psi", ""},
		{units.KindPressure, "241.3 bar", ""},
		{units.KindPressure, "250 bar", ""},
		{units.KindPressure, "60 inH2O", ""},
		{units.KindPressure, "8 inHg", ""},
		{units.KindPressure, "2.5 kPa", ""},
		{units.KindPressure, "-5 psi", ""},
		{units.KindAbsolutePressure, "14.7 psia", ""},
		{units.KindAbsolutePressure, "1 atm", ""},
		{units.KindAbsolutePressure, "29.92 inHg", "29.92 inHg abs"},
		{units.KindVolumeFlow, "5.5 gpm", ""},
		{units.KindVolumeFlow, "21 L/min", ""},
		{units.KindVolumeFlow, "200 cfm", ""},
		{units.KindLength, "50 ft", ""},
		{units.KindLength, "132 ft", ""},
		{units.KindLength, "8.5 ft", ""},
		{units.KindLength, "0.375 in", ""},
		{units.KindLength, "3/8 in", "0.375 in"},
		{units.KindLength, "6 in", ""},
		{units.KindLength, "30 m", ""},
		{units.KindLength, "5 mm", ""},
		{units.KindLength, "5 µm", ""},
		{units.KindLength, "25 mi", ""},
		{units.KindVolume, "200 gal", ""},
		{units.KindVolume, "1000 L", ""},
		{units.KindVolume, "8 fl oz", ""},
		{units.KindPower, "16 hp", ""},
		{units.KindPower, "1500 W", ""},
		{units.KindPower, "24 kW", ""},
		{units.KindPower, "400000 BTU/h", ""},
		{units.KindRatio, "88 %", ""},
		{units.KindRatio, "0.88", "88 %"},
		{units.KindRatio, "2.5", ""},
		{units.KindDuration, "6 h", ""},
		{units.KindDuration, "90 s", ""},
		{units.KindDuration, "45 min", ""},
		{units.KindCurrent, "0.5 A", ""},
		{units.KindCurrent, "6 mA", ""},
		{units.KindTemperature, "180 °F", ""},
		{units.KindTemperature, "0 °F", ""},
		{units.KindTemperature, "-40 °F", ""},
		{units.KindTemperature, "98.7 °F", ""},
		{units.KindTemperature, "21 °C", ""},
		{units.KindTemperature, "0 °C", ""},
		{units.KindTemperature, "300 K", ""},
		{units.KindElevation, "0 ft", ""},
		{units.KindElevation, "5280 ft", ""},
		{units.KindElevation, "1609 m", ""},
		{units.KindPosition, "-12 in", ""},
		{units.KindPosition, "96.5 in", ""},
		{units.KindPosition, "2.4 m", ""},
		{units.KindPressure, "0 bar", "0 psi"},
		{units.KindForce, "0.000001 N", ""},
		{units.KindForce, "1e-07 N", ""},
		{units.KindForce, "100000000000000 N", ""},
		{units.KindForce, "1e+15 N", ""},
		// The same bits in fewer digits: a float64 does not remember its unit.
		{units.KindLength, "1000 mm", "1 m"},
		{units.KindDuration, "120 min", "2 h"},
		{units.KindTemperature, "68 °F", ""},
		{units.KindTemperature, "10 °C", "50 °F"},
	} {
		q, err := units.ParseQuantity(c.kind, c.typed)
		if err != nil {
			t.Error(err)
			continue
		}
		want := c.want
		if want == "" {
			want = c.typed
		}
		if got, err := q.MarshalText(); err != nil || string(got) != want {
			t.Errorf("%q is written %q, %v; want %q", c.typed, got, err, want)
		}
	}
}

func TestMarshalText_nonFinite(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if text, err := units.Pressure(v).MarshalText(); !errors.Is(err, units.ErrRange) || text != nil {
			t.Errorf("%v: %q, %v", v, text, err)
		}
		if text, err := units.ElevationAt(units.Length(v)).MarshalText(); !errors.Is(err, units.ErrRange) || text != nil {
			t.Errorf("elevation %v: %q, %v", v, text, err)
		}
		if text, err := units.Kelvin(v).MarshalText(); !errors.Is(err, units.ErrRange) || text != nil {
			t.Errorf("temperature %v: %q, %v", v, text, err)
		}
		if text, err := json.Marshal(units.Pressure(v)); err == nil {
			t.Errorf("JSON of %v: %s", v, text)
		}
	}
	if text, err := units.Kelvin(-1).MarshalText(); !errors.Is(err, units.ErrRange) {
		t.Errorf("-1 K: %q, %v", text, err)
	}
}

// Extreme values, which the units' limits and the powers of ten have to bear.
func TestMarshalText_extremes(t *testing.T) {
	for _, k := range units.Kinds() {
		for _, v := range []float64{0, math.Copysign(0, -1), 5e-324, -5e-324, 2.2250738585072014e-308, 1e-30, 1, -1, math.Pi, 1e15, 1e22, math.MaxFloat64, -math.MaxFloat64} {
			q, err := units.NewQuantity(k, v)
			if k == units.KindTemperature && v <= 0 {
				if !errors.Is(err, units.ErrRange) {
					t.Errorf("%v K: %v", v, err)
				}
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			roundTrip(t, k, q)
		}
	}
}

func roundTrip(t *testing.T, k units.Kind, q units.Quantity) {
	t.Helper()
	text, err := q.MarshalText()
	if err != nil {
		t.Fatalf("%v %v: %v", k, q.SI(), err)
	}
	back, err := units.ParseQuantity(k, string(text))
	if err != nil || math.Float64bits(back.SI()) != math.Float64bits(q.SI()) {
		t.Fatalf("%v %v is written %q, which reads as %v, %v", k, q.SI(), text, back.SI(), err)
	}
	data, err := json.Marshal(q)
	if err != nil {
		t.Fatalf("%v %v: %v", k, q.SI(), err)
	}
	var j units.Quantity
	if err := json.Unmarshal(data, &j); err != nil || j.Kind() != k || math.Float64bits(j.SI()) != math.Float64bits(q.SI()) {
		t.Fatalf("%v %v has the JSON %s, which reads as %v %v, %v", k, q.SI(), data, j.Kind(), j.SI(), err)
	}
}

// Parse(Marshal(x)) == x, to the bit, for every kind and any float64.
func FuzzRoundTrip(f *testing.F) {
	for _, k := range units.Kinds() {
		q, err := units.ParseQuantity(k, k.Example())
		if err != nil {
			f.Fatal(err)
		}
		f.Add(uint8(k), math.Float64bits(q.SI()))
		f.Add(uint8(k), math.Float64bits(273.15))
		f.Add(uint8(k), math.Float64bits(-1e-310))
	}
	f.Fuzz(func(t *testing.T, kind uint8, bits uint64) {
		k, v := units.Kind(kind), math.Float64frombits(bits)
		q, err := units.NewQuantity(k, v)
		if err != nil {
			if k.Valid() && !math.IsNaN(v) && !math.IsInf(v, 0) && (k != units.KindTemperature || v > 0) {
				t.Fatalf("%v %v: %v", k, v, err)
			}
			return
		}
		roundTrip(t, k, q)
	})
}

// A number typed in any unit of any kind comes back to the same bits.
func FuzzRoundTripUnit(f *testing.F) {
	for _, k := range units.Kinds() {
		for i := range k.Units() {
			f.Add(uint8(k), uint8(i), 3500.0)
			f.Add(uint8(k), uint8(i), 0.1)
		}
	}
	f.Fuzz(func(t *testing.T, kind, unit uint8, n float64) {
		k := units.Kind(kind)
		list := k.Units()
		if int(unit) >= len(list) || math.IsNaN(n) || math.IsInf(n, 0) {
			return
		}
		q, err := units.ParseQuantity(k, strconv.FormatFloat(n, 'g', -1, 64)+" "+list[unit].Symbol())
		if err != nil {
			if !errors.Is(err, units.ErrRange) {
				t.Fatal(err)
			}
			return
		}
		roundTrip(t, k, q)
	})
}

// No text with fewer digits reads as the same bits. The search here is by brute
// force: every unit, every number of digits below, and the numbers around.
func TestMarshalText_fewestDigitsProperty(t *testing.T) {
	kinds := units.Kinds()
	property.Check(t, func(g *property.G) error {
		k := kinds[g.Pick(len(kinds))]
		list := k.Units()
		u := list[g.Pick(len(list))]
		// Digits as people type them, up to those of a computed number.
		digits := g.Int(1, 17)
		n := g.LogFloat(1e-3, 1e6)
		typed := strconv.FormatFloat(n, 'e', digits-1, 64)
		q, err := units.ParseQuantity(k, typed+" "+u.Symbol())
		if err != nil {
			return err
		}
		text, err := q.MarshalText()
		if err != nil {
			return err
		}
		written, symbol, _ := strings.Cut(string(text), " ")
		used := significant(written)
		for _, u := range list {
			at, err := q.In(u)
			if err != nil {
				return err
			}
			if least := leastNumber(k, u); at < least || k == units.KindRatio && u.Symbol() == "%" && at > 100 {
				continue // a unit that is not written for numbers of that size
			}
			for d := 1; d < used; d++ {
				for _, near := range around(at, d) {
					back, err := units.ParseQuantity(k, near+" "+u.Symbol())
					if err == nil && back == q {
						return fmt.Errorf("%s %s is written %s %s, though %s %s is shorter", typed, u.Symbol(), written, symbol, near, u.Symbol())
					}
				}
			}
		}
		return nil
	})
}

func significant(number string) int {
	number, _, _ = strings.Cut(number, "e")
	number = strings.TrimLeft(strings.Replace(number, ".", "", 1), "-0")
	return max(1, len(strings.TrimRight(number, "0")))
}

// around returns the numbers of d significant digits next to x.
func around(x float64, d int) []string {
	s := strconv.FormatFloat(x, 'e', d-1, 64)
	v, _ := strconv.ParseFloat(s, 64)
	_, exp, _ := strings.Cut(s, "e")
	e, _ := strconv.Atoi(exp)
	step := math.Pow10(e - d + 1)
	return []string{s, strconv.FormatFloat(v+step, 'e', d-1, 64), strconv.FormatFloat(v-step, 'e', d-1, 64)}
}

// leastNumber restates, for the units that have one, the smallest number that
// the package writes in them.
func leastNumber(k units.Kind, u units.Unit) float64 {
	switch u.Symbol() {
	case "ft", "m":
		if k == units.KindLength || k == units.KindPosition && u.Symbol() == "ft" {
			return 1
		}
	case "km", "mi", "kPa", "kPa abs", "ft²", "kN", "kN·m", "h", "min", "d":
		return 1
	case "kJ", "MJ":
		return 1
	case "kW":
		return 10
	case "bar", "bar abs", "m²", "gal", "L", "kg", "MJ/L", "MJ/m³", "MJ/kg", "A", "Ω", "mm":
		return 0.1
	}
	return 0
}
