package thermal

import (
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// PumpWarming returns how much an ideal pump warms water from in while it raises
// its pressure from inlet to line: the rise at constant entropy.
//
//	ΔT = T(p2, s1) − T1,  s1 = s(p1, T1)
//
// It is small, 0.4 °F for 2,700 psi, and even negative in water below 39 °F, which
// shrinks when warmed. What a real pump loses stays partly in the water and
// partly leaves through its casing; that share is the caller's to add.
//
// Range: water from 0 °C to 350 °C, 10 kPa to 50 MPa, liquid at the inlet, line
// not below inlet.
//
// Source: second law; entropy by IAPWS-IF97.
func PumpWarming(in units.Temperature, inlet, line units.AbsolutePressure) (units.TemperatureDelta, error) {
	if err := pass("in", in, "inlet", inlet, "line", line); err != nil {
		return 0, err
	}
	if inlet == line {
		return 0, nil
	}
	s, err := water.Entropy(float64(inlet), in.Kelvin())
	if err != nil {
		return 0, units.At("in", err)
	}
	T, err := water.TemperatureFromEntropy(float64(line), s)
	if err != nil {
		return 0, units.At("in", err)
	}
	return units.TemperatureDelta(T - in.Kelvin()), nil
}

// ThrottleWarming returns how much water of the given temperature warms while a
// valve, a nozzle or friction takes its pressure from line to end, at constant
// enthalpy.
//
//	ΔT = T(p2, h1) − T1,  h1 = h(p1, T1)
//
// 2,700 psi warm water of 60 °F by 7.6 °F and water of 180 °F by 6.3 °F. Behind a
// nozzle the warming shows only where the jet has come to rest; water that flashes
// there ends at its boiling point, and the result is then smaller or negative.
//
// Range: water from 0 °C to 350 °C, 10 kPa to 50 MPa, liquid before the valve, end
// not above line.
//
// Source: first law; enthalpy by IAPWS-IF97.
func ThrottleWarming(at units.Temperature, line, end units.AbsolutePressure) (units.TemperatureDelta, error) {
	if err := pass("at", at, "end", end, "line", line); err != nil {
		return 0, err
	}
	if err := liquidAt("at", float64(line), at.Kelvin()); err != nil {
		return 0, err
	}
	h, err := water.Enthalpy(float64(line), at.Kelvin())
	if err != nil {
		return 0, units.At("at", err)
	}
	T, err := water.TemperatureFromEnthalpy(float64(end), h)
	if err != nil {
		return 0, units.At("at", err)
	}
	return units.TemperatureDelta(T - at.Kelvin()), nil
}

// PassWarming returns how much water warms on one pass through an ideal pump from
// inlet to line and back through a valve to inlet. It is the sum of pump and
// valve, each at its own temperature:
//
//	ΔT = PumpWarming(T1) + ThrottleWarming(T1 + PumpWarming)
//
// and answers to the whole hydraulic power: ΔT ≈ Δp/(ρ·cp). Count either this or
// its two parts, never both; and no heater duty contains it.
//
// Range as [PumpWarming].
func PassWarming(in units.Temperature, inlet, line units.AbsolutePressure) (units.TemperatureDelta, error) {
	up, err := PumpWarming(in, inlet, line)
	if err != nil {
		return 0, err
	}
	down, err := ThrottleWarming(in.Add(up), line, inlet)
	if err != nil {
		return 0, err
	}
	return up + down, nil
}

// pass checks a temperature and the lower and the upper of two pressures.
func pass(tPath string, t units.Temperature, lowPath string, low units.AbsolutePressure, highPath string, high units.AbsolutePressure) error {
	if err := all(between(tPath, t, coldestWater, hottestWater), linePressure(lowPath, low), linePressure(highPath, high)); err != nil {
		return err
	}
	if low > high {
		return refuse(lowPath, low.String(), "at most "+high.String()+", the pressure in the line", units.ErrConflict)
	}
	if lowPath == "inlet" {
		return liquidAt(tPath, float64(low), t.Kelvin())
	}
	return nil
}
