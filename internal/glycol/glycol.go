package glycol

import (
	"strconv"

	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// A Kind is a glycol.
type Kind int

// The zero Kind is invalid.
const (
	Propylene Kind = iota + 1 // propane-1,2-diol, food-safe
	Ethylene                  // ethane-1,2-diol, poisonous
)

func (k Kind) String() string {
	switch k {
	case Propylene:
		return "propylene glycol"
	case Ethylene:
		return "ethylene glycol"
	}
	return "invalid glycol"
}

// MaxMassFraction is the strongest solution that the equations cover.
const MaxMassFraction = 0.60

const (
	zeroCelsius = 273.15
	maxT        = 373.15 // K
)

// A fit holds the polynomials of one glycol about a base point, in per cent by
// mass and °C.
type fit struct {
	x0, t0   float64
	freezing [6]float64    // °C, by powers of x − x0
	density  [6][4]float64 // kg/m³, by powers of x − x0 (rows) and t − t0
	pure     float64       // density of the pure glycol at 20 °C, kg/m³
}

var fits = [...]fit{
	Propylene: {
		x0: 30.7031, t0: 32.7083,
		freezing: [6]float64{-1.325e1, -6.631e-1, -1.094e-2, -2.283e-4, -3.409e-6, 1.465e-8},
		density: [6][4]float64{
			{1.018e3, -5.406e-1, -2.666e-3, 1.347e-5},
			{7.604e-1, -9.450e-3, 5.541e-5, -1.343e-7},
			{-2.498e-3, 2.700e-5, -4.018e-7, 3.376e-9},
			{-1.550e-4, 2.829e-6, -7.175e-9},
			{-1.131e-6, -2.221e-8},
			{2.342e-8},
		},
		pure: 1036,
	},
	Ethylene: {
		x0: 30.8462, t0: 31.728,
		freezing: [6]float64{-1.525e1, -8.080e-1, -1.334e-2, -7.293e-5, 1.006e-6, 1.140e-9},
		density: [6][4]float64{
			{1.034e3, -4.781e-1, -2.692e-3, 4.725e-6},
			{1.311, -6.876e-3, 4.805e-5, 1.690e-8},
			{7.490e-5, 7.855e-5, -3.995e-7, 4.982e-9},
			{-1.062e-4, 1.229e-6, -1.153e-8},
			{-9.623e-7, -7.221e-8},
			{4.891e-8},
		},
		pure: 1113,
	},
}

func of(k Kind) (*fit, error) {
	if k != Propylene && k != Ethylene {
		return nil, &units.FieldError{
			Path: "glycol", Value: strconv.Itoa(int(k)),
			Want: "propylene or ethylene", Err: units.ErrRange,
		}
	}
	return &fits[k], nil
}

func checkRange(quantity string, x, lo, hi float64, unit string) error {
	if x >= lo && x <= hi {
		return nil
	}
	text := func(x float64) string {
		s := strconv.FormatFloat(x, 'g', 6, 64)
		if unit != "" {
			s += " " + unit
		}
		return s
	}
	return &units.FieldError{
		Path: quantity, Value: text(x),
		Want: text(lo) + " to " + text(hi), Err: units.ErrRange,
	}
}

// freezingPoint returns the freezing point in K of x per cent by mass and its
// derivative by x.
func (f *fit) freezingPoint(x float64) (T, dT float64) {
	d := x - f.x0
	for i := len(f.freezing) - 1; i >= 0; i-- {
		dT = dT*d + T
		T = T*d + f.freezing[i]
	}
	return T + zeroCelsius, dT
}

// FreezingPoint returns the temperature in K at which ice begins to form in a
// solution of the mass fraction w of glycol.
//
//	t = Σ a (x − x0)^i,  x = 100 w
//
// Range: 0 ≤ w ≤ 0.60; outside a [*units.FieldError]. Other tables of
// propylene glycol agree within 0.9 K (TestFreezingPoint_Lange,
// TestFreezingPoint_ASHRAE).
//
// Source: see the package comment. The source's polynomial has terms in the
// temperature too, which no freezing point depends on; they are left out, as
// they are below 1e-3 K.
func FreezingPoint(k Kind, w float64) (float64, error) {
	f, err := of(k)
	if err != nil {
		return 0, err
	}
	if err := checkRange("mass fraction", w, 0, MaxMassFraction, ""); err != nil {
		return 0, err
	}
	T, _ := f.freezingPoint(100 * w)
	return T, nil
}

// ForFreezingPoint returns the mass fraction of glycol in the solution that
// begins to freeze at T (K). It inverts [FreezingPoint] to 1e-12.
//
// Range: the freezing points of 0.60 to 0 (223.15 K to 273.12 K with propylene
// glycol, 221.95 K to 273.15 K with ethylene glycol); outside a
// [*units.FieldError].
func ForFreezingPoint(k Kind, T float64) (float64, error) {
	f, err := of(k)
	if err != nil {
		return 0, err
	}
	warmest, _ := f.freezingPoint(0)
	coldest, _ := f.freezingPoint(100 * MaxMassFraction)
	if err := checkRange("freezing point", T, coldest, warmest, "K"); err != nil {
		return 0, err
	}
	x, _, err := root.Safeguarded(func(x float64) (y, dy float64) {
		y, dy = f.freezingPoint(x)
		return y - T, dy
	}, -1e-3, 100*MaxMassFraction+1e-3, f.x0, 1e-10, 0)
	if err != nil {
		return 0, err
	}
	return min(max(x/100, 0), MaxMassFraction), nil
}

// Density returns the density in kg/m³ of a solution of the mass fraction w of
// glycol at T (K) and about 1 atm.
//
//	ρ = ΣΣ c (x − x0)^i (t − t0)^j,  x = 100 w
//
// Range: 0 ≤ w ≤ 0.60 and T from the freezing point to 373.15 K; outside a
// [*units.FieldError]. Within 0.1 %: the coefficients are printed with four
// digits, and at w = 0 the fit is that far off water.
//
// Source: see the package comment.
func Density(k Kind, w, T float64) (float64, error) {
	f, err := of(k)
	if err != nil {
		return 0, err
	}
	if err := checkRange("mass fraction", w, 0, MaxMassFraction, ""); err != nil {
		return 0, err
	}
	freezing, _ := f.freezingPoint(100 * w)
	const slack = 0.01 // K, of the freezing point's own rounding
	if err := checkRange("temperature", T, freezing-slack, maxT, "K"); err != nil {
		return 0, err
	}
	x, t := 100*w-f.x0, T-zeroCelsius-f.t0
	rho := 0.0
	for i := len(f.density) - 1; i >= 0; i-- {
		c := &f.density[i]
		rho = rho*x + (((c[3]*t+c[2])*t+c[1])*t + c[0])
	}
	return rho, nil
}

// MassFraction returns the mass fraction of glycol in a solution made of phi
// parts by volume of pure glycol and 1 − phi of water, both measured at 20 °C
// before mixing.
//
//	w = φ ρg/(φ ρg + (1 − φ) ρw),  ρw = 998.2 kg/m³
//
// Range: 0 ≤ phi ≤ 1; outside a [*units.FieldError].
func MassFraction(k Kind, phi float64) (float64, error) {
	f, err := of(k)
	if err != nil {
		return 0, err
	}
	if err := checkRange("volume fraction", phi, 0, 1, ""); err != nil {
		return 0, err
	}
	const water = 998.2
	return phi * f.pure / (phi*f.pure + (1-phi)*water), nil
}

// VolumeFraction returns the parts by volume of pure glycol, measured at 20 °C
// before mixing, in a solution of the mass fraction w. It inverts [MassFraction].
//
// Range: 0 ≤ w ≤ 1; outside a [*units.FieldError].
func VolumeFraction(k Kind, w float64) (float64, error) {
	f, err := of(k)
	if err != nil {
		return 0, err
	}
	if err := checkRange("mass fraction", w, 0, 1, ""); err != nil {
		return 0, err
	}
	const water = 998.2
	return w / f.pure / (w/f.pure + (1-w)/water), nil
}
