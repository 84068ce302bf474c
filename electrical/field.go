package electrical

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/washrig/units"
)

// problems gathers input errors in field order. Its zero value is ready.
type problems struct{ list []error }

func (p *problems) add(path, value, want string, kind error) {
	p.list = append(p.list, &units.FieldError{Path: path, Value: value, Want: want, Err: kind})
}

func (p *problems) missing(path, want string) { p.add(path, "", want, units.ErrMissing) }

func (p *problems) rangef(path string, value any, want string) {
	p.add(path, fmt.Sprint(value), want, units.ErrRange)
}

func (p *problems) conflict(path string, value any, want string) {
	p.add(path, fmt.Sprint(value), want, units.ErrConflict)
}

// within reports whether x, the plain number of value, lies in [lo, hi].
func (p *problems) within(path string, x, lo, hi float64, value any, unit string) bool {
	if x >= lo && x <= hi {
		return true
	}
	p.rangef(path, value, number(lo)+" to "+number(hi)+" "+unit)
	return false
}

// required is within for a value where zero means "not given".
func (p *problems) required(path string, x, lo, hi float64, value any, unit string) bool {
	if x == 0 {
		p.missing(path, number(lo)+" to "+number(hi)+" "+unit)
		return false
	}
	return p.within(path, x, lo, hi, value, unit)
}

// optional is within for a value that may be left out as zero: it reports
// whether the value is given and good.
func (p *problems) optional(path string, x, lo, hi float64, value any, unit string) bool {
	return x != 0 && p.within(path, x, lo, hi, value, unit)
}

// power and apparent are required for powers and apparent powers; share is it
// for a part of a whole.
func (p *problems) power(path string, w units.Power) bool {
	return p.required(path, float64(w), minPower, maxPower, w, "W")
}

func (p *problems) apparent(path string, s units.ApparentPower) bool {
	return p.required(path, float64(s), minPower, maxPower, s, "VA")
}

func (p *problems) share(path string, r units.Ratio) bool {
	return p.required(path, float64(r), minShare, 1, r, "(100 %)")
}

// Bounds of plain sense: beyond them a number is more likely to carry the wrong
// unit than to belong on a wash trailer.
const (
	minPower = 1e-3 // W
	maxPower = 1e6  // W
	minShare = 1e-3
)

func (p *problems) err() error { return errors.Join(p.list...) }

// number prints a limit shortly.
func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// element returns the path of element i of a list: by name where the name can
// stand in a path, else by its place, counted from 1.
func element(list, name string, i int) string {
	if isID(name) {
		return list + "[" + name + "]"
	}
	return list + "[#" + strconv.Itoa(i+1) + "]"
}

func isID(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c >= 'a' && c <= 'z' || i > 0 && (c >= '0' && c <= '9' || c == '-') {
			continue
		}
		return false
	}
	return s != ""
}
