package thermal

import (
	"math"

	"example.com/washrig/units"
)

// A ScaldSeries is a published series of scald times.
type ScaldSeries uint8

// The zero ScaldSeries is invalid. The two differ: name the one used.
const (
	// ScaldCPSC: third-degree burns to most adults, tap-water guidance of the U.S.
	// Consumer Product Safety Commission (as quoted on public pages).
	ScaldCPSC ScaldSeries = iota + 1
	// ScaldMoritzHenriques: A. R. Moritz and F. C. Henriques, "Studies of thermal
	// injury II", American Journal of Pathology 23, 1947 (as quoted in open
	// teaching material). Below 44 °C they found no injury.
	ScaldMoritzHenriques
)

// String returns the name of the series.
func (s ScaldSeries) String() string {
	switch s {
	case ScaldCPSC:
		return "CPSC"
	case ScaldMoritzHenriques:
		return "Moritz and Henriques 1947"
	}
	return "invalid series"
}

// A scald is one row of a series.
type scald struct{ fahrenheit, seconds float64 }

var (
	scaldCPSC = [...]scald{{120, 300}, {130, 30}, {140, 6}, {150, 2}}
	// 111.2 °F is 44 °C.
	scaldMH = [...]scald{{111.2, 21600}, {120, 300}, {133, 15}, {140, 5}, {155, 1}}
)

// A Scald is how long water of a temperature may touch skin.
type Scald struct {
	// Time to injury by the series. Below its coldest row Below is true and Time
	// the time of that row, which the water takes at least; above its hottest Above
	// is true and Time the time of that row, which the water takes at most.
	Time         units.Duration
	Below, Above bool
}

// ScaldTime returns how long water of the given temperature takes to scald by a
// published series, in between on a straight line of the logarithm of time over
// temperature.
//
// It informs a caution. Children and old people burn faster; a jet under pressure
// injures at any temperature.
//
// Range: 0 °C to 350 °C; outside the series see [Scald].
func ScaldTime(series ScaldSeries, at units.Temperature) (Scald, error) {
	var rows []scald
	switch series {
	case ScaldCPSC:
		rows = scaldCPSC[:]
	case ScaldMoritzHenriques:
		rows = scaldMH[:]
	default:
		return Scald{}, refuse("series", series.String(), "ScaldCPSC or ScaldMoritzHenriques", units.ErrRange)
	}
	if err := between("at", at, coldestWater, hottestWater); err != nil {
		return Scald{}, err
	}
	T := at.Fahrenheit()
	const same = 1e-9 // °F, rounding of a scale
	last := rows[len(rows)-1]
	switch {
	case T < rows[0].fahrenheit-same:
		return Scald{Time: units.Duration(rows[0].seconds), Below: true}, nil
	case T > last.fahrenheit+same:
		return Scald{Time: units.Duration(last.seconds), Above: true}, nil
	}
	i := 1
	for i < len(rows)-1 && T > rows[i].fahrenheit {
		i++
	}
	a, b := rows[i-1], rows[i]
	x := math.Min(math.Max((T-a.fahrenheit)/(b.fahrenheit-a.fahrenheit), 0), 1)
	return Scald{Time: units.Duration(a.seconds * math.Pow(b.seconds/a.seconds, x))}, nil
}
