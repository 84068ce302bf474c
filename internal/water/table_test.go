package water

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"
)

// table reads a CSV of numbers below testdata: a line with the source, a line
// with the names, then the rows.
func table(t testing.TB, name string, columns int) [][]float64 {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = columns
	records, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]float64
	for _, rec := range records[1:] {
		row := make([]float64, len(rec))
		for i, s := range rec {
			if row[i], err = strconv.ParseFloat(s, 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, row)
	}
	if len(rows) < 10 {
		t.Fatalf("%s has %d rows", name, len(rows))
	}
	return rows
}

// agree compares at 1e-9 of the value, with 1e-12 of the quantity's usual size
// for those that pass through zero (enthalpy and entropy at the triple point,
// expansivity near 4 °C), where rounding of the terms is all that is left.
func agree(t *testing.T, what string, got, want, size float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Abs(want)+1e-12*size) {
		t.Errorf("%s: got %.17g, want %.17g", what, got, want)
	}
}

// The whole range against python iapws 1.5.2 (testdata/tables.py).
func TestPropertiesAt_tables(t *testing.T) {
	for _, file := range []struct {
		name  string
		phase Phase
	}{{"liquid.csv", Liquid}, {"steam.csv", Steam}} {
		for _, r := range table(t, file.name, 13) {
			p, T := r[0], r[1]
			at := fmt.Sprintf("%s, %g Pa, %g K", file.name, p, T)
			s, err := PropertiesAt(p, T)
			if err != nil {
				t.Errorf("%s: %v", at, err)
				continue
			}
			if s.Phase != file.phase {
				t.Errorf("%s: %v", at, s.Phase)
			}
			agree(t, at+", density", s.Density, r[2], 0)
			agree(t, at+", enthalpy", s.Enthalpy, r[3], 1e6)
			agree(t, at+", internal energy", s.InternalEnergy, r[4], 1e6)
			agree(t, at+", entropy", s.Entropy, r[5], 1e4)
			agree(t, at+", cp", s.HeatCapacity, r[6], 0)
			agree(t, at+", cv", s.HeatCapacityConstantVolume, r[7], 0)
			agree(t, at+", speed of sound", s.SpeedOfSound, r[8], 0)
			agree(t, at+", expansivity", s.Expansivity, r[9], 1e-3)
			agree(t, at+", compressibility", s.Compressibility, r[10], 0)
			agree(t, at+", viscosity", s.Viscosity, r[11], 0)
			agree(t, at+", conductivity", s.Conductivity, r[12], 0)

			a, err := At(p, T)
			if err != nil {
				t.Errorf("%s: At: %v", at, err)
			}
			agree(t, at+", At: density", a.Density, r[2], 0)
			agree(t, at+", At: enthalpy", a.Enthalpy, r[3], 1e6)
			agree(t, at+", At: cp", a.HeatCapacity, r[6], 0)
			agree(t, at+", At: viscosity", a.Viscosity, r[11], 0)

			one := func(what string, f func(p, T float64) (float64, error), want, size float64) {
				got, err := f(p, T)
				if err != nil {
					t.Errorf("%s, %s: %v", at, what, err)
				}
				agree(t, at+", "+what, got, want, size)
			}
			one("Density", Density, r[2], 0)
			one("Enthalpy", Enthalpy, r[3], 1e6)
			one("HeatCapacity", HeatCapacity, r[6], 0)
			one("Entropy", Entropy, r[5], 1e4)
			one("SpeedOfSound", SpeedOfSound, r[8], 0)
			one("ConductivityAt", ConductivityAt, r[12], 0)
			one("ThermalPressureCoefficient", ThermalPressureCoefficient, r[9]/r[10], 1e6)
		}
	}
}

func TestSaturation_tables(t *testing.T) {
	for _, r := range table(t, "saturation.csv", 9) {
		T := r[0]
		at := fmt.Sprintf("%g K", T)
		p, err := SaturationPressure(T)
		f, errF := SaturatedLiquid(T)
		g, errG := SaturatedSteam(T)
		l, errL := LatentHeat(T)
		sigma, errS := SurfaceTension(T)
		for _, err := range []error{err, errF, errG, errL, errS} {
			if err != nil {
				t.Errorf("%s: %v", at, err)
			}
		}
		agree(t, at+", pressure", p, r[1], 0)
		agree(t, at+", liquid density", f.Density, r[2], 0)
		agree(t, at+", steam density", g.Density, r[3], 0)
		agree(t, at+", liquid enthalpy", f.Enthalpy, r[4], 1e6)
		agree(t, at+", steam enthalpy", g.Enthalpy, r[5], 0)
		agree(t, at+", liquid entropy", f.Entropy, r[6], 1e4)
		agree(t, at+", steam entropy", g.Entropy, r[7], 0)
		agree(t, at+", latent heat", l, r[5]-r[4], 0)
		agree(t, at+", surface tension", sigma, r[8], 0)
	}
	for _, r := range table(t, "boiling.csv", 2) {
		T, err := SaturationTemperature(r[0])
		if err != nil {
			t.Error(err)
		}
		agree(t, fmt.Sprintf("%g Pa", r[0]), T, r[1], 0)
	}
}

func TestTransport_tables(t *testing.T) {
	for _, r := range table(t, "transport.csv", 4) {
		at := fmt.Sprintf("%g kg/m³, %g K", r[0], r[1])
		mu, err := Viscosity(r[0], r[1])
		if err != nil {
			t.Error(err)
		}
		k, err := Conductivity(r[0], r[1])
		if err != nil {
			t.Error(err)
		}
		agree(t, at+", viscosity", mu, r[2], 0)
		agree(t, at+", conductivity", k, r[3], 0)
	}
}

func TestMeltingPressure_table(t *testing.T) {
	for _, r := range table(t, "melting.csv", 2) {
		p, err := MeltingPressure(r[0])
		if err != nil {
			t.Error(err)
		}
		agree(t, fmt.Sprintf("%g K", r[0]), p, r[1], 0)
	}
}

// The backward equations are starting points; agreement shows that their
// coefficients are right and the 25 mK that the release promises can be relied on.
func TestBackward_table(t *testing.T) {
	for _, r := range table(t, "backward.csv", 5) {
		agree(t, fmt.Sprintf("T(%g Pa, %g J/kg)", r[0], r[1]), backwardFromEnthalpy(r[0], r[1]), r[2], 0)
		agree(t, fmt.Sprintf("T(%g Pa, %g J/(kg·K))", r[0], r[3]), backwardFromEntropy(r[0], r[3]), r[4], 0)
	}
}

// naive1 is Eq. 7 of the release and its derivatives as Table 4 prints them,
// term by term with math.Pow: the reference for the written-out kernel.
func naive1(p, T float64) (v, h, cp float64) {
	pi, tau := p/pStar1, tStar1/T
	var gp, gt, gtt float64
	for _, c := range region1Terms {
		i, j := float64(c.i), float64(c.j)
		gp -= c.n * i * math.Pow(7.1-pi, i-1) * math.Pow(tau-1.222, j)
		gt += c.n * j * math.Pow(7.1-pi, i) * math.Pow(tau-1.222, j-1)
		gtt += c.n * j * (j - 1) * math.Pow(7.1-pi, i) * math.Pow(tau-1.222, j-2)
	}
	return pi * gp * gasConstant * T / p, tau * gt * gasConstant * T, -tau * tau * gtt * gasConstant
}

// naive2 is the same for Eqs. 16 and 17.
func naive2(p, T float64) (v, h, cp float64) {
	pi, tau := p/pStar2, tStar2/T
	gp := 1 / pi
	var gt, gtt float64
	for _, c := range region2Ideal {
		j := float64(c.j)
		gt += c.n * j * math.Pow(tau, j-1)
		gtt += c.n * j * (j - 1) * math.Pow(tau, j-2)
	}
	for _, c := range region2Terms {
		i, j := float64(c.i), float64(c.j)
		gp += c.n * i * math.Pow(pi, i-1) * math.Pow(tau-0.5, j)
		gt += c.n * j * math.Pow(pi, i) * math.Pow(tau-0.5, j-1)
		gtt += c.n * j * (j - 1) * math.Pow(pi, i) * math.Pow(tau-0.5, j-2)
	}
	return pi * gp * gasConstant * T / p, tau * gt * gasConstant * T, -tau * tau * gtt * gasConstant
}

// naiveViscosity is the product of Eqs. 11 and 12 of R12-08 with math.Pow, the
// coefficients typed again from Tables 1 and 2.
func naiveViscosity(rho, T float64) float64 {
	t := criticalTemperature / T
	d := rho / criticalDensity
	h := [6][7]float64{
		{5.20094e-1, 2.22531e-1, -2.81378e-1, 1.61913e-1, -3.25372e-2, 0, 0},
		{8.50895e-2, 9.99115e-1, -9.06851e-1, 2.57399e-1, 0, 0, 0},
		{-1.08374, 1.88797, -7.72479e-1, 0, 0, 0, 0},
		{-2.89555e-1, 1.26613, -4.89837e-1, 0, 6.98452e-2, 0, -4.35673e-3},
		{0, 0, -2.57040e-1, 0, 0, 8.72102e-3, 0},
		{0, 1.20573e-1, 0, 0, 0, 0, -5.93264e-4},
	}
	sum := 0.0
	for i := range h {
		for j := range h[i] {
			sum += math.Pow(t-1, float64(i)) * h[i][j] * math.Pow(d-1, float64(j))
		}
	}
	dilute := 0.0
	for i, H := range []float64{1.67752, 2.20462, 0.6366564, -0.241605} {
		dilute += H * math.Pow(t, float64(i))
	}
	return 100 * math.Sqrt(T/criticalTemperature) / dilute * math.Exp(d*sum) * 1e-6
}
