package thermal

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/air"
	"example.com/washrig/internal/property"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A drop that flies long enough reaches the wet bulb, which the psychrometric chart
// has by another road. Film theory and adiabatic saturation differ by the Lewis number:
// with 0.85 for water in air a drop takes up 11 % to 17 % less heat for the same
// evaporation, which the steep saturation line turns into 3 % to 5 % of the
// depression.
func TestSpray_endsAtWetBulb(t *testing.T) {
	for _, c := range []struct{ T, phi, site float64 }{{20, 0.5, 101325}, {30, 0.5, 101325}, {30, 0.5, 84307}, {35, 0.15, 83678}, {15, 0.9, 101325}} {
		humid, err := air.FromRelativeHumidity(c.site, c.T+273.15, c.phi)
		if err != nil {
			t.Fatal(err)
		}
		s := Spray{
			Temperature: units.Celsius(50), Line: at27, Standoff: 5 * units.Meter, Velocity: 5, Fine: 500 * units.Micrometer, Coarse: 1 * units.Millimeter,
			Slowed: 0.05, Air: units.Celsius(c.T), Humidity: units.Ratio(c.phi), Site: units.AbsolutePressure(c.site),
		}
		b := must[SprayBand](t)(s.AtSurface())
		if d := math.Abs(b.Coolest.Kelvin() - humid.WetBulb); d > 0.05*(c.T+273.15-humid.WetBulb) {
			t.Errorf("%+v: ends at %v, wet bulb %v", c, b.Coolest, units.Kelvin(humid.WetBulb))
		}
	}
}

// The band is a band; a longer way, drier air and finer drops cool more; heat that has
// gone is at least what the evaporation took, in air colder than the water.
func TestSpray_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := Spray{
			Temperature: units.Fahrenheit(g.Float(100, 300)), Line: at27, Standoff: units.Length(g.Float(2, 60)) * units.Inch,
			Velocity: units.Velocity(g.Float(20, 250)), Fine: units.Length(g.LogFloat(60, 300)) * units.Micrometer,
			Coarse: units.Length(g.LogFloat(300, 3000)) * units.Micrometer, Slowed: units.Ratio(g.Float(0.1, 1)),
			Air: units.Fahrenheit(g.Float(20, 95)), Humidity: units.Ratio(g.Float(0, 1)), Site: units.AbsolutePressure(g.Float(70, 103)) * units.KilopascalAbsolute,
		}
		a, err0 := s.AtSurface()
		far, fine := s, s
		far.Standoff *= 1.3
		fine.Fine *= 0.8
		b, err1 := far.AtSurface()
		c, err2 := fine.AtSurface()
		if err := all(err0, err1, err2); err != nil {
			return err
		}
		if a.Coolest.Kelvin() > a.Warmest.Kelvin() || a.Least > a.Most || a.Least < a.Flash || a.Most > 1 {
			return fmt.Errorf("%+v", a)
		}
		const tiny = 1e-6
		if b.Warmest.Kelvin() > a.Warmest.Kelvin()+tiny || b.Coolest.Kelvin() > a.Coolest.Kelvin()+tiny || c.Coolest.Kelvin() > a.Coolest.Kelvin()+tiny {
			return fmt.Errorf("%v to %v; farther %v to %v, finer to %v", a.Warmest, a.Coolest, b.Warmest, b.Coolest, c.Coolest)
		}
		boils, err := BoilingPoint(s.Site)
		if err != nil {
			return err
		}
		if a.Warmest.Kelvin() > math.Min(boils.Kelvin(), s.Temperature.Kelvin())+tiny {
			return fmt.Errorf("arrives at %v, left at %v, boils at %v", a.Warmest, s.Temperature, boils)
		}
		return nil
	})
}

// A site's Flashing is FlashFraction there, to the last bit; without a site it is refused.
func TestFlashing(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		site, at := units.AbsolutePressure(g.Float(30, 120))*units.KilopascalAbsolute, units.Fahrenheit(g.Float(33, 350))
		f, err := FlashAt(site)
		if err != nil {
			return err
		}
		got, err1 := f.Fraction(at, at27)
		want, err2 := FlashFraction(at, at27, site)
		if err := all(err1, err2); err != nil || got != want {
			return fmt.Errorf("%v, FlashFraction %v, %v", got, want, err)
		}
		return nil
	})
	if _, err := (Flashing{}).Fraction(units.Fahrenheit(250), at27); !errors.Is(err, units.ErrMissing) {
		t.Errorf("zero value: %v", err)
	}
}

func TestEvaporated_properties(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		w, T, phi := units.Fahrenheit(g.Float(33, 300)), units.Fahrenheit(g.Float(-10, 110)), units.Ratio(g.Float(0, 1))
		site := units.AbsolutePressure(g.Float(65, 103)) * units.KilopascalAbsolute
		a, err0 := Evaporated(w, at27, T, phi, site)
		hot, err1 := Evaporated(w.Add(2), at27, T, phi, site)
		if err := all(err0, err1); err != nil {
			return err
		}
		if a.Least > a.Usual || a.Usual > a.Most || a.Most > 1 || a.Least < 0 {
			return fmt.Errorf("%+v", a)
		}
		if hot.Most < a.Most || hot.Least < a.Least {
			return fmt.Errorf("%+v, hotter %+v", a, hot)
		}
		if w.Kelvin() < a.Ends.Kelvin() && a.Most != 0 {
			return fmt.Errorf("water of %v below the wet bulb %v: %+v", w, a.Ends, a)
		}
		return nil
	})
}

func TestScald_monotone(t *testing.T) {
	for _, s := range []ScaldSeries{ScaldCPSC, ScaldMoritzHenriques} {
		last := math.Inf(1)
		for F := 100.0; F <= 180; F += 0.25 {
			k := must[Scald](t)(ScaldTime(s, units.Fahrenheit(F)))
			if float64(k.Time) > last || k.Time <= 0 || k.Below && k.Above {
				t.Errorf("%v at %g °F: %+v after %g s", s, F, k, last)
			}
			last = float64(k.Time)
		}
	}
	if k := must[Scald](t)(ScaldTime(ScaldMoritzHenriques, units.Celsius(43.9))); !k.Below {
		t.Errorf("below 44 °C: %+v", k)
	}
	if k := must[Scald](t)(ScaldTime(ScaldCPSC, units.Fahrenheit(200))); !k.Above || k.Time != 2 {
		t.Errorf("at 200 °F: %+v", k)
	}
	if _, err := ScaldTime(0, units.Fahrenheit(140)); !errors.Is(err, units.ErrRange) {
		t.Errorf("no series: %v", err)
	}
}

// The mixture lies between, swaps without a difference, and holds the heat of both.
func TestMix(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		m1, m2 := units.Mass(g.LogFloat(0.1, 1e4)), units.Mass(g.LogFloat(0.1, 1e4))
		T1, T2 := units.Fahrenheit(g.Float(32, 205)), units.Fahrenheit(g.Float(32, 205))
		T, err0 := Mix(m1, T1, m2, T2, atm)
		U, err1 := Mix(m2, T2, m1, T1, atm)
		h := func(T units.Temperature) float64 {
			x, err := singleEnthalpy(T)
			err1 = all(err1, err)
			return x
		}
		left := float64(m1)*(h(T)-h(T1)) + float64(m2)*(h(T)-h(T2))
		if err := all(err0, err1); err != nil {
			return err
		}
		if math.Abs(left) > 1e-9*(float64(m1)*h(T1)+float64(m2)*h(T2)+1) || math.Abs(float64(T.Sub(U))) > 1e-9 {
			return fmt.Errorf("%v and %v, %g J left", T, U, left)
		}
		return nil
	})
	if T := must[units.Temperature](t)(Mix(0, units.Celsius(20), 5, units.Celsius(60), atm)); math.Abs(T.Celsius()-60) > 1e-9 {
		t.Errorf("nothing and 60 °C make %v", T)
	}
	if _, err := Mix(0, units.Celsius(20), 0, units.Celsius(60), atm); !errors.Is(err, units.ErrMissing) {
		t.Errorf("nothing mixed: %v", err)
	}
}

// The flow that a thermal relief dumps carries the heat away.
func TestThermalReliefFlow(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		P, in := units.Power(g.LogFloat(0.1, 30))*units.Kilowatt, units.Fahrenheit(g.Float(33, 100))
		hold := units.Fahrenheit(g.Float(110, 200))
		q, err0 := ThermalReliefFlow(P, in, hold, atm)
		back, err1 := HeatRequired(q, in, hold, atm)
		if err := all(err0, err1); err != nil {
			return err
		}
		if math.Abs(float64(back/P)-1) > 1e-12 {
			return fmt.Errorf("%v for %v", back, P)
		}
		return nil
	})
}

// The thickness found makes the loss asked for, and time goes against what is brought.
func TestScaling(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := Scaling{
			Hardness: units.Ratio(g.LogFloat(20, 1500)) * 1e-6, Deposited: units.Ratio(g.LogFloat(0.001, 0.3)), Flow: units.VolumeFlow(g.LogFloat(1, 10)) * units.GallonPerMinute,
			Bore: units.Length(g.Float(0.3, 1)) * units.Inch, Length: units.Length(g.Float(10, 200)) * units.Foot,
		}
		clean, rise := units.Pressure(g.Float(5, 200))*units.PSI, units.Pressure(g.Float(1, 300))*units.PSI
		e, err := s.TimeToLoss(clean, rise)
		if err != nil {
			return err
		}
		d := float64(s.Bore)
		if r := math.Pow(d/(d-2*float64(e.Thickness)), 5) - 1; math.Abs(r-float64(rise/clean)) > 1e-9*r {
			return fmt.Errorf("the thickness makes %g of the clean loss, asked %g", r, float64(rise/clean))
		}
		s.Hardness *= 2
		twice, err := s.TimeToLoss(clean, rise)
		if err != nil {
			return err
		}
		if math.Abs(float64(twice.Time/e.Time)-0.5) > 1e-12 {
			return fmt.Errorf("twice as hard takes %v of %v", twice.Time, e.Time)
		}
		return nil
	})
	s := Scaling{Flow: 1e-4, Bore: 0.01, Length: 10}
	if e := must[ScaleEstimate](t)(s.TimeToLoss(1e5, 1e5)); !e.Never || e.Time != 0 {
		t.Errorf("soft water: %+v", e)
	}
	last := Band{}
	for _, F := range []float64{60, 130, 160, 200} {
		b := must[Band](t)(TypicalDeposit(units.Fahrenheit(F)))
		if b.Low > b.Usual || b.Usual > b.High || b.Usual < last.Usual || b.Source == "" {
			t.Errorf("%g °F: %+v", F, b)
		}
		last = b
	}
}

func FuzzAtSurface(f *testing.F) {
	f.Add(350.0, 2e7, 0.3, 150.0, 1e-4, 1e-3, 0.3, 300.0, 0.4, 1e5)
	f.Fuzz(func(t *testing.T, T, line, standoff, v, fine, coarse, slowed, airAt, humidity, site float64) {
		s := Spray{
			Temperature: units.Kelvin(T), Line: units.AbsolutePressure(line), Standoff: units.Length(standoff), Velocity: units.Velocity(v),
			Fine: units.Length(fine), Coarse: units.Length(coarse), Slowed: units.Ratio(slowed), Air: units.Kelvin(airAt), Humidity: units.Ratio(humidity),
			Site: units.AbsolutePressure(site),
		}
		b, err := s.AtSurface()
		if err == nil && (!finite(b.Warmest.Kelvin()) || b.Coolest.Kelvin() > b.Warmest.Kelvin() || b.Least < 0 || b.Most > 1 || b.Least > b.Most) {
			t.Errorf("%+v", b)
		}
	})
}

func FuzzEvaporated(f *testing.F) {
	f.Add(350.0, 2e7, 300.0, 0.4, 1e5)
	f.Fuzz(func(t *testing.T, T, line, airAt, humidity, site float64) {
		e, err := Evaporated(units.Kelvin(T), units.AbsolutePressure(line), units.Kelvin(airAt), units.Ratio(humidity), units.AbsolutePressure(site))
		if err == nil && !(e.Least >= 0 && e.Least <= e.Usual && e.Usual <= e.Most && e.Most <= 1) {
			t.Errorf("%+v", e)
		}
	})
}

// The polynomial that a flight asks for the heat of evaporation follows the equation
// it stands for within 3e-6, up to above every boiling point a site can have.
func TestLatentLine(t *testing.T) {
	worst := 0.0
	for T := 273.15; T <= 400; T += 0.1 {
		want, err := water.LatentHeat(T)
		if err != nil {
			t.Fatal(err)
		}
		worst = math.Max(worst, math.Abs(evaporation.at(T)-want)/want)
	}
	if worst > 3e-6 {
		t.Errorf("%g off", worst)
	}
}

// The polynomial of the driving force follows the logarithm it stands for.
func TestDriveLine(t *testing.T) {
	worst := 0.0
	property.Check(t, func(g *property.G) error {
		p := g.Float(30e3, 120e3)
		boils, err := water.SaturationTemperature(p)
		if err != nil {
			return err
		}
		d := drop{Ta: g.Float(213.15, 343.15), p: p, pv: g.Float(0, 0.1*p), boils: boils}
		start := g.Float(273.15, boils-0.05)
		d.line(start)
		if d.to == 0 {
			return property.ErrDiscard
		}
		T := g.Float(d.from, d.to)
		off := math.Abs(d.drive(T) - d.driveExact(T))
		if worst = math.Max(worst, off); off > 1e-8 {
			return fmt.Errorf("%g off at %g K: %+v", off, T, d)
		}
		return nil
	})
	t.Logf("at most %.2g off", worst)
}

// The polynomials of the film follow the correlations they stand for within 1e-8,
// from what a drop begins at down to what its own evaporation can cool it to.
func TestFilm(t *testing.T) {
	worst := 0.0
	property.Check(t, func(g *property.G) error {
		d := drop{size: g.LogFloat(1e-5, 1e-2), v: g.LogFloat(0.25, 400), Ta: g.Float(213.15, 343.15), p: g.Float(30e3, 120e3), boils: 400}
		d.pv = g.Float(0, 0.5*d.p)
		start := g.Float(273.15, 370)
		d.film(start)
		T := math.Max(g.Float(math.Min(start, d.Ta-60), math.Max(start, d.Ta)), 230)
		heat, mass := d.exchange(T, d.size)

		mean := T + (d.Ta-T)/3
		f, D := filmAt(d.p, mean), vapourDiffusivity(d.p, mean)
		Re := f.density * d.v * d.size / f.viscosity
		convected := math.Pi * d.size * f.conductivity * RanzMarshall(Re, f.prandtl) * (T - d.Ta)
		wantMass := math.Pi * d.size * f.density * D * RanzMarshall(Re, f.viscosity/(f.density*D)) * d.driveExact(T)
		latent := evaporation.at(math.Max(T, 273.15)) * wantMass
		off := math.Max(math.Abs(mass-wantMass)/math.Abs(wantMass), math.Abs(heat-convected-latent)/(math.Abs(convected)+math.Abs(latent)))
		if worst = math.Max(worst, off); off > 1e-8 {
			return fmt.Errorf("%g off at %g K: %+v", off, T, d)
		}
		return nil
	})
	t.Logf("at most %.2g off", worst)
}
