package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// Thinner and hotter air never raises clean firing, nor does a slower fan.
func TestCleanFiring_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		rate := units.FuelRate(g.LogFloat(0.3, 30)) * units.GallonPerHour
		p := units.AbsolutePressure(g.Float(40, 110)) * units.KilopascalAbsolute
		T, fan := units.Fahrenheit(g.Float(-40, 130)), units.Ratio(g.Float(0.1, 1.2))
		a, err0 := CleanFiring(rate, p, T, fan)
		thin, err1 := CleanFiring(rate, p*units.AbsolutePressure(g.Float(0.8, 1)), T, fan)
		hot, err2 := CleanFiring(rate, p, T.Add(units.TemperatureDelta(g.Float(0, 10))), fan)
		slow, err3 := CleanFiring(rate, p, T, fan*units.Ratio(g.Float(0.5, 1)))
		if err := all(err0, err1, err2, err3); err != nil {
			return err
		}
		if thin > a || hot > a || slow > a {
			return fmt.Errorf("%v; thinner %v, hotter %v, slower %v", a, thin, hot, slow)
		}
		return nil
	})
}

// Firing and heat are inverse; an efficiency survives the way over the other basis.
func TestFiring_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		heat := units.Power(g.LogFloat(1, 1000)) * units.Kilowatt
		e := EfficiencyHHV(g.Float(0.3, 1))
		hhv := HHV(units.HeatingValueByVolume(g.LogFloat(50e3, 160e3)) * units.BTUPerGallon)
		lhv := LHV(float64(hhv) * g.Float(0.85, 1))
		rate, err0 := FiringRate(heat, e, hhv)
		back, err1 := HeatFromFiring(rate, e, hhv)
		in, err2 := InputRating(rate, hhv)
		out, err3 := OutputFromInput(in, e)
		again, err4 := InputFromOutput(out, e)
		el, err5 := e.OnLHV(hhv, lhv)
		other, err6 := FiringRateLHV(heat, el, lhv)
		if float64(el) > 1.3 {
			return property.ErrDiscard
		}
		eh, err7 := el.OnHHV(hhv, lhv)
		if err := all(err0, err1, err2, err3, err4, err5, err6, err7); err != nil {
			return err
		}
		for _, p := range [][2]float64{{float64(back), float64(heat)}, {float64(out), float64(heat)}, {float64(again), float64(in)}, {float64(other), float64(rate)}, {float64(eh), float64(e)}} {
			if math.Abs(p[0]-p[1]) > 1e-14*math.Abs(p[1])*4 {
				return fmt.Errorf("%v is not %v", p[0], p[1])
			}
		}
		return nil
	})
	if r := must[units.FuelRate](t)(FiringRate(0, 0.8, HHV(138500*units.BTUPerGallon))); r != 0 {
		t.Errorf("no heat burns %v", r)
	}
	g := must[units.VolumeFlow](t)(GasRate(100*units.Kilowatt, 0.8, HHV(38e6)))
	if q := must[units.Power](t)(HeatFromGas(g, 0.8, HHV(38e6))); math.Abs(float64(q)-1e5) > 1e-9 {
		t.Errorf("gas of 100 kW gives %v", q)
	}
}

func TestNozzle_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		rating := units.FuelRate(g.LogFloat(0.2, 20)) * units.GallonPerHour
		p := units.Pressure(g.LogFloat(20, 900)) * units.PSI
		q, err0 := NozzleFlow(rating, p)
		back, err1 := NozzlePressure(rating, q)
		same, err2 := NozzleRating(q, p)
		if err := all(err0, err1, err2); err != nil {
			return err
		}
		if math.Abs(float64(back/p)-1) > 1e-14 || math.Abs(float64(same/rating)-1) > 1e-14 {
			return fmt.Errorf("pressure %v for %v, rating %v for %v", back, p, same, rating)
		}
		return nil
	})
	if _, err := NozzlePressure(1*units.GallonPerHour, 5*units.GallonPerHour); err == nil {
		t.Error("2,500 psi at an oil nozzle is accepted")
	}
}

// No published example of these was found. They hold at the points that define them
// and move the way oil does.
func TestOil_properties(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		l := OilViscosityLine{
			Cold: units.KinematicViscosity(g.Float(4, 9)) * units.Centistokes, AtCold: units.Celsius(g.Float(-20, 10)),
			Hot: units.KinematicViscosity(g.Float(1, 3)) * units.Centistokes, AtHot: units.Celsius(g.Float(40, 100)),
		}
		cold, err0 := l.At(l.AtCold)
		hot, err1 := l.At(l.AtHot)
		T := units.Celsius(g.Float(0, 90))
		v, err2 := l.At(T)
		warmer, err3 := l.At(T.Add(1))
		if err := all(err0, err1, err2, err3); err != nil {
			return err
		}
		if math.Abs(float64(cold/l.Cold)-1) > 1e-12 || math.Abs(float64(hot/l.Hot)-1) > 1e-12 || warmer >= v {
			return fmt.Errorf("%v of %v, %v of %v, %v then %v", cold, l.Cold, hot, l.Hot, v, warmer)
		}
		rho := units.Density(g.Float(838, 1000))
		d15, err4 := OilDensity(rho, units.Celsius(15))
		d, err5 := OilDensity(rho, T)
		dw, err6 := OilDensity(rho, T.Add(-1))
		a := Oil{d, units.KinematicViscosity(g.Float(1, 20)) * units.Centistokes}
		one, err7 := NozzleOilFactor(a, a)
		thick, err8 := NozzleOilFactor(Oil{a.Density, a.Viscosity * 2}, a)
		dense, err9 := NozzleOilFactor(Oil{a.Density * 1.02, a.Viscosity}, a)
		if err := all(err4, err5, err6, err7, err8, err9); err != nil {
			return err
		}
		if math.Abs(float64(d15-rho)) > 1e-12*float64(rho) || dw <= d {
			return fmt.Errorf("density %v at 15 °C for %v; %v and colder %v", d15, rho, d, dw)
		}
		if math.Abs(float64(one)-1) > 1e-15 || thick <= 1 || thick > 1.02 || dense >= 1 {
			return fmt.Errorf("factor %v for the same oil, %v thicker, %v denser", one, thick, dense)
		}
		return nil
	})
}

// The fan turns at its rated speed at the rated point, follows frequency, and never speeds up when the voltage falls.
func TestFanSpeed(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m := InductionFan{units.Ratio(g.Float(0.01, 0.15)), units.Ratio(g.Float(1.2, 4))}
		d := DCFan{units.Ratio(g.Float(0, 0.5))}
		V, f := units.Ratio(g.Float(0.3, 1.2)), units.Ratio(g.Float(0.5, 1.2))
		rated, err0 := m.FanSpeed(1, 1)
		n, err1 := m.FanSpeed(V, f)
		low, err2 := m.FanSpeed(V*units.Ratio(g.Float(0.9, 1)), f)
		dc, err3 := d.FanSpeed(1)
		dv, err4 := d.FanSpeed(V)
		if err := all(err0, err1, err2, err3, err4); err != nil {
			return err
		}
		if math.Abs(float64(rated)-1) > 1e-9 || math.Abs(float64(dc)-1) > 1e-15 {
			return fmt.Errorf("rated speed %v and %v", rated, dc)
		}
		if low > n+1e-12 || float64(n) > float64(f)/(1-float64(m.Slip))+1e-12 {
			return fmt.Errorf("%v, at less voltage %v, frequency %v", n, low, f)
		}
		// The balance of the permanent-magnet motor itself.
		if r := float64(d.Drop); math.Abs((1-r)*float64(dv)+r*float64(dv)*float64(dv)-float64(V)) > 1e-14 {
			return fmt.Errorf("speed %v does not answer to %v", dv, V)
		}
		return nil
	})
	m := InductionFan{0.04, 2.2}
	for _, c := range []struct{ V, f, want units.Ratio }{{0, 1, 0}, {1, 0, 0}} {
		if n := must[units.Ratio](t)(m.FanSpeed(c.V, c.f)); n != c.want {
			t.Errorf("V %v, f %v: %v", c.V, c.f, n)
		}
	}
}

func FuzzFanSpeed(f *testing.F) {
	f.Add(0.04, 2.2, 0.9, 0.95)
	f.Fuzz(func(t *testing.T, slip, breakdown, V, hz float64) {
		n, err := InductionFan{units.Ratio(slip), units.Ratio(breakdown)}.FanSpeed(units.Ratio(V), units.Ratio(hz))
		if err == nil && !(n >= 0 && n <= 2.2) {
			t.Errorf("speed %v", n)
		}
	})
}
