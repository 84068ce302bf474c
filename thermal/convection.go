package thermal

import "math"

// ChurchillChu returns the mean Nusselt number of a long horizontal cylinder in
// still air or liquid.
//
//	Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}²
//
// Ra is the Rayleigh number g·β·ΔT·D³/(ν·α) on the diameter, Pr the Prandtl
// number, properties at the mean of surface and fluid temperature.
//
// Range: Ra ≤ 1e12; unguarded outside. About ±20 % of measurements.
//
// Source: S. W. Churchill and H. H. S. Chu, "Correlating equations for laminar and
// turbulent free convection from a horizontal cylinder", International Journal of
// Heat and Mass Transfer 18(9), 1975, pp. 1049–1053.
//
// Special cases: NaN if Ra < 0 or either argument is NaN.
func ChurchillChu(Ra, Pr float64) float64 {
	if Ra < 0 {
		return math.NaN()
	}
	s := 0.60 + 0.387*math.Sqrt(math.Cbrt(Ra))*ofPrandtl(Pr)
	return s * s
}

// ofPrandtl is [1 + (0.559/Pr)^(9/16)]^(−8/27), with roots and exponentials in place of
// powers.
func ofPrandtl(Pr float64) float64 {
	r := math.Sqrt(0.559 / Pr)
	return math.Exp(-8.0 / 27 * math.Log(1+r*math.Sqrt(math.Sqrt(math.Sqrt(r)))))
}

// churchillChuAir is ChurchillChu within 1e-11 (TestChurchillChu_air), for many surfaces
// in air: from 150 K to 600 K its Prandtl number lies in a band where ofPrandtl is a
// polynomial.
func churchillChuAir(Ra, Pr float64) float64 {
	x := (Pr - airPrandtl) / airPrandtlBand
	if !(x >= -1 && x <= 1) {
		return ChurchillChu(Ra, Pr)
	}
	x2, c := x*x, &ofAirPrandtl
	y := (c[0] + x*c[1]) + x2*(c[2]+x*c[3]) + x2*x2*((c[4]+x*c[5])+x2*(c[6]+x*c[7]))
	s := 0.60 + 0.387*math.Sqrt(math.Cbrt(Ra))*y
	return s * s
}

const airPrandtl, airPrandtlBand = 0.72, 0.07

var ofAirPrandtl = func() (c [filmPoints]float64) {
	for k := range c {
		y := ofPrandtl(airPrandtl + airPrandtlBand*points.at[k])
		for j := range c {
			c[j] += points.power[j][k] * y
		}
	}
	return c
}()

// ChurchillBernstein returns the mean Nusselt number of a cylinder in cross-flow.
//
//	Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3) / [1 + (0.4/Pr)^(2/3)]^(1/4)
//	         · [1 + (Re/282000)^(5/8)]^(4/5)
//
// Re is the Reynolds number on the diameter; properties at the mean of surface and
// fluid temperature.
//
// Range: Re·Pr ≥ 0.2; unguarded outside. About ±20 % of measurements.
//
// Source: S. W. Churchill and M. Bernstein, "A correlating equation for forced
// convection from gases and liquids to a circular cylinder in crossflow", ASME
// Journal of Heat Transfer 99(2), 1977, pp. 300–306.
//
// Special cases: NaN if Re < 0 or either argument is NaN.
func ChurchillBernstein(Re, Pr float64) float64 {
	if Re < 0 {
		return math.NaN()
	}
	// Roots and products in place of powers: x^(2/3), its fourth root, and y^(5/8).
	x, y := math.Cbrt(0.4/Pr), math.Sqrt(math.Sqrt(math.Sqrt(Re/282000)))
	return 0.3 + 0.62*math.Sqrt(Re)*math.Cbrt(Pr)/math.Sqrt(math.Sqrt(1+x*x))*math.Exp(0.8*math.Log1p(y*y*y*y*y))
}

// Gnielinski returns the Nusselt number of turbulent flow in a long straight pipe
// of Darcy friction factor f.
//
//	Nu = (f/8)(Re − 1000) Pr / [1 + 12.7 √(f/8) (Pr^(2/3) − 1)]
//
// Range: 3000 ≤ Re ≤ 5e6, 0.5 ≤ Pr ≤ 2000; unguarded outside.
//
// Source: V. Gnielinski, "New equations for heat and mass transfer in turbulent
// pipe and channel flow", International Chemical Engineering 16(2), 1976,
// pp. 359–368.
//
// Special cases: NaN if an argument is NaN.
func Gnielinski(Re, Pr, f float64) float64 {
	return f / 8 * (Re - 1000) * Pr / (1 + 12.7*math.Sqrt(f/8)*(math.Pow(Pr, 2./3)-1))
}

// petukhov is the Darcy friction factor of a smooth pipe that belongs to
// Gnielinski's equation: f = (0.790 ln Re − 1.64)⁻², 3000 ≤ Re ≤ 5e6.
func petukhov(Re float64) float64 {
	d := 0.790*math.Log(Re) - 1.64
	return 1 / (d * d)
}

// PipeNusselt returns the Nusselt number inside a long straight smooth pipe at any
// Reynolds number: 3.66 below Re = 2300 (laminar, wall at one temperature),
// [Gnielinski] with the smooth-pipe friction factor (0.790 ln Re − 1.64)⁻² above
// 4000, and a straight line between the two in Re.
//
// Range: 0.5 ≤ Pr ≤ 2000; unguarded outside.
//
// Source: F. P. Incropera and others, Fundamentals of Heat and Mass Transfer,
// sections 8.4 and 8.5; the line after V. Gnielinski, "On heat transfer in tubes",
// International Journal of Heat and Mass Transfer 63, 2013, pp. 134–140.
//
// Special cases: NaN if Re < 0 or an argument is NaN.
func PipeNusselt(Re, Pr float64) float64 {
	const laminar, lo, hi = 3.66, 2300.0, 4000.0
	switch {
	case !(Re >= 0) || math.IsNaN(Pr):
		return math.NaN()
	case Re <= lo:
		return laminar
	case Re >= hi:
		return Gnielinski(Re, Pr, petukhov(Re))
	}
	g := (Re - lo) / (hi - lo)
	return (1-g)*laminar + g*Gnielinski(hi, Pr, petukhov(hi))
}

// SchmidtCoil returns the Nusselt number inside a helical coil of tube bore d
// wound to the diameter D.
//
//	Re ≤ Rec:        Nu = 3.65 + 0.08 [1 + 0.8 δ^0.9] Re^(0.5 + 0.2903 δ^0.194) Pr^(1/3)
//	Rec < Re < 2.2e4: Nu = 0.023 [1 + 14.8 (1 + δ) δ^(1/3)] Re^(0.8 − 0.22 δ^0.1) Pr^(1/3)
//	Re ≥ 2.2e4:       Nu = 0.023 [1 + 3.6 (1 − δ) δ^0.8] Re^0.8 Pr^(1/3)
//
// with δ = d/D and Rec = 2300 [1 + 8.6 δ^0.45].
//
// Range: 100 ≤ Re ≤ 1.5e5, 0.012 ≤ δ ≤ 0.2; unguarded outside. The pieces do not
// meet: at Rec the second is 2 % to 55 % above the first, at 2.2e4 they differ by up
// to 3 %. A coil of a washer runs above both.
//
// Source: E. F. Schmidt, "Wärmeübergang und Druckverlust in Rohrschlangen",
// Chemie Ingenieur Technik 39(13), 1967, pp. 781–789.
//
// Special cases: NaN if Re < 0 or an argument is NaN.
func SchmidtCoil(Re, Pr, delta float64) float64 {
	critical := 2300 * (1 + 8.6*math.Pow(delta, 0.45))
	switch {
	case !(Re >= 0) || math.IsNaN(delta):
		return math.NaN()
	case Re <= critical:
		return 3.65 + 0.08*(1+0.8*math.Pow(delta, 0.9))*math.Pow(Re, 0.5+0.2903*math.Pow(delta, 0.194))*math.Cbrt(Pr)
	case Re < 2.2e4:
		return 0.023 * (1 + 14.8*(1+delta)*math.Cbrt(delta)) * math.Pow(Re, 0.8-0.22*math.Pow(delta, 0.1)) * math.Cbrt(Pr)
	}
	return 0.023 * (1 + 3.6*(1-delta)*math.Pow(delta, 0.8)) * math.Pow(Re, 0.8) * math.Cbrt(Pr)
}

// RanzMarshall returns the Nusselt number of a drop in a stream of gas, and its
// Sherwood number if Sc takes the place of Pr.
//
//	Nu = 2 + 0.6 Re^(1/2) Pr^(1/3)
//
// Range: Re ≤ 200 measured, used to some thousands.
//
// Source: W. E. Ranz and W. R. Marshall, "Evaporation from drops", Chemical
// Engineering Progress 48, 1952, pp. 141–146 and 173–180.
//
// Special cases: NaN if Re < 0 or an argument is NaN.
func RanzMarshall(Re, Pr float64) float64 {
	if Re < 0 {
		return math.NaN()
	}
	return 2 + 0.6*math.Sqrt(Re)*math.Cbrt(Pr)
}

// stefanBoltzmann in W/(m²·K⁴), exact in the SI of 2019 to the digits given.
const stefanBoltzmann = 5.670374419e-8

// GreyRadiation returns the net radiation in W/m² of a small grey surface of
// emissivity eps at T to wide surroundings at Ts, both in kelvins.
//
//	q = ε·σ·(T⁴ − Ts⁴)
//
// Source: Stefan–Boltzmann law, σ = 5.670374419e-8 W/(m²·K⁴) (SI 2019).
//
// Special cases: NaN if an argument is NaN.
func GreyRadiation(eps, T, Ts float64) float64 {
	return eps * radiationCoefficient(T, Ts) * (T - Ts)
}

// radiationCoefficient is σ(T² + Ts²)(T + Ts), W/(m²·K), for emissivity 1.
func radiationCoefficient(T, Ts float64) float64 {
	return stefanBoltzmann * (T*T + Ts*Ts) * (T + Ts)
}
