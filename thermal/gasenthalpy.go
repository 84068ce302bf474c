package thermal

// Molar masses in kg/mol (IUPAC 2021, conventional).
const (
	molarC  = 12.011e-3
	molarH2 = 2.016e-3
	molarS  = 32.06e-3
	molarO2 = 31.998e-3
	molarN2 = 28.014e-3
	molarW  = 18.015e-3
	// molarRest is air but for its oxygen: nitrogen with 1.2 % argon.
	molarRest = (28.9652e-3 - airOxygen*molarO2) / (1 - airOxygen)
)

// airOxygen is the share of oxygen in dry air by volume (U.S. Standard Atmosphere
// 1976); the rest is taken as nitrogen.
const airOxygen = 0.209476

// vaporisation is the heat of vaporisation of water at 25 °C, J/mol: 285.830 less
// 241.826 kJ/mol, heats of formation of liquid and gas (CODATA 1989).
const vaporisation = 44.004e3

// gasReference is the temperature at which heating values hold, 25 °C.
const gasReference = 298.15

// A gas has the coefficients of its molar enthalpy in two ranges that meet at
// 1000 K.
type gas struct{ low, high [6]float64 }

// NASA polynomials h/(R·T) = a1 + a2 T/2 + a3 T²/3 + a4 T³/4 + a5 T⁴/5 + a6/T.
//
// Source: thermodynamic data of the GRI-Mech 3.0 mechanism (G. P. Smith and others,
// 1999), 200 or 300 to 1000 K and 1000 to 3500 K, after B. J. McBride, S. Gordon
// and M. A. Reno, NASA TM-4513, 1993.
var (
	gasO2 = gas{
		low:  [6]float64{3.78245636, -2.99673416e-3, 9.84730201e-6, -9.68129509e-9, 3.24372837e-12, -1.06394356e3},
		high: [6]float64{3.28253784, 1.48308754e-3, -7.57966669e-7, 2.09470555e-10, -2.16717794e-14, -1.08845772e3},
	}
	gasN2 = gas{
		low:  [6]float64{3.298677, 1.4082404e-3, -3.963222e-6, 5.641515e-9, -2.444854e-12, -1.0208999e3},
		high: [6]float64{2.92664, 1.4879768e-3, -5.68476e-7, 1.0097038e-10, -6.753351e-15, -9.227977e2},
	}
	gasCO2 = gas{
		low:  [6]float64{2.35677352, 8.98459677e-3, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13, -4.83719697e4},
		high: [6]float64{3.85746029, 4.41437026e-3, -2.21481404e-6, 5.23490188e-10, -4.72084164e-14, -4.8759166e4},
	}
	gasH2O = gas{
		low:  [6]float64{4.19864056, -2.0364341e-3, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12, -3.02937267e4},
		high: [6]float64{3.03399249, 2.17691804e-3, -1.64072518e-7, -9.7041987e-11, 1.68200992e-14, -3.00042971e4},
	}
)

const molarGasConstant = 8.31446261815324 // J/(mol·K), exact

// absolute is the molar enthalpy in J/mol at T (K), that of formation included.
func (g *gas) absolute(T float64) float64 {
	a := &g.low
	if T > 1000 {
		a = &g.high
	}
	return molarGasConstant * (a[5] + T*(a[0]+T*(a[1]/2+T*(a[2]/3+T*(a[3]/4+T*a[4]/5)))))
}

// sensible is the molar enthalpy in J/mol at T above that at 25 °C.
func (g *gas) sensible(T float64) float64 { return g.absolute(T) - g.absolute(gasReference) }

// add mixes some moles of another gas in: g is then the enthalpy of all of them.
func (g *gas) add(moles float64, other *gas) {
	for i := range g.low {
		g.low[i] += moles * other.low[i]
		g.high[i] += moles * other.high[i]
	}
}

// heat is absolute with its slope, the heat capacity.
func (g *gas) heat(T float64) (h, cp float64) {
	a := &g.low
	if T > 1000 {
		a = &g.high
	}
	return g.absolute(T), molarGasConstant * (a[0] + T*(a[1]+T*(a[2]+T*(a[3]+T*a[4]))))
}
