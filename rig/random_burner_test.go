package rig_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// hotSpec draws a whole rig whose pumps all have a heater, with what is known of
// hoses, burners and hours given or not.
func hotSpec(g *property.G) *rig.Spec { return heated(g, randomSpec(g)) }

// heated gives every pump of a rig a heater.
func heated(g *property.G, s *rig.Spec) *rig.Spec {
	s.Heaters = nil
	for _, p := range s.Pumps {
		h := rig.Heater{Stock: rig.Stock{ID: "heater-" + p.ID, Within: "skid"}, Pump: p.ID,
			Heater: parts.Heater{CoilBore: units.Length(g.Float(0.4, 0.8)) * units.Inch, CoilLength: units.Length(g.Float(60, 250)) * units.Foot, HelixDiameter: units.Length(g.Float(10, 30)) * units.Inch,
				CleanFiring: units.FuelRate(g.Float(0.5, 12)) * units.GallonPerHour, MaximumTemperature: units.Fahrenheit(g.Float(180, 300)), MaximumPressure: units.Pressure(g.Float(3000, 6000)) * units.PSI, FlowSwitch: "yes"},
			Thermostat: units.Fahrenheit(g.Float(100, 240)), HighLimit: units.Fahrenheit(g.Float(150, 280))}
		if g.Bool() {
			h.Steel = units.Mass(g.Float(40, 400)) * units.Pound
		}
		if g.Bool() {
			h.OilNozzle, h.OilPressure = units.FuelRate(g.Float(0.5, 10))*units.GallonPerHour, units.Pressure(g.Float(80, 200))*units.PSI
		}
		if g.Bool() {
			h.Differential, h.StopDelay, h.FireDelay = units.TemperatureDelta(g.Float(2, 20)), units.Duration(g.Float(0.1, 5)), units.Duration(g.Float(0.5, 15))
		}
		if g.Bool() {
			h.Stack = rig.FlueReading{Temperature: units.Fahrenheit(g.Float(300, 800)), Air: units.Fahrenheit(g.Float(0, 110)), Oxygen: units.Ratio(g.Float(0.02, 0.12))}
		}
		if g.Bool() {
			h.Soot, h.Scale = units.Length(g.Float(0, 0.003)), units.Length(g.Float(0, 0.003))
		}
		if g.Bool() {
			h.Relief = units.Pressure(g.Float(500, 6000)) * units.PSI
		}
		s.Heaters = append(s.Heaters, h)
	}
	for i := range s.Lines {
		if h := &s.Lines[i].Hose; g.Bool() {
			h.OutsideDiameter = h.Bore + units.Length(g.Float(0.1, 0.5))*units.Inch
			h.WallConductivity, h.Expansion = units.ThermalConductivity(g.Float(0.1, 0.4)), units.Ratio(g.Float(0.005, 0.1))
		}
	}
	for i := range s.Site.Conditions {
		if c := &s.Site.Conditions[i]; g.Bool() {
			c.Wind, c.Humidity = units.Velocity(g.Float(0, 60))*units.MilePerHour, units.Ratio(g.Float(0.05, 1))
		}
	}
	if g.Bool() {
		s.Site.Hardness = units.Density(g.Float(0.01, 1))
		s.Duty.Standoff = units.Length(g.Float(0.1, 2))
	}
	return s
}

// Water at the gun lies between the outlet and the air, or at the freezing point;
// wind takes it nearer to the air, and what it loses is the difference.
func TestRandomBurner_gunTemperature(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := hotSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for x := range r.All("lines[].gun_temperature") {
			var outlet float64
			for i := range s.Lines {
				if s.Lines[i].ID == x.Part {
					o, ok := r.At(rig.Path("heaters[heater-"+s.Lines[i].Pump+"].outlet_temperature"), x.State)
					if !ok {
						return fmt.Errorf("%s without an outlet temperature in %v", x.Path(), x.State)
					}
					outlet = o.Value.SI()
				}
			}
			var air float64
			for _, c := range s.Site.Conditions {
				if c.ID == x.State.On(rig.AxisSite) {
					air = c.Air.Kelvin()
				}
			}
			T := x.Value.SI()
			windy, ok := r.At(rig.Path("lines["+x.Part+"].gun_temperature_in_wind"), x.State)
			drop, ok2 := r.At(rig.Path("lines["+x.Part+"].hose_drop"), x.State)
			if !ok || !ok2 {
				return fmt.Errorf("%s without its companions", x.Path())
			}
			// A weak fire leaves the coil's water colder than the thermostat would.
			hot, low := T+drop.Value.SI(), math.Max(air, 273.15)
			if hot > outlet+1e-9 {
				return fmt.Errorf("%s begins at %g K, the outlet is %g K, in %v", x.Path(), hot, outlet, x.State)
			}
			if T < math.Min(low, hot)-1e-6 || T > math.Max(air, hot)+1e-6 {
				return fmt.Errorf("%s is %v, outside coil %g K and air %g K, in %v", x.Path(), x.Value, hot, air, x.State)
			}
			// Which way the hose goes is what the drop says: a weak fire may leave the
			// water colder than the thermostat's outlet, and colder than the air.
			if d := drop.Value.SI(); (windy.Value.SI()-T)*math.Copysign(1, d) > 1e-9*T {
				return fmt.Errorf("wind takes %s from %v to %v, the hose loses %g K", x.Path(), x.Value, windy.Value, d)
			}
		}
		return nil
	})
}

// A wall that conducts better never makes the gun warmer where the water is warmer
// than the air. (A longer hose may: it slows the water, which a weak fire then heats
// more.)
func TestRandomBurner_wall(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := hotSpec(g)
		for i := range s.Site.Conditions {
			s.Site.Conditions[i].Air = units.Fahrenheit(g.Float(0, 40)) // below any water that is heated
		}
		l := &s.Lines[g.Int(0, len(s.Lines)-1)]
		for i := range s.Lines {
			s.Lines[i].Hose.OutsideDiameter, s.Lines[i].Hose.WallConductivity = s.Lines[i].Hose.Bore+0.3*units.Inch, 0.2
		}
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		at := rig.Path("lines[" + l.ID + "]")
		thin, err := changed(m, rig.Assign(at+".hose.wall_conductivity", units.ThermalConductivity(g.Float(0.21, 0.5)).Quantity()))
		if err != nil {
			return err
		}
		if err := noMore(before, thin, at+".gun_temperature", 1e-12); err != nil {
			return fmt.Errorf("with a wall that conducts better, %w", err)
		}
		if err := noMore(thin, before, at+".hose_drop", 1e-9); err != nil {
			return fmt.Errorf("with a wall that conducts worse, %w", err)
		}
		return nil
	})
}

// Hotter settings never cool anything: outlet, guns, release and shut-in pressure.
func TestRandomBurner_thermostat(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := hotSpec(g)
		for i := range s.Heaters {
			// A given fire; one sized for the setting would change with it.
			s.Heaters[i].OilNozzle, s.Heaters[i].OilPressure = 20*units.GallonPerHour, 100*units.PSI
			s.Heaters[i].Thermostat = units.Fahrenheit(g.Float(100, 180))
		}
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		h := s.Heaters[0]
		hotter, err := changed(m, rig.Assign(rig.Path("heaters["+h.ID+"].thermostat"), h.Thermostat.Add(units.TemperatureDelta(g.Float(1, 20))).Quantity()))
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"heaters[" + rig.Path(h.ID) + "].release_peak", "heaters[" + rig.Path(h.ID) + "].cycle_highest"} {
			// 0.2 K for the film, which is a little better in hotter, thinner water.
			for x := range before.All(p) {
				if y, ok := hotter.At(p, x.State); ok && y.Value.SI() < x.Value.SI()-0.2 {
					return fmt.Errorf("%s fell from %v to %v in %v", p, x.Value, y.Value, x.State)
				}
			}
		}
		return nil
	})
}

// The shut-in pressure is never below the pressure trapped, nor above a relief that
// is set over it; water after release is never colder than the cycle's hottest.
func TestRandomBurner_soak(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		s := hotSpec(g)
		_, r, err := mustModel(s)
		if err != nil {
			return err
		}
		for _, h := range s.Heaters {
			p := rig.Path("heaters[" + h.ID + "].")
			for x := range r.All(p + "soak_pressure") {
				line, ok := r.At(rig.Path("pumps["+h.Pump+"].pressure"), x.State)
				if !ok {
					return fmt.Errorf("%s without a pump pressure", x.Path())
				}
				trapped := line.Value.SI()
				for _, pump := range s.Pumps {
					if pump.ID == h.Pump {
						trapped = math.Max(trapped, float64(pump.Unloader.Setting))
					}
				}
				if x.Value.SI() < trapped*(1-1e-9)-1 {
					return fmt.Errorf("%s is %v, trapped %g Pa", x.Path(), x.Value, trapped)
				}
				if relief := float64(h.Relief); relief > trapped*1.001 && x.Value.SI() > relief*(1+1e-9) {
					return fmt.Errorf("%s is %v, over the relief at %v", x.Path(), x.Value, h.Relief)
				}
			}
			for x := range r.All(p + "release_peak") {
				if c, ok := r.At(p+"cycle_highest", x.State); !ok || x.Value.SI() < c.Value.SI() {
					return fmt.Errorf("%s is %v, the cycle %v", x.Path(), x.Value, c.Value)
				}
			}
		}
		return nil
	})
}

// More antifreeze never protects less, stronger neither; colder air never lets a
// part freeze later, and the road never later than the yard.
func TestRandomBurner_winter(t *testing.T) {
	if testing.Short() {
		t.Skip("freezing is slow")
	}
	n := 0
	property.Check(t, func(g *property.G) error {
		if n++; n > 40 { // a case takes some 20 ms
			return nil
		}
		s := hotSpec(g)
		s.Winter = rig.Winter{Coldest: units.Fahrenheit(g.Float(-40, 30)), RoadSpeed: units.Velocity(g.Float(10, 80)) * units.MilePerHour, Antifreeze: "propylene-glycol",
			Strength: units.Ratio(g.Float(0.1, 0.59)), Volume: units.Volume(g.LogFloat(0.2, 50)) * units.Gallon, Left: units.Ratio(g.Float(0.05, 1))}
		m, before, err := mustModel(s)
		if err != nil {
			return err
		}
		more, err := changed(m, rig.Assign("winter.volume", (s.Winter.Volume*units.Volume(g.Float(1.01, 3))).Quantity()))
		if err != nil {
			return err
		}
		if err := noMore(before, more, "winter.protects_to", 1e-12); err != nil {
			return err
		}
		colder, err := changed(m, rig.Assign("winter.coldest", s.Winter.Coldest.Add(-units.TemperatureDelta(g.Float(0.5, 15))).Quantity()))
		if err != nil {
			return err
		}
		for _, p := range []rig.Path{"heaters[].freeze_time", "lines[].freeze_time", "lines[].freeze_time_on_road"} {
			if err := noMore(before, colder, p, 1e-9); err != nil {
				return err
			}
		}
		for x := range before.All("lines[].freeze_time") {
			if y, ok := before.At(rig.Path("lines["+x.Part+"].freeze_time_on_road"), x.State); !ok || y.Value.SI() > x.Value.SI()*(1+1e-9) {
				return fmt.Errorf("%s is %v, on the road %v", x.Path(), x.Value, y.Value)
			}
		}
		return nil
	})
}

// Listing lines, heaters and hours in another order changes no bit.
func TestRandomBurner_order(t *testing.T) {
	t.Parallel()
	property.Check(t, func(g *property.G) error {
		s := hotSpec(g)
		_, a, err := mustModel(s)
		if err != nil {
			return err
		}
		c := s.Clone()
		shuffle(g, c.Lines)
		shuffle(g, c.Heaters)
		shuffle(g, c.Pumps)
		_, b, err := mustModel(c)
		if err != nil {
			return err
		}
		x, y := numbersOf(a), numbersOf(b)
		for k, v := range x {
			if w, ok := y[k]; !ok || v != w {
				return fmt.Errorf("%s is %v and %v", k, v, w)
			}
		}
		return nil
	})
}
