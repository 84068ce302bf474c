package air

import (
	"strconv"

	"example.com/washrig/units"
)

// checkRange returns nil or a *units.FieldError with the quantity as its path.
func checkRange(quantity string, x, lo, hi float64, unit string) error {
	if x >= lo && x <= hi {
		return nil
	}
	return outside(quantity, x, lo, hi, unit)
}

func outside(quantity string, x, lo, hi float64, unit string) error {
	text := func(x float64) string {
		s := strconv.FormatFloat(x, 'g', 9, 64)
		if unit != "" {
			s += " " + unit
		}
		return s
	}
	return &units.FieldError{
		Path:  quantity,
		Value: text(x),
		Want:  text(lo) + " to " + text(hi),
		Err:   units.ErrRange,
	}
}
