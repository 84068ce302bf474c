package rig

import (
	"example.com/washrig/electrical"
	"example.com/washrig/units"
)

// startClass finds the kind of load behind the word of a specification.
func startClass(class string) electrical.LoadKind {
	switch class {
	case "brush-motor":
		return electrical.UniversalMotor
	case "capacitor-start-motor":
		return electrical.CapacitorStartMotor
	case "split-phase-motor":
		return electrical.SplitPhaseMotor
	case "compressor":
		return electrical.CompressorMotor
	case "burner":
		return electrical.BurnerSet
	case "resistance":
		return electrical.Resistance
	case "charger":
		return electrical.ElectronicLoad
	}
	return 0
}

// typicalStart returns the band of starting over running power of a class, or
// a band that covers every class when none is given.
func typicalStart(class string) electrical.Typical {
	if k := startClass(class); k != 0 {
		if t, err := electrical.TypicalStart(k); err == nil {
			return t
		}
	}
	return electrical.Typical{Low: 1, Usual: 3, High: 6, Source: "class not given: the band covers every class (common practice)"}
}

// startBand is the plausible start of a load whose plate does not say.
func startBand(l *Load) Band {
	t := typicalStart(l.Class)
	of := func(r units.Ratio) units.Quantity { return (l.Running * units.Power(r)).Quantity() }
	return Band{of(t.Low), of(t.Usual), of(t.High), t.Source}
}

// fuelDensity is the usual density of a fuel by volume, for weights.
func fuelDensity(word string) units.Density {
	if p, ok := fuelOf(word); ok {
		return p.Density
	}
	return 7.1 * units.PoundPerGallon
}

// deriveDefaults fills what follows from other values: the start of a load
// from its class, the usable volume of a tank, the density of a fuel.
func (m *Model) deriveDefaults() []error {
	s := m.spec
	m.deriveLoads()
	for i := range s.Loads {
		l := &s.Loads[i]
		if l.Starting == 0 && l.Running != 0 {
			b := startBand(l)
			l.Starting = units.Power(b.Usual.SI())
			p := Path("loads[" + l.ID + "].starting")
			m.assume(p, b)
		}
	}
	for i := range s.Tanks {
		if t := &s.Tanks[i]; t.Usable == 0 && t.Nominal != 0 {
			t.Usable = t.Nominal
			m.origins[Path("tanks["+t.ID+"].usable")] = Origin{Basis: Assumed, Why: "usable taken as nominal"}
		}
	}
	for i := range s.FuelTanks {
		if f := &s.FuelTanks[i]; f.Density == 0 && f.Fuel != "" {
			f.Density = fuelDensity(f.Fuel)
			m.origins[Path("fuel_tanks["+f.ID+"].density")] = Origin{Basis: Assumed, Why: "usual density of the fuel (common practice)"}
		}
	}
	m.deriveWiring()
	m.deriveSuction()
	m.deriveHeat()
	m.deriveStability()
	m.deriveNoise()
	m.deriveRecovery()
	return m.deriveFuelRates()
}

// assume records a derived default with its plausible band.
func (m *Model) assume(p Path, b Band) {
	m.origins[p] = Origin{Basis: Assumed, Why: b.Source}
	if m.bands == nil {
		m.bands = map[Path]Band{}
	}
	m.bands[p] = b
}
