package units_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestText(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{(3500 * units.PSI).Text(units.Bar, 1), "241.3 bar"},
		{(3500 * units.PSI).Text(units.PSI, 0), "3500 psi"},
		{(3500 * units.PSI).Text(units.PSI, 2), "3500.00 psi"},
		{(3500 * units.PSI).Text(units.Pascal, 0), "24131700 Pa"}, // six digits
		{(3500 * units.PSI).Text(units.Megapascal, 9), "24.1317 MPa"},
		{(3500 * units.PSI).Text(units.Megapascal, -1), "24.1317 MPa"},
		{(3500 * units.PSI).Text(units.PSI, -1), "3500 psi"},
		{(3500 * units.PSI).Text(7*units.PSI, 1), "241.3 bar"}, // no such unit: that of String
		{(0 * units.PSI).Text(units.PSI, 1), "0.0 psi"},
		{units.Pressure(math.Copysign(0, -1)).Text(units.PSI, 1), "0.0 psi"},
		{(-0.01 * units.PSI).Text(units.PSI, 1), "0.0 psi"},
		{(-0.06 * units.PSI).Text(units.PSI, 1), "-0.1 psi"},
		{(999_999.7 * units.Pascal).Text(units.Pascal, 0), "1000000 Pa"},
		{(99_999.96 * units.Pascal).Text(units.Pascal, 1), "100000 Pa"},
		{(2.4999996 * units.Pascal).Text(units.Pascal, 0), "2 Pa"},
		{(2.5000001 * units.Pascal).Text(units.Pascal, 0), "3 Pa"}, // not rounded twice
		{(1e-7 * units.Pascal).Text(units.Pascal, 2), "0.00 Pa"},
		{units.Pressure(math.NaN()).Text(units.PSI, 1), "NaN psi"},
		{units.Pressure(math.Inf(1)).Text(units.PSI, 1), "+Inf psi"},
		{(0.88 * units.Whole).Text(units.Percent, 0), "88 %"},
		{(0.88 * units.Whole).Text(units.Whole, 3), "0.880"},
		{(4.5 * units.Nozzle).Text(units.Nozzle, 1), "4.5"},
		{units.Fahrenheit(180).Text(units.US, 0), "180 °F"},
		{units.Fahrenheit(180).Text(units.SI, 1), "82.2 °C"},
		{units.Fahrenheit(0).Text(units.US, 0), "0 °F"},
		{units.Celsius(-0.01).Text(units.SI, 1), "0.0 °C"},
		{units.Temperature{}.Text(units.US, 0), ""},
		{units.ElevationAt(5280*units.Foot).Text(units.Foot, 0), "5280 ft"},
		{units.Elevation{}.Text(units.Foot, 0), ""},
		{units.PositionAt(-12*units.Inch).Text(units.Inch, 1), "-12.0 in"},
		{units.Position{}.Text(units.Inch, 1), ""},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestString(t *testing.T) {
	for _, c := range []struct {
		x    fmt.Stringer
		want string
	}{
		{3500 * units.PSI, "241.317 bar"},
		{5 * units.PSI, "0.344738 bar"},
		{0.5 * units.PSI, "3.44738 kPa"},
		{0.1 * units.PSI, "689.476 Pa"},
		{units.Pressure(0), "0 bar"},
		{units.Pressure(math.NaN()), "NaN Pa"},
		{-5 * units.Bar, "-5 bar"},
		{1500 * units.Watt, "1500 W"},
		{16 * units.Horsepower, "11.9312 kW"},
		{3 * units.Millimeter, "3 mm"},
		{5 * units.Micrometer, "5 µm"},
		{30 * units.Meter, "30 m"},
		{6 * units.Hour, "6 h"},
		{20 * units.Second, "20 s"},
		{88 * units.Percent, "88 %"},
		{2.5 * units.Whole, "2.5"},
		{units.Fahrenheit(68), "20 °C"},
		{units.Temperature{}, "not given"},
		{units.ElevationAt(0), "0 m"},
		{units.Elevation{}, "not given"},
		{units.Position{}, "not given"},
		{units.Quantity{}, "not given"},
		{units.Kind(0), "invalid"},
		{units.Kind(250), "invalid"},
		{units.US, "US"},
		{units.SI, "SI"},
	} {
		if got := c.x.String(); got != c.want {
			t.Errorf("%T: got %q, want %q", c.x, got, c.want)
		}
	}
}

func TestQuantity_Text(t *testing.T) {
	for _, c := range []struct {
		kind   units.Kind
		text   string
		system units.System
		digits int
		want   string
	}{
		{units.KindPressure, "2283.41 psi", units.US, 4, "2283 psi"},
		{units.KindPressure, "2283.41 psi", units.SI, 4, "157.4 bar"},
		{units.KindPressure, "2283.41 psi", units.US, 0, "2283.41 psi"},
		{units.KindPressure, "2283.41567 psi", units.US, 9, "2283.42 psi"},
		{units.KindPressure, "2283.41 psi", units.US, 1, "2000 psi"},
		{units.KindPower, "16.6265 hp", units.US, 4, "16.63 hp"},
		{units.KindPower, "1.2 kW", units.SI, 3, "1200 W"},
		{units.KindTemperature, "95 °F", units.US, 4, "95 °F"},
		{units.KindTemperature, "95 °F", units.SI, 4, "35 °C"},
		{units.KindTemperatureDelta, "18 °F", units.SI, 4, "10 K"},
		{units.KindLength, "0.375 in", units.US, 4, "0.375 in"},
		{units.KindLength, "50 ft", units.US, 4, "50 ft"},
		{units.KindVolume, "4 fl oz", units.US, 4, "4 fl oz"},
		{units.KindRatio, "0.885", units.US, 3, "88.5 %"},
		{units.KindRatio, "2.5", units.US, 3, "2.5"},
		{units.KindPosition, "0 in", units.US, 3, "0 in"},
		{units.KindElevation, "300 ft", units.US, 3, "300 ft"},
	} {
		q, err := units.ParseQuantity(c.kind, c.text)
		if err != nil {
			t.Error(err)
			continue
		}
		if got := q.Text(c.system, c.digits); got != c.want {
			t.Errorf("%s in %v at %d digits: got %q, want %q", c.text, c.system, c.digits, got, c.want)
		}
	}
	if got := (units.Quantity{}).Text(units.US, 4); got != "" {
		t.Errorf("nothing prints as %q", got)
	}
}

func TestFormatNumber(t *testing.T) {
	for _, c := range []struct {
		n      float64
		digits int
		want   string
	}{
		{2283.41, 4, "2283"}, {2283.41, 6, "2283.41"}, {2283.41, 2, "2300"}, {2283.41, 0, "2283.41"}, {2283.41, 17, "2283.41"},
		{0, 3, "0"}, {math.Copysign(0, -1), 3, "0"}, {-1.25, 2, "-1.2"}, {0.000123456789, 3, "0.000123"},
		{1e-6, 3, "0.000001"}, {9.99e-7, 3, "9.99e-07"}, {1e14, 3, "100000000000000"}, {1e15, 3, "1e+15"},
		{math.NaN(), 3, "NaN"}, {math.Inf(-1), 3, "-Inf"}, {0.1 + 0.2, 6, "0.3"},
	} {
		if got := units.FormatNumber(c.n, c.digits); got != c.want {
			t.Errorf("FormatNumber(%v, %d) = %q, want %q", c.n, c.digits, got, c.want)
		}
	}
}

func TestRoundSignificant(t *testing.T) {
	for _, c := range []struct {
		n      float64
		digits int
		want   float64
	}{
		{2283.41, 4, 2283}, {2283.41, 1, 2000}, {2283.41, -3, 2000}, {-0.0456, 2, -0.046}, {99.96, 3, 100},
		{0, 3, 0}, {math.Inf(1), 3, math.Inf(1)}, {1e300, 3, 1e300},
		{math.MaxFloat64, 3, math.MaxFloat64}, // it would be rounded up to infinity
	} {
		if got := units.RoundSignificant(c.n, c.digits); got != c.want {
			t.Errorf("RoundSignificant(%v, %d) = %v, want %v", c.n, c.digits, got, c.want)
		}
	}
	if got := units.RoundSignificant(math.NaN(), 3); !math.IsNaN(got) {
		t.Errorf("NaN is rounded to %v", got)
	}
}

// Rounding is what strconv prints, is idempotent, and moves a number by half a
// unit of the last digit at most.
func TestRoundSignificantProperty(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n, digits := g.LogFloat(1e-12, 1e12), g.Int(1, 6)
		if g.Bool() {
			n = -n
		}
		r := units.RoundSignificant(n, digits)
		if want, _ := strconv.ParseFloat(strconv.FormatFloat(n, 'e', digits-1, 64), 64); r != want {
			return fmt.Errorf("%v to %d digits is %v, strconv has %v", n, digits, r, want)
		}
		if again := units.RoundSignificant(r, digits); again != r {
			return fmt.Errorf("%v to %d digits is %v, and that %v", n, digits, r, again)
		}
		if limit := 0.5 * math.Pow10(1-digits); math.Abs(r-n) > limit*math.Abs(n)*(1+1e-9) {
			return fmt.Errorf("%v to %d digits is %v", n, digits, r)
		}
		return nil
	})
}

func TestDecimals(t *testing.T) {
	for _, c := range []struct {
		step float64
		want int
	}{
		{1, 0}, {2, 0}, {0.5, 1}, {0.1, 1}, {0.09, 2}, {0.002, 3}, {1e-30, 15}, {0, 0}, {-1, 0}, {math.NaN(), 0}, {math.Inf(1), 0},
	} {
		if got := units.Decimals(c.step); got != c.want {
			t.Errorf("Decimals(%v) = %d, want %d", c.step, got, c.want)
		}
	}
}
