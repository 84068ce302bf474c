package vacuum_test

import (
	"math"
	"testing"
	"time"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/units"
)

// logs reports a benchmark as a multiple of one math.Log on this machine.
func logs(b *testing.B) {
	b.Helper()
	b.StopTimer()
	perOp := float64(b.Elapsed()) / float64(b.N)
	const n = 1 << 20
	x, sum := 1.0, 0.0
	start := time.Now()
	for range n {
		sum += math.Log(x)
		x += 1e-6
	}
	one := float64(time.Since(start)) / n
	if sum < 0 {
		b.Fatal(sum)
	}
	b.ReportMetric(perOp/one, "logs/op")
}

func BenchmarkOperate_dry(b *testing.B) {
	p := plant(b, 2)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Operate(0); err != nil {
			b.Fatal(err)
		}
	}
	logs(b)
}

func BenchmarkOperate_wet(b *testing.B) {
	p := plant(b, 2)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		if _, err := p.Operate(gpm(1 + float64(i%1024)/512)); err != nil {
			b.Fatal(err)
		}
	}
	logs(b)
}

func BenchmarkPickUp(b *testing.B) {
	p := plant(b, 2)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		if _, err := p.PickUp(fpm(2500 + float64(i%1024))); err != nil {
			b.Fatal(err)
		}
	}
	logs(b)
}

func BenchmarkDump(b *testing.B) {
	d := dump(b)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		if _, err := d.At(inH2O(float64(i%1024) / 16)); err != nil {
			b.Fatal(err)
		}
	}
	logs(b)
}

func BenchmarkBuildUp(b *testing.B) {
	l := vacuum.Loop{Return: 0.65, Evaporate: 0.08}
	for b.Loop() {
		u, err := l.Added()
		if err != nil {
			b.Fatal(err)
		}
		if _, _, err = u.PassesTo(units.Ratio(1.5)); err != nil {
			b.Fatal(err)
		}
	}
	logs(b)
}
