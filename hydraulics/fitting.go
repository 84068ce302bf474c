package hydraulics

import (
	"math"
	"strings"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A TwoK is a fitting by Hooper's method, which follows the loss into laminar flow
// and small sizes,
//
//	K = K1/Re + K∞ (1 + 1/d)
//
// with the bore d in inches, and Δp = K ρ v²/2.
type TwoK struct {
	Part
	K1, KInf float64
	Bore     units.Length
}

// A ThreeK is a fitting by Darby's method,
//
//	K = K1/Re + Ki (1 + Kd/Dn^0.3)
//
// with the nominal size Dn in inches, and Δp = K ρ v²/2.
type ThreeK struct {
	Part
	K1, Ki, Kd float64
	Bore       units.Length
	Nominal    units.Length // not given: the bore
}

// An EquivalentLength is a fitting that loses what so many bores of its own pipe
// lose.
//
//	Δp = f (L/d) ρ v²/2
//
// with the factor of [FrictionFactor].
type EquivalentLength struct {
	Part
	Bores     float64 // L/d
	Bore      units.Length
	Roughness units.Length
}

// A Filter is a strainer, a filter housing or a screen by its rated drops, clean and
// at the end of its life. The clean drop scales as that of a [RatedLoss]; what dirt
// adds is a cake, whose loss is laminar.
//
//	Δp = Δp_c [ (1−s)(ρ/ρ₀)(q/q₀)² + s (μ/μ₀)(q/q₀) ] + x (Δp_d − Δp_c)(μ/μ₀)(q/q₀)
type Filter struct {
	Part
	Flow   units.VolumeFlow
	Clean  units.Pressure
	Dirty  units.Pressure // at the end of its life; zero: as clean
	Linear units.Ratio    // s, of the clean drop
	Load   units.Ratio    // x: 0 clean, 1 at the end of its life; more is allowed
	At     Fluid          // the liquid it was rated with; not given: that of the pump
}

// K returns the loss coefficient at a Reynolds number. NaN where Re is NaN.
func (f TwoK) K(Re float64) float64 { return f.K1/Re + f.turbulent() }

func (f *TwoK) turbulent() float64 { return f.KInf * (1 + 1/f.Bore.In(units.Inch)) }

// K returns the loss coefficient at a Reynolds number. NaN where Re is NaN.
func (f ThreeK) K(Re float64) float64 { return f.K1/Re + f.turbulent() }

func (f *ThreeK) turbulent() float64 {
	nominal := f.Nominal
	if nominal == 0 {
		nominal = f.Bore
	}
	return f.Ki * (1 + f.Kd/math.Pow(nominal.In(units.Inch), 0.3))
}

func (TwoK) element()             {}
func (ThreeK) element()           {}
func (EquivalentLength) element() {}
func (Filter) element()           {}

func goodK(k float64) bool { return k >= 0 && k <= maxK }

func (b *builder) twoK(f *TwoK) {
	if !(goodBore(f.Bore) && goodK(f.K1) && goodK(f.KInf)) {
		var bad problem.List
		problem.Number(&bad, "k1", f.K1, 0, maxK)
		problem.Number(&bad, "kInf", f.KInf, 0, maxK)
		within(&bad, "bore", f.Bore, minBore, maxBore)
		b.report(bad)
		return
	}
	b.ks(f.K1, f.turbulent(), float64(f.Bore))
}

func (b *builder) threeK(f *ThreeK) {
	if !(goodBore(f.Bore) && (f.Nominal == 0 || goodBore(f.Nominal)) && goodK(f.K1) && goodK(f.Ki) && goodK(f.Kd)) {
		var bad problem.List
		problem.Number(&bad, "k1", f.K1, 0, maxK)
		problem.Number(&bad, "ki", f.Ki, 0, maxK)
		problem.Number(&bad, "kd", f.Kd, 0, maxK)
		within(&bad, "bore", f.Bore, minBore, maxBore)
		if f.Nominal != 0 {
			within(&bad, "nominal", f.Nominal, minBore, maxBore)
		}
		b.report(bad)
		return
	}
	b.ks(f.K1, f.turbulent(), float64(f.Bore))
}

// ks adds K = K1/Re + K in bore d: of K1/Re · ρ v²/2 a speed cancels.
func (b *builder) ks(k1, k, d float64) {
	it := b.add()
	b.head(it, k, d)
	it.c1 = 2 / math.Pi * k1 * b.mu * b.invRho / (d * d * d)
}

func (b *builder) equivalent(e *EquivalentLength) {
	d := float64(e.Bore)
	if !(goodBore(e.Bore) && e.Bores >= 0 && e.Bores <= maxK && e.Roughness >= 0 && float64(e.Roughness) <= maxRoughness*d) {
		var bad problem.List
		problem.Number(&bad, "bores", e.Bores, 0, maxK)
		within(&bad, "bore", e.Bore, minBore, maxBore)
		atMost(&bad, "roughness", e.Roughness, maxRoughness*d)
		b.report(bad)
		return
	}
	if e.Bores == 0 {
		b.add().invBore = 1 / d
		return
	}
	b.tube(d, e.Bores*d, float64(e.Roughness), 0)
}

func (b *builder) filter(f *Filter) {
	if !(f.Flow >= minFlow && f.Flow <= maxFlow && f.Clean >= 0 && f.Clean <= maxPressure &&
		(f.Dirty == 0 || f.Dirty >= f.Clean && f.Dirty <= maxPressure) && f.Linear >= 0 && f.Linear <= 1 &&
		f.Load >= 0 && f.Load <= 1e3 && (!f.At.Given() || f.At.ok())) {
		var bad problem.List
		within(&bad, "flow", f.Flow, minFlow, maxFlow)
		atMost(&bad, "clean", f.Clean, maxPressure)
		if f.Dirty != 0 {
			within(&bad, "dirty", f.Dirty, float64(f.Clean), maxPressure)
		}
		problem.Number(&bad, "linear", float64(f.Linear), 0, 1)
		problem.Number(&bad, "load", float64(f.Load), 0, 1e3)
		if f.At.Given() {
			f.At.check(&bad, "at")
		}
		b.report(bad)
		return
	}
	b.rated(&RatedLoss{Flow: f.Flow, Pressure: f.Clean, Linear: f.Linear, At: f.At})
	if f.Dirty == 0 || f.Load == 0 {
		return
	}
	mu := b.ref.Viscosity
	if f.At.Given() {
		mu = f.At.Viscosity
	}
	it := &b.w.items[len(b.w.items)-1]
	it.c1 += float64(f.Load) * float64(f.Dirty-f.Clean) * b.mu * b.invRho / (float64(mu) * float64(f.Flow))
}

// unknown is the error for a name that a table does not have.
func unknown(name string, names []string) error {
	return &units.FieldError{Path: "fitting", Value: name, Want: strings.Join(names, "; "), Err: units.ErrRange}
}

// Hooper returns the constants of a fitting from Hooper's table; the caller adds the
// bore. [HooperFittings] lists the names.
//
// Source: W. B. Hooper, Chem. Eng. 88(17), 1981, and 95(16), 1988.
func Hooper(fitting string) (TwoK, error) {
	for _, r := range hooper {
		if r.name == fitting {
			return TwoK{Part: Part{Name: r.name}, K1: r.k1, KInf: r.ki}, nil
		}
	}
	return TwoK{}, unknown(fitting, HooperFittings())
}

// HooperFittings returns the names of [Hooper]'s table, in its order.
func HooperFittings() []string {
	names := make([]string, len(hooper))
	for i, r := range hooper {
		names[i] = r.name
	}
	return names
}

// Darby returns the constants of a fitting from Darby's table; the caller adds the
// bore and, where it differs, the nominal size. [DarbyFittings] lists the names.
//
// Source: R. Darby, Chemical Engineering Fluid Mechanics, 2nd edition, 2001.
func Darby(fitting string) (ThreeK, error) {
	for _, r := range darby {
		if r.name == fitting {
			return ThreeK{Part: Part{Name: r.name}, K1: r.k1, Ki: r.ki, Kd: r.kd}, nil
		}
	}
	return ThreeK{}, unknown(fitting, DarbyFittings())
}

// DarbyFittings returns the names of [Darby]'s table, in its order.
func DarbyFittings() []string {
	names := make([]string, len(darby))
	for i, r := range darby {
		names[i] = r.name
	}
	return names
}

// Crane returns the multiple N of a fitting from Crane's table: its equivalent length
// is N bores, and K = N fT with [CraneFT]. [CraneFittings] lists the names.
//
// Source: Crane, Technical Paper 410.
func Crane(fitting string) (n float64, err error) {
	for _, r := range crane {
		if r.name == fitting {
			return r.n, nil
		}
	}
	return 0, unknown(fitting, CraneFittings())
}

// CraneFittings returns the names of [Crane]'s table, in its order.
func CraneFittings() []string {
	names := make([]string, len(crane))
	for i, r := range crane {
		names[i] = r.name
	}
	return names
}

// CraneFT returns the friction factor of fully turbulent flow in schedule 40 pipe of
// a nominal size from 1/2 to 4 in, to the three decimals of Crane's table.
//
// Source: Crane, Technical Paper 410, 2009; older printings differ by one in the
// third decimal.
func CraneFT(nominal units.Length) (float64, error) {
	for _, r := range craneFT {
		if math.Abs(nominal.In(units.Inch)-r.nominal) < 1e-6 {
			return r.ft, nil
		}
	}
	return 0, &units.FieldError{Path: "nominal", Value: nominal.String(), Want: "1/2, 3/4, 1, 1-1/4, 1-1/2, 2, 2-1/2, 3 or 4 in", Err: units.ErrRange}
}

// FixedK returns a loss coefficient that does not depend on size: an entrance or an
// exit. [FixedFittings] lists the names.
//
// Source: Crane, Technical Paper 410.
func FixedK(fitting string) (float64, error) {
	for _, r := range fixed {
		if r.name == fitting {
			return r.k, nil
		}
	}
	return 0, unknown(fitting, FixedFittings())
}

// FixedFittings returns the names of [FixedK]'s table, in its order.
func FixedFittings() []string {
	names := make([]string, len(fixed))
	for i, r := range fixed {
		names[i] = r.name
	}
	return names
}

// ExpansionK returns the loss coefficient of a sudden expansion, on the velocity head
// in the smaller bore.
//
//	K = (1 − β²)²
//
// β is the smaller bore over the larger.
//
// Source: momentum theorem, Borda and Carnot. Special cases: NaN outside 0 ≤ β ≤ 1.
func ExpansionK(beta float64) float64 {
	if !(beta >= 0 && beta <= 1) {
		return math.NaN()
	}
	return (1 - beta*beta) * (1 - beta*beta)
}

// ContractionK returns the loss coefficient of a sudden sharp-edged contraction, on
// the velocity head in the smaller bore.
//
//	K = 0.0696 (1 − β⁵) λ² + (λ − 1)²
//	λ = 1 + 0.622 (1 − 0.215 β² − 0.785 β⁵)
//
// β is the smaller bore over the larger.
//
// Source: D. C. Rennels and H. M. Hudson, Pipe Flow, 2012. Special cases: NaN outside
// 0 ≤ β ≤ 1.
func ContractionK(beta float64) float64 {
	if !(beta >= 0 && beta <= 1) {
		return math.NaN()
	}
	b2 := beta * beta
	b5 := b2 * b2 * beta
	l := 1 + 0.622*(1-0.215*b2-0.785*b5)
	return 0.0696*(1-b5)*l*l + (l-1)*(l-1)
}

// KOfCv returns the loss coefficient in a bore of a valve with flow coefficient cv:
// gpm of water at 60 °F at 1 psi.
//
//	K = (π/4 d²)² · 2 Δp/(ρ q²),  q = cv gpm, Δp = 1 psi
func KOfCv(cv float64, bore units.Length) (float64, error) {
	var bad problem.List
	problem.Number(&bad, "cv", cv, 1e-12, maxK)
	within(&bad, "bore", bore, minBore, maxBore)
	if bad != nil {
		return 0, bad.Join()
	}
	r := cvOfK1(bore) / cv
	return r * r, nil
}

// CvOfK is the inverse of [KOfCv].
func CvOfK(k float64, bore units.Length) (float64, error) {
	var bad problem.List
	problem.Number(&bad, "k", k, 1e-12, maxK)
	within(&bad, "bore", bore, minBore, maxBore)
	if bad != nil {
		return 0, bad.Join()
	}
	return cvOfK1(bore) / math.Sqrt(k), nil
}

// cvOfK1 is the flow coefficient of one velocity head.
func cvOfK1(bore units.Length) float64 {
	d := float64(bore)
	return math.Pi / 4 * d * d * math.Sqrt(2*float64(units.PSI)/float64(ReferenceDensity)) / float64(units.GallonPerMinute)
}
