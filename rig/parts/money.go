package parts

import (
	"errors"
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"example.com/washrig/units"
)

// Money is an amount in whole cents of one currency, named by its three-letter
// code (ISO 4217). The zero Money is "not given". Money never passes through a
// binary fraction.
type Money struct {
	cents    int64
	currency string
}

// ErrOverflow is the error of an amount too large for whole cents in 64 bits.
var ErrOverflow = errors.New("amount is too large")

// Cents makes an amount of whole cents.
func Cents(cents int64, currency string) (Money, error) {
	if !isCurrency(currency) {
		return Money{}, &units.FieldError{Value: strconv.Quote(currency), Want: "a currency of three capital letters", Err: units.ErrSyntax}
	}
	return Money{cents, currency}, nil
}

func isCurrency(s string) bool {
	if len(s) != 3 {
		return false
	}
	for i := range 3 {
		if s[i] < 'A' || s[i] > 'Z' {
			return false
		}
	}
	return true
}

// Given reports whether the amount was given; zero of a currency is.
func (m Money) Given() bool { return m.currency != "" }

// Cents returns the whole cents.
func (m Money) Cents() int64 { return m.cents }

// Currency returns the three-letter code, empty if the amount is not given.
func (m Money) Currency() string { return m.currency }

// Add returns the sum of two amounts of one currency. An amount that was not
// given adds nothing.
func (m Money) Add(o Money) (Money, error) {
	switch {
	case !o.Given():
		return m, nil
	case !m.Given():
		return o, nil
	case m.currency != o.currency:
		return Money{}, fmt.Errorf("%w: %s and %s cannot be added", units.ErrConflict, m.currency, o.currency)
	}
	sum := m.cents + o.cents
	if (sum > m.cents) != (o.cents > 0) && o.cents != 0 {
		return Money{}, ErrOverflow
	}
	return Money{sum, m.currency}, nil
}

// Times returns the amount times num/den, rounded to a cent half away from
// zero. It is exact otherwise: the product is formed in whole numbers.
func (m Money) Times(num, den int64) (Money, error) {
	if den == 0 {
		return Money{}, &units.FieldError{Path: "den", Value: "0", Want: "a divisor other than zero", Err: units.ErrRange}
	}
	return m.scale(big.NewRat(num, den))
}

// TimesRatio returns the amount times a decimal ratio such as a mark-up, taken
// at its shortest decimal text (0.35, not the binary fraction next to it),
// rounded to a cent half away from zero.
func (m Money) TimesRatio(r float64) (Money, error) {
	x, ok := new(big.Rat).SetString(strconv.FormatFloat(r, 'g', -1, 64))
	if !ok {
		return Money{}, &units.FieldError{Value: fmt.Sprint(r), Want: "a finite number", Err: units.ErrRange}
	}
	return m.scale(x)
}

func (m Money) scale(r *big.Rat) (Money, error) {
	x := new(big.Rat).Mul(new(big.Rat).SetInt64(m.cents), r)
	num, den := new(big.Int).Set(x.Num()), x.Denom()
	neg := num.Sign() < 0
	num.Abs(num)
	num.Mul(num, big.NewInt(2)).Add(num, den)
	num.Quo(num, new(big.Int).Mul(den, big.NewInt(2)))
	if neg {
		num.Neg(num)
	}
	if !num.IsInt64() {
		return Money{}, ErrOverflow
	}
	return Money{num.Int64(), m.currency}, nil
}

// String writes the amount as text: "1234.50 USD".
func (m Money) String() string {
	if !m.Given() {
		return ""
	}
	sign, c := "", m.cents
	u := uint64(c)
	if c < 0 {
		sign, u = "-", uint64(-(c+1))+1
	}
	return fmt.Sprintf("%s%d.%02d %s", sign, u/100, u%100, m.currency)
}

// MarshalText writes what ParseMoney reads.
func (m Money) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads what ParseMoney reads.
func (m *Money) UnmarshalText(text []byte) error {
	x, err := ParseMoney(string(text))
	if err == nil {
		*m = x
	}
	return err
}

// ParseMoney reads an amount and its currency: "1234.50 USD" or "1234 USD".
// Separators of thousands and decimal commas are refused, as is an amount
// without a currency.
func ParseMoney(s string) (Money, error) {
	bad := func(want string) (Money, error) {
		return Money{}, &units.FieldError{Value: strconv.Quote(s), Want: want, Err: units.ErrSyntax}
	}
	num, cur, ok := strings.Cut(s, " ")
	if !ok || !isCurrency(cur) {
		return bad("an amount and its currency, such as 1234.50 USD")
	}
	if strings.Contains(num, ",") {
		return bad("no comma; a decimal point and no separators, such as 1234.50 USD")
	}
	whole, frac, point := strings.Cut(num, ".")
	if point && len(frac) != 2 || !digits(strings.TrimPrefix(whole, "-")) || (point && !digits(frac)) {
		return bad("whole units, or a point and two digits, such as 1234.50 USD")
	}
	if !point {
		frac = "00"
	}
	c, err := strconv.ParseInt(whole+frac, 10, 64)
	if err != nil {
		return Money{}, &units.FieldError{Value: strconv.Quote(s), Want: "an amount below 9e16", Err: units.ErrRange}
	}
	return Money{c, cur}, nil
}

// Pattern is the regular expression of the text that ParseMoney reads, for
// schemas.
func (Money) Pattern() string { return `^-?[0-9]+(?:\.[0-9]{2})? [A-Z]{3}$` }

func digits(s string) bool {
	if s == "" {
		return false
	}
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// A Date is a calendar day, year-month-day as in ISO 8601. It has no clock and
// no place; callers pass "today" where an age matters.
type Date struct{ year, month, day int16 }

// ParseDate reads "2026-03-01".
func ParseDate(s string) (Date, error) {
	bad := func(err error) (Date, error) {
		return Date{}, &units.FieldError{Value: strconv.Quote(s), Want: "a day such as 2026-03-01", Err: err}
	}
	if len(s) != 10 || s[4] != '-' || s[7] != '-' || !digits(s[:4]) || !digits(s[5:7]) || !digits(s[8:]) {
		return bad(units.ErrSyntax)
	}
	y, _ := strconv.Atoi(s[:4])
	m, _ := strconv.Atoi(s[5:7])
	d, _ := strconv.Atoi(s[8:])
	if y < 1 || m < 1 || m > 12 || d < 1 || d > daysIn(y, m) {
		return bad(units.ErrRange)
	}
	return Date{int16(y), int16(m), int16(d)}, nil
}

func daysIn(y, m int) int {
	switch m {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if y%4 == 0 && (y%100 != 0 || y%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// Given reports whether the day was given.
func (d Date) Given() bool { return d.year != 0 }

// Before reports whether d is an earlier day than o.
func (d Date) Before(o Date) bool { return d.number() < o.number() }

// DaysUntil returns the days from d to o, negative if o is earlier.
func (d Date) DaysUntil(o Date) int { return o.number() - d.number() }

// number counts days in the proleptic Gregorian calendar.
func (d Date) number() int {
	y, m := int(d.year), int(d.month)
	if m < 3 {
		y--
		m += 12
	}
	return 365*y + y/4 - y/100 + y/400 + (153*(m-3)+2)/5 + int(d.day)
}

// String writes the day as ParseDate reads it, empty if none was given.
func (d Date) String() string {
	if !d.Given() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.year, d.month, d.day)
}

// MarshalText writes what ParseDate reads.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// Pattern is the regular expression of the text that ParseDate reads, for
// schemas; it does not know how long a month is.
func (Date) Pattern() string {
	return `^[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])$`
}

// UnmarshalText reads what ParseDate reads.
func (d *Date) UnmarshalText(text []byte) error {
	x, err := ParseDate(string(text))
	if err == nil {
		*d = x
	}
	return err
}
