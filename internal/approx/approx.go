// Package approx is how tests compare results that hold quantities: one option
// for go-cmp in which every kind of package units is equal within a tolerance.
//
//	if d := cmp.Diff(want, got, approx.Option(1e-9, (1*units.Pascal).Quantity())); d != "" {
//		t.Errorf("-want +got\n%s", d)
//	}
package approx

import (
	"fmt"
	"math"
	"reflect"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/washrig/units"
)

// A quantity is a value of any kind of package units.
type quantity interface{ Quantity() units.Quantity }

var home = reflect.TypeFor[units.Quantity]().PkgPath()

// Option returns a go-cmp option. Two quantities x and y of one kind are equal
// if, in SI,
//
//	|x − y| ≤ max(fraction · min(|x|, |y|), margin)
//
// which is the formula of [cmpopts.EquateApprox], and float64s are equal under
// it with no margin. The margin is that of the same kind among those given, and
// zero if there is none; a margin of length also serves elevations and
// positions, and one of temperature difference temperatures, which are compared
// in kelvins. What is not given equals only what is not given, and NaN and
// infinities equal nothing unless both are the same infinity.
//
// Option panics on a negative tolerance, which is a mistake in a test.
func Option(fraction float64, margins ...units.Quantity) cmp.Option {
	if !(fraction >= 0) || math.IsInf(fraction, 0) {
		panic(fmt.Sprintf("approx: fraction %v", fraction))
	}
	margin := make(map[units.Kind]float64)
	for _, m := range margins {
		if !m.Given() || !(m.SI() >= 0) {
			panic(fmt.Sprintf("approx: margin %v", m))
		}
		margin[m.Kind()] = m.SI()
		switch m.Kind() {
		case units.KindLength:
			margin[units.KindElevation] = m.SI()
			margin[units.KindPosition] = m.SI()
		case units.KindTemperatureDelta:
			margin[units.KindTemperature] = m.SI()
		}
	}
	equal := func(x, y units.Quantity) bool {
		if x.Kind() != y.Kind() {
			return false
		}
		a, b := x.SI(), y.SI()
		if a == b {
			return true
		}
		if math.IsInf(a, 0) || math.IsInf(b, 0) {
			return false
		}
		return math.Abs(a-b) <= max(fraction*min(math.Abs(a), math.Abs(b)), margin[x.Kind()])
	}
	return cmp.Options{
		cmpopts.EquateApprox(fraction, 0),
		cmp.Comparer(equal),
		// Pointers to quantities have the method too, go-cmp follows them itself;
		// so may types elsewhere, which hold more than the quantity.
		cmp.FilterValues(func(x, y quantity) bool {
			return reflect.TypeOf(x) == reflect.TypeOf(y) && reflect.TypeOf(x).PkgPath() == home
		}, cmp.Comparer(func(x, y quantity) bool { return equal(x.Quantity(), y.Quantity()) })),
	}
}
