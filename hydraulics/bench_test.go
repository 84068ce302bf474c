package hydraulics_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

const tableSize = 1024

var sink float64

// logs times op, which repeats an operation n times, against as many math.Log,
// and returns the quotient. Short batches are interleaved and the fastest of each
// counts, so that what else the machine does matters little. The logarithms
// are of independent inputs from a table, or each waits for the last.
func logs(n int, op func(n int), chained bool) float64 {
	r := rand.New(rand.NewPCG(1, 2))
	var table [tableSize]float64
	for i := range table {
		table[i] = math.Exp(10 * r.Float64())
	}
	const perBatch = 4096
	log, own := time.Duration(math.MaxInt64), time.Duration(math.MaxInt64)
	for range 200 {
		s := 1.0
		start := time.Now()
		if chained {
			for i := range perBatch {
				s = math.Log(table[i%tableSize] + s*1e-9)
			}
		} else {
			for i := range perBatch {
				s += math.Log(table[i%tableSize])
			}
		}
		log = min(log, time.Since(start))
		sink += s
		start = time.Now()
		op(n)
		own = min(own, time.Since(start))
	}
	return float64(own) / float64(n) / (float64(log) / perBatch)
}

func frictionInputs() (Re, k [tableSize]float64) {
	r := rand.New(rand.NewPCG(3, 4))
	for i := range Re {
		Re[i] = 4000 * math.Pow(10, 4*r.Float64())
		k[i] = 0.05 * math.Pow(10, -5*r.Float64())
		if i%4 == 0 {
			k[i] = 0
		}
	}
	return Re, k
}

func BenchmarkFrictionFactorSlope(b *testing.B) {
	Re, k := frictionInputs()
	b.Run("independent", func(b *testing.B) {
		op := func(n int) {
			s := 0.0
			for i := range n {
				f, d := hydraulics.FrictionFactorSlope(Re[i%tableSize], k[i%tableSize])
				s += f + d
			}
			sink += s
		}
		for b.Loop() {
			op(1)
		}
		b.ReportMetric(logs(1024, op, false), "logs")
	})
	b.Run("chained", func(b *testing.B) {
		op := func(n int) {
			f, d := 0.0, 0.0
			for i := range n {
				f, d = hydraulics.FrictionFactorSlope(Re[i%tableSize]+f+d, k[i%tableSize])
			}
			sink += f
		}
		for b.Loop() {
			op(1)
		}
		b.ReportMetric(logs(1024, op, true), "chained-logs")
		b.ReportMetric(logs(1024, op, false), "logs")
	})
}

// threeGuns is a trunk and three guns, each with its hose, its fittings and its
// tip, drawn at random.
func threeGuns(r *rand.Rand) *hydraulics.Network {
	n := &hydraulics.Network{
		Fluid: hydraulics.Fluid{Density: 999.9, Viscosity: 1.43e-3},
		Supplies: []hydraulics.Supply{{
			Flow:     gpm(8 + 3*r.Float64()),
			Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: psi(2900)},
			Relief:   hydraulics.Relief{Set: psi(3400)},
		}},
		Sections: []hydraulics.Section{{Name: "trunk", Parent: hydraulics.Manifold, Elements: []hydraulics.Element{
			hydraulics.Hose{Bore: inch(0.5), Length: feet(50 + 50*r.Float64())},
		}}},
	}
	for range 3 {
		n.Sections = append(n.Sections, hydraulics.Section{
			Elements: []hydraulics.Element{
				hydraulics.Hose{Bore: inch(0.375), Length: feet(50 + 150*r.Float64()), Roughness: units.Length(5e-6 * r.Float64())},
				hydraulics.RatedLoss{Flow: gpm(3.4), Pressure: psi(20 + 30*r.Float64())},
			},
			Outlet: &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: units.NozzleNumber(3 + 2*r.Float64())}}},
		})
	}
	return n
}

func BenchmarkSolve_threeGuns(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 6))
	var nets [64]*hydraulics.Network
	for i := range nets {
		nets[i] = threeGuns(r)
	}
	var w hydraulics.Workspace
	var res hydraulics.Result
	rounds, solved, worst := 0, 0, 0.0
	op := func(count int) {
		for i := range count {
			if err := w.Solve(nets[(i+solved)%len(nets)], &res); err != nil {
				b.Fatal(err)
			}
			rounds += res.Iterations
			worst = max(worst, float64(res.Residual))
		}
		solved += count
	}
	b.ReportAllocs()
	for b.Loop() {
		op(1)
	}
	b.ReportMetric(float64(rounds)/float64(solved), "rounds")
	b.ReportMetric(worst*1e12, "residual-1e-12")
	b.ReportMetric(logs(len(nets), op, false), "logs")
}

func BenchmarkSolve_oneHose(b *testing.B) {
	hose := &hydraulics.Hose{Bore: inch(0.375), Length: feet(100)}
	n := &hydraulics.Network{
		Fluid:    hydraulics.Fluid{Density: 999.9, Viscosity: 1.43e-3},
		Supplies: []hydraulics.Supply{{}},
		Sections: []hydraulics.Section{{
			Parent: hydraulics.Manifold, Elements: []hydraulics.Element{hose},
			Outlet: &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 4}}},
		}},
	}
	var w hydraulics.Workspace
	var res hydraulics.Result
	r := rand.New(rand.NewPCG(7, 8))
	op := func(count int) {
		n.Supplies[0].Flow = gpm(3 + r.Float64())
		for range count {
			if err := w.Solve(n, &res); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		op(1)
	}
	b.ReportMetric(logs(64, op, false), "logs")
}
