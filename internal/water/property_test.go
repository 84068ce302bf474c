package water

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
)

// liquidState draws a state of liquid, away from the boiling line by margin
// (of the pressure) and from the ends by dp and dT, for differences.
func liquidState(g *property.G, dp, dT float64) (p, T float64) {
	T = g.Float(MinTemperature+dT, MaxTemperature-dT)
	ps := saturationPressure(T + dT)
	p = ps + dp + (MaxPressure-2*dp-ps)*g.Float(0, 1)
	return p, T
}

func steamState(g *property.G, dT float64) (p, T float64) {
	T = g.Float(MinTemperature+dT, MaxTemperature-dT)
	p = saturationPressure(T-dT) * g.LogFloat(1e-4, 0.99)
	return p, T
}

func near(what string, got, want, relative, absolute float64) error {
	if !(math.Abs(got-want) <= relative*math.Abs(want)+absolute) {
		return fmt.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
	return nil
}

// The written-out kernels against the sums as printed, to 1e-12. The enthalpy
// passes through zero, so its share is taken of RT τ Σ|terms|, about 3e6 J/kg.
func TestKernels_againstNaiveSums(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p, T := liquidState(g, 0, 0)
		v, h, cp := region1(p, T)
		nv, nh, ncp := naive1(p, T)
		rho := 1 / v
		ps, Ts := steamState(g, 0)
		w, k, c := region2(ps, Ts)
		nw, nk, nc := naive2(ps, Ts)
		return errors.Join(
			near("volume", v, nv, 1e-12, 0),
			near("enthalpy", h, nh, 1e-12, 1e-12*3e6),
			near("heat capacity", cp, ncp, 1e-12, 0),
			near("viscosity", viscosity(rho, criticalTemperature/T), naiveViscosity(rho, T), 1e-12, 0),
			near("steam volume", w, nw, 1e-12, 0),
			near("steam enthalpy", k, nk, 1e-12, 0),
			near("steam heat capacity", c, nc, 1e-12, 0),
			near("steam viscosity", viscosity(1/w, criticalTemperature/Ts), naiveViscosity(1/w, Ts), 1e-12, 0),
		)
	})
}

// Central differences of step e have an error of order e² of the function's
// third derivative and of rounding over e; 1e-6 covers both for these steps.
func TestProperties_thermodynamicIdentities(t *testing.T) {
	check := func(p, T, dp, dT float64, phase Phase) error {
		s := properties(p, T, phase)
		hi, lo := properties(p+dp, T, phase), properties(p-dp, T, phase)
		up, down := properties(p, T+dT, phase), properties(p, T-dT, phase)
		v := 1 / s.Density
		dvdT := (1/up.Density - 1/down.Density) / (2 * dT)
		dvdp := (1/hi.Density - 1/lo.Density) / (2 * dp)
		return errors.Join(
			near("(∂h/∂p)_T against v − T(∂v/∂T)_p", (hi.Enthalpy-lo.Enthalpy)/(2*dp), v-T*dvdT, 1e-6, 1e-6*v),
			near("(∂h/∂T)_p against cp", (up.Enthalpy-down.Enthalpy)/(2*dT), s.HeatCapacity, 1e-6, 0),
			near("(∂s/∂T)_p against cp/T", (up.Entropy-down.Entropy)/(2*dT), s.HeatCapacity/T, 1e-6, 0),
			near("(∂s/∂p)_T against −(∂v/∂T)_p", (hi.Entropy-lo.Entropy)/(2*dp), -dvdT, 1e-6, 1e-6*v/T),
			near("expansivity", s.Expansivity, dvdT/v, 1e-6, 1e-6/T),
			near("compressibility", s.Compressibility, -dvdp/v, 1e-6, 0),
			near("h − u against p v", s.Enthalpy-s.InternalEnergy, p*v, 1e-9, 1e-6),
			near("cp − cv against T v α²/κ", s.HeatCapacity-s.HeatCapacityConstantVolume,
				T*v*s.Expansivity*s.Expansivity/s.Compressibility, 1e-9, 1e-8),
			near("w² against (cp/cv)/(ρ κ)", s.SpeedOfSound*s.SpeedOfSound,
				s.HeatCapacity/s.HeatCapacityConstantVolume/(s.Density*s.Compressibility), 1e-9, 0),
		)
	}
	property.Check(t, func(g *property.G) error {
		const dp, dT = 3e3, 1e-2
		p, T := liquidState(g, dp, dT)
		ps, Ts := steamState(g, dT)
		return errors.Join(check(p, T, dp, dT, Liquid), check(ps, Ts, 1e-4*ps, dT, Steam))
	})
}

// Clausius–Clapeyron: the slope of the boiling line is the latent heat over T
// times the change of volume. IF97 joins three separate fits here and does not
// say how well they agree. Swept in steps of 0.01 K, the two sides differ by at
// most 1.56e-4 (at 606 K) and the Gibbs energies by 5.7e-6 of the latent heat
// (at 350 °C); 2e-4 and 1e-5 are held.
func TestSaturation_clausiusClapeyron(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		const dT = 1e-3
		T := g.Float(MinTemperature+dT, MaxTemperature-dT)
		f, _ := SaturatedLiquid(T)
		s, _ := SaturatedSteam(T)
		slope := (saturationPressure(T+dT) - saturationPressure(T-dT)) / (2 * dT)
		return errors.Join(
			near("dp/dT", slope, (s.Enthalpy-f.Enthalpy)/(T*(1/s.Density-1/f.Density)), 2e-4, 0),
			// Equal Gibbs energies: h − Ts. Of the latent heat, since the zero is arbitrary.
			near("Gibbs energy", s.Enthalpy-T*s.Entropy, f.Enthalpy-T*f.Entropy, 0, 1e-5*(s.Enthalpy-f.Enthalpy)),
		)
	})
}

func TestSaturation_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		T := g.Float(MinTemperature, criticalTemperature)
		p, err := SaturationPressure(T)
		if err != nil {
			return err
		}
		back, err := SaturationTemperature(p)
		if err != nil {
			return err
		}
		return near("boiling point", back, T, 1e-10, 0)
	})
}

// Monotone where the physics is: enthalpy and entropy rise with temperature
// everywhere, density falls with temperature except in cold water, rises with
// pressure everywhere; the boiling pressure rises, the latent heat and the
// surface tension fall; viscosity of liquid falls with temperature.
func TestProperties_monotone(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := g.LogFloat(MinPressure, MaxPressure)
		T1 := g.Float(MinTemperature, MaxTemperature-0.1)
		T2 := g.Float(T1+0.1, MaxTemperature)
		a, err := PropertiesAt(p, T1)
		if err != nil {
			return err
		}
		b, err := PropertiesAt(p, T2)
		if err != nil {
			return err
		}
		if !(b.Enthalpy > a.Enthalpy && b.Entropy > a.Entropy) {
			return fmt.Errorf("enthalpy or entropy falls from %g to %g K at %g Pa", T1, T2, p)
		}
		if T1 > 277.2 && !(b.Density < a.Density) {
			return fmt.Errorf("density rises from %g to %g K at %g Pa", T1, T2, p)
		}
		if a.Phase == Liquid && b.Phase == Liquid && !(b.Viscosity < a.Viscosity) {
			return fmt.Errorf("viscosity of liquid rises from %g to %g K at %g Pa", T1, T2, p)
		}
		p2 := p + (MaxPressure-p)*g.Float(0.01, 1)
		c, err := PropertiesAt(p2, T1)
		if err != nil {
			return err
		}
		if p2 > p*(1+1e-6) && !(c.Density > a.Density) {
			return fmt.Errorf("density falls from %g to %g Pa at %g K", p, p2, T1)
		}
		l1, _ := LatentHeat(T1)
		l2, _ := LatentHeat(T2)
		s1, _ := SurfaceTension(T1)
		s2, _ := SurfaceTension(T2)
		if !(saturationPressure(T2) > saturationPressure(T1) && l2 < l1 && s2 < s1) {
			return fmt.Errorf("boiling line from %g to %g K", T1, T2)
		}
		return nil
	})
}

// T(p, h) and T(p, s) close on h(p, T) and s(p, T), in both phases and to the
// very ends of the range.
func TestInverse_closes(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := g.LogFloat(MinPressure, MaxPressure)
		T := g.Float(MinTemperature, MaxTemperature)
		s, err := PropertiesAt(p, T)
		if err != nil {
			return err
		}
		m, err := Flash(p, s.Enthalpy)
		if err != nil {
			return err
		}
		fromS, err := TemperatureFromEntropy(p, s.Entropy)
		if err != nil {
			return err
		}
		// Entropy of cold dense steam changes little with temperature, but its
		// rounding is below 1e-11 J/(kg·K) against cp/T of at least 3.
		return errors.Join(
			near("T(p,h)", m.Temperature, T, 0, 1e-8),
			near("T(p,s)", fromS, T, 0, 1e-8),
			near("density", m.Density, s.Density, 1e-9, 0),
			samePhase(p, T, m, s),
		)
	})
}

func samePhase(p, T float64, m Mixture, s Properties) error {
	if p >= minSaturation && p < maxSaturation && math.Abs(T-saturationTemperature(p)) < 1e-6 {
		return nil // on the line to rounding
	}
	if m.Phase != s.Phase {
		return fmt.Errorf("%v from enthalpy, %v at p and T", m.Phase, s.Phase)
	}
	return nil
}

// In the two-phase region the mass balance and the heat balance hold, the
// temperature is the boiling point and the quality runs from 0 to 1.
func TestFlash_twoPhases(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		T := g.Float(MinTemperature+0.01, MaxTemperature-0.01)
		x := g.Float(0, 1)
		p := saturationPressure(T)
		f, _ := SaturatedLiquid(T)
		s, _ := SaturatedSteam(T)
		m, err := Flash(p, f.Enthalpy+x*(s.Enthalpy-f.Enthalpy))
		if err != nil {
			return err
		}
		if x > 1e-6 && x < 1-1e-6 && m.Phase != TwoPhase {
			return fmt.Errorf("%v at quality %g", m.Phase, x)
		}
		return errors.Join(
			near("temperature", m.Temperature, T, 0, 1e-7),
			near("quality", m.Quality, x, 0, 1e-7),
			near("volume", 1/m.Density, 1/f.Density+x*(1/s.Density-1/f.Density), 1e-6, 0),
		)
	})
}

func TestMelting_inverse(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := g.LogFloat(triplePressure, MaxPressure)
		T, err := MeltingTemperature(p)
		if err != nil {
			return err
		}
		back, err := MeltingPressure(T)
		if err != nil {
			return err
		}
		// dp/dT is at most 13.5 MPa/K, a rounding of T 6e-14 K.
		return near("melting pressure", back, p, 1e-9, 1e-5)
	})
}

// The lower end of the range is above the melting line from 0.135 MPa on and
// below it by at most 0.01 K at less: that is all the ice in the range.
func TestMelting_coldEnd(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p := g.LogFloat(triplePressure, MaxPressure)
		T, err := MeltingTemperature(p)
		if err != nil {
			return err
		}
		if over := T - MinTemperature; over > 0.01+1e-9 || (p > 0.136e6 && over > 0) {
			return fmt.Errorf("ice %g K above the lower end at %g Pa", over, p)
		}
		return nil
	})
}

// Boils and BoilingPoint say what the saturation temperature says, on both sides of it
// and where there is none.
func TestBoils_againstSaturationTemperature(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p, margin := g.LogFloat(100, 40e6), g.Float(-1, 1)
		ts, err := SaturationTemperature(p)
		at, ok := BoilingPoint(p)
		if ok != (err == nil) || at != ts {
			return fmt.Errorf("boils at %g K, %t; saturation %g K, %v", at, ok, ts, err)
		}
		T := g.Float(MinTemperature, MaxTemperature)
		if g.Bool() {
			T = ts + g.Float(-2, 2)
		}
		if got, want := Boils(p, T, margin), err == nil && T > ts+margin; got != want {
			return fmt.Errorf("water of %g K at %g Pa boils with a margin of %g K: %t, saturation %g K, %v", T, p, margin, got, ts, err)
		}
		return nil
	})
}

// What is called liquid without asking the saturation line is at or above it.
func TestLiquid_againstSaturationPressure(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		p, T := g.LogFloat(1e3, MaxPressure), g.Float(MinTemperature, MaxTemperature)
		if got, want := liquid(p, T), p >= saturationPressure(T); got != want {
			return fmt.Errorf("water of %g K at %g Pa is liquid: %t; it boils under %g Pa", T, p, got, saturationPressure(T))
		}
		return nil
	})
	for _, c := range [][2]float64{{101325, 373}, {1e6, 453}, {16.6e6, MaxTemperature}} {
		if q := saturationPressure(c[1]); q > c[0] {
			t.Errorf("water of %g K boils under %g Pa, above %g", c[1], q, c[0])
		}
	}
}
