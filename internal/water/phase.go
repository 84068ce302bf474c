package water

// A Phase says what a state is.
type Phase int

// The zero Phase is invalid.
const (
	Liquid   Phase = iota + 1
	TwoPhase       // liquid and steam in equilibrium
	Steam
)

func (p Phase) String() string {
	switch p {
	case Liquid:
		return "liquid"
	case TwoPhase:
		return "liquid and steam"
	case Steam:
		return "steam"
	}
	return "invalid phase"
}

// PhaseAt returns [Liquid] if p (Pa, absolute) is at or above the saturation
// pressure at T (K), else [Steam]. The line between them counts as liquid.
func PhaseAt(p, T float64) (Phase, error) {
	if !within(p, T) {
		return 0, check(p, T)
	}
	if liquid(p, T) {
		return Liquid, nil
	}
	return Steam, nil
}

// liquid reports whether p is at or above the saturation pressure at T, both in range.
// That is 100.9 kPa at 373 K, 0.9994 MPa at 453 K and 16.53 MPa at the hottest; most
// water is far from boiling.
func liquid(p, T float64) bool {
	return p >= 101325 && T <= 373 || p >= 1e6 && T <= 453 || p >= 16.6e6 || p >= saturationPressure(T)
}
