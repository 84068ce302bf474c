package statics

// dual solves
//
//	minimise Σ cost·z  subject to  rows ≥ 0, z ≥ 0
//
// by the dual simplex method in dictionary form: every basic variable is a constant
// plus a combination of the nonbasic ones. Costs are not negative, so z = 0 is dual
// feasible at once and rows may be added at any time. Bland's rule (lowest index
// first) keeps it from going round in circles.
//
// Source: V. Chvátal, Linear Programming, chapters 2, 3 and 10, for dictionaries,
// Bland's rule and the dual simplex method.
type dual struct {
	n     int         // number of structural variables, 0 to n−1; row i is variable n+i
	cols  []int       // variable of each column
	cost  []float64   // reduced cost of each column, ≥ 0
	basic []int       // variable of each row
	beta  []float64   // its value with the nonbasic ones at zero
	alpha [][]float64 // its coefficients
	where []int       // of each variable: row i as i, column j as −1−j
}

const pivotLeast = 1e-11 // a smaller coefficient is rounding

func newDual(cost []float64) *dual {
	d := &dual{n: len(cost), cost: append([]float64(nil), cost...)}
	for j := range cost {
		d.cols = append(d.cols, j)
		d.where = append(d.where, -1-j)
	}
	return d
}

// add adds the row c + Σ k·z ≥ 0.
func (d *dual) add(c float64, k []float64) {
	a := make([]float64, d.n)
	for j, v := range k {
		if v == 0 {
			continue
		}
		if w := d.where[j]; w < 0 {
			a[-1-w] += v
		} else {
			c += v * d.beta[w]
			for i, x := range d.alpha[w] {
				a[i] += v * x
			}
		}
	}
	d.where = append(d.where, len(d.basic))
	d.basic = append(d.basic, len(d.where)-1)
	d.beta = append(d.beta, c)
	d.alpha = append(d.alpha, a)
}

// value returns the value of structural variable j.
func (d *dual) value(j int) float64 {
	if w := d.where[j]; w >= 0 {
		return d.beta[w]
	}
	return 0
}

// solve goes on to the optimum. If there is none it returns the variables of a
// contradiction: one that is a negative constant less positive multiples of the
// others, while none of them may be negative.
func (d *dual) solve(tol float64) (contradiction []int, ok bool) {
	for {
		out := -1
		for i, v := range d.basic {
			if d.beta[i] < -tol && (out < 0 || v < d.basic[out]) {
				out = i
			}
		}
		if out < 0 {
			return nil, true
		}
		in := -1
		for j, a := range d.alpha[out] {
			if a <= pivotLeast {
				continue
			}
			if in < 0 {
				in = j
				continue
			}
			here, best := d.cost[j]*d.alpha[out][in], d.cost[in]*a
			if here < best || here == best && d.cols[j] < d.cols[in] {
				in = j
			}
		}
		if in < 0 {
			contradiction = append(contradiction, d.basic[out])
			for j, a := range d.alpha[out] {
				if a < -pivotLeast {
					contradiction = append(contradiction, d.cols[j])
				}
			}
			return contradiction, false
		}
		d.pivot(out, in)
	}
}

// pivot exchanges the basic variable of a row with the nonbasic one of a column.
func (d *dual) pivot(r, c int) {
	a := d.alpha[r]
	p := 1 / a[c]
	// v_c = (v_r − β − Σ α·v)/α_c
	d.beta[r] = -d.beta[r] * p
	for j := range a {
		a[j] = -a[j] * p
	}
	a[c] = p
	for i, b := range d.alpha {
		if i == r || b[c] == 0 {
			continue
		}
		k := b[c]
		b[c] = 0
		d.beta[i] += k * d.beta[r]
		for j, x := range a {
			b[j] += k * x
		}
	}
	k := d.cost[c]
	d.cost[c] = 0
	for j, x := range a {
		d.cost[j] = max(0, d.cost[j]+k*x)
	}
	d.basic[r], d.cols[c] = d.cols[c], d.basic[r]
	d.where[d.basic[r]], d.where[d.cols[c]] = r, -1-c
}
