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
	if p >= saturationPressure(T) {
		return Liquid, nil
	}
	return Steam, nil
}
