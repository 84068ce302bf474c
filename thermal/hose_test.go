package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

func drawHose(g *property.G) (Hose, Surroundings) {
	bore := units.Length(g.Float(0.25, 0.75)) * units.Inch
	h := Hose{
		Length: units.Length(g.LogFloat(5, 400)) * units.Foot, Bore: bore,
		Outside: bore + units.Length(g.Float(0.15, 0.5))*units.Inch, Conductivity: units.ThermalConductivity(g.Float(0.13, 0.4)),
		Emissivity: units.Ratio(g.Float(0.1, 1)), WallDensity: units.Density(g.Float(900, 1500)), WallHeat: units.SpecificHeat(g.Float(1000, 2000)),
	}
	s := Surroundings{Air: units.Fahrenheit(g.Float(-20, 110)), Site: units.AbsolutePressure(g.Float(65, 105)) * units.KilopascalAbsolute}
	if g.Bool() {
		s.Wind = units.Velocity(g.LogFloat(0.2, 30))
	}
	if g.Bool() {
		s.Radiant = units.Fahrenheit(g.Float(-40, 120))
	}
	if g.Bool() {
		s.Wet, s.Humidity = units.Ratio(g.Float(0, 1)), units.Ratio(g.Float(0, 1))
	}
	if g.Bool() {
		s.Contact, s.Ground, s.ContactCoefficient = units.Ratio(g.Float(0.01, 0.5)), units.Fahrenheit(g.Float(10, 100)), units.HeatTransferCoefficient(g.Float(5, 200))
	}
	return h, s
}

// What the water loses is what the outside gives off: the fall of enthalpy against
// the heat from the surface, summed by Gauss's rule over the temperatures at the far
// ends of shorter hoses.
func TestDeliver_energyCloses(t *testing.T) {
	nodes := [...]float64{0.06943184420297371, 0.33000947820757187, 0.6699905217924281, 0.9305681557970262}
	weights := [...]float64{0.17392742256872693, 0.32607257743127307, 0.32607257743127307, 0.17392742256872693}
	property.Check(t, func(g *property.G) error {
		h, s := drawHose(g)
		h.Length = units.Length(g.LogFloat(5, 150)) * units.Foot
		// Above freezing: where a surface passes 0 °C vapour over ice puts a bend
		// into the loss, which Gauss's rule does not follow.
		s.Air = units.Fahrenheit(g.Float(40, 110))
		if s.Radiant.Given() {
			s.Radiant = units.Fahrenheit(g.Float(35, 120))
		}
		if s.Contact > 0 {
			s.Ground = units.Fahrenheit(g.Float(35, 100))
		}
		in, m := units.Fahrenheit(g.Float(120, 205)), units.MassFlow(g.LogFloat(0.1, 0.6))
		got, err := h.Deliver(m, in, at27, s)
		if err != nil {
			return err
		}
		k, err := sinksOf(s, float64(h.Outside), float64(h.Emissivity))
		if err != nil {
			return err
		}
		// Convection of still air has another bend where the surface passes the air's
		// temperature.
		far := hoseKernel{h: h, k: k, m: float64(m), p: float64(at27)}
		_, Tfar, _, err := far.leaves(got.Out.Kelvin())
		if err != nil {
			return err
		}
		if near, far := got.Surface.Kelvin()-k.Ta, Tfar-k.Ta; near*far < 0 || math.Min(math.Abs(near), math.Abs(far)) < 2 {
			return property.ErrDiscard
		}
		outside := 0.0
		for i, x := range nodes {
			part := h
			part.Length *= units.Length(x)
			there, err := part.Deliver(m, in, at27, s)
			if err != nil {
				return err
			}
			c := hoseKernel{h: h, k: k, m: float64(m), p: float64(at27)}
			_, Ts, _, err := c.leaves(there.Out.Kelvin())
			if err != nil {
				return err
			}
			outside += weights[i] * math.Pi * float64(h.Outside) * k.from(Ts).total() * float64(h.Length)
		}
		h1, err1 := water.Enthalpy(float64(at27), in.Kelvin())
		h2, err2 := water.Enthalpy(float64(at27), got.Out.Kelvin())
		if err := all(err1, err2); err != nil {
			return err
		}
		inside := float64(m) * (h1 - h2)
		sum := float64(m)*(h1+h2) + math.Abs(outside)
		if math.Abs(inside-float64(got.Loss)) > 1e-9*sum || math.Abs(inside-outside) > 1e-9*sum {
			return fmt.Errorf("water loses %.12g, ways sum to %.12g, surface gives %.12g W of %.3g", inside, float64(got.Loss), outside, sum)
		}
		return nil
	})
}

// A longer hose never delivers hotter water (in colder surroundings), two in a row are
// one, and what cools more cools more.
func TestDeliver_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, s := drawHose(g)
		s.Air = units.Fahrenheit(g.Float(-20, 90))
		if s.Radiant.Given() {
			s.Radiant = s.Air
		}
		s.Ground = s.Air
		in, m := units.Fahrenheit(g.Float(120, 205)), units.MassFlow(g.LogFloat(0.05, 0.6))
		a, err0 := h.Deliver(m, in, at27, s)
		half := h
		half.Length /= 2
		first, err1 := half.Deliver(m, in, at27, s)
		second, err2 := half.Deliver(m, first.Out, at27, s)
		if err := all(err0, err1, err2); err != nil {
			return err
		}
		if first.Out.Kelvin() < a.Out.Kelvin()-1e-9 {
			return fmt.Errorf("half the hose delivers %v, all of it %v", first.Out, a.Out)
		}
		if math.Abs(float64(second.Out.Sub(a.Out))) > 1e-6 {
			return fmt.Errorf("two halves deliver %v, one hose %v", second.Out, a.Out)
		}
		windy, cold, thin := s, s, s
		windy.Wind = s.Wind*1.3 + 1
		cold.Air = s.Air.Add(-5)
		thin.Site *= 0.9
		b, err0 := h.Deliver(m, in, at27, windy)
		c, err1 := h.Deliver(m, in, at27, cold)
		d, err2 := h.Deliver(m, in, at27, thin)
		e, err3 := h.Deliver(m*1.2, in, at27, s)
		if err := all(err0, err1, err2, err3); err != nil {
			return err
		}
		if b.Out.Kelvin() > a.Out.Kelvin() || e.Out.Kelvin() < a.Out.Kelvin() {
			return fmt.Errorf("out %v; in wind %v, with more flow %v", a.Out, b.Out, e.Out)
		}
		if s.Wet == 0 && (c.Out.Kelvin() > a.Out.Kelvin() || d.Out.Kelvin() < a.Out.Kelvin()-1e-9) {
			return fmt.Errorf("out %v; colder air %v, thinner air %v", a.Out, c.Out, d.Out)
		}
		return nil
	})
}

// The quick form against the full one, from the coefficient it reports.
func TestCooled_againstDeliver(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, s := drawHose(g)
		s = Surroundings{Air: units.Fahrenheit(g.Float(0, 90)), Site: s.Site, Wind: s.Wind}
		in, m := units.Fahrenheit(g.Float(140, 200)), units.MassFlow(g.LogFloat(0.1, 0.6))
		a, err := h.Deliver(m, in, at27, s)
		if err != nil {
			return err
		}
		if a.Drop > 20 {
			return property.ErrDiscard
		}
		area := math.Pi * float64(h.Outside) * float64(h.Length)
		cp, err := water.HeatCapacity(float64(at27), in.Kelvin())
		if err != nil {
			return err
		}
		out, err := Cooled(in, s.Air, units.ThermalConductance(float64(a.Overall)*area), m, units.SpecificHeat(cp))
		if err != nil {
			return err
		}
		if d := math.Abs(float64(out.Sub(a.Out))); d > 0.03*float64(a.Drop) {
			return fmt.Errorf("out %v, quick %v, drop %v", a.Out, out, a.Drop)
		}
		return nil
	})
}

// Water of the temperature of everything around it stays as it is.
func TestDeliver_equilibrium(t *testing.T) {
	h, s := stillAir()
	got := must[HoseHeat](t)(h.Deliver(0.2, s.Air, at27, s))
	if math.Abs(float64(got.Drop)) > 1e-9 || math.Abs(float64(got.Loss)) > 1e-9 || got.Overall != 0 {
		t.Errorf("%+v", got)
	}
}

func TestArrival_properties(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, _ := drawHose(g)
		m, hot := units.MassFlow(g.LogFloat(0.02, 1)), units.Fahrenheit(g.Float(100, 205))
		share := units.Ratio(g.Float(0.05, 0.98))
		a, err0 := h.Arrival(m, hot, at27, share)
		more, err1 := h.Arrival(m, hot, at27, share+0.01)
		faster, err2 := h.Arrival(m*1.2, hot, at27, share)
		long := h
		long.Length *= 1.2
		farther, err3 := long.Arrival(m, hot, at27, share)
		if err := all(err0, err1, err2, err3); err != nil {
			return err
		}
		if a.Time < a.Plug || a.Balanced <= a.Plug || more.Time < a.Time || faster.Time > a.Time || farther.Time < a.Time {
			return fmt.Errorf("%v; more %v, faster %v, farther %v", a, more.Time, faster.Time, farther.Time)
		}
		if share <= a.Step && a.Time != a.Plug {
			return fmt.Errorf("a share of %v arrives with the plug, not at %v", share, a.Time)
		}
		return nil
	})
}

// The mean delay of the rise is the heat capacity of the wall over that of the flow:
// what the wall takes up is what the water lacks.
func TestArrival_energyCloses(t *testing.T) {
	for _, xi := range []float64{0.1, 0.5, 2, 10, 60, 400} {
		sum, top := 0.0, xi+12*math.Sqrt(2*xi+1)+40
		const n = 4000
		for i := range n { // Simpson
			w := 2.0 + 2*float64(i%2)
			if i == 0 {
				w = 1
			}
			sum += w * (1 - first(schumann(xi, top*float64(i)/n)))
		}
		sum *= top / n / 3
		if math.Abs(sum-xi) > 1e-6*xi+1e-9 {
			t.Errorf("ξ = %g: the wall has taken up %.9g", xi, sum)
		}
	}
	// Both forms of the sum and the normal limit meet.
	for _, c := range [][2]float64{{550, 590}, {590, 550}} {
		a, b := first(schumann(c[0], c[1])), first(schumannLog(c[0], c[1]))
		if math.Abs(a-b) > 1e-10 {
			t.Errorf("J%v = %.12g and %.12g", c, a, b)
		}
	}
	if a, b := first(schumann(2499, 2500.9)), first(schumann(2499.2, 2501.1)); math.Abs(a-b) > 1e-4 {
		t.Errorf("the limit jumps from %v to %v", a, b)
	}
}

// The slope of J is that of its values, in every form of the sum. Differences over
// 2e-4 of τ are good to their square and to the last digits of J over the step.
func TestSchumann_slope(t *testing.T) {
	for _, c := range [][2]float64{{0.1, 0.3}, {3, 2}, {40, 55}, {300, 290}, {550, 650}, {700, 710}, {2600, 2650}} {
		h := 1e-4 * c[1]
		_, got := schumann(c[0], c[1])
		want := (first(schumann(c[0], c[1]+h)) - first(schumann(c[0], c[1]-h))) / (2 * h)
		tol := 1e-5 * want
		if c[0]+c[1] > 5000 {
			tol = 0.05 * want // of the leading term alone
		}
		if math.Abs(got-want) > tol+1e-12/h {
			t.Errorf("ξ = %g, τ = %g: %g, by differences %g", c[0], c[1], got, want)
		}
	}
}

// first is the first of two results.
func first(a, _ float64) float64 { return a }

func FuzzDeliver(f *testing.F) {
	f.Add(40.0, 0.0095, 0.0175, 0.2, 0.3, 350.0, 280.0, 3.0, 0.5, 0.5)
	f.Fuzz(func(t *testing.T, length, bore, outside, k, m, in, air, wind, wet, humidity float64) {
		h := Hose{Length: units.Length(length), Bore: units.Length(bore), Outside: units.Length(outside), Conductivity: units.ThermalConductivity(k), Emissivity: 0.9}
		s := Surroundings{Air: units.Kelvin(air), Site: atm, Wind: units.Velocity(wind), Wet: units.Ratio(wet), Humidity: units.Ratio(humidity)}
		got, err := h.Deliver(units.MassFlow(m), units.Kelvin(in), at27, s)
		if err == nil && (!finite(got.Out.Kelvin()) || !finite(float64(got.Loss)) || !finite(float64(got.Overall))) {
			t.Errorf("%+v", got)
		}
	})
}

func BenchmarkDeliver(b *testing.B) {
	h, s := stillAir()
	for b.Loop() {
		if _, err := h.Deliver(0.2, units.Fahrenheit(170), at27, s); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzArrival(f *testing.F) {
	f.Add(40.0, 0.0095, 0.0175, 0.2, 1200.0, 1500.0, 0.3, 350.0, 0.95)
	f.Fuzz(func(t *testing.T, length, bore, outside, k, density, heat, m, hot, share float64) {
		h := Hose{
			Length: units.Length(length), Bore: units.Length(bore), Outside: units.Length(outside), Conductivity: units.ThermalConductivity(k), Emissivity: 0.9,
			WallDensity: units.Density(density), WallHeat: units.SpecificHeat(heat),
		}
		a, err := h.Arrival(units.MassFlow(m), units.Kelvin(hot), at27, units.Ratio(share))
		if err == nil && (!finite(float64(a.Time)) || a.Time < a.Plug || a.Step < 0 || a.Step > 1) {
			t.Errorf("%+v", a)
		}
	})
}
