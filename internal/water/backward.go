package water

// Backward equations of region 1, used as starting points.
//
// Source: IAPWS R7-97(2012), section 5.2: T(p,h) Eq. 11 and Table 6,
// T(p,s) Eq. 13 and Table 8.
var backward1Enthalpy = [20]term{
	{0, 0, -2.3872489924521e2},
	{0, 1, 4.0421188637945e2},
	{0, 2, 1.1349746881718e2},
	{0, 6, -5.8457616048039},
	{0, 22, -1.528548241314e-4},
	{0, 32, -1.0866707695377e-6},
	{1, 0, -1.3391744872602e1},
	{1, 1, 4.3211039183559e1},
	{1, 2, -5.4010067170506e1},
	{1, 3, 3.0535892203916e1},
	{1, 4, -6.5964749423638},
	{1, 10, 9.3965400878363e-3},
	{1, 32, 1.157364750534e-7},
	{2, 10, -2.5858641282073e-5},
	{2, 32, -4.0644363084799e-9},
	{3, 10, 6.6456186191635e-8},
	{3, 32, 8.0670734103027e-11},
	{4, 32, -9.3477771213947e-13},
	{5, 32, 5.8265442020601e-15},
	{6, 32, -1.5020185953503e-17},
}

var backward1Entropy = [20]term{
	{0, 0, 1.7478268058307e2},
	{0, 1, 3.4806930892873e1},
	{0, 2, 6.5292584978455},
	{0, 3, 3.3039981775489e-1},
	{0, 11, -1.9281382923196e-7},
	{0, 31, -2.4909197244573e-23},
	{1, 0, -2.6107636489332e-1},
	{1, 1, 2.2592965981586e-1},
	{1, 2, -6.4256463395226e-2},
	{1, 3, 7.8876289270526e-3},
	{1, 12, 3.5672110607366e-10},
	{1, 31, 1.7332496994895e-24},
	{2, 0, 5.6608900654837e-4},
	{2, 1, -3.2635483139717e-4},
	{2, 2, 4.4778286690632e-5},
	{2, 9, -5.1322156908507e-10},
	{2, 31, -4.2522657042207e-26},
	{3, 10, 2.6400441360689e-13},
	{3, 32, 7.8124600459723e-29},
	{4, 32, -3.0732199903668e-31},
}

// backward1 sums a backward equation at pressure p (Pa) and u = h/(2500 kJ/kg) + 1
// or u = s/(1 kJ/(kg·K)) + 2; result in K.
//
// The equations agree with region 1 within 25 mK (IAPWS R7-97(2012), section 4).
func backward1(terms *[20]term, p, u float64) float64 {
	var ps [7]float64
	var us [33]float64
	powers(ps[:], p*1e-6)
	powers(us[:], u)
	var T float64
	for _, c := range terms {
		T += c.n * ps[c.i] * us[c.j]
	}
	return T
}

func backwardFromEnthalpy(p, h float64) float64 {
	return backward1(&backward1Enthalpy, p, h/2500e3+1)
}

func backwardFromEntropy(p, s float64) float64 {
	return backward1(&backward1Entropy, p, s/1e3+2)
}
