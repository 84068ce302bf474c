package units_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind units.Kind
		text string
		want float64 // SI
	}{
		{units.KindPressure, "3500 psi", float64(3500 * units.PSI)},
		{units.KindPressure, "3500psi", float64(3500 * units.PSI)},
		{units.KindPressure, "  3500 \t psi ", float64(3500 * units.PSI)},
		{units.KindPressure, "3500\u00a0psi", float64(3500 * units.PSI)},
		{units.KindPressure, "3500\u202fpsi", float64(3500 * units.PSI)},
		{units.KindPressure, "+3.5e3 PSI", float64(3500 * units.PSI)},
		{units.KindPressure, "3500 psig", float64(3500 * units.PSI)},
		{units.KindPressure, "3500. lbf/in2", float64(3500 * units.PSI)},
		{units.KindPressure, "241.3 bar", 241.3e5}, // not 241.3 × 1e5, which is a bit off
		{units.KindPressure, "24.13 MPa", 24.13e6},
		{units.KindPressure, "-.5 bar", -0.5e5},
		{units.KindPressure, "60 inH2O", float64(60 * units.InchOfWater)},
		{units.KindPressure, "60 in H₂O", float64(60 * units.InchOfWater)},
		{units.KindPressure, "5 inHg(60F)", float64(5 * units.InchOfMercury60F)},
		{units.KindPressure, "1E2Pa", 100},
		{units.KindAbsolutePressure, "14.7 psia", float64(14.7 * units.PSIA)},
		{units.KindAbsolutePressure, "29.92 inHg", float64(29.92 * units.InchOfMercuryAbsolute)},
		{units.KindAbsolutePressure, "1013.25 hPa", 101325},
		{units.KindAbsolutePressure, "1 atm", 101325},
		{units.KindLength, "3/8 in", float64(0.375 * units.Inch)},
		{units.KindLength, "+3/8 in", float64(0.375 * units.Inch)},
		{units.KindLength, `3/8"`, float64(0.375 * units.Inch)},
		{units.KindLength, "1-1/2 in", float64(1.5 * units.Inch)},
		{units.KindLength, "1 1/2 in", float64(1.5 * units.Inch)},
		{units.KindLength, "1\u00a01/2 in", float64(1.5 * units.Inch)},
		{units.KindLength, "7/4 in", float64(1.75 * units.Inch)},
		{units.KindLength, "0 1/2 in", float64(0.5 * units.Inch)},
		{units.KindLength, "3/8 mm", 0.375e-3},
		{units.KindLength, "50'", 50 * 0.3048},
		{units.KindLength, "5 micron", 5e-6},
		{units.KindLength, "5 um", 5e-6},
		{units.KindLength, "5 \u03bcm", 5e-6}, // Greek mu
		{units.KindLength, "5 \u00b5m", 5e-6}, // micro sign
		{units.KindVolumeFlow, "6 1/2 gpm", float64(6.5 * units.GallonPerMinute)},
		{units.KindFuelRate, "2.5 gal/hr", float64(2.5 * units.GallonPerHour)},
		{units.KindResistance, "5 ohm", 5},
		{units.KindResistance, "5 \u2126", 5}, // ohm sign
		{units.KindResistance, "5 \u03a9", 5}, // Greek omega
		{units.KindMoment, "40 ft-lb", float64(40 * units.FootPoundForce)},
		{units.KindEnergy, "5 kWh", 18e6},
		{units.KindSpecificHeat, "1 Btu/lb-F", float64(units.BTUPerPoundFahrenheit)},
		{units.KindHeatTransferCoefficient, "14.3 W/m2-K", 14.3},
		{units.KindDensity, "1.1 g/cm3", 1100},
		{units.KindDuration, "6 h", 21600},
		{units.KindDuration, "90 s", 90},
		{units.KindDuration, "1.5 min", 90},
		{units.KindAngle, "25°", 25 * math.Pi / 180},
		{units.KindRatio, "88 %", 0.88},
		{units.KindRatio, "88%", 0.88},
		{units.KindRatio, "0.88", 0.88},
		{units.KindRatio, "1/2", 0.5},
		{units.KindNozzleNumber, "4.5", 4.5},
		{units.KindNozzleNumber, "4 1/2", 4.5},
		{units.KindTemperature, "0 °F", float64(units.Fahrenheit(0).Kelvin())},
		{units.KindTemperature, "-40 F", units.Celsius(-40).Kelvin()},
		{units.KindTemperature, "60 C", 333.15},
		{units.KindTemperature, "300 K", 300},
		{units.KindElevation, "5280 ft", 1609.344},
		{units.KindElevation, "0 m", 0},
		{units.KindPosition, "-12 in", float64(-12 * units.Inch)},
	} {
		q, err := units.ParseQuantity(c.kind, c.text)
		if err != nil {
			t.Error(err)
			continue
		}
		if q.SI() != c.want || q.Kind() != c.kind || !q.Given() {
			t.Errorf("%q: got %v %v, want %v", c.text, q.SI(), q.Kind(), c.want)
		}
	}
}

// What one text means differs by kind, and is decided once; doc.go has the list.
func TestParse_ambiguous(t *testing.T) {
	for _, c := range []struct {
		kind units.Kind
		text string
		want string // in SI
	}{
		{units.KindTemperature, "10 C", "283.15 K"},
		{units.KindTemperatureDelta, "10 C", "10 K"},
		{units.KindCharge, "10 C", "10 C"},
		{units.KindTemperature, "50 °F", "283.15 K"},
		{units.KindTemperatureDelta, "9 °F", "5 K"},
		{units.KindVolume, "1 gal", "0.00378541 m³"},
		{units.KindVolume, "1 imp gal", "0.00454609 m³"},
		{units.KindPower, "1 hp", "745.7 W"},
		{units.KindPower, "1 hp(metric)", "735.499 W"},
		{units.KindPower, "1 PS", "735.499 W"},
		{units.KindPower, "1 hp(electric)", "746 W"},
		{units.KindMass, "1 g", "0.001 kg"},
		{units.KindAcceleration, "1 g", "9.80665 m/s²"},
		{units.KindMass, "1 oz", "0.0283495 kg"},
		{units.KindVolume, "1 fl oz", "0.0000295735 m³"},
		{units.KindDuration, "1 h", "3600 s"},
		{units.KindEnergy, "1 BTU", "1055.06 J"},
		{units.KindPressure, "1 inHg", "3386.39 Pa"},
		{units.KindAbsolutePressure, "1 inHg", "3386.39 Pa abs"},
	} {
		q, err := units.ParseQuantity(c.kind, c.text)
		if err != nil {
			t.Error(err)
			continue
		}
		if got := units.FormatNumber(q.SI(), 6) + " " + c.kind.Base(); got != c.want {
			t.Errorf("%q as %v: got %s, want %s", c.text, c.kind, got, c.want)
		}
	}
}

func TestParse_errors(t *testing.T) {
	for _, c := range []struct {
		kind units.Kind
		text string
		is   error
		says string
	}{
		{units.KindPressure, "", units.ErrMissing, "no text"},
		{units.KindPressure, " \t", units.ErrMissing, "no text"},
		{units.KindPressure, "3500", units.ErrSyntax, "3500: a number without a unit (want 3500 psi or 241 bar)"},
		{units.KindVolumeFlow, "4", units.ErrSyntax, "want 4 gpm or 15.1 L/min"},
		{units.KindTemperature, "60", units.ErrSyntax, "want 60 °F or 15.6 °C"},
		{units.KindLength, "3/8", units.ErrSyntax, "want 3/8 ft or 0.114 m"},
		{units.KindVoltage, "120", units.ErrSyntax, "want 120 V or 120 mV"},
		{units.KindRotationalSpeed, "1450", units.ErrSyntax, "want 1450 rpm or 1450 rad/s"},
		{units.KindVolumeFlow, "3500 psi", units.ErrSyntax, "3500 psi: psi is a pressure (want a flow such as 4 gpm)"},
		{units.KindPressure, "14.7 psia", units.ErrSyntax, "psia is an absolute pressure (want a pressure such as 3500 psi)"},
		{units.KindAbsolutePressure, "14.7 psi", units.ErrSyntax, "psi is a pressure (want an absolute pressure such as 14.7 psia)"},
		{units.KindAbsolutePressure, "1 bar", units.ErrSyntax, "bar is a pressure"},
		{units.KindVolumeFlow, "2 gph", units.ErrSyntax, "gph is a fuel rate"},
		{units.KindVolumeFlow, "5 gal", units.ErrSyntax, "gal is a volume"},
		{units.KindPressure, "5 C", units.ErrSyntax, "C is a temperature difference or a charge or a temperature"},
		{units.KindMass, "5 ft", units.ErrSyntax, "ft is a length (want"},
		{units.KindLength, "10 m2", units.ErrSyntax, "m2 is an area"},
		{units.KindPressure, "88 %", units.ErrSyntax, "% is a ratio"},
		{units.KindRatio, "88 psi", units.ErrSyntax, "psi is a pressure"},
		{units.KindNozzleNumber, "4.5 gpm", units.ErrSyntax, "gpm is a flow"},
		{units.KindPressure, "3500 Psi", units.ErrSyntax, `unknown unit "Psi": write psi`},
		{units.KindPower, "5 mW", units.ErrSyntax, "unknown unit"},
		{units.KindPressure, "3500 foo", units.ErrSyntax, `unknown unit "foo"`},
		{units.KindPressure, "3,5 bar", units.ErrSyntax, "no decimal comma"},
		{units.KindPressure, "3,500 psi", units.ErrSyntax, "no thousands separator"},
		{units.KindPressure, "3 500 psi", units.ErrSyntax, "no thousands separator"},
		{units.KindPressure, "3_500 psi", units.ErrSyntax, "no thousands separator"},
		{units.KindPressure, "3.500.000 Pa", units.ErrSyntax, "no thousands separator"},
		{units.KindPressure, "psi", units.ErrSyntax, "does not begin with a number"},
		{units.KindPressure, "- 5 psi", units.ErrSyntax, "does not begin with a number"},
		{units.KindPressure, "--5 psi", units.ErrSyntax, "does not begin with a number"},
		{units.KindPressure, ". psi", units.ErrSyntax, "does not begin with a number"},
		{units.KindPressure, "about 5 psi", units.ErrSyntax, "does not begin with a number"},
		{units.KindPressure, "NaN psi", units.ErrSyntax, "does not begin with a number"},
		{units.KindPressure, "Inf psi", units.ErrSyntax, "does not begin with a number"},
		{units.KindPressure, "\u22125 psi", units.ErrSyntax, "the minus sign is written -"},
		{units.KindPressure, "0x10 psi", units.ErrSyntax, "unknown unit"},
		{units.KindPressure, "1e400 psi", units.ErrRange, "too large"},
		{units.KindPressure, "1e308 psi", units.ErrRange, "too large"},
		{units.KindPressure, "1e308 bar", units.ErrRange, "too large"},
		{units.KindPressure, "1e99999999999999999999 bar", units.ErrRange, "too large"},
		{units.KindPressure, "1e9223372036854775807 bar", units.ErrRange, "too large"},
		{units.KindLength, "-3/8 in", units.ErrSyntax, "fractions are read as positive values only"},
		{units.KindLength, "-1 1/2 in", units.ErrSyntax, "fractions are read as positive values only"},
		{units.KindLength, "3/0 in", units.ErrSyntax, "divides by zero"},
		{units.KindLength, "1 3/00 in", units.ErrSyntax, "divides by zero"},
		{units.KindLength, "3/ in", units.ErrSyntax, "not a fraction"},
		{units.KindLength, "1.5/2 in", units.ErrSyntax, "not a fraction"},
		{units.KindLength, "1.5 1/2 in", units.ErrSyntax, "not a fraction"},
		{units.KindLength, "1 5/4 in", units.ErrSyntax, "not a fraction"},
		{units.KindLength, "1 2/2 in", units.ErrSyntax, "not a fraction"},
		{units.KindLength, "1/2/3 in", units.ErrSyntax, "unknown unit"},
		{units.KindLength, "1234567890/2 in", units.ErrSyntax, "not a fraction"},
		{units.KindLength, "5 ft 6 in", units.ErrSyntax, "one number with one unit is read"},
		{units.KindLength, `5'6"`, units.ErrSyntax, "one number with one unit is read"},
		{units.KindDuration, "1 h 30 min", units.ErrSyntax, "one number with one unit is read"},
		{units.KindDuration, "1h30m", units.ErrSyntax, "one number with one unit is read"},
		{units.KindTemperature, "0 K", units.ErrRange, "absolute zero"},
		{units.KindTemperature, "-460 °F", units.ErrRange, "absolute zero"},
		{units.KindTemperature, "-273.15 °C", units.ErrRange, "absolute zero"},
		{units.KindTemperature, "60 °", units.ErrSyntax, "° is an angle"},
		{units.KindPressure, strings.Repeat("1", 300) + " psi", units.ErrSyntax, "too long"},
		{units.KindPressure, "35 psi\x00", units.ErrSyntax, "unknown unit"},
		{units.KindPressure, "35 \xff", units.ErrSyntax, "unknown unit"},
		{0, "35 psi", units.ErrMissing, "a declared kind"},
		{200, "35 psi", units.ErrMissing, "a declared kind"},
	} {
		q, err := units.ParseQuantity(c.kind, c.text)
		var f *units.FieldError
		if !errors.As(err, &f) || !errors.Is(err, c.is) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q as %v: error %v; want %v, saying %q", c.text, c.kind, err, c.is, c.says)
		}
		if q.Given() {
			t.Errorf("%q as %v: an error and %v", c.text, c.kind, q)
		}
	}
}

// Each spelling of a unit, with any way to write the number, reads as the same
// bits.
func TestParse_spellingProperty(t *testing.T) {
	kinds := units.Kinds()
	property.Check(t, func(g *property.G) error {
		k := kinds[g.Pick(len(kinds))]
		list := k.Units()
		u := list[g.Pick(len(list))]
		if u.Symbol() == "" {
			return property.ErrDiscard
		}
		digits, decimals := g.Int(1, 9_999_999), g.Int(0, 6)
		plain := fmt.Sprintf("%.*f", decimals, float64(digits)/math.Pow10(decimals))
		numbers := []string{plain, "+" + plain, "0" + plain, fmt.Sprintf("%de-%d", digits, decimals), fmt.Sprintf("%d.0E-0%d", digits, decimals)}
		want, err := units.ParseQuantity(k, plain+" "+u.Symbol())
		if err != nil {
			return err
		}
		for _, n := range numbers {
			for _, s := range u.Spellings() {
				for _, gap := range []string{" ", "", "\u00a0", "\t "} {
					got, err := units.ParseQuantity(k, n+gap+s)
					if err != nil {
						return err
					}
					if got != want {
						return fmt.Errorf("%q is %v, %q is %v", n+gap+s, got.SI(), plain+" "+u.Symbol(), want.SI())
					}
				}
			}
		}
		return nil
	})
}

// A shop fraction and its decimal read as the same bits in every unit.
func TestParse_fractionProperty(t *testing.T) {
	kinds := units.Kinds()
	property.Check(t, func(g *property.G) error {
		k := kinds[g.Pick(len(kinds))]
		list := k.Units()
		u := list[g.Pick(len(list))]
		den := 1 << g.Int(1, 6)
		num, whole := g.Int(1, den-1), g.Int(0, 4000)
		decimal := units.FormatNumber(float64(whole), 6) + strings.TrimPrefix(fmt.Sprintf("%.6f", float64(num)/float64(den)), "0")
		want, err := units.ParseQuantity(k, decimal+" "+u.Symbol())
		if err != nil {
			return err
		}
		for _, text := range []string{
			fmt.Sprintf("%d %d/%d %s", whole, num, den, u.Symbol()),
			fmt.Sprintf("%d-%d/%d %s", whole, num, den, u.Symbol()),
			fmt.Sprintf("%d/%d%s", whole*den+num, den, u.Symbol()),
		} {
			got, err := units.ParseQuantity(k, text)
			if err != nil {
				return err
			}
			if got != want {
				return fmt.Errorf("%q is %v, %q is %v", text, got.SI(), decimal+" "+u.Symbol(), want.SI())
			}
		}
		return nil
	})
}

func FuzzParse(f *testing.F) {
	for _, k := range units.Kinds() {
		f.Add(uint8(k), k.Example())
	}
	for _, s := range []string{"", "1-1/2 in", "6 1/2 gpm", "1/0", "-3/8 in", "1e999999999999 bar", ".e5 psi", "5'6\"", "\u22125 °F", "3,5 bar", "1e-320 mm"} {
		f.Add(uint8(units.KindLength), s)
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		k := units.Kind(kind)
		q, err := units.ParseQuantity(k, text)
		if err != nil {
			var fe *units.FieldError
			if !errors.As(err, &fe) || q.Given() {
				t.Fatalf("%q as %v: %v, %v", text, k, q, err)
			}
			if !errors.Is(err, units.ErrSyntax) && !errors.Is(err, units.ErrRange) && !errors.Is(err, units.ErrMissing) {
				t.Fatalf("%q as %v: %v is of no kind", text, k, err)
			}
			return
		}
		if math.IsNaN(q.SI()) || math.IsInf(q.SI(), 0) {
			t.Fatalf("%q as %v is %v", text, k, q.SI())
		}
		written, err := q.MarshalText()
		if err != nil {
			t.Fatalf("%q as %v cannot be written: %v", text, k, err)
		}
		again, err := units.ParseQuantity(k, string(written))
		if err != nil || again != q {
			t.Fatalf("%q as %v is written %q, which reads as %v, %v; want %v", text, k, written, again.SI(), err, q.SI())
		}
	})
}
