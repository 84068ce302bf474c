package units

import (
	"math"
	"time"
)

// FromTimeDuration returns d as a Duration, to the nearest float64.
func FromTimeDuration(d time.Duration) Duration {
	return Duration(float64(d) / float64(time.Second))
}

// TimeDuration returns x rounded to the nearest nanosecond. Beyond the range of
// [time.Duration], some 292 years, and for NaN it is a [*FieldError].
func (x Duration) TimeDuration() (time.Duration, error) {
	ns := math.Round(float64(x) * 1e9)
	if !(ns >= math.MinInt64 && ns < math.MaxInt64) {
		return 0, &FieldError{Value: x.String(), Want: "a duration of less than 292 years", Err: ErrRange}
	}
	return time.Duration(ns), nil
}
