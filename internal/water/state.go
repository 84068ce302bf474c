package water

import "math"

// A State holds the four properties that heat and flow need.
type State struct {
	Density      float64 // kg/m³
	Enthalpy     float64 // J/kg
	HeatCapacity float64 // isobaric, J/(kg·K)
	Viscosity    float64 // dynamic, Pa·s
}

// At returns density, enthalpy, isobaric heat capacity and dynamic viscosity at
// the absolute pressure p (Pa) and the temperature T (K), of liquid or of steam
// as [PhaseAt] tells.
//
// Range: 273.15 K ≤ T ≤ 623.15 K, 1 Pa ≤ p ≤ 50 MPa; outside a [*units.FieldError].
//
// Source: IAPWS R7-97(2012), regions 1 and 2; IAPWS R12-08.
func At(p, T float64) (State, error) {
	if !within(p, T) {
		return State{}, check(p, T)
	}
	var v, h, cp float64
	if liquid(p, T) {
		v, h, cp = region1(p, T)
	} else {
		v, h, cp = region2(p, T)
	}
	rho := 1 / v
	return State{rho, h, cp, viscosity(rho, criticalTemperature/T)}, nil
}

// Density returns the density in kg/m³ at p (Pa, absolute) and T (K).
// Range and source as [At].
func Density(p, T float64) (float64, error) {
	if !within(p, T) {
		return 0, check(p, T)
	}
	v, _, _ := vhc(p, T)
	return 1 / v, nil
}

// Enthalpy returns the specific enthalpy in J/kg at p (Pa, absolute) and T (K).
// Range and source as [At].
func Enthalpy(p, T float64) (float64, error) {
	if !within(p, T) {
		return 0, check(p, T)
	}
	_, h, _ := vhc(p, T)
	return h, nil
}

// HeatCapacity returns the isobaric heat capacity in J/(kg·K) at p (Pa,
// absolute) and T (K). Range and source as [At].
func HeatCapacity(p, T float64) (float64, error) {
	if !within(p, T) {
		return 0, check(p, T)
	}
	_, _, cp := vhc(p, T)
	return cp, nil
}

// Caloric returns density in kg/m³, enthalpy in J/kg and isobaric heat capacity in
// J/(kg·K) at p (Pa, absolute) and T (K): [At] without the viscosity. Range and source
// as there.
func Caloric(p, T float64) (rho, h, cp float64, err error) {
	if !within(p, T) {
		return 0, 0, 0, check(p, T)
	}
	v, h, cp := vhc(p, T)
	return 1 / v, h, cp, nil
}

func vhc(p, T float64) (v, h, cp float64) {
	if liquid(p, T) {
		return region1(p, T)
	}
	return region2(p, T)
}

// Properties holds every property of a state.
type Properties struct {
	Phase                      Phase
	Density                    float64 // kg/m³
	InternalEnergy             float64 // J/kg
	Enthalpy                   float64 // J/kg
	Entropy                    float64 // J/(kg·K)
	HeatCapacity               float64 // isobaric, J/(kg·K)
	HeatCapacityConstantVolume float64 // J/(kg·K)
	SpeedOfSound               float64 // m/s
	Expansivity                float64 // (∂v/∂T)_p / v, 1/K; negative in cold water
	Compressibility            float64 // −(∂v/∂p)_T / v, 1/Pa
	Viscosity                  float64 // dynamic, Pa·s
	Conductivity               float64 // with critical enhancement, W/(m·K)
}

// PropertiesAt returns every property at p (Pa, absolute) and T (K). Range as
// [At]; density, enthalpy, heat capacity and viscosity are those of At up to
// rounding.
//
// Source: IAPWS R7-97(2012), Tables 3 and 12; IAPWS R12-08; IAPWS R15-11.
// Expansivity and compressibility from the same derivatives, as in W. Wagner and
// H.-J. Kretzschmar, International Steam Tables, 2nd ed., Springer 2008.
func PropertiesAt(p, T float64) (Properties, error) {
	if !within(p, T) {
		return Properties{}, check(p, T)
	}
	if liquid(p, T) {
		return properties(p, T, Liquid), nil
	}
	return properties(p, T, Steam), nil
}

// properties evaluates the region of the given phase, without a check.
func properties(p, T float64, phase Phase) Properties {
	var pi, tau float64
	var d gibbs
	if phase == Liquid {
		pi, tau, d = gibbs1(p, T)
	} else {
		pi, tau, d = gibbs2(p, T)
	}
	const R = gasConstant
	e := d.gp - tau*d.gpt
	c := tau * tau * d.gtt // −cp/R
	v := R * T * pi * d.gp / p
	s := Properties{
		Phase:                      phase,
		Density:                    1 / v,
		InternalEnergy:             R * T * (tau*d.gt - pi*d.gp),
		Enthalpy:                   R * T * tau * d.gt,
		Entropy:                    R * (tau*d.gt - d.g),
		HeatCapacity:               -R * c,
		HeatCapacityConstantVolume: R * (e*e/d.gpp - c),
		SpeedOfSound:               math.Sqrt(R * T * d.gp * d.gp / (e*e/c - d.gpp)),
		Expansivity:                e / (d.gp * T),
		Compressibility:            -pi * d.gpp / (d.gp * p),
	}
	s.Viscosity = viscosity(s.Density, criticalTemperature/T)
	s.Conductivity = conductivityEnhanced(T, &s)
	return s
}

// Entropy returns the specific entropy in J/(kg·K) at p (Pa, absolute) and T (K).
// Range and source as [PropertiesAt].
func Entropy(p, T float64) (float64, error) {
	if !within(p, T) {
		return 0, check(p, T)
	}
	return entropy(p, T, liquid(p, T)), nil
}

func entropy(p, T float64, liquid bool) float64 {
	var tau float64
	var d gibbs
	if liquid {
		_, tau, d = gibbs1(p, T)
	} else {
		_, tau, d = gibbs2(p, T)
	}
	return gasConstant * (tau*d.gt - d.g)
}

// SpeedOfSound returns the speed of sound in m/s at p (Pa, absolute) and T (K).
// Range and source as [PropertiesAt].
func SpeedOfSound(p, T float64) (float64, error) {
	s, err := PropertiesAt(p, T)
	return s.SpeedOfSound, err
}

// ThermalPressureCoefficient returns (∂p/∂T) at constant volume, in Pa/K: the
// pressure that shut-in water gains by a kelvin in a rigid vessel without air.
//
//	(∂p/∂T)_v = α/κ
//
// α is the expansivity and κ the isothermal compressibility. It is zero at the
// temperature of greatest density and negative below. Range and source as
// [PropertiesAt].
func ThermalPressureCoefficient(p, T float64) (float64, error) {
	s, err := PropertiesAt(p, T)
	if err != nil {
		return 0, err
	}
	return s.Expansivity / s.Compressibility, nil
}
