package property

import "slices"

// Enough for streams of some tens of numbers, and soon over when a case is slow.
const maxTries = 1000

// shrink looks for a simpler stream that fails too. Simpler is shorter, or as
// long and earlier in dictionary order. The function tried returns what was
// drawn of a stream and whether the case failed.
func shrink(stream []float64, try func([]float64) (drawn []float64, failed bool)) (simplest []float64, tries int) {
	best := slices.Clone(stream)
	// better tries a candidate and keeps what was drawn of it.
	better := func(s []float64) bool {
		if tries >= maxTries {
			return false
		}
		tries++
		drawn, failed := try(s)
		if !failed || !simpler(drawn, best) {
			return false
		}
		best = slices.Clone(drawn)
		return true
	}
	for again := true; again && tries < maxTries; {
		again = false
		// Leave numbers out, many at a time first.
		for n := len(best) / 2; n >= 1; n /= 2 {
			for i := 0; i+n <= len(best); {
				if better(slices.Delete(slices.Clone(best), i, i+n)) {
					again = true
				} else {
					i += n
				}
			}
		}
		// Make numbers smaller: zero, else close in on the least that fails.
		for i := 0; i < len(best); i++ {
			with := func(u float64) []float64 {
				s := slices.Clone(best)
				s[i] = u
				return s
			}
			if best[i] == 0 || better(with(0)) {
				continue
			}
			holds := 0.0
			for range 24 {
				if i >= len(best) || best[i]-holds < 1e-6*best[i] {
					break
				}
				u := holds + (best[i]-holds)/2
				if better(with(u)) {
					again = true
				} else {
					holds = u
				}
			}
		}
	}
	return best, tries
}

func simpler(a, b []float64) bool {
	if len(a) != len(b) {
		return len(a) < len(b)
	}
	return slices.Compare(a, b) < 0
}
