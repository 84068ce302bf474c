package water

import "math"

// Coefficients of the thermal conductivity.
//
// Source: IAPWS R15-11, Release on the IAPWS Formulation 2011 for the Thermal
// Conductivity of Ordinary Water Substance: Eq. 16 and Table 1, Eq. 17 and
// Table 2 (rows are powers of Tc/T − 1, columns powers of ρ/ρc − 1), Eq. 25 and
// Table 6.
var (
	conductivityDilute = [5]float64{2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4}

	conductivityDense = [5][6]float64{
		{1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
		{2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
		{2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
		{-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0, 0},
		{-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
	}

	// Reduced compressibility at the reference temperature 1.5 Tc, by bands of
	// reduced density.
	referenceBands = [4]float64{0.310559006, 0.776397516, 1.242236025, 1.863354037}
	referenceTable = [5][6]float64{
		{6.53786807199516, -5.61149954923348, 3.39624167361325, -2.27492629730878, 10.2631854662709, 1.97815050331519},
		{6.52717759281799, -6.30816983387575, 8.08379285492595, -9.82240510197603, 12.1358413791395, -5.54349664571295},
		{5.35500529896124, -3.96415689925446, 8.91990208918795, -12.0338729505790, 9.19494865194302, -2.16866274479712},
		{1.55225959906681, 0.464621290821181, 8.93237374861479, -11.0321960061126, 6.16780999933360, -0.965458722086812},
		{1.11999926419994, 0.595748562571649, 9.88952565078920, -10.3255051147040, 4.66861294457414, -0.503243546373828},
	}
)

// Conductivity returns the thermal conductivity in W/(m·K) of water or steam of
// density rho (kg/m³) at T (K), without the critical enhancement: the value of a
// state far from the critical point. [ConductivityAt] adds the enhancement.
//
//	λ = λ0(T/Tc) · λ1(T/Tc, ρ/ρc)
//
// Range: 273.15 K ≤ T ≤ 1173.15 K, 0 ≤ rho ≤ 1250 kg/m³; outside a [*units.FieldError].
//
// Source: IAPWS R15-11, Eqs. 15 to 17.
func Conductivity(rho, T float64) (float64, error) {
	if err := checkTransport(rho, T); err != nil {
		return 0, err
	}
	return conductivity(rho, T), nil
}

func conductivity(rho, T float64) float64 {
	t := criticalTemperature / T
	d := rho / criticalDensity

	dilute := 0.0
	for i := len(conductivityDilute) - 1; i >= 0; i-- {
		dilute = dilute*t + conductivityDilute[i]
	}

	dense := 0.0
	for i := len(conductivityDense) - 1; i >= 0; i-- {
		row := 0.0
		for j := 5; j >= 0; j-- {
			row = row*(d-1) + conductivityDense[i][j]
		}
		dense = dense*(t-1) + row
	}
	return 1e-3 / (math.Sqrt(t) * dilute) * math.Exp(d*dense)
}

// ConductivityAt returns the thermal conductivity in W/(m·K) at p (Pa, absolute)
// and T (K) with the critical enhancement in its industrial form.
//
//	λ = λ0 λ1 + λ2
//
// λ2 is zero in liquid up to 100 °C; at 350 °C it adds 4 % in boiling liquid and
// 32 % in saturated steam.
//
// Range as [At]. Source: IAPWS R15-11, Eqs. 15 to 26.
func ConductivityAt(p, T float64) (float64, error) {
	s, err := PropertiesAt(p, T)
	return s.Conductivity, err
}

// conductivityEnhanced needs all of s but its Conductivity.
func conductivityEnhanced(T float64, s *Properties) float64 {
	// Table 3 of R15-11.
	const (
		lambda = 177.8514
		qD     = 1 / 0.40 // 1/nm
		nu     = 0.630
		gamma  = 1.239
		xi0    = 0.13 // nm
		gamma0 = 0.06
		tR     = 1.5
		R      = 461.51805 // J/(kg·K), of the release
	)
	d := s.Density / criticalDensity
	tr := T / criticalTemperature

	// Reduced compressibilities ζ = (∂ρ/∂p)_T pc/ρc at T and at 1.5 Tc.
	zeta := s.Density * s.Compressibility * (criticalPressure / criticalDensity)
	band := 0
	for band < len(referenceBands) && d > referenceBands[band] {
		band++
	}
	a := &referenceTable[band]
	sum := 0.0
	for i := len(a) - 1; i >= 0; i-- {
		sum = sum*d + a[i]
	}
	chi := d * (zeta - 1/sum*tR/tr)

	enhanced := 0.0
	if chi > 0 {
		xi := xi0 * math.Pow(chi/gamma0, nu/gamma)
		y := qD * xi
		if y >= 1.2e-7 {
			k := s.HeatCapacityConstantVolume / s.HeatCapacity
			z := 2 / (math.Pi * y) * (((1-k)*math.Atan(y) + k*y) -
				(1 - math.Exp(-1/(1/y+y*y/(3*d*d)))))
			enhanced = lambda * d * (s.HeatCapacity / R) * tr / (s.Viscosity * 1e6) * z * 1e-3
		}
	}
	return conductivity(s.Density, T) + enhanced
}
