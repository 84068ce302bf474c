package units

import (
	"math"
	"strconv"
	"strings"
)

// maxText bounds what is read as one quantity; the longest exact text is
// under 60 bytes.
const maxText = 200

// A failure says what is wrong with a text, without holding on to it.
type failure uint8

const (
	fine failure = iota
	failEmpty
	failLong
	failNumber   // no number in front
	failComma    // decimal comma or thousands separator
	failFraction // malformed fraction
	failNegative // negative fraction
	failZeroDen  // denominator 0
	failOverflow // too large for a float64
	failNoUnit
	failUnit  // unit unknown to this kind
	failCold  // at or below absolute zero
	failMinus // a minus sign that is not ASCII
)

// A scan is a number split from what follows it. It is passed by value, so that
// the compiler sees that the text does not outlive the call.
type scan struct {
	number     string // decimal digits with sign and exponent; the whole part of a fraction
	num, den   string // fraction, empty if none
	unit       string
	hasDecimal bool // number has a point or an exponent
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// The spaces that stand between a number and its unit: the plain one, the tab,
// and the two that keep a line together.
var spaces = [...]string{" ", "\t", "\u00a0", "\u202f"}

func trimLeft(s string) string {
	for i := 0; i < len(spaces); i++ {
		if t := strings.TrimPrefix(s, spaces[i]); len(t) < len(s) {
			s, i = t, -1
		}
	}
	return s
}

func trim(s string) string {
	s = trimLeft(s)
	for i := 0; i < len(spaces); i++ {
		if t := strings.TrimSuffix(s, spaces[i]); len(t) < len(s) {
			s, i = t, -1
		}
	}
	return s
}

// digits returns the length of the run of digits that s begins with.
func digits(s string) int {
	n := 0
	for n < len(s) && digit(s[n]) {
		n++
	}
	return n
}

// scanText splits "1-1/2 in" and "-3.5e2 m" into number, fraction and unit.
func scanText(s string) (sc scan, f failure) {
	if len(s) > maxText {
		return sc, failLong
	}
	s = trim(s)
	if s == "" {
		return sc, failEmpty
	}
	i := 0
	if s[i] == '-' || s[i] == '+' {
		i++
	}
	whole := digits(s[i:])
	i += whole
	frac := 0
	if i < len(s) && s[i] == '.' {
		frac = digits(s[i+1:])
		i += 1 + frac
		sc.hasDecimal = true
	}
	if whole+frac == 0 {
		if strings.HasPrefix(s, "\u2212") {
			return sc, failMinus
		}
		return sc, failNumber
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if j < len(s) && (s[j] == '-' || s[j] == '+') {
			j++
		}
		if n := digits(s[j:]); n > 0 {
			i = j + n
			sc.hasDecimal = true
		}
	}
	sc.number = s[:i]
	rest := s[i:]
	if rest != "" {
		switch c := rest[0]; {
		case c == ',', c == '_', c == '.':
			return sc, failComma
		}
	}
	sc, rest, f = sc.fraction(rest)
	if f != fine {
		return sc, f
	}
	sc.unit = trim(rest)
	if sc.unit != "" && digit(sc.unit[0]) {
		return sc, failComma // "3 500 psi"
	}
	return sc, fine
}

// fraction takes "/8", " 3/8" or "-3/8" off the front of rest.
func (sc scan) fraction(rest string) (scan, string, failure) {
	if rest == "" {
		return sc, rest, fine
	}
	if rest[0] == '/' { // the number so far is the numerator
		n := digits(rest[1:])
		if n == 0 || sc.hasDecimal {
			return sc, rest, failFraction
		}
		sc.num, sc.den, sc.number = sc.number, rest[1:1+n], ""
		return sc, rest[1+n:], sc.checkFraction(sc.num)
	}
	tail := trimLeft(rest)
	if len(tail) == len(rest) {
		if rest[0] != '-' {
			return sc, rest, fine
		}
		tail = rest[1:]
	}
	n := digits(tail)
	if n == 0 || n == len(tail) || tail[n] != '/' {
		return sc, rest, fine
	}
	d := digits(tail[n+1:])
	if d == 0 || sc.hasDecimal {
		return sc, rest, failFraction
	}
	sc.num, sc.den = tail[:n], tail[n+1:n+1+d]
	f := sc.checkFraction(sc.number)
	if f == fine && !sc.proper() {
		f = failFraction
	}
	return sc, tail[n+1+d:], f
}

func (sc scan) checkFraction(signed string) failure {
	switch {
	case signed[0] == '-':
		return failNegative
	case len(sc.number) > 9 || len(sc.num) > 9 || len(sc.den) > 9:
		return failFraction
	case strings.Trim(sc.den, "0") == "":
		return failZeroDen
	}
	return fine
}

// proper reports whether the fraction beside a whole number is less than one.
func (sc scan) proper() bool {
	num, _ := strconv.ParseUint(sc.num, 10, 64)
	den, _ := strconv.ParseUint(sc.den, 10, 64)
	return num < den
}

// value returns the number scaled by 10^exp, correctly rounded.
// A fraction is brought to the shortest decimal that reads as the same
// float64 first, so that 3/8 mm and 0.375 mm are the same bits.
func (sc scan) value(exp int) (float64, failure) {
	var buf [maxText + 32]byte
	b := buf[:0]
	if sc.den != "" {
		whole, _ := strconv.ParseUint(strings.TrimPrefix(sc.number, "+"), 10, 64)
		num, _ := strconv.ParseUint(strings.TrimPrefix(sc.num, "+"), 10, 64)
		den, _ := strconv.ParseUint(sc.den, 10, 64)
		v := float64(whole*den+num) / float64(den)
		if exp == 0 {
			return v, fine
		}
		b = strconv.AppendFloat(b, v, 'e', -1, 64)
	} else {
		b = append(b, sc.number...)
	}
	if exp != 0 {
		b = scale(b, exp)
	}
	v, err := strconv.ParseFloat(string(b), 64)
	if err != nil && math.IsInf(v, 0) {
		return 0, failOverflow
	}
	if err != nil {
		return 0, failNumber
	}
	return v, fine
}

// scale adds exp to the decimal exponent of the number in b.
func scale(b []byte, exp int) []byte {
	for i, c := range b {
		if c == 'e' || c == 'E' {
			e, err := strconv.Atoi(string(b[i+1:]))
			if err != nil || e > 1e6 || e < -1e6 {
				return b // far outside float64 with or without exp
			}
			return strconv.AppendInt(b[:i+1], int64(e+exp), 10)
		}
	}
	return strconv.AppendInt(append(b, 'e'), int64(exp), 10)
}

// parse returns the SI value of s read as kind k.
func parse(k Kind, s string) (float64, failure) {
	sc, f := scanText(s)
	if f != fine {
		return 0, f
	}
	i := k.find(sc.unit)
	if i < 0 {
		if sc.unit == "" {
			return 0, failNoUnit
		}
		return 0, failUnit
	}
	u := &k.row().units[i]
	exp := 0
	if u.ten {
		exp = u.exp
	}
	v, f := sc.value(exp)
	if f != fine {
		return 0, f
	}
	if !u.ten {
		v = u.toSI(v)
	}
	if math.IsInf(v, 0) {
		return 0, failOverflow
	}
	if k == KindTemperature && v <= 0 {
		return 0, failCold
	}
	return v, fine
}

// compound reports whether s is a unit of k and then another number: what is
// left of "5 ft 6 in".
func (k Kind) compound(s string) bool {
	for i := 1; i < len(s); i++ {
		if digit(s[i]) && k.find(trim(s[:i])) >= 0 {
			return true
		}
	}
	return false
}

// parseError builds the error for a failed parse. It copies s, so that the
// successful path need not keep its argument alive.
func parseError(k Kind, s string, f failure) error {
	row := k.row()
	if len(s) > maxText {
		s = s[:maxText] + "…"
	}
	s = strings.Clone(s)
	e := &FieldError{Value: s, Want: row.phrase + " such as " + row.example, Err: ErrSyntax}
	say := func(text string) { e.Err = &reason{text, ErrSyntax} }
	switch f {
	case failEmpty:
		e.Value = ""
		e.Err = &reason{"no text", ErrMissing}
	case failLong:
		say("too long to be a quantity")
	case failNumber:
		say("does not begin with a number")
	case failComma:
		say("digits are written together with a decimal point: no decimal comma, no thousands separator")
	case failFraction:
		say("not a fraction such as 3/8, 6 1/2 or 1-1/2")
	case failNegative:
		say("fractions are read as positive values only")
	case failMinus:
		say("the minus sign is written -")
	case failZeroDen:
		say("the fraction divides by zero")
	case failOverflow:
		e.Err = &reason{"too large", ErrRange}
	case failCold:
		e.Err = &reason{"at or below absolute zero", ErrRange}
	case failNoUnit:
		say("a number without a unit")
		e.Want = twoSpellings(k, s)
	case failUnit:
		sc, _ := scanText(s)
		say(foundUnit(k, sc.unit))
	}
	return e
}

// twoSpellings offers a bare number in the kind's US unit, and that in SI.
func twoSpellings(k Kind, s string) string {
	sc, _ := scanText(s)
	v, f := sc.value(0)
	us, si := k.Unit(US), k.Unit(SI)
	first := trim(s) + " " + us.Symbol()
	if f != fine {
		return first
	}
	if us == si {
		// One trade unit serves both: offer its neighbour in the table.
		for _, u := range k.Units() {
			if u != us && u.Symbol() != "" {
				return first + " or " + trim(s) + " " + u.Symbol()
			}
		}
		return first
	}
	n := si.row().fromSI(us.row().toSI(v))
	return first + " or " + FormatNumber(n, 3) + " " + si.Symbol()
}

// foundUnit says what a unit that does not belong to k is.
func foundUnit(k Kind, unit string) string {
	var found []string
	for _, other := range Kinds() {
		// A length also measures the two kinds of point; it is named once.
		if other.find(unit) >= 0 && other != KindElevation && other != KindPosition {
			found = append(found, other.row().phrase)
		}
	}
	if len(found) > 0 {
		return unit + " is " + strings.Join(found, " or ")
	}
	if k.compound(unit) {
		return "one number with one unit is read"
	}
	for _, u := range k.Units() {
		for _, sp := range u.row().spellings {
			if strings.EqualFold(sp, unit) {
				return "unknown unit " + strconv.Quote(unit) + ": write " + u.Symbol()
			}
		}
	}
	return "unknown unit " + strconv.Quote(unit)
}

func parseScalar(k Kind, s string) (float64, error) {
	v, f := parse(k, s)
	if f != fine {
		return 0, parseError(k, s, f)
	}
	return v, nil
}

func unmarshalScalar(k Kind, text []byte, dst *float64) error {
	v, f := parse(k, string(text))
	if f != fine {
		return parseError(k, string(text), f)
	}
	*dst = v
	return nil
}

func mustParse(k Kind, s string) float64 {
	v, err := parseScalar(k, s)
	if err != nil {
		panic(err)
	}
	return v
}
