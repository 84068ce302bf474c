package worked

import (
	"fmt"
	"strconv"
	"strings"
)

// Number reads a number as a source printed it, with the unit that follows it.
// It returns the value, half a unit in its last printed digit, and the unit
// ("" if there is none).
//
// Read are a sign (also the typographic minus), digits with or without commas
// between groups of three, decimals, and a power of ten written E-3, e-3,
// "× 10^-3" or "x 10^-3":
//
//	"2,283 psi"        2283          0.5        "psi"
//	"1.2E-3 MPa"       0.0012        0.00005    "MPa"
//	"-40.0 °F"         -40           0.05       "°F"
//	"$1,234.50"        1234.5        0.005      "$"
//
// A zero before the decimal point's place counts as a printed digit: a source
// that prints 1500 and means 1500 to the nearest hundred needs a tolerance of
// its own, with the reason.
func Number(printed string) (value, half float64, unit string, err error) {
	p, err := parse(printed)
	if err != nil {
		return 0, 0, "", err
	}
	return p.value, p.half, p.unit, nil
}

// A printedNumber is a number taken apart: value = digits with the given
// count of decimals, times ten to the exponent.
type printedNumber struct {
	value, half float64
	unit        string
	significant int // digits from the first that is not zero
	decimals    int
	exponent    int
	suffix      string // the power of ten as printed
}

func parse(printed string) (p printedNumber, err error) {
	fail := func(why string) (printedNumber, error) {
		return printedNumber{}, fmt.Errorf("%q is not a printed number: %s", printed, why)
	}
	s := strings.TrimSpace(printed)
	sign := ""
	for _, minus := range []string{"-", "−", "+"} {
		if rest, ok := strings.CutPrefix(s, minus); ok {
			if s = rest; minus != "+" {
				sign = "-"
			}
			break
		}
	}
	if rest, ok := strings.CutPrefix(s, "$"); ok {
		p.unit, s = "$", rest
	}
	n := 0
	for n < len(s) && (isDigit(s[n]) || s[n] == ',' && n+1 < len(s) && isDigit(s[n+1])) {
		n++
	}
	whole := s[:n]
	s = s[n:]
	if whole == "" {
		return fail("it does not begin with a digit")
	}
	if groups := strings.Split(whole, ","); len(groups) > 1 {
		for i, g := range groups {
			if len(g) > 3 || len(g) == 0 || i > 0 && len(g) != 3 {
				return fail("commas stand only between groups of three digits")
			}
		}
		whole = strings.Join(groups, "")
	}
	decimals := ""
	if rest, ok := strings.CutPrefix(s, "."); ok {
		n := 0
		for n < len(rest) && isDigit(rest[n]) {
			n++
		}
		if n > 0 {
			decimals, s = rest[:n], rest[n:]
		}
	}
	p.decimals = len(decimals)
	p.significant = len(strings.TrimLeft(whole+decimals, "0"))

	var power string
	power, p.suffix, s = powerOfTen(s)
	if power != "" {
		if p.exponent, err = strconv.Atoi(power); err != nil {
			return fail("the power of ten is too large")
		}
	}
	if s != "" && (s[0] == '.' || s[0] == ',' || s[0] == '/' || isDigit(s[0])) {
		return fail("something like a number follows it at " + strconv.Quote(s))
	}
	s = strings.TrimSpace(s)
	if s != "" && isDigit(s[0]) {
		return fail("a second number follows it at " + strconv.Quote(s))
	}
	if s != "" {
		if p.unit != "" {
			return fail("it has a unit before and one behind")
		}
		p.unit = s
	}
	p.value, err = strconv.ParseFloat(sign+whole+"."+decimals+"e"+strconv.Itoa(p.exponent), 64)
	if err != nil {
		return fail("it does not fit a float64")
	}
	p.half, err = strconv.ParseFloat("5e"+strconv.Itoa(p.exponent-p.decimals-1), 64)
	if err != nil || p.half == 0 {
		return fail("its last digit does not fit a float64")
	}
	return p, nil
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// powerOfTen cuts a power of ten from the front of s. The power is empty if
// there is none; suffix is the power as it was written.
func powerOfTen(s string) (power, suffix, rest string) {
	for _, lead := range []string{"E", "e", "×10^", " × 10^", "x10^", " x 10^"} {
		after, ok := strings.CutPrefix(s, lead)
		if !ok {
			continue
		}
		n := 0
		if n < len(after) && (after[n] == '-' || after[n] == '+') {
			n++
		}
		first := n
		for n < len(after) && isDigit(after[n]) {
			n++
		}
		if n == first {
			continue
		}
		return after[:n], s[:len(lead)+n], after[n:]
	}
	return "", "", s
}

// like writes x in the style of the printed number with one digit more, but
// never more than eleven in all: results may differ between processors in the
// twelfth. Rounding goes by way of twelve digits so that a value meant to lie
// exactly between two neighbours falls on the same side everywhere.
func (p printedNumber) like(x float64) string {
	mantissa, power, _ := strings.Cut(strconv.FormatFloat(x, 'e', 11, 64), "e")
	e, err := strconv.Atoi(power)
	if err != nil { // NaN or Inf
		return mantissa
	}
	y, err := strconv.ParseFloat(mantissa+"e"+strconv.Itoa(e-p.exponent), 64)
	if err != nil {
		return mantissa + "e" + power
	}
	decimals := p.decimals + 1
	if most := 10 - (e - p.exponent); decimals > most {
		decimals = max(most, 0)
	}
	s := strconv.FormatFloat(y, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return s + p.suffix
}

// withUnit sets the unit where the source has it.
func (p printedNumber) withUnit(number string) string {
	switch p.unit {
	case "":
		return number
	case "$":
		if rest, ok := strings.CutPrefix(number, "-"); ok {
			return "-$" + rest
		}
		return "$" + number
	}
	return number + " " + p.unit
}
