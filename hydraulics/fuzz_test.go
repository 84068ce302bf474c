package hydraulics_test

import (
	"errors"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/units"
)

func FuzzFrictionFactor(f *testing.F) {
	for _, s := range [][3]float64{{1e5, 1e-4, 0.03}, {2000, 0, 0}, {4000, 0.05, 0.3}, {0, 0, 0}, {1e300, 0, 1}, {math.Inf(1), 1e-3, 0.1}, {3000, 1, 1e-9}} {
		f.Add(s[0], s[1], s[2])
	}
	f.Fuzz(func(t *testing.T, Re, k, ratio float64) {
		factor, slope := hydraulics.FrictionFactorSlope(Re, k)
		coil := hydraulics.CoilFrictionFactor(Re, k, ratio)
		valid := Re >= 0 && k >= 0 && k <= 1
		if math.IsNaN(factor) == valid || math.IsNaN(slope) == valid && Re > 0 && !math.IsInf(Re, 1) {
			t.Fatalf("Re %g, k %g: factor %g, slope %g", Re, k, factor, slope)
		}
		if valid && factor < 0 {
			t.Fatalf("Re %g, k %g: a factor of %g", Re, k, factor)
		}
		if ok := valid && ratio >= 0 && ratio <= 1; math.IsNaN(coil) == ok || ok && coil < factor*(1-1e-9) && Re > 4000*20 {
			t.Fatalf("Re %g, k %g, d/D %g: coil %g, straight %g", Re, k, ratio, coil, factor)
		}
	})
}

// Whatever a tree is made of, Solve answers with finite numbers that close, or with
// one of its errors.
func FuzzSolve(f *testing.F) {
	f.Add(uint64(0x123456789abcdef), 4e-4, 2e7, 1e6, 9.5e-3, 45.0, 0.0, 4.5, 2.0, 1.0)
	f.Add(uint64(0xfedcba9876543210), 1e-7, 0.0, 0.0, 1e-6, 1e4, 0.01, 1e-3, 1e3, -10.0)
	f.Add(uint64(0x5555aaaa5555aaaa), 1e-1, 1e4, 0.0, 1.0, 1e-3, 0.05, 1e6, 0.0, 100.0)
	f.Add(uint64(0), math.NaN(), math.Inf(1), -1.0, 0.0, -1.0, 1.0, 0.0, math.NaN(), math.Inf(-1))
	f.Fuzz(func(t *testing.T, shape uint64, flow, set, rise, bore, length, roughness, tip, k, height float64) {
		bits := shape
		take := func(n uint64) uint64 { v := bits % n; bits = bits/n ^ shape<<7; return v }
		scale := func(v float64) float64 { return v * math.Pow(10, float64(take(7))-3) }
		n := &hydraulics.Network{
			Fluid: hydraulics.Fluid{Density: 1000, Viscosity: 1e-3},
			Supplies: []hydraulics.Supply{{
				Flow: units.VolumeFlow(flow),
				Unloader: hydraulics.Unloader{
					Kind: hydraulics.UnloaderKind(take(5)), Set: units.Pressure(set), Rise: units.Pressure(rise),
					Actuation: units.VolumeFlow(flow / 2), Return: hydraulics.Return(take(2)),
				},
			}},
		}
		if take(2) == 0 {
			n.Supplies[0].Relief = hydraulics.Relief{Set: units.Pressure(set * 1.2), Accumulation: units.Pressure(rise)}
		}
		if take(4) == 0 {
			n.Supplies[0].Leakage = hydraulics.Leakage{Flow: units.VolumeFlow(flow / 20), Pressure: units.Pressure(set)}
		}
		if take(4) == 0 {
			n.Supplies = append(n.Supplies, hydraulics.Supply{Flow: units.VolumeFlow(scale(flow)), Unloader: hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: units.Pressure(scale(set))}})
		}
		sections := int(take(6)) + 1
		ends := make([]bool, sections)
		for i := range sections {
			s := hydraulics.Section{Parent: int(take(uint64(i)+1)) - 1}
			ends[i] = true
			if s.Parent >= 0 {
				ends[s.Parent] = false
			}
			b := units.Length(scale(bore))
			for range take(4) {
				var e hydraulics.Element
				switch take(9) {
				case 0:
					e = hydraulics.Coil{Bore: b, Length: units.Length(scale(length)), Helix: 20 * b, Scale: b / 20}
				case 1:
					e = hydraulics.Fitting{K: scale(k), Bore: b}
				case 2:
					e = hydraulics.StaticHeight{Rise: units.Length(height)}
				case 3:
					e = &hydraulics.RatedLoss{Flow: units.VolumeFlow(scale(flow)), Pressure: units.Pressure(scale(set)), Linear: 0.3}
				case 4:
					e = hydraulics.TwoK{K1: 800, KInf: k, Bore: b}
				case 5:
					e = hydraulics.Filter{Flow: units.VolumeFlow(flow), Clean: units.Pressure(rise), Dirty: units.Pressure(2 * rise), Load: units.Ratio(take(3))}
				case 6:
					e = hydraulics.CheckValve{Cracking: units.Pressure(scale(rise)), K: k, Bore: b}
				case 7:
					e = (*hydraulics.Pipe)(nil)
				default:
					e = hydraulics.Pipe{Bore: b, Length: units.Length(scale(length)), Roughness: units.Length(roughness) * b}
				}
				s.Elements = append(s.Elements, e)
			}
			if take(4) == 0 {
				s.Regulator = &hydraulics.Regulator{Set: units.Pressure(scale(set) / 2), Droop: units.Pressure(rise / 2), Flow: units.VolumeFlow(scale(flow))}
			}
			n.Sections = append(n.Sections, s)
		}
		for i := range n.Sections {
			if ends[i] && take(8) > 0 {
				o := &hydraulics.Outlet{Closed: take(4) == 0, Law: hydraulics.NozzleLaw(take(2))}
				for range take(3) {
					o.Nozzles = append(o.Nozzles, hydraulics.Nozzle{Number: units.NozzleNumber(scale(tip)), Blocked: take(8) == 0})
				}
				n.Sections[i].Outlet = o
			}
		}
		r, err := hydraulics.Solve(n)
		if err != nil {
			if field := new(units.FieldError); !errors.As(err, &field) && !errors.Is(err, hydraulics.ErrDeadHead) {
				t.Fatalf("%v", err)
			}
			return
		}
		check := func(what string, v float64) {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s is %g", what, v)
			}
		}
		check("pressure", float64(r.Pressure))
		for i, s := range r.Supplies {
			for _, v := range []float64{float64(s.Pressure), float64(s.Line), float64(s.Bypass), float64(s.Relief), float64(s.Leakage), float64(s.Feed), float64(s.Power)} {
				check("supply", v)
			}
			all := float64(s.Line + s.Bypass + s.Relief + s.Leakage)
			if want := float64(n.Supplies[i].Flow); math.Abs(all-want) > 1e-9*want {
				t.Fatalf("supply %d: %g of %g m³/s: %+v\n%+v\n%+v", i, all, want, n.Supplies, r.Supplies, r)
			}
		}
		for _, s := range r.Sections {
			for _, v := range []float64{float64(s.Mass), float64(s.Flow), float64(s.Metered), float64(s.Inlet), float64(s.Outlet), float64(s.Regulated)} {
				check("section", v)
			}
			for _, e := range s.Elements {
				for _, v := range []float64{float64(e.Loss), float64(e.Velocity), e.Reynolds, e.Friction} {
					check("element", v)
				}
			}
			if s.Mass < 0 {
				t.Fatalf("a flow of %v", s.Mass)
			}
		}
		if r.Closure > 1e-9 {
			t.Fatalf("closure %g", float64(r.Closure))
		}
	})
}

func FuzzFitNozzles(f *testing.F) {
	f.Add(2540.0, 2200.0, 2600.0, 4.5)
	f.Add(1e-3, 1e-3, 1e9, 1e6)
	f.Add(math.NaN(), -1.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, want, low, high, tip float64) {
		fit, err := hydraulics.FitNozzles(twoGuns(), hydraulics.NozzleWish{
			Outlets: []int{1, 2}, Pressure: psi(want), Low: psi(low), High: psi(high), Stock: []units.NozzleNumber{4, units.NozzleNumber(tip), 5},
		})
		if err != nil {
			if !errors.As(err, new(*units.FieldError)) {
				t.Fatal(err)
			}
			return
		}
		for _, c := range []hydraulics.NozzleChoice{fit.Exact, fit.Below, fit.Above} {
			for _, v := range []float64{float64(c.Number), float64(c.Pressure), float64(c.Flow), float64(c.Pump), float64(c.Needed), float64(c.Bypass)} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%+v", c)
				}
			}
		}
	})
}
