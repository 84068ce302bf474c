// Package water gives the properties of ordinary water and steam from 0 °C to
// 350 °C and up to 50 MPa: density, enthalpy, heat capacity, entropy, sound
// speed, expansion, saturation, viscosity, thermal conductivity, surface
// tension and melting.
//
//	s, err := water.At(101325, 293.15) // absolute pressure in Pa, temperature in K
//	// s.Density 998.206 kg/m³, s.Enthalpy 84.013 kJ/kg,
//	// s.HeatCapacity 4184.8 J/(kg·K), s.Viscosity 1.0016e-3 Pa·s
//
// Everything is float64 in SI units: Pa absolute, K, kg/m³, J/kg, J/(kg·K),
// Pa·s, W/(m·K), m/s, N/m. Enthalpy and entropy are counted from saturated
// liquid at the triple point. Outside the range a function returns a
// [*units.FieldError] that names the quantity, the value and the range, and zero;
// NaN is outside every range.
//
// A state is liquid where the pressure is at or above the saturation pressure
// at its temperature, else steam; [PhaseAt] says which. Between the two there
// is no state of given p and T: [Flash] and [TemperatureFromEnthalpy] take the
// enthalpy instead and tell [TwoPhase] with the quality. Within 0.01 K of 0 °C
// the equation for liquid is used although ice is the stable form below about
// 0.13 MPa; [MeltingTemperature] tells where.
//
//	function                                  source
//	At, PropertiesAt, Density, Enthalpy, …    IAPWS R7-97(2012), regions 1 and 2
//	SaturationPressure, SaturationTemperature IAPWS R7-97(2012), region 4
//	TemperatureFromEnthalpy, …FromEntropy     backward equations of region 1 as a start, then Newton's method
//	Viscosity                                 IAPWS R12-08, without critical enhancement
//	Conductivity, ConductivityAt              IAPWS R15-11, without and with critical enhancement
//	SurfaceTension                            IAPWS R1-76(2014)
//	MeltingPressure, MeltingTemperature       IAPWS R14-08(2011)
//
// All functions are safe for concurrent use and allocate only on an error.
package water
