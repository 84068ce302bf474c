package vacuum_test

import (
	"errors"
	"math"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/units"
)

func allFinite(t *testing.T, what string, v ...float64) {
	t.Helper()
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s: %v", what, v)
			return
		}
	}
}

// fielded fails unless an error names a field.
func fielded(t *testing.T, err error) {
	t.Helper()
	var f *units.FieldError
	if err != nil && !errors.As(err, &f) {
		t.Errorf("an error that names no field: %v", err)
	}
}

func FuzzOperate(f *testing.F) {
	f.Add(27e3, 0.05, 101325.0, 293.0, 0.05, 12.0, 1.0, 2e3, 2e-4, 2.0, 20.0, uint8(1))
	f.Add(1.0, 1e-6, 20e3, 220.0, 1e-3, 1e-3, 0.0, 0.0, 0.0, 0.0, 0.01, uint8(2))
	f.Add(99e3, 100.0, 120e3, 340.0, 1.0, 1e4, 100.0, 1e8, 1.0, 20.0, 300.0, uint8(255))
	f.Fuzz(func(t *testing.T, sealed, open, air, kelvin, bore, length, rise, loss, water, corrugated, speed float64, bits uint8) {
		b, err := vacuum.NewBlower(vacuum.BlowerPlate{Points: []vacuum.BlowerPoint{{Lift: units.Pressure(sealed)}, {Flow: units.VolumeFlow(open)}},
			Between: vacuum.Shape(1 + bits%2), Air: vacuum.StandardAir()})
		fielded(t, err)
		if err != nil {
			return
		}
		p := vacuum.Plant{
			Air:    vacuum.Air{Pressure: units.AbsolutePressure(air), Temperature: units.Kelvin(kelvin)},
			Liquid: vacuum.Liquid{Density: 999, Viscosity: 1.1e-3, SurfaceTension: 0.073},
			Motors: vacuum.Parallel(b, int(bits>>1%4)), Hoses: int(bits >> 3 % 4),
			Path: []vacuum.Element{vacuum.RatedLoss{Flow: 0.05, Loss: units.Pressure(loss), Linear: 0.2, Air: vacuum.StandardAir()},
				vacuum.Hose{Bore: units.Length(bore), Length: units.Length(length), Rise: units.Length(rise), Corrugated: units.Ratio(corrugated)}},
		}
		if bits>>5%2 == 1 {
			p.Motors = vacuum.Series(b, int(bits>>1%4))
		}
		if bits>>6%2 == 1 {
			p.Bleed = vacuum.Opening{Area: 1e-4, Discharge: 0.6}
		}
		if bits>>7 == 1 {
			p.Duct = []vacuum.Element{vacuum.RatedLoss{Flow: 0.1, Loss: units.Pressure(loss), Linear: 0.9, Air: vacuum.StandardAir()}}
		}
		op, err := p.Operate(units.VolumeFlow(water))
		fielded(t, err)
		allFinite(t, "operation", float64(op.Air), float64(op.Bleed), float64(op.Drawn), float64(op.FreeAir), float64(op.Tool), float64(op.Tank), float64(op.Motors), float64(op.Velocity), float64(op.Carry))
		for _, s := range op.Steps {
			allFinite(t, "step", float64(s.Loss), float64(s.Vacuum), float64(s.Velocity), s.Reynolds)
		}
		u, err := p.PickUp(units.Velocity(speed))
		fielded(t, err)
		allFinite(t, "pick-up", float64(u.Rate), float64(u.Low), float64(u.High), float64(u.Air), float64(u.Tank), float64(u.Drowned), float64(u.Column))
		if err == nil && !(u.Low <= u.Rate && u.Rate <= u.High) {
			t.Errorf("pick-up %v between %v and %v", u.Rate, u.Low, u.High)
		}
	})
}

func FuzzDump(f *testing.F) {
	f.Add(6.0, 1e-3, 1.0, 15e3, 0.025, 5.0, 4.0, 2e3, 2e4, 0.5, 1.0, 6e-4, uint8(1))
	f.Add(1e-3, 1e-9, -100.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 1.0, uint8(0))
	f.Add(1e3, 1.0, 100.0, 120e3, 1e-3, 1e4, 1e6, 1e8, 1e8, 1.0, 10.0, 1e-9, uint8(7))
	f.Fuzz(func(t *testing.T, shutoff, runout, rise, vac, bore, length, k, clean, dirty, linear, loaded, flow float64, bits uint8) {
		p, err := vacuum.NewDumpPump([]vacuum.DumpPoint{{Head: units.Length(shutoff)}, {Flow: units.VolumeFlow(runout)}}, vacuum.Shape(1+bits%2))
		fielded(t, err)
		if err != nil {
			return
		}
		d := vacuum.Dump{Pump: p, Running: int(bits >> 1 % 3), Liquid: vacuum.Liquid{Density: 999, Viscosity: 1.1e-3, SurfaceTension: 0.073}, Rise: units.Length(rise),
			Bore: units.Length(bore), Length: units.Length(length), K: k, CheckValve: bits>>3%2 == 1}
		if bits>>4%2 == 1 {
			d.Filters = vacuum.Train{{Flow: units.VolumeFlow(flow), Clean: units.Pressure(clean), Dirty: units.Pressure(dirty), Linear: units.Ratio(linear)}}
			d.Loaded = []units.Ratio{units.Ratio(loaded)}
		}
		out, err := d.At(units.Pressure(vac))
		fielded(t, err)
		allFinite(t, "discharge", float64(out.Flow), float64(out.Each), float64(out.Head), float64(out.Line), float64(out.Filters), float64(out.Short))
		if out.Back != (out.Flow < 0) {
			t.Errorf("back %v at %v", out.Back, out.Flow)
		}
		a, err := d.FilterAllowance(units.VolumeFlow(flow), units.Pressure(vac))
		fielded(t, err)
		allFinite(t, "allowance", float64(a))
	})
}
