package electrical

import (
	"fmt"

	"example.com/washrig/units"
)

// LoadKind says what a load is, as far as its start goes. The zero LoadKind is
// "not given".
type LoadKind int

// Kinds of load.
const (
	UniversalMotor      LoadKind = iota + 1 // brush motor, as in a vacuum motor
	CapacitorStartMotor                     // single-phase induction motor of a pump
	SplitPhaseMotor                         // single-phase induction motor without a start capacitor
	CompressorMotor                         // capacitor-start motor against pressure
	BurnerSet                               // fan and fuel-pump motor with its ignition transformer
	Resistance                              // heater, incandescent lamp
	ElectronicLoad                          // charger, control supply, drive with a soft front end
)

var loadKinds = [...]struct {
	name             string
	low, usual, high units.Ratio
	source           string
}{
	UniversalMotor:      {"universal motor", 1.5, 1.8, 2, commonStart},
	CapacitorStartMotor: {"capacitor-start motor", 2.5, 3, 4, commonStart},
	SplitPhaseMotor:     {"split-phase motor", 4, 5, 6, commonStart},
	CompressorMotor:     {"compressor motor", 3, 4, 6, commonStart},
	BurnerSet:           {"burner", 1.5, 2, 3, commonStart},
	Resistance:          {"resistance", 1, 1, 1, commonStart},
	ElectronicLoad:      {"electronic load", 1, 1.2, 2, commonStart},
}

const commonStart = "common practice: starting over running watts as generator and motor sellers print them, no publication behind it"

// String returns the kind in words.
func (k LoadKind) String() string {
	switch {
	case k == 0:
		return "not given"
	case k > 0 && int(k) < len(loadKinds):
		return loadKinds[k].name
	}
	return fmt.Sprintf("LoadKind(%d)", int(k))
}

// A Typical is a plausible band of starting over running watts.
type Typical struct {
	Low, Usual, High units.Ratio
	Source           string
}

// TypicalStart returns how many times its running watts a kind of load draws
// while it starts: the low and high end of what is met, a usual value, and
// where they come from. They are common practice, a starting guess for a load
// whose plate does not say; whoever uses one records that it was assumed.
//
// Errors: units.ErrMissing for the zero kind, units.ErrRange for an unknown one.
func TypicalStart(kind LoadKind) (Typical, error) {
	var p problems
	switch {
	case kind == 0:
		p.missing("kind", "what the load is")
	case kind < 0 || int(kind) >= len(loadKinds):
		p.rangef("kind", kind, "one of the kinds of load")
	}
	if err := p.err(); err != nil {
		return Typical{}, err
	}
	k := loadKinds[kind]
	return Typical{k.low, k.usual, k.high, k.source}, nil
}
