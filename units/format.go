package units

import (
	"bytes"
	"math"
	"strconv"
)

// maxDigits is the most significant digits that a printed number has.
const maxDigits = 6

// text returns si in the unit with the given factor, with prec decimals.
func text(k Kind, si, factor float64, prec int) string {
	var buf [64]byte
	rows := k.row().units
	for i := range rows {
		if rows[i].factor == factor {
			return string(appendNumberUnit(buf[:0], si/factor, prec, rows[i].symbol))
		}
	}
	u := k.Unit(SI).row()
	return string(appendNumberUnit(buf[:0], si/u.factor, prec, u.symbol))
}

func appendNumberUnit(b []byte, n float64, prec int, symbol string) []byte {
	b = appendDecimals(b, n, prec)
	return appendSymbol(b, symbol)
}

func appendSymbol(b []byte, symbol string) []byte {
	if symbol == "" {
		return b
	}
	return append(append(b, ' '), symbol...)
}

// appendDecimals writes n with prec decimals, but no more than maxDigits
// significant digits; a negative prec means as many as are of use.
func appendDecimals(b []byte, n float64, prec int) []byte {
	if prec < 0 {
		return appendDigits(b, n, maxDigits)
	}
	if n == 0 || math.IsNaN(n) || math.IsInf(n, 0) {
		return strconv.AppendFloat(b, n+0, 'f', min(prec, maxDigits), 64)
	}
	// Decimals that keep within maxDigits: 12.3456 has 4. Rounding may carry
	// into one more digit in front.
	r := RoundSignificant(n, maxDigits)
	room := maxDigits - 1 - exponent(r)
	if room < 0 {
		return strconv.AppendFloat(b, r, 'f', 0, 64)
	}
	return trimMinusZero(b, strconv.AppendFloat(b, n, 'f', min(prec, room), 64))
}

// trimMinusZero turns "-0.0" into "0.0": a printed zero has no sign.
func trimMinusZero(before, after []byte) []byte {
	start := len(before)
	if len(after) <= start || after[start] != '-' {
		return after
	}
	for _, c := range after[start+1:] {
		if c != '0' && c != '.' {
			return after
		}
	}
	return append(after[:start], after[start+1:]...)
}

// exponent returns the decimal exponent of the first digit of n, n ≠ 0.
func exponent(n float64) int {
	var buf [32]byte
	s := strconv.AppendFloat(buf[:0], n, 'e', -1, 64)
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] == 'e' {
			e, _ := strconv.Atoi(string(s[i+1:]))
			return e
		}
	}
	return 0
}

// FormatNumber writes n with at most digits significant digits, zeros at the
// end of the decimals dropped: FormatNumber(2283.41, 4) is "2283". Digits
// below 1 or above 6 mean 6. Large and small numbers are written out up to
// 1e15 and down to 1e-6, and with an exponent beyond.
func FormatNumber(n float64, digits int) string {
	var buf [64]byte
	return string(appendDigits(buf[:0], n, digits))
}

func appendDigits(b []byte, n float64, digits int) []byte {
	if digits < 1 || digits > maxDigits {
		digits = maxDigits
	}
	if n == 0 {
		return append(b, '0')
	}
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return strconv.AppendFloat(b, n, 'g', -1, 64)
	}
	r := RoundSignificant(n, digits)
	if a := math.Abs(r); a >= 1e15 || a < 1e-6 {
		return strconv.AppendFloat(b, r, 'e', -1, 64)
	}
	return strconv.AppendFloat(b, r, 'f', -1, 64)
}

// RoundSignificant returns n rounded to the given number of significant
// digits, as decimal printing rounds it. Digits below 1 count as 1. NaN,
// infinities, zero and what would be rounded up to infinity are returned as
// they are.
func RoundSignificant(n float64, digits int) float64 {
	if n == 0 || math.IsNaN(n) || math.IsInf(n, 0) {
		return n
	}
	var buf [32]byte
	r, _ := strconv.ParseFloat(string(strconv.AppendFloat(buf[:0], n, 'e', max(digits, 1)-1, 64)), 64)
	if math.IsInf(r, 0) {
		return n
	}
	return r
}

// Decimals returns how many decimals a number needs so that its last digit is
// no coarser than step: 0 for 1, 1 for 0.5 or 0.1, 3 for 0.002. It is 0 for
// steps of one and more, and for a step that is not a positive number, and
// at most 15.
func Decimals(step float64) int {
	if !(step > 0) || step >= 1 {
		return 0
	}
	return min(15, -exponent(step))
}

// short is the text of String.
func short(k Kind, si float64) string {
	var buf [64]byte
	return string(appendShown(buf[:0], k, si, SI, maxDigits))
}

// appendShown writes si in the unit that k shows in system s at this size.
func appendShown(b []byte, k Kind, si float64, s System, digits int) []byte {
	u := k.shown(si, s)
	return appendSymbol(appendDigits(b, u.fromSI(si), digits), u.symbol)
}

// shown picks the first unit of the system that si is not too small or too
// large for, else the last. Zero is shown in the first.
func (k Kind) shown(si float64, s System) *unitRow {
	rows := k.row().units
	var last *unitRow
	for i := range rows {
		u := &rows[i]
		if !u.in(s) {
			continue
		}
		last = u
		if si == 0 || u.fits(u.fromSI(si)) {
			return u
		}
	}
	if last == nil {
		return &unitRow{factor: 1}
	}
	return last
}

// fits reports whether n is inside the limits of writing in u.
func (u *unitRow) fits(n float64) bool {
	n = math.Abs(n)
	return n >= u.least && (u.most == 0 || n <= u.most)
}

// appendExact appends the shortest text that parses to the same bits.
//
// Among the units of the kind it takes the one that needs the fewest
// significant digits, the first in the table on a tie. Every kind has a decimal
// unit without limits, in which any number has an exact text.
func appendExact(b []byte, k Kind, si float64) ([]byte, error) {
	row := k.row()
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return nil, &FieldError{Value: strconv.FormatFloat(si, 'g', -1, 64), Want: row.phrase + " such as " + row.example, Err: ErrRange}
	}
	best, bestDigits := "", 100
	var bestText [32]byte
	var bestLen int
	for i := range row.units {
		u := &row.units[i]
		var buf [32]byte
		e, ok := u.shortest(buf[:0], si)
		if !ok {
			continue
		}
		if d := significant(e); d < bestDigits {
			best, bestDigits, bestLen = u.symbol, d, copy(bestText[:], e)
			if d == 1 {
				break
			}
		}
	}
	b = appendPlain(b, bestText[:bestLen])
	return appendSymbol(b, best), nil
}

// shortest appends the shortest number in the form of 'e' that reads as si in
// unit u; ok is false if there is none or u is not for numbers of that size.
func (u *unitRow) shortest(b []byte, si float64) (_ []byte, ok bool) {
	if si == 0 && u.offset == 0 {
		return strconv.AppendFloat(b, si, 'e', -1, 64), true
	}
	if u.ten {
		b = strconv.AppendFloat(b, si, 'e', -1, 64)
		if u.exp != 0 {
			b = scale(b, -u.exp)
		}
		return b, u.fits(si / u.factor)
	}
	n := u.fromSI(si)
	if math.IsInf(n, 0) || !u.fits(n) {
		return b, false
	}
	if u.offset != 0 {
		return u.shortestPoint(b, si, n)
	}
	// si/factor is within one unit in the last place of any number that reads
	// as si, so that five candidates hold all of them.
	found := 100
	n = math.Nextafter(math.Nextafter(n, math.Inf(-1)), math.Inf(-1))
	for range 5 {
		if u.toSI(n) == si {
			var buf [32]byte
			e := strconv.AppendFloat(buf[:0], n, 'e', -1, 64)
			if d := significant(e); d < found {
				found = d
				b = append(b[:0], e...)
			}
		}
		n = math.Nextafter(n, math.Inf(1))
	}
	return b, found < 100
}

// shortestPoint tries more and more decimals: near the zero of a shifted scale
// many numbers read as the same temperature.
func (u *unitRow) shortestPoint(b []byte, si, n float64) ([]byte, bool) {
	for decimals := range 18 {
		var buf [400]byte
		v, _ := strconv.ParseFloat(string(strconv.AppendFloat(buf[:0], n, 'f', decimals, 64)), 64)
		v += 0 // no negative zero
		if u.toSI(v) == si {
			return strconv.AppendFloat(b, v, 'e', -1, 64), true
		}
	}
	return b, false
}

// significant counts the digits in front of the exponent, zeros at the end
// left out.
func significant(e []byte) int {
	n, zeros := 0, 0
	for _, c := range e {
		if c == 'e' {
			break
		}
		if digit(c) {
			n++
			zeros++
			if c != '0' {
				zeros = 0
			}
		}
	}
	return max(1, n-zeros)
}

// appendPlain rewrites a number from the form of 'e' without its exponent where
// that stays readable. It moves the point and leaves the digits alone: another
// float64 in between might be printed with other digits.
func appendPlain(b, e []byte) []byte {
	mark := bytes.IndexByte(e, 'e')
	exp, err := strconv.Atoi(string(e[mark+1:]))
	if err != nil || exp < -6 || exp >= 15 {
		return append(b, e...)
	}
	if e[0] == '-' {
		b, e, mark = append(b, '-'), e[1:], mark-1
	}
	first, rest := e[0], e[1:mark]
	if len(rest) > 0 {
		rest = rest[1:] // the point
	}
	switch {
	case exp < 0:
		b = append(b, "0."...)
		for range -exp - 1 {
			b = append(b, '0')
		}
		return append(append(b, first), rest...)
	case exp >= len(rest):
		b = append(append(b, first), rest...)
		for range exp - len(rest) {
			b = append(b, '0')
		}
		return b
	}
	b = append(append(b, first), rest[:exp]...)
	return append(append(b, '.'), rest[exp:]...)
}
