package units

import (
	"math"
	"strconv"
	"strings"
)

// A Wire is a solid round conductor of the American Wire Gauge. A stranded
// conductor of the same gauge has the same metal area and a larger diameter.
type Wire struct {
	Size     string // "12 AWG", "2/0 AWG"
	Diameter Length
	Area     Area
}

// AWG returns the wire of an American Wire Gauge size from 4/0 to 40, written
// "12", "12 AWG", "2/0" or "00":
//
//	d = 0.005 in × 92^((36 - n)/39)
//
// with n the gauge number, 0 for 1/0, -1 for 2/0 and so on to -3 for 4/0. The
// diameters are not rounded to the nearest tenth of a mil as wire is sold.
// Any other text is a [*FieldError].
//
// Source: ASTM B258, which fixes 4/0 at 0.46 in, 36 at 0.005 in and equal
// ratios between.
func AWG(size string) (Wire, error) {
	n, ok := gauge(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(size), "AWG")))
	if !ok {
		return Wire{}, &FieldError{Path: "size", Value: size, Want: `an AWG size from "4/0" to "40", such as "12"`, Err: ErrSyntax}
	}
	if n < -3 || n > 40 {
		return Wire{}, &FieldError{Path: "size", Value: size, Want: `"4/0" to "40"`, Err: ErrRange}
	}
	name := strconv.Itoa(n)
	if n <= 0 {
		name = strconv.Itoa(1-n) + "/0"
	}
	d := Length(0.005*math.Pow(92, float64(36-n)/39)) * Inch
	return Wire{Size: name + " AWG", Diameter: d, Area: circle(d)}, nil
}

// gauge returns the gauge number that s names.
func gauge(s string) (int, bool) {
	if zeros, ok := strings.CutSuffix(s, "/0"); ok {
		n, ok := small(zeros)
		return 1 - n, ok && n > 0
	}
	if s != "" && len(s) <= 4 && strings.Trim(s, "0") == "" {
		return 1 - len(s), true
	}
	return small(s)
}

// small reads a number of one or two digits without a leading zero.
func small(s string) (int, bool) {
	if len(s) < 1 || len(s) > 2 || digits(s) != len(s) || s[0] == '0' {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}
