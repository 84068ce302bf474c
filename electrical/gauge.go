package electrical

import (
	"math"
	"strconv"
	"strings"

	"example.com/washrig/units"
)

// A Gauge is an American wire gauge number: 12 is 12 AWG. The sizes above
// 1 AWG count down from −1: −1 is 1/0, −2 is 2/0, −3 is 3/0, −4 is 4/0. The
// zero Gauge is "not given".
type Gauge int

// The sizes above 1 AWG.
const (
	Gauge1_0 Gauge = -1 // 1/0, "one aught"
	Gauge2_0 Gauge = -2
	Gauge3_0 Gauge = -3
	Gauge4_0 Gauge = -4
)

// finest is the last gauge of ASTM B258 that this package looks at.
const finest Gauge = 36

// String returns "12 AWG" or "2/0 AWG".
func (g Gauge) String() string {
	switch {
	case g == 0:
		return "not given"
	case g < 0:
		return strconv.Itoa(-int(g)) + "/0 AWG"
	}
	return strconv.Itoa(int(g)) + " AWG"
}

// ParseGauge reads "12 AWG", "12", "2/0 AWG" or "2/0".
//
// Errors: a *units.FieldError without path, units.ErrMissing for empty text,
// units.ErrSyntax and units.ErrRange.
func ParseGauge(s string) (Gauge, error) {
	var p problems
	const want = `a wire gauge such as "12 AWG" or "2/0 AWG"`
	if s == "" {
		p.missing("", want)
		return 0, p.err()
	}
	digits := strings.TrimSuffix(s, " AWG")
	sign := Gauge(1)
	if d, ok := strings.CutSuffix(digits, "/0"); ok {
		digits, sign = d, -1
	}
	n, err := strconv.ParseUint(digits, 10, 8)
	if err != nil || len(digits) > 1 && digits[0] == '0' {
		p.add("", strconv.Quote(s), want, units.ErrSyntax)
		return 0, p.err()
	}
	g := sign * Gauge(n)
	if !g.valid() {
		p.add("", strconv.Quote(s), "4/0 to "+finest.String(), units.ErrRange)
		return 0, p.err()
	}
	return g, nil
}

func (g Gauge) valid() bool { return g != 0 && g >= Gauge4_0 && g <= finest }

// number is the n of the formulas: 0 for 1/0, −3 for 4/0.
func (g Gauge) number() float64 {
	if g < 0 {
		return float64(g + 1)
	}
	return float64(g)
}

// Diameter returns the diameter of a solid wire:
//
//	d = 0.005 in · 92^((36 − n)/39)
//
// n is the gauge number, 0 for 1/0 and −3 for 4/0. Range: 4/0 to 36 AWG.
//
// Errors: units.ErrMissing, units.ErrRange.
//
// Source: ASTM B258, the definition of the series; 4/0 is 0.46 in and 36 AWG
// 0.005 in exactly.
func (g Gauge) Diameter() (units.Length, error) {
	var p problems
	p.gauge("gauge", g)
	if err := p.err(); err != nil {
		return 0, err
	}
	return units.Length(gaugeDiameter(g.number())), nil
}

// Area returns the cross-section of a solid wire of the gauge's [Gauge.Diameter].
//
// Errors: as of Diameter.
func (g Gauge) Area() (units.Area, error) {
	d, err := g.Diameter()
	return units.Area(math.Pi / 4 * float64(d) * float64(d)), err
}

func gaugeDiameter(n float64) float64 { return 0.005 * 0.0254 * math.Pow(92, (36-n)/39) }

func (p *problems) gauge(path string, g Gauge) {
	switch {
	case g == 0:
		p.missing(path, `a wire gauge such as 12 AWG`)
	case !g.valid():
		p.rangef(path, g, "4/0 AWG to "+finest.String())
	}
}
