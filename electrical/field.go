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

// within reports whether x, a plain number in SI of kind k, lies in [lo, hi].
func (p *problems) within(path string, x, lo, hi float64, k kind) bool {
	if x >= lo && x <= hi {
		return true
	}
	p.rangef(path, k.show(x), between(lo, hi, k))
	return false
}

// required is within for a value where zero means "not given".
func (p *problems) required(path string, x, lo, hi float64, k kind) bool {
	if x == 0 {
		p.missing(path, between(lo, hi, k))
		return false
	}
	return p.within(path, x, lo, hi, k)
}

// optional is within for a value that may be left out as zero: it reports
// whether the value is given and good.
func (p *problems) optional(path string, x, lo, hi float64, k kind) bool {
	return x != 0 && p.within(path, x, lo, hi, k)
}

// power and apparent are required for powers and apparent powers; share is it
// for a part of a whole.
func (p *problems) power(path string, w units.Power) bool {
	return p.required(path, float64(w), minPower, maxPower, inWatts)
}

func (p *problems) apparent(path string, s units.ApparentPower) bool {
	return p.required(path, float64(s), minPower, maxPower, inVoltAmperes)
}

func (p *problems) share(path string, r units.Ratio) bool {
	return p.required(path, float64(r), minShare, 1, ratio("(100 %)"))
}

// Bounds of plain sense: beyond them a number is more likely to carry the wrong
// unit than to belong on a wash trailer.
const (
	minPower = 1e-3 // W
	maxPower = 1e6  // W
	minShare = 1e-3
)

// A kind prints plain numbers of one kind of quantity. Passing it beside the
// number, not the quantity itself, keeps good input free of allocation.
type kind struct {
	unit string // after the numbers of a range
	show func(float64) string
}

var (
	inWatts            = kind{"W", show[units.Power]}
	inVoltAmperes      = kind{"VA", show[units.ApparentPower]}
	inVolts            = kind{"V", show[units.Voltage]}
	inAmperes          = kind{"A", show[units.Current]}
	inMeters           = kind{"m", show[units.Length]}
	inOhmsPerMeter     = kind{"Ω/m", show[units.ResistancePerLength]}
	inSeconds          = kind{"s", show[units.Duration]}
	inHertz            = kind{"Hz", show[units.Frequency]}
	inRadiansPerSecond = kind{"rad/s", show[units.RotationalSpeed]}
	inCubicMeters      = kind{"m³", show[units.Volume]}
	inFlow             = kind{"m³/s", show[units.VolumeFlow]}
	inFuelRate         = kind{"m³/s", show[units.FuelRate]}
	inCoulombs         = kind{"C", show[units.Charge]}
	inCelsius          = kind{"°C", func(x float64) string { return number(x) + " °C" }}
	inFahrenheit       = kind{"°F", func(x float64) string { return number(x) + " °F" }}
)

func show[Q ~float64](x float64) string { return fmt.Sprint(Q(x)) }

// ratio is a dimensionless number that is told as a share of something; plain is
// one without.
func ratio(of string) kind   { return kind{of, show[units.Ratio]} }
func plain(unit string) kind { return kind{unit, number} }

// between prints a range.
func between(lo, hi float64, k kind) string {
	s := number(lo) + " to " + number(hi)
	if k.unit != "" {
		s += " " + k.unit
	}
	return s
}

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
