package water

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// logTime is the time of one math.Log on independent inputs, in nanoseconds:
// the yardstick of the benchmarks, so that they compare between machines.
func logTime() float64 {
	var in [1024]float64
	rng := rand.New(rand.NewPCG(1, 1))
	for i := range in {
		in[i] = math.Exp(20*rng.Float64() - 10)
	}
	const n = 1 << 21
	best := math.Inf(1)
	for range 5 {
		start := time.Now()
		s := 0.0
		for i := range n {
			s += math.Log(in[i&1023])
		}
		sink = s
		best = math.Min(best, float64(time.Since(start).Nanoseconds())/n)
	}
	return best
}

var sink float64

// states fills a table with liquid from tap to boiler, 1 atm to 30 MPa.
func states() (in [1024][2]float64) {
	rng := rand.New(rand.NewPCG(2, 2))
	for i := range in {
		T := MinTemperature + 180*rng.Float64()
		ps := math.Max(101325, saturationPressure(T))
		in[i] = [2]float64{ps + (30e6-ps)*rng.Float64(), T}
	}
	return in
}

func ratio(b *testing.B, f func(p, T float64) float64) {
	in := states()
	log := logTime()
	s := 0.0
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		c := &in[i&1023]
		s += f(c[0], c[1])
	}
	sink = s
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/log, "×log")
}

// The contract: no more than 18 × log.
func BenchmarkAt(b *testing.B) {
	ratio(b, func(p, T float64) float64 {
		s, err := At(p, T)
		if err != nil {
			b.Fatal(err)
		}
		return s.Density + s.Enthalpy + s.HeatCapacity + s.Viscosity
	})
}

func BenchmarkNaive(b *testing.B) {
	ratio(b, func(p, T float64) float64 {
		v, h, cp := naive1(p, T)
		return v + h + cp + naiveViscosity(1/v, T)
	})
}

func BenchmarkPropertiesAt(b *testing.B) {
	ratio(b, func(p, T float64) float64 {
		s, err := PropertiesAt(p, T)
		if err != nil {
			b.Fatal(err)
		}
		return s.Conductivity
	})
}

func BenchmarkTemperatureFromEnthalpy(b *testing.B) {
	ratio(b, func(p, T float64) float64 {
		y, err := TemperatureFromEnthalpy(p, 4150*(T-273.15)+1.05e-3*p)
		if err != nil {
			b.Fatal(err)
		}
		return y
	})
}

func BenchmarkAt_steam(b *testing.B) {
	ratio(b, func(p, T float64) float64 {
		s, err := At(1e-4*p, 473.15+0.5*(T-273.15))
		if err != nil {
			b.Fatal(err)
		}
		return s.Density + s.Enthalpy + s.HeatCapacity + s.Viscosity
	})
}

func BenchmarkSaturationTemperature(b *testing.B) {
	ratio(b, func(p, T float64) float64 {
		y, err := SaturationTemperature(0.1 * p)
		if err != nil {
			b.Fatal(err)
		}
		return y
	})
}
