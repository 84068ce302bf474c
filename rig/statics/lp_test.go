package statics

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"example.com/washrig/internal/property"
)

// The dual simplex method against gonum's primal one (optimize/convex/lp) on
// random programs, some of them without a solution.
func TestDual_againstGonum(t *testing.T) {
	solved, without := 0, 0
	property.Check(t, func(g *property.G) error {
		n, m := g.Int(1, 4), g.Int(1, 6)
		cost := make([]float64, n)
		for j := range cost {
			cost[j] = g.Float(0, 2)
		}
		d := newDual(cost)
		a := mat.NewDense(m, n+m, nil)
		b := make([]float64, m)
		for i := range m {
			row := make([]float64, n)
			for j := range row {
				row[j] = g.Float(-1, 1)
				a.Set(i, j, row[j])
			}
			a.Set(i, n+i, -1) // its slack
			b[i] = g.Float(-1, 1)
			if i == m/2 {
				if _, ok := d.solve(1e-12); !ok { // rows may come later
					break
				}
			}
			d.add(-b[i], row)
		}
		bad, ok := d.solve(1e-12)
		want, _, err := lp.Simplex(append(cost, make([]float64, m)...), a, b, 1e-10, nil)
		switch {
		case errors.Is(err, lp.ErrInfeasible):
			without++
			if ok {
				return errors.New("solved what has no solution")
			}
			if len(bad) == 0 {
				return errors.New("no contradiction named")
			}
			return nil
		case err != nil:
			return property.ErrDiscard // gonum gives up on some degenerate ones
		case !ok:
			return fmt.Errorf("no solution found, gonum has %g", want)
		}
		solved++
		got := 0.0
		for j, c := range cost {
			got += c * d.value(j)
			if d.value(j) < -1e-9 {
				return fmt.Errorf("z%d = %g", j, d.value(j))
			}
		}
		if math.Abs(got-want) > 1e-8*(1+math.Abs(want)) {
			return fmt.Errorf("least cost %g, by gonum %g", got, want)
		}
		return nil
	})
	if solved == 0 || without == 0 {
		t.Errorf("%d solved, %d without solution: one side was not tried", solved, without)
	}
}
