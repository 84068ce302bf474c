package thermal

import (
	"fmt"
	"math"

	"example.com/washrig/internal/root"
	"example.com/washrig/units"
)

// PropyleneGlycolFreezingPoint returns the temperature at which a mixture of
// propylene glycol and water begins to freeze, by the share of glycol by volume.
//
//	T = exp(5.546103 − 0.326277 x − 0.6666873 x² − 0.8800598 x³ − 1.071417 x⁴ − 1.875782 x⁵)
//
// in kelvins, x the share less 0.35. Below 10 % it is a straight line from 0 °C.
// Inhibited products contain water and inhibitors of their own: their maker's table
// goes before it. Ethylene glycol is poisonous and not meant here.
//
// Range: 0 to 60 %.
//
// Source: fit in the open-source library CoolProp (fluid APG) to the table of ASHRAE
// Handbook — Fundamentals (2001), chapter 21.
func PropyleneGlycolFreezingPoint(glycol units.Ratio) (units.Temperature, error) {
	if err := inside("glycol", glycol, 0, 0.60); err != nil {
		return units.Temperature{}, err
	}
	return units.Kelvin(glycolFreezes(float64(glycol))), nil
}

func glycolFreezes(share float64) float64 {
	if share < leastGlycol {
		return freezing + share/leastGlycol*(glycolFreezes(leastGlycol)-freezing)
	}
	l, _ := lnGlycolFreezes(share)
	return math.Exp(l)
}

// leastGlycol is where the polynomial begins; below it a straight line runs to water.
const leastGlycol = 0.10

// lnGlycolFreezes is the logarithm of the freezing point in K, with its slope.
func lnGlycolFreezes(share float64) (l, slope float64) {
	x := share - 0.35
	return 5.546103 + x*(-0.326277+x*(-0.6666873+x*(-0.8800598+x*(-1.071417-1.875782*x)))),
		-0.326277 + x*(2*-0.6666873+x*(3*-0.8800598+x*(4*-1.071417-5*1.875782*x)))
}

// PropyleneGlycolFor returns the least share of propylene glycol by volume whose
// mixture does not begin to freeze above a temperature: the inverse of
// [PropyleneGlycolFreezingPoint]. Ask for 10 °F below the coldest expected.
//
// Range: down to −51 °C, which 60 % holds; 0 °C and above needs none.
func PropyleneGlycolFor(protect units.Temperature) (units.Ratio, error) {
	coldest := units.Kelvin(glycolFreezes(0.60))
	if err := between("protect", protect, coldest, hottestAir); err != nil {
		return 0, err
	}
	T := protect.Kelvin()
	if T >= freezing {
		return 0, nil
	}
	if line := glycolFreezes(leastGlycol); T >= line {
		return units.Ratio(leastGlycol * (freezing - T) / (freezing - line)), nil
	}
	want := math.Log(T)
	x, n, err := root.Safeguarded(func(x float64) (f, slope float64) {
		l, slope := lnGlycolFreezes(x)
		return l - want, slope
	}, leastGlycol, 0.60, 0.35, 1e-12, 1e-15)
	if err != nil {
		return 0, units.At("protect", &units.SolverError{Solver: "glycol", Iterations: n, Lo: leastGlycol, Hi: 0.60})
	}
	return units.Ratio(x), nil
}

// Dilute returns the strength of antifreeze after it has mixed with trapped water.
//
//	c = c0·V/(V + Vt)
//
// V is the antifreeze put in, Vt the water left in the part; volumes are taken as
// additive, which overstates the mixture by under 1 %.
func Dilute(stock units.Ratio, antifreeze, trapped units.Volume) (units.Ratio, error) {
	if err := all(share("stock", stock), inside("antifreeze", antifreeze, 0, 100*units.CubicMeter), inside("trapped", trapped, 0, 100*units.CubicMeter)); err != nil {
		return 0, err
	}
	if antifreeze == 0 {
		return 0, nil
	}
	return units.Ratio(float64(stock) / (1 + float64(trapped/antifreeze))), nil
}

// AntifreezeNeeded returns the volume of antifreeze that leaves the wanted strength
// in trapped water: the inverse of [Dilute]. The stock must be stronger than wanted.
func AntifreezeNeeded(stock, want units.Ratio, trapped units.Volume) (units.Volume, error) {
	if err := all(inside("stock", stock, 1e-3, 1), inside("want", want, 0, 1), inside("trapped", trapped, 0, 100*units.CubicMeter)); err != nil {
		return 0, err
	}
	if want >= stock*(1-1e-9) {
		return 0, refuse("want", want.String(), "less than the stock, "+stock.String(), units.ErrConflict)
	}
	return units.Volume(float64(trapped) * float64(want) / float64(stock-want)), nil
}

// A Trapped volume is a part on the way of the antifreeze that holds water after
// blow-down.
type Trapped struct {
	Volume units.Volume // of the passage
	Water  units.Volume // left in it after blow-down, at most Volume
}

// A Filled part is what antifreeze made of a Trapped volume.
type Filled struct {
	Volume   units.Volume      // of liquid in it
	Glycol   units.Ratio       // by volume
	Protects units.Temperature // freezing point of that mixture
}

// A Displacement is the filling of a line with antifreeze.
type Displacement struct {
	Parts  []Filled     // in the order given
	Weak   int          // index of the weakest part
	Outlet units.Volume // that has left at the far end: catch it
	// OutletGlycol is the mean share of glycol in what has left.
	OutletGlycol units.Ratio
}

// Displace returns the strength in each part of a line when antifreeze is pushed
// through it in order, the blow-down order, and every part mixes completely.
//
// The water left lies in the part and the room above it is air, which the first
// liquid to arrive fills; from then on what comes in pushes the same volume of
// mixture on:
//
//	Vi·dci/dV = c(i−1) − ci
//
// Parts farther along meet antifreeze thinned by all before them: the far end, not
// the first, decides. Displacement without mixing would do better.
//
// Range: 1 to 100 parts, stock 0 to 60 %.
//
// Source: volume balance of stirred vessels in series.
func Displace(parts []Trapped, stock units.Ratio, antifreeze units.Volume) (Displacement, error) {
	return new(Displacing).Displace(parts, stock, antifreeze)
}

// Displacing is memory that displacements use one after another. The zero Displacing is
// ready and serves one at a time.
type Displacing struct {
	level, pure []float64
	chain       chain
	parts       []Filled
}

// Displace is [Displace] in the memory of w, with nothing allocated from the second time
// on. The parts of the result are good until w is used again.
func (w *Displacing) Displace(parts []Trapped, stock units.Ratio, antifreeze units.Volume) (Displacement, error) {
	err := all(inside("stock", stock, 0, 0.60), inside("antifreeze", antifreeze, 0, 100*units.CubicMeter))
	if n := len(parts); n < 1 || n > 100 {
		err = all(err, refuse("parts", fmt.Sprint(n), "1 to 100", units.ErrRange))
	}
	for i, p := range parts {
		perr := all(positive("volume", p.Volume, 10*units.CubicMeter), inside("water", p.Water, 0, 10*units.CubicMeter))
		if perr == nil && p.Water > p.Volume {
			perr = refuse("water", p.Water.String(), "at most the volume, "+p.Volume.String(), units.ErrConflict)
		}
		if perr != nil {
			err = all(err, units.At(fmt.Sprintf("parts[#%d]", i+1), perr))
		}
	}
	if err != nil {
		return Displacement{}, err
	}

	// The parts fill one after another, each from the full ones before it, whose
	// mixtures follow a linear chain; see chain.
	level, pure := w.level[:0], w.pure[:0] // liquid and glycol in it, m³
	for _, p := range parts {
		level, pure = append(level, float64(p.Water)), append(pure, 0)
	}
	w.level, w.pure = level, pure
	c := &w.chain
	c.stock, c.volume, c.share = float64(stock), c.volume[:0], c.share[:0]
	left, out, outPure := float64(antifreeze), 0.0, 0.0
	for i := 0; i <= len(parts) && left > 0; i++ {
		step := left
		if i < len(parts) {
			step = math.Min(left, float64(parts[i].Volume-parts[i].Water))
		}
		came := c.push(step)
		left -= step
		for k := range c.share {
			pure[k] = c.share[k] * level[k]
		}
		if i == len(parts) {
			out, outPure = step, came
			break
		}
		level[i] += step
		pure[i] = came
		if left > 0 {
			level[i] = float64(parts[i].Volume)
			c.volume = append(c.volume, level[i])
			c.share = append(c.share, pure[i]/level[i])
		}
	}
	d := Displacement{Outlet: units.Volume(out)}
	if out > 0 {
		d.OutletGlycol = units.Ratio(math.Min(outPure/out, float64(stock)))
	}
	filled := w.parts[:0]
	for i := range parts {
		c := 0.0
		if level[i] > 0 {
			c = math.Min(pure[i]/level[i], float64(stock))
		}
		filled = append(filled, Filled{units.Volume(level[i]), units.Ratio(c), units.Kelvin(glycolFreezes(c))})
		if filled[i].Glycol < filled[d.Weak].Glycol {
			d.Weak = i
		}
	}
	w.parts, d.Parts = filled, filled
	return d, nil
}

// A chain is full vessels in series, each stirred, that liquid is pushed through.
type chain struct {
	stock  float64   // share of glycol in what comes in
	volume []float64 // of each vessel
	share  []float64 // of glycol in it

	sum, term []float64
	pass      []float64 // share that one event of the fastest rate passes on
}

// push sends v m³ through the chain and returns the glycol that leaves it.
//
//	Vi·dci/dV = c(i−1) − ci
//
// The solution is a Poisson sum over the powers of I + A/λ, A the matrix of the
// system and λ its fastest rate: every term is positive, so nothing cancels, and the
// sum is good to rounding. What the vessels hold and what leaves balance what comes
// in. A vessel smaller than 1/20,000 of what passes counts as that large, which
// changes nothing but the first breath of what it passes on.
//
// Source: A. Jensen, "Markoff chains as an aid in the study of Markoff processes",
// Skandinavisk Aktuarietidskrift 36, 1953, for the sum (uniformization).
func (c *chain) push(v float64) (leaves float64) {
	n := len(c.share)
	if n == 0 || v <= 0 {
		return v * c.stock
	}
	rate := 0.0
	for _, V := range c.volume {
		rate = math.Max(rate, 1/math.Max(V, v/20_000))
	}
	before := 0.0
	for i, V := range c.volume {
		before += V * c.share[i]
	}
	if len(c.sum) < n {
		c.sum, c.term, c.pass = make([]float64, n), make([]float64, n), make([]float64, n)
	}
	for i, V := range c.volume {
		c.pass[i] = 1 / (rate * math.Max(V, v/20_000))
	}
	// In pieces, since the weight of the first term, e^(−λ·v), must not vanish.
	pieces := math.Ceil(rate * v / 200)
	m := rate * v / pieces
	for range int(pieces) {
		copy(c.term[:n], c.share)
		weight := math.Exp(-m)
		for i := range n {
			c.sum[i] = weight * c.share[i]
		}
		for k := 1; k < 2000; k++ {
			for i := n - 1; i >= 0; i-- {
				from := c.stock
				if i > 0 {
					from = c.term[i-1]
				}
				c.term[i] += (from - c.term[i]) * c.pass[i]
			}
			weight *= m / float64(k)
			for i := range n {
				c.sum[i] += weight * c.term[i]
			}
			if float64(k) > m && weight < 1e-18 {
				break
			}
		}
		copy(c.share, c.sum[:n])
	}
	after := 0.0
	for i, V := range c.volume {
		after += V * c.share[i]
	}
	return math.Max(v*c.stock+before-after, 0)
}
