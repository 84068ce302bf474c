package hydraulics_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// In a network 2-K, 3-K and equivalent lengths lose K ρ v²/2 at every Reynolds
// number.
func TestFittings_inNetwork(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		bore := inch(g.LogFloat(0.2, 3))
		rho, mu := g.Float(800, 1100), g.LogFloat(1e-4, 1)
		two := hydraulics.TwoK{K1: g.LogFloat(50, 2000), KInf: g.Float(0, 5), Bore: bore}
		three := hydraulics.ThreeK{K1: g.LogFloat(50, 2000), Ki: g.Float(0, 5), Kd: g.Float(3, 5), Bore: bore, Nominal: bore * 1.05}
		length := hydraulics.EquivalentLength{Bores: g.LogFloat(1, 500), Bore: bore, Roughness: bore / 1000}
		n := line(rho, mu, g.LogFloat(1e-3, 50), 1, 1, 0)
		n.Sections[0].Elements = []hydraulics.Element{two, &three, length}
		r, err := hydraulics.Solve(n)
		if err != nil {
			return err
		}
		for i, e := range r.Sections[0].Elements {
			v := float64(e.Velocity)
			k := []float64{two.K(e.Reynolds), three.K(e.Reynolds), length.Bores * hydraulics.FrictionFactor(e.Reynolds, 1e-3)}[i]
			if want := k * rho * v * v / 2; math.Abs(float64(e.Loss)/want-1) > 1e-9 {
				return fmt.Errorf("element %d loses %g Pa at Re %g, want %g", i, float64(e.Loss), e.Reynolds, want)
			}
		}
		return nil
	})
}

// Rows typed again from the tables, first and last.
func TestFittingTables(t *testing.T) {
	for _, c := range []struct {
		file    string
		names   []string
		columns int
		row     func(name string) ([]float64, error)
	}{
		{"hooper_2k.csv", hydraulics.HooperFittings(), 2, func(s string) ([]float64, error) {
			k, err := hydraulics.Hooper(s)
			return []float64{k.K1, k.KInf}, err
		}},
		{"darby_3k.csv", hydraulics.DarbyFittings(), 3, func(s string) ([]float64, error) {
			k, err := hydraulics.Darby(s)
			return []float64{k.K1, k.Ki, k.Kd}, err
		}},
		{"crane_k_multipliers.csv", hydraulics.CraneFittings(), 1, func(s string) ([]float64, error) {
			n, err := hydraulics.Crane(s)
			return []float64{n}, err
		}},
	} {
		rows := readTable(t, c.file)
		if len(rows) != len(c.names) {
			t.Fatalf("%s has %d rows, the table %d", c.file, len(rows), len(c.names))
		}
		for i, row := range rows {
			got, err := c.row(c.names[i])
			if err != nil {
				t.Fatal(err)
			}
			for j, v := range got {
				if v != num(t, row[j+1]) {
					t.Errorf("%s, %s: %g, table has %s", c.file, c.names[i], v, row[j+1])
				}
			}
		}
	}
	for _, f := range []func(string) error{
		func(s string) error { _, err := hydraulics.Hooper(s); return err },
		func(s string) error { _, err := hydraulics.Darby(s); return err },
		func(s string) error { _, err := hydraulics.Crane(s); return err },
		func(s string) error { _, err := hydraulics.FixedK(s); return err },
	} {
		if err := f("elbow joint"); !errors.Is(err, units.ErrRange) {
			t.Errorf("unknown fitting: %v", err)
		}
	}
}

func TestCv_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		k, bore := g.LogFloat(0.01, 1e4), inch(g.LogFloat(0.1, 4))
		cv, err := hydraulics.CvOfK(k, bore)
		if err != nil {
			return err
		}
		back, err := hydraulics.KOfCv(cv, bore)
		if err != nil {
			return err
		}
		if math.Abs(back/k-1) > 1e-12 {
			return fmt.Errorf("K %g became %g", k, back)
		}
		return nil
	})
}
