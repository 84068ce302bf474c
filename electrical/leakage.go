package electrical

import "example.com/washrig/units"

// Class A ground-fault protection holds below the first and trips at the second.
//
// Source: NFPA 70 (NEC) 2020, 422.5(A), "4 to 6 mA".
const (
	ClassAHolds units.Current = 4e-3
	ClassATrips units.Current = 6e-3
)

// A Leak is the current that one cord or appliance sends to earth in good order.
type Leak struct {
	Name    string
	Current units.Current
}

// SumLeakage returns the leakage behind one ground-fault device and its margin,
// (4 mA − ΣI)/4 mA, to the current at which a Class A device may trip. Leaks are
// added as they are; those of another phase would partly cancel.
//
// Errors: units.ErrMissing and units.ErrRange, paths such as "leaks[cord].current".
//
// Source: [ClassAHolds].
func SumLeakage(leaks []Leak) (sum units.Current, margin units.Ratio, err error) {
	var p problems
	for i, l := range leaks {
		path := element("leaks", l.Name, i)
		if l.Name == "" {
			p.missing(path+".name", "a name that tells this leak from the others")
		}
		p.within(path+".current", float64(l.Current), 0, 1, inAmperes)
		sum += l.Current
	}
	if err := p.err(); err != nil {
		return 0, 0, err
	}
	return sum, units.Ratio((ClassAHolds - sum) / ClassAHolds), nil
}
