package vacuum

import (
	"math"

	"example.com/washrig/hydraulics"
)

// TwoPhaseSpread is how far the loss of two-phase flow may lie from
// [MullerSteinhagenHeck], as a share of what it adds to the loss of the air alone:
// a scatter of about 40 % against the 9,300 measurements of its authors' bank
// (from memory). That it is no mistake of the one correlation shows in its
// distance from Lockhart and Martinelli's: 43 % for 6.3 gpm and 90 cfm in 50 ft of
// 2 in hose (TestTwoPhase_modelsDisagree).
const TwoPhaseSpread = 0.40

// MullerSteinhagenHeck returns the frictional pressure gradient of a gas and a
// liquid that flow through a pipe together, from the gradients that the whole mass
// flow would have as liquid and as gas. It is the correlation that every solver of
// this package uses.
//
//	dp/dz = [A + 2 (B − A) x] (1 − x)^(1/3) + B x³
//
// A is the gradient of the whole flow as liquid, B as gas, in any unit; x is the
// quality, the mass of the gas over the mass of both.
//
// Range: 0 ≤ x ≤ 1; at the ends it is A and B. Near x = 1 it begins with the cube
// root of the liquid's share, so that the first trace of water costs most: a
// pick-up of less than a tenth of the air's mass is told too low rather than too
// high. The loss of a hose rises with either mass flow (TestHose_properties).
//
// Error: about 40 % (see [TwoPhaseSpread]).
//
// Source: H. Müller-Steinhagen and K. Heck, "A simple friction pressure drop
// correlation for two-phase flow in pipes", Chemical Engineering and Processing
// 20, 1986, pp. 297–308.
//
// Special cases: NaN if an argument is NaN or x lies outside 0 to 1.
func MullerSteinhagenHeck(A, B, x float64) float64 {
	if !(x >= 0 && x <= 1) {
		return math.NaN()
	}
	return (A+2*(B-A)*x)*math.Cbrt(1-x) + B*x*x*x
}

// LockhartMartinelli returns the frictional pressure gradient of a gas and a
// liquid that flow through a pipe together, from the gradient that each would have
// alone. No solver uses it; it stands beside [MullerSteinhagenHeck] to show how
// far correlations lie apart.
//
//	dp/dz = L φ²,  φ² = 1 + C/X + 1/X²,  X = √(L/G)
//
// L is the gradient of the liquid flowing alone, G that of the gas, in any unit. C
// is 20 where both are turbulent, 12 with laminar liquid and turbulent gas, 10
// with turbulent liquid and laminar gas, 5 where both are laminar: see
// [ChisholmC].
//
// Error: the curves meet the data they were drawn through within 13.4 %
// (turbulent and turbulent), 14.3 % (laminar liquid), 12.0 % (both laminar), as a
// later reading of those data found; other data scatter several times as far.
//
// Source: R. W. Lockhart and R. C. Martinelli, Chem. Eng. Progress 45(1), 1949,
// pp. 39–48; D. Chisholm, Int. J. Heat Mass Transfer 10, 1967, pp. 1767–1778.
// Errors: X. Cui and J. J. J. Chen, Int. J. Multiphase Flow 36, 2010, pp. 836–846,
// as quoted in the documentation of the open-source library fluids.
//
// Special cases: NaN if an argument is NaN or negative; L alone where G is zero
// and the other way round.
func LockhartMartinelli(L, G, C float64) float64 {
	if !(L >= 0 && G >= 0 && C >= 0) {
		return math.NaN()
	}
	return L + C*math.Sqrt(L*G) + G
}

// ChisholmC returns the constant of [LockhartMartinelli] for the Reynolds numbers
// of the liquid and the gas, each flowing alone in the whole bore, with the change
// from laminar to turbulent at 2000.
//
// Special cases: NaN if an argument is NaN or negative.
func ChisholmC(liquid, gas float64) float64 {
	switch {
	case !(liquid >= 0 && gas >= 0):
		return math.NaN()
	case liquid < 2000 && gas < 2000:
		return 5
	case liquid < 2000:
		return 12
	case gas < 2000:
		return 10
	}
	return 20
}

// VoidFraction returns the share of the bore that the gas takes.
//
//	α = (x/ρ_g) / { [1 + 0.2 (1−x)] [x/ρ_g + (1−x)/ρ_l] + w/G }
//	w = 1.18 (1−x) [g σ (ρ_l − ρ_g)/ρ_l²]^¼
//
// x is the quality, ρ_g and ρ_l the densities (kg/m³), σ the surface tension
// (N/m), G the mass flow of both over the area of the bore (kg/(m²·s)), w the speed
// at which gas drifts through the liquid.
//
// Range: upward flow, drift-flux in every pattern. It is 0 at x = 0 and 1 at x = 1.
//
// Source: S. Z. Rouhani and E. Axelsson, Int. J. Heat Mass Transfer 13, 1970,
// pp. 383–393, in the form that later surveys quote and that the open-source
// library fluids calls Rouhani 1.
//
// Special cases: NaN if an argument is NaN, x lies outside 0 to 1, or the others
// are not above zero.
func VoidFraction(x, rhol, rhog, sigma, G float64) float64 {
	if !(x >= 0 && x <= 1 && rhol > rhog && rhog > 0 && sigma > 0 && G > 0) {
		return math.NaN()
	}
	return voidFraction(x, 1/rhol, 1/rhog, drift(rhol, rhog, sigma)/G)
}

// drift is w of VoidFraction without its factor (1 − x).
func drift(rhol, rhog, sigma float64) float64 {
	return 1.18 * math.Sqrt(math.Sqrt(gravity*sigma*(rhol-rhog)/(rhol*rhol)))
}

// voidFraction is VoidFraction with specific volumes and the drift over G.
func voidFraction(x, vl, vg, wG float64) float64 {
	y := 1 - x
	return x * vg / ((1+0.2*y)*(x*vg+y*vl) + wG*y)
}

// gradient is the Darcy gradient of a mass flux G (kg/(m²·s)) of one fluid, times
// its density: Pa/m · kg/m³.
func gradient(f, G, d float64) float64 { return f * G * G / (2 * d) }

// CorrugatedFriction returns the Darcy friction factor of a corrugated hose in
// rough flow.
//
//	f = (d/s) { 1 − [ d/(d + 0.438 s) ]² }²
//
// d is the least inside diameter and s the pitch of the corrugations, in one unit.
// Each corrugation is taken as a sudden widening, into which the stream grows by
// 0.219 of the pitch on every side before the next crest: the loss of Borda and
// Carnot, d/s times in a length d.
//
// Range: annular corrugations, s/d from about 0.05 to 0.5; Reynolds numbers do not
// enter. Shop hose with a smooth lining or a shallow helix loses less: about twice
// a smooth one (common practice), where this gives four to six times.
//
// Source: R. C. Hawthorne, "Fluid expansion theory computes flow in corrugated
// hose", Product Engineering, 10 June 1963, pp. 98–100, as reproduced in public
// engineering notes.
//
// Special cases: NaN if an argument is NaN or not above zero.
func CorrugatedFriction(d, s float64) float64 {
	if !(d > 0 && s > 0) {
		return math.NaN()
	}
	return d / s * square(1-square(d/(d+0.438*s)))
}

// friction is the friction factor of a hose, smooth or corrugated.
func (t *tube) friction(Re float64, near *hydraulics.FrictionPoint) float64 {
	if t.rough > 0 {
		f, _ := near.Factor(Re, 0)
		return math.Max(t.rough, f)
	}
	f, _ := near.Factor(Re, t.k)
	return t.times * f
}
