package parts_test

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"
	"time"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func cents(t testing.TB, n int64) parts.Money {
	t.Helper()
	m, err := parts.Cents(n, "USD")
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// anyInt draws whole numbers of every size, the ends of int64 among them.
func anyInt(g *property.G) int64 {
	switch g.Pick(4) {
	case 0:
		return int64(g.Int(-1000, 1000))
	case 1:
		return property.OneOf(g, int64(math.MaxInt64), math.MinInt64, math.MaxInt64-1, math.MinInt64+1, 0, -1, 1)
	}
	n := int64(g.LogFloat(1, 0x1p62))
	if g.Bool() {
		return -n
	}
	return n
}

// halfAway rounds a rational half away from zero: floor(|x| + 1/2) with the
// sign of x.
func halfAway(x *big.Rat) *big.Int {
	y := new(big.Rat).Add(new(big.Rat).Abs(x), big.NewRat(1, 2))
	n := new(big.Int).Div(y.Num(), y.Denom())
	if x.Sign() < 0 {
		n.Neg(n)
	}
	return n
}

func agrees(got parts.Money, err error, want *big.Int) error {
	if !want.IsInt64() {
		if !errors.Is(err, parts.ErrOverflow) {
			return fmt.Errorf("%v, %v; want an overflow at %v", got, err, want)
		}
		return nil
	}
	if err != nil || got.Cents() != want.Int64() || got.Currency() != "USD" {
		return fmt.Errorf("%v, %v; want %v cents", got, err, want)
	}
	return nil
}

func TestMoney_Add_mathBig(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		a, b := anyInt(g), anyInt(g)
		sum, err := cents(t, a).Add(cents(t, b))
		return agrees(sum, err, new(big.Int).Add(big.NewInt(a), big.NewInt(b)))
	})
}

func TestMoney_Times_mathBig(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m, num, den := anyInt(g), anyInt(g), anyInt(g)
		if den == 0 {
			den = 2
		}
		got, err := cents(t, m).Times(num, den)
		x := new(big.Rat).SetFrac(big.NewInt(num), big.NewInt(den))
		return agrees(got, err, halfAway(x.Mul(x, new(big.Rat).SetInt64(m))))
	})
}

// A ratio is taken at its decimal text, as a person writes it.
func TestMoney_TimesRatio_mathBig(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m, text := anyInt(g), fmt.Sprintf("%d.%0*d", g.Int(0, 3), g.Int(1, 4), g.Int(0, 9))
		if g.Bool() {
			text = "-" + text
		}
		x, _ := new(big.Rat).SetString(text)
		var r float64
		if _, err := fmt.Sscan(text, &r); err != nil {
			return err
		}
		got, err := cents(t, m).TimesRatio(r)
		return agrees(got, err, halfAway(x.Mul(x, new(big.Rat).SetInt64(m))))
	})
}

func TestMoney_halves(t *testing.T) {
	for _, c := range []struct{ m, num, den, want int64 }{
		{1, 1, 2, 1}, {-1, 1, 2, -1}, {1, -1, 2, -1}, {3, 1, 2, 2}, {-3, 1, 2, -2}, {1, 1, 3, 0}, {2, 1, 3, 1}, {-2, 1, 3, -1}, {5, 1, 10, 1}, {4, 1, 10, 0},
		{1, 3, -2, -2},
	} {
		if got, err := cents(t, c.m).Times(c.num, c.den); err != nil || got.Cents() != c.want {
			t.Errorf("%d cents × %d/%d = %v, %v; want %d", c.m, c.num, c.den, got, err, c.want)
		}
	}
	// 0.35 as a binary fraction lies below 0.35: of 1.90 USD it would give 66
	// cents where the decimal gives 66.5, and so 67.
	if got, err := cents(t, 190).TimesRatio(0.35); err != nil || got.Cents() != 67 {
		t.Errorf("35 %% of 1.90: %v, %v", got, err)
	}
}

func TestMoney_refuses(t *testing.T) {
	m := cents(t, 100)
	if _, err := m.Times(1, 0); !errors.Is(err, units.ErrRange) {
		t.Errorf("divided by zero: %v", err)
	}
	for _, r := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if _, err := m.TimesRatio(r); !errors.Is(err, units.ErrRange) {
			t.Errorf("times %v: %v", r, err)
		}
	}
	euro, _ := parts.Cents(1, "EUR")
	if _, err := m.Add(euro); !errors.Is(err, units.ErrConflict) {
		t.Errorf("dollars and euros: %v", err)
	}
	for _, c := range []string{"", "usd", "US", "USDX", "US$", "ÜSD"} {
		if _, err := parts.Cents(1, c); !errors.Is(err, units.ErrSyntax) {
			t.Errorf("currency %q: %v", c, err)
		}
	}
}

func TestMoney_zero(t *testing.T) {
	var none parts.Money
	if none.Given() || none.String() != "" || none.Currency() != "" || none.Cents() != 0 {
		t.Errorf("the zero Money is %q", none)
	}
	m := cents(t, 5)
	for _, sum := range []func() (parts.Money, error){func() (parts.Money, error) { return m.Add(none) }, func() (parts.Money, error) { return none.Add(m) }} {
		if got, err := sum(); err != nil || got != m {
			t.Errorf("with nothing added: %v, %v", got, err)
		}
	}
	if got, err := none.Times(3, 1); err != nil || got.Given() {
		t.Errorf("three times nothing: %v, %v", got, err)
	}
	if zero := cents(t, 0); !zero.Given() || zero.String() != "0.00 USD" {
		t.Errorf("no cents, given: %q", zero)
	}
}

func TestParseMoney(t *testing.T) {
	for in, want := range map[string]int64{
		"1234.50 USD": 123450, "1234 USD": 123400, "0 USD": 0, "-0.01 USD": -1, "-12 USD": -1200, "007.10 USD": 710,
		"92233720368547758.07 USD": math.MaxInt64, "-92233720368547758.08 USD": math.MinInt64,
	} {
		if m, err := parts.ParseMoney(in); err != nil || m.Cents() != want {
			t.Errorf("%q: %v, %v", in, m, err)
		}
	}
	for in, is := range map[string]error{
		"": units.ErrSyntax, "12": units.ErrSyntax, "12.50": units.ErrSyntax, "12,50 EUR": units.ErrSyntax, "1,234.50 USD": units.ErrSyntax,
		"$12.50": units.ErrSyntax, "12.5 USD": units.ErrSyntax, "12.505 USD": units.ErrSyntax, "12. USD": units.ErrSyntax, ".50 USD": units.ErrSyntax,
		"+12 USD": units.ErrSyntax, "--12 USD": units.ErrSyntax, "1e3 USD": units.ErrSyntax, "12 usd": units.ErrSyntax, "12  USD": units.ErrSyntax,
		"12 USD ": units.ErrSyntax, "USD 12": units.ErrSyntax, "NaN USD": units.ErrSyntax, "- USD": units.ErrSyntax, "١٢ USD": units.ErrSyntax,
		"92233720368547758.08 USD": units.ErrRange, "1000000000000000000000 USD": units.ErrRange,
	} {
		var fe *units.FieldError
		if m, err := parts.ParseMoney(in); !errors.Is(err, is) || !errors.As(err, &fe) || fe.Want == "" {
			t.Errorf("%q: %v, %v", in, m, err)
		}
	}
}

func TestMoney_textRoundTrip(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m := cents(t, anyInt(g))
		text, err := m.MarshalText()
		if err != nil {
			return err
		}
		var back parts.Money
		if err := back.UnmarshalText(text); err != nil || back != m {
			return fmt.Errorf("%v is read from %q as %v, %v", m.Cents(), text, back, err)
		}
		return nil
	})
}

// Days against package time.
func TestDate_time(t *testing.T) {
	day := func(g *property.G) (parts.Date, time.Time) {
		tm := time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, g.Int(0, 3_652_058)) // up to 9999-12-31
		if g.Bool() {
			tm = time.Date(property.OneOf(g, 1, 4, 100, 400, 1600, 1900, 2000, 2024, 9999), time.Month(g.Int(1, 12)), g.Int(27, 31), 0, 0, 0, 0, time.UTC)
		}
		if tm.Year() > 9999 {
			tm = time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC)
		}
		d, err := parts.ParseDate(tm.Format(time.DateOnly))
		if err != nil {
			panic(err)
		}
		return d, tm
	}
	property.Check(t, func(g *property.G) error {
		a, ta := day(g)
		b, tb := day(g)
		want := int(tb.Sub(ta) / (24 * time.Hour))
		if tb.Year()-ta.Year() > 290 || ta.Year()-tb.Year() > 290 { // beyond a time.Duration
			want = int((tb.Unix() - ta.Unix()) / 86400)
		}
		if got := a.DaysUntil(b); got != want {
			return fmt.Errorf("%v to %v: %d days, package time has %d", a, b, got, want)
		}
		if got := a.Before(b); got != ta.Before(tb) {
			return fmt.Errorf("%v before %v: %v", a, b, got)
		}
		if a.String() != ta.Format(time.DateOnly) || !a.Given() {
			return fmt.Errorf("%v is written %q", ta, a)
		}
		return nil
	})
}

func TestParseDate_time(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := fmt.Sprintf("%04d-%02d-%02d", g.Int(0, 9999), g.Int(0, 13), g.Int(0, 32))
		if g.Int(0, 4) == 4 {
			s = property.OneOf(g, "", "2026-3-01", "2026/03/01", "26-03-01", "2026-03-01 ", "2026-03-011", "+026-03-01", "2026-02-29", "2024-02-29", "2024-02-30", "1900-02-29", "2000-02-29", "٢026-03-01")
		}
		_, want := time.Parse(time.DateOnly, s)
		if strings.HasPrefix(s, "0000") {
			want = errors.New("there is no year 0 in a price list")
		}
		d, err := parts.ParseDate(s)
		if (err == nil) != (want == nil) {
			return fmt.Errorf("%q: %v, %v; package time says %v", s, d, err, want)
		}
		var fe *units.FieldError
		if err != nil && !errors.As(err, &fe) {
			return fmt.Errorf("%q: %T", s, err)
		}
		return nil
	})
}

func TestDate_zero(t *testing.T) {
	var none parts.Date
	if none.Given() || none.String() != "" {
		t.Errorf("the zero Date is %q", none)
	}
}

func FuzzParseMoney(f *testing.F) {
	for _, s := range []string{"1234.50 USD", "-0.01 EUR", "92233720368547758.07 USD", "1,5 USD", "", " USD", "1.2.3 USD"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := parts.ParseMoney(s)
		if err != nil {
			return
		}
		back, err := parts.ParseMoney(m.String())
		if err != nil || back != m {
			t.Errorf("%q is %v, which reads as %v, %v", s, m, back, err)
		}
		num, cur, _ := strings.Cut(s, " ")
		want, ok := new(big.Rat).SetString(num)
		if !ok || cur != m.Currency() || want.Cmp(big.NewRat(m.Cents(), 100)) != 0 {
			t.Errorf("%q is %v", s, m)
		}
	})
}

func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2026-03-01", "0001-01-01", "9999-12-31", "2026-02-30", "2026-3-1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := parts.ParseDate(s)
		if err != nil {
			return
		}
		if _, err := time.Parse(time.DateOnly, s); err != nil || d.String() != s {
			t.Errorf("%q is %v; package time says %v", s, d, err)
		}
	})
}
