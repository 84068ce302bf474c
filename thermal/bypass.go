package thermal

import (
	"math"

	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Bypass is water that a pump drives around through its unloader, back to its
// inlet or to a tank, while all triggers are released or a part of the flow is
// not wanted.
type Bypass struct {
	// Power that ends as heat in the water: pressure at the pump × flow through
	// the bypass, plus what of the pump's own loss stays in the water.
	Power units.Power
	// Volume of water that shares the heat: the loop back to the pump inlet,
	// often half a gallon, or what the tank holds.
	Volume units.Volume
	Start  units.Temperature // of that water
	Limit  units.Temperature // not to be passed: pump inlet, tank, hose
	// Pressure of that water, absolute. It matters little for its heat; water
	// that would boil under it before the limit is refused.
	Pressure units.AbsolutePressure

	// Loss to the surroundings per kelvin, for a tank; zero for none.
	Loss units.ThermalConductance
	// Surroundings is their temperature, required with Loss.
	Surroundings units.Temperature
}

// A BypassHeating says how fast the water of a bypass warms.
type BypassHeating struct {
	Rate units.TemperatureDelta // kelvins a second at Start
	// Time from Start to Limit. Never is true, and Time zero, where the water
	// settles below the limit or is not heated. Past is true, and Time zero,
	// where it starts at or above it.
	Time    units.Duration
	Never   bool
	Past    bool
	Settles units.Temperature // where Loss balances Power; not given without Loss
	// Rule is Rate by the trade's dT/dt = hp·42.4/(8.34·gal), °F a minute.
	Rule units.TemperatureDelta // kelvins a second
}

// Heat returns how fast the water warms and when it reaches the limit.
//
//	without loss:  t = m·(h(p, T2) − h(p, T1))/P
//	with loss:     m·cp·dT/dt = P − UA·(T − Ta),  cp = (h2 − h1)/(T2 − T1)
//
// m is the mass of the volume at its start, h the enthalpy of water. The same sum
// serves a loop to the pump inlet and a tank: only the volume differs, by a factor
// of hundreds, and with it minutes become hours. Mixing is taken as complete.
//
// Range: power 0 to 10 MW, volume up to 100 m³, water liquid from 0 °C to 350 °C.
//
// Source: first law; enthalpy by IAPWS-IF97.
func (b Bypass) Heat() (BypassHeating, error) {
	if err := b.Validate(); err != nil {
		return BypassHeating{}, err
	}
	p, T1, T2 := float64(b.Pressure), b.Start.Kelvin(), b.Limit.Kelvin()
	s, err := water.At(p, T1)
	if err != nil {
		return BypassHeating{}, units.At("start", err)
	}
	h2, err := water.Enthalpy(p, T2)
	if err != nil {
		return BypassHeating{}, units.At("limit", err)
	}
	m, P, UA := s.Density*float64(b.Volume), float64(b.Power), float64(b.Loss)
	cp := s.HeatCapacity // mean over the way
	if T1 != T2 {
		cp = (h2 - s.Enthalpy) / (T2 - T1)
	}

	net := P
	r := BypassHeating{Past: T1 >= T2}
	if UA > 0 {
		Ta := b.Surroundings.Kelvin()
		net -= UA * (T1 - Ta)
		r.Settles = units.Kelvin(Ta + P/UA)
	}
	r.Rate = units.TemperatureDelta(net / (m * s.HeatCapacity))
	r.Rule = units.TemperatureDelta(b.Power.In(units.Horsepower) * 42.4 / (8.34 * b.Volume.In(units.Gallon)) * float64(units.FahrenheitDelta) / 60)
	switch {
	case r.Past:
	case net <= 0 || UA > 0 && r.Settles.Kelvin() <= T2:
		r.Never = true
	case UA == 0:
		r.Time = units.Duration(m * (h2 - s.Enthalpy) / P)
	default:
		// t = (m·cp/UA)·ln((Ts − T1)/(Ts − T2)), Ts where it would settle.
		Ts := r.Settles.Kelvin()
		r.Time = units.Duration(m * cp / UA * math.Log1p((T2-T1)/(Ts-T2)))
	}
	if !finite(float64(r.Time)) || !finite(float64(r.Rate)) || !finite(float64(r.Rule)) {
		return BypassHeating{}, refuse("volume", b.Volume.String(), "a volume that the power heats in a finite time", units.ErrRange)
	}
	return r, nil
}

// Validate reports every field that cannot be used.
func (b Bypass) Validate() error {
	err := all(
		heating("power", b.Power),
		positive("volume", b.Volume, 100*units.CubicMeter),
		between("start", b.Start, coldestWater, hottestWater),
		between("limit", b.Limit, coldestWater, hottestWater),
		linePressure("pressure", b.Pressure),
		inside("loss", b.Loss, 0, 1e6*units.WattPerKelvin),
	)
	if b.Loss > 0 {
		err = all(err, between("surroundings", b.Surroundings, coldestAir, hottestAir))
	}
	if err != nil {
		return err
	}
	return all(liquidAt("start", float64(b.Pressure), b.Start.Kelvin()), liquidAt("limit", float64(b.Pressure), b.Limit.Kelvin()))
}
