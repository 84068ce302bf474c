package electrical_test

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"example.com/washrig/electrical"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestPerformanceClass_iso8528(t *testing.T) {
	names := []string{"G1", "G2", "G3"}
	for _, name := range names {
		c, err := electrical.PerformanceClassNamed(name)
		if err != nil {
			t.Fatal(err)
		}
		ours := []float64{
			c.FrequencyDroop.In(units.Percent), c.FrequencyBand.In(units.Percent), c.FrequencyRise.In(units.Percent), -c.FrequencyDip.In(units.Percent),
			c.FrequencyTime.In(units.Second), c.VoltageDeviation.In(units.Percent), c.VoltageUnbalance.In(units.Percent),
			c.VoltageRise.In(units.Percent), -c.VoltageDip.In(units.Percent), c.VoltageTime.In(units.Second),
		}
		rows := readTable(t, "iso8528_5_limits.csv")
		if len(rows) != len(ours) {
			t.Fatalf("%d rows", len(rows))
		}
		for i, r := range rows {
			if want := num(t, r[name]); math.Abs(ours[i]-want) > 1e-12*math.Abs(want) {
				t.Errorf("%s %s: %v, table %s", name, r["quantity"], ours[i], r[name])
			}
		}
		if read := c.By == electrical.Reproduced; read != (name == "G2") {
			t.Errorf("%s is %v", name, c.By)
		}
	}
	for _, name := range []string{"", "G4"} {
		if _, err := electrical.PerformanceClassNamed(name); err == nil {
			t.Errorf("%q is a class", name)
		}
	}
}

func TestGeneratorFrequency_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		n, poles := g.Float(0, 8000), 2*g.Int(1, 6)
		f, err := electrical.GeneratorFrequency(units.RotationalSpeed(n)*units.RPM, poles)
		if err != nil {
			return err
		}
		if want := n * float64(poles) / 120; math.Abs(float64(f)-want) > 1e-12*want {
			return fmt.Errorf("%v Hz, want %v", float64(f), want)
		}
		back, err := electrical.GeneratorSpeed(f, poles)
		if err != nil || math.Abs(back.In(units.RPM)-n) > 1e-12*n {
			return fmt.Errorf("back to %v rpm from %v: %v", back.In(units.RPM), n, err)
		}
		return nil
	})
}

func drawAlternator(g *property.G) electrical.Alternator {
	return electrical.Alternator{
		Rating:             units.ApparentPower(g.LogFloat(1000, 50_000)),
		Resistance:         units.Ratio(g.Float(0, 0.1)),
		TransientReactance: units.Ratio(g.Float(0.05, 0.5)),
	}
}

func TestStartDip_properties(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		a := drawAlternator(g)
		base := float64(a.Rating)
		run := demandOf(base*g.Float(0, 0.9), base*g.Float(0, 0.6))
		p, q := base*g.Float(0.01, 2), base*g.Float(0, 2)
		small, err := a.StartDip(run, demandOf(p, q))
		if err != nil {
			return err
		}
		more := g.Float(1.01, 3)
		large, err := a.StartDip(run, demandOf(p*more, q*more))
		if err != nil {
			return err
		}
		if !(small > 0 && large > small && large < 1) {
			return fmt.Errorf("dip %v, then %v for %v times the start", small, large, more)
		}
		// The loop solved as phasors, current first.
		z := complex(float64(a.Resistance), float64(a.TransientReactance))
		s0, s1 := pair(run, base), pair(demandOf(p, q), base)
		e := 1 + cmplx.Conj(s0)*z
		load := 1 / cmplx.Conj(s0+s1)
		v := e / (z + load) * load
		const rounding = 1e-7 // the non-active part is a difference of squares
		if got := 1 - cmplx.Abs(v); math.Abs(got-float64(small)) > rounding {
			return fmt.Errorf("dip %v, phasors %v", small, got)
		}
		return nil
	})
}

func demandOf(p, q float64) electrical.Demand {
	return electrical.Demand{Power: units.Power(p), Apparent: units.ApparentPower(math.Hypot(p, q))}
}

func pair(d electrical.Demand, base float64) complex128 {
	return phasor(float64(d.Power)/base, float64(d.Apparent)/base)
}

func TestVoltageDip_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		a := drawAlternator(g)
		s := units.ApparentPower(float64(a.Rating) * g.Float(0.05, 5))
		dip, err := a.VoltageDip(s)
		if err != nil {
			return err
		}
		back, err := a.LargestStart(dip)
		if err != nil {
			return err
		}
		if math.Abs(float64(back-s)) > 1e-9*float64(s) {
			return fmt.Errorf("%v comes back as %v", s, back)
		}
		// Without resistance, load and power it is StartDip.
		a.Resistance = 0
		d2, err := a.StartDip(electrical.Demand{}, electrical.Demand{Apparent: s})
		if err != nil || math.Abs(float64(d2-dip)) > 1e-12 {
			return fmt.Errorf("start dip %v, divider %v, %v", d2, dip, err)
		}
		return nil
	})
}

func TestSustainedVoltage_properties(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		a := drawAlternator(g)
		a.SynchronousReactance = a.TransientReactance + units.Ratio(g.Float(0.5, 2.5))
		base := float64(a.Rating)
		p, q := base*g.Float(0, 3), base*g.Float(0, 3)
		low := g.Float(1, 4)
		v1, err := a.SustainedVoltage(units.Ratio(low), demandOf(p, q))
		if err != nil {
			return err
		}
		v2, err := a.SustainedVoltage(units.Ratio(low*g.Float(1, 2)), demandOf(p, q))
		if err != nil {
			return err
		}
		v3, err := a.SustainedVoltage(units.Ratio(low), demandOf(p*1.2, q*1.2))
		if err != nil {
			return err
		}
		if !(v1 > 0 && v1 <= 1 && v2 >= v1 && float64(v3) <= float64(v1)*(1+1e-9)) {
			return fmt.Errorf("%v, with more excitation %v, with more load %v", v1, v2, v3)
		}
		return nil
	})
}

// The closed form against the two equations, integrated by the classical
// Runge-Kutta method.
func TestFrequencyDip_integrated(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		H, R, T, P := g.LogFloat(0.1, 5), g.LogFloat(0.02, 0.2), g.LogFloat(0.03, 2), g.Float(0.1, 1)
		s := electrical.Governed{Rated: 5000, Inertia: units.Duration(H), Droop: units.Ratio(R), TimeConstant: units.Duration(T)}
		d, err := s.FrequencyDip(units.Power(5000 * P))
		if err != nil {
			return err
		}
		slope := func(w, p float64) (float64, float64) { return (p - P) / (2 * H), (-w/R - p) / T }
		// Steps small against the fastest motion, long enough for the slowest.
		fast := min(T, math.Sqrt(2*H*T*R))
		slow := max(4*T, 4*H*R, float64(d.At)*1.5)
		h := fast / 50
		var w, p, deepest, at float64
		for i := 0; float64(i)*h < 5*slow; i++ {
			a1, b1 := slope(w, p)
			a2, b2 := slope(w+h/2*a1, p+h/2*b1)
			a3, b3 := slope(w+h/2*a2, p+h/2*b2)
			a4, b4 := slope(w+h*a3, p+h*b3)
			w += h / 6 * (a1 + 2*a2 + 2*a3 + a4)
			p += h / 6 * (b1 + 2*b2 + 2*b3 + b4)
			if -w > deepest {
				deepest, at = -w, float64(i+1)*h
			}
		}
		// The deepest of a grid of steps h/fast = 1/50 misses a parabola's top
		// by (1/100)²/2 of the swing at most.
		if math.Abs(deepest-float64(d.Dip)) > 1e-4*float64(d.Dip) && !(d.At == 0 && deepest > 0.95*float64(d.Dip)) {
			return fmt.Errorf("H %v R %v T %v P %v: dip %v at %v s, integrated %v at %v s", H, R, T, P, float64(d.Dip), float64(d.At), deepest, at)
		}
		if deepest > float64(d.Dip)*(1+1e-6) {
			return fmt.Errorf("integrated dip %v is deeper than %v", deepest, float64(d.Dip))
		}
		if over := float64(d.Dip)/float64(d.Lasting) - 1; over > 1e-3 && math.Abs(at-float64(d.At)) > 2*h+0.02*float64(d.At) {
			return fmt.Errorf("deepest at %v s, integrated %v s", float64(d.At), at)
		}
		return nil
	})
}

// Kloss's curve against the circuit of an induction motor without stator
// resistance, solved with complex numbers: stator and rotor leakage in series
// with the rotor's resistance over slip.
func TestFanMotor_circuit(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		const poles = 4
		r2, x := g.Float(0.5, 3), g.Float(4, 15) // ohms at 60 Hz
		slip := g.Float(0.01, 0.1)
		torque := func(v, f, s float64) float64 { // per phase, over synchronous speed
			i := complex(v, 0) / complex(r2/s, x*f/60)
			return cmplx.Abs(i) * cmplx.Abs(i) * r2 / s / (f / 60)
		}
		sb := r2 / x
		if sb > 0.9 || slip > sb*0.8 {
			return property.ErrDiscard
		}
		m := torque(120, 60, sb) / torque(120, 60, slip)
		if m < 1.05 || m > 10 {
			return property.ErrDiscard
		}
		ns := 2 * math.Pi * 60 * 2 / poles
		motor := electrical.FanMotor{Voltage: 120, Frequency: 60, Poles: poles, Speed: units.RotationalSpeed(ns * (1 - slip)), Breakdown: units.Ratio(m)}
		v, f := g.Float(60, 140), g.Float(40, 66)
		got, err := motor.At(units.Voltage(v), units.Frequency(f))
		if err != nil {
			return err
		}
		fan := func(s float64) float64 { // torque of the fan at slip s of frequency f
			n := f / 60 * (1 - s) / (1 - slip)
			return torque(120, 60, slip) * n * n
		}
		sbf := min(sb*60/f, 1)
		if holds := torque(v, f, sbf) >= fan(sbf); holds != got.Holds {
			if math.Abs(torque(v, f, sbf)/fan(sbf)-1) < 1e-9 {
				return property.ErrDiscard
			}
			return fmt.Errorf("holds %v, the circuit says %v", got.Holds, holds)
		}
		if !got.Holds {
			if got != (electrical.FanState{}) {
				return fmt.Errorf("pulled out, yet %+v", got)
			}
			return nil
		}
		s := float64(got.Slip)
		if a, b := torque(v, f, s), fan(s); math.Abs(a-b) > 1e-9*b {
			return fmt.Errorf("at slip %v the motor makes %v and the fan takes %v", s, a, b)
		}
		if n := ns * f / 60 * (1 - s); math.Abs(float64(got.Speed)-n) > 1e-9*n || math.Abs(float64(got.Air)-n/(ns*(1-slip))) > 1e-9 {
			return fmt.Errorf("speed %v and air %v at slip %v", got.Speed, got.Air, s)
		}
		return nil
	})
}

func TestFanMotor_lowVoltageSlows(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m := electrical.FanMotor{Voltage: 120, Frequency: 60, Poles: 2 * g.Int(1, 2), Breakdown: units.Ratio(g.Float(1.2, 4))}
		m.Speed = units.RotationalSpeed(4 * math.Pi * 60 / float64(m.Poles) * (1 - g.Float(0.01, 0.12)))
		rated, err := m.At(120, 60)
		if err != nil {
			return err
		}
		if math.Abs(float64(rated.Air)-1) > 1e-9 {
			return fmt.Errorf("air %v at the rated point", float64(rated.Air))
		}
		v := g.Float(70, 130)
		a, err := m.At(units.Voltage(v), 60)
		if err != nil {
			return err
		}
		b, err := m.At(units.Voltage(v*g.Float(0.9, 1)), 60)
		if err != nil {
			return err
		}
		if b.Holds && !a.Holds || b.Holds && b.Speed > a.Speed*(1+1e-12) {
			return fmt.Errorf("at less voltage %+v after %+v", b, a)
		}
		return nil
	})
}

func TestGenerator_errors(t *testing.T) {
	alt := electrical.Alternator{Rating: 5000, TransientReactance: 0.2}
	set := electrical.Governed{Rated: 5000, Inertia: 0.5, Droop: 0.05, TimeConstant: 0.2}
	fan := electrical.FanMotor{Voltage: 120, Frequency: 60, Poles: 2, Speed: 3450 * units.RPM, Breakdown: 2}
	nan := math.NaN()
	for _, c := range []struct {
		name string
		call func() error
		path string
	}{
		{"poles", func() error { _, err := electrical.GeneratorFrequency(100, 3); return err }, "poles"},
		{"speed", func() error { _, err := electrical.GeneratorFrequency(units.RotationalSpeed(nan), 2); return err }, "speed"},
		{"no poles", func() error { _, err := electrical.GeneratorSpeed(60, 0); return err }, "poles"},
		{"frequency", func() error { _, err := electrical.GeneratorSpeed(-1, 2); return err }, "frequency"},
		{"droop", func() error { _, err := electrical.DroopFrequency(62, 0.6, 1); return err }, "droop"},
		{"share", func() error { _, err := electrical.DroopFrequency(62, 0.05, -1); return err }, "share"},
		{"knee", func() error { _, err := electrical.RegulatedVoltage(120, 60, 60, 0); return err }, "knee"},
		{"rated voltage", func() error { _, err := electrical.RegulatedVoltage(0, 60, 60, 0.9); return err }, "rated"},
		{"start", func() error { _, err := alt.VoltageDip(units.ApparentPower(nan)); return err }, "start"},
		{"no reactance", func() error { _, err := electrical.Alternator{Rating: 5000}.VoltageDip(1); return err }, "transientReactance"},
		{"dip", func() error { _, err := alt.LargestStart(1); return err }, "dip"},
		{"watts alone", func() error { _, err := alt.StartDip(electrical.Demand{}, electrical.Demand{Power: 5}); return err }, "starting.apparent"},
		{"apparent below watts", func() error {
			_, err := alt.StartDip(electrical.Demand{Power: 5, Apparent: 4}, electrical.Demand{})
			return err
		}, "running.apparent"},
		{"no Xd", func() error { _, err := alt.SustainedVoltage(2, electrical.Demand{}); return err }, "synchronousReactance"},
		{"band", func() error { _, err := electrical.RecoveryTime(0.3, 0.1, 0.05, 1); return err }, "band"},
		{"step", func() error { _, err := set.FrequencyDip(-1); return err }, "step"},
		{"inertia", func() error { _, err := electrical.Governed{Rated: 5000}.FrequencyDip(1); return err }, "inertia"},
		{"fan voltage", func() error { _, err := fan.At(1, 60); return err }, "voltage"},
		{"fan frequency", func() error { _, err := fan.At(120, 0); return err }, "frequency"},
		{"fan speed", func() error {
			f := fan
			f.Speed = 3700 * units.RPM
			_, err := f.At(120, 60)
			return err
		}, "motor.speed"},
		{"no motor", func() error { _, err := electrical.FanMotor{}.At(120, 60); return err }, "motor.voltage"},
	} {
		var f *units.FieldError
		if err := c.call(); !errors.As(err, &f) || f.Path != c.path {
			t.Errorf("%s: got %v, want an error at %s", c.name, err, c.path)
		}
	}
}

func FuzzGenerator(f *testing.F) {
	f.Add(5000.0, 0.02, 0.25, 1.8, 3000.0, 6000.0, 0.5, 0.05, 0.2, 110.0, 58.0)
	f.Add(1e-3, 0.0, 5e-324, math.Inf(1), -1.0, math.NaN(), 1e300, 1e-300, 1e-3, 0.0, 1e9)
	f.Fuzz(func(t *testing.T, rating, r, xt, xs, p, s, h, droop, tc, v, hz float64) {
		check := func(what string, x, lo, hi float64, err error) {
			if err == nil && !(x >= lo && x <= hi) {
				t.Errorf("%s = %v", what, x)
			}
		}
		a := electrical.Alternator{Rating: units.ApparentPower(rating), Resistance: units.Ratio(r), TransientReactance: units.Ratio(xt), SynchronousReactance: units.Ratio(xs)}
		d := electrical.Demand{Power: units.Power(p), Apparent: units.ApparentPower(s)}
		dip, err := a.VoltageDip(d.Apparent)
		check("dip", float64(dip), 0, 1, err)
		dip, err = a.StartDip(d, d)
		check("start dip", float64(dip), -1e-9, 1, err)
		vs, err := a.SustainedVoltage(2, d)
		check("sustained", float64(vs), 0, 1, err)
		fd, err := electrical.Governed{Rated: units.Power(rating), Inertia: units.Duration(h), Droop: units.Ratio(droop), TimeConstant: units.Duration(tc)}.FrequencyDip(units.Power(p))
		check("frequency dip", float64(fd.Dip), float64(fd.Lasting), 1e6, err)
		check("time", float64(fd.At), 0, 1e9, err)
		fan, err := electrical.FanMotor{Voltage: 120, Frequency: 60, Poles: 2, Speed: units.RotationalSpeed(s), Breakdown: units.Ratio(xs)}.At(units.Voltage(v), units.Frequency(hz))
		check("air", float64(fan.Air), 0, 10, err)
		rt, err := electrical.RecoveryTime(units.Ratio(r), units.Ratio(xt), units.Ratio(droop), units.Duration(tc))
		check("recovery", float64(rt), 0, 1e6, err)
	})
}

func BenchmarkFanMotor_At(b *testing.B) {
	m := electrical.FanMotor{Voltage: 120, Frequency: 60, Poles: 2, Speed: 3450 * units.RPM, Breakdown: 2}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.At(104, 58.5); err != nil {
			b.Fatal(err)
		}
	}
}
