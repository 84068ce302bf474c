package thermal_test

import (
	"errors"
	"fmt"

	"example.com/washrig/thermal"
	"example.com/washrig/units"
)

// The air at 5,200 ft.
const site = 0.825839 * units.AtmosphereAbsolute

func ExampleHeatRequired() {
	line := (2760 * units.PSI).Above(site)
	heat, err := thermal.HeatRequired(6.8*units.GallonPerMinute, units.Fahrenheit(45), units.Fahrenheit(166), line)
	if err != nil {
		fmt.Println(err)
		return
	}
	oil, err := thermal.FiringRate(heat, 0.84, thermal.HHV(138_500*units.BTUPerGallon))
	clean, _ := thermal.CleanFiring(4.75*units.GallonPerHour, site, units.Fahrenheit(95), 1)
	fmt.Printf("needs %.2f gph, burns clean to %.2f gph, %v\n", oil.In(units.GallonPerHour), clean.In(units.GallonPerHour), err)
	// Output: needs 3.53 gph, burns clean to 3.67 gph, <nil>
}

// A form shows every problem at its field.
func ExampleHeatRequired_error() {
	_, err := thermal.HeatRequired(-1*units.GallonPerMinute, units.Temperature{}, units.Fahrenheit(166), 3500)
	var field *units.FieldError
	fmt.Println(errors.As(err, &field), field.Path)
	fmt.Println(errors.Is(err, units.ErrMissing), errors.Is(err, units.ErrRange))
	// Output:
	// true flow
	// true true
}

func ExampleHeatAtFlow() {
	line := (2760 * units.PSI).Above(site)
	for _, gpm := range []units.VolumeFlow{6.8, 3.74, 0} {
		g, err := thermal.HeatAtFlow(gpm*units.GallonPerMinute, units.Fahrenheit(45), 120*units.Kilowatt, units.Fahrenheit(166), line)
		if err != nil {
			fmt.Println(err)
			return
		}
		if !g.Controlled.Given() {
			fmt.Printf("%.2f gpm: %v\n", gpm, g.Uncontrolled.Phase)
			continue
		}
		fmt.Printf("%.2f gpm: %.0f °F if the thermostat sticks, else it fires %.0f %% of the time\n",
			gpm, g.Uncontrolled.Temperature.Fahrenheit(), g.Duty.In(units.Percent))
	}
	// Output:
	// 6.80 gpm: 166 °F if the thermostat sticks, else it fires 100 % of the time
	// 3.74 gpm: 263 °F if the thermostat sticks, else it fires 55 % of the time
	// 0.00 gpm: runaway
}

func ExampleBypass_Heat() {
	b := thermal.Bypass{
		Power: 11.5 * units.Horsepower, Volume: 0.5 * units.Gallon,
		Start: units.Fahrenheit(45), Limit: units.Fahrenheit(145), Pressure: site,
	}
	loop, err := b.Heat()
	b.Volume = 240 * units.Gallon
	tank, _ := b.Heat()
	fmt.Printf("to the pump inlet: limit after %.0f s; to the tank: after %.1f h; %v\n", float64(loop.Time), tank.Time.In(units.Hour), err)
	// Output: to the pump inlet: limit after 51 s; to the tank: after 6.8 h; <nil>
}

func ExampleHeater_Cycle() {
	h := thermal.Heater{
		Output: 120 * units.Kilowatt, Metal: 60 * units.Kilogram, MetalHeat: 490, Water: 7 * units.Liter,
		Conductance: 2500 * units.WattPerKelvin,
	}
	f := thermal.Feed{Flow: 3.74 * units.GallonPerMinute, In: units.Fahrenheit(45), Line: (2760 * units.PSI).Above(site)}
	k, err := h.Cycle(f, thermal.Thermostat{Setting: units.Fahrenheit(166), Differential: 10 * units.FahrenheitDelta, StopDelay: 1, FireDelay: 10})
	fmt.Printf("%v: %.0f %% of the time, %.0f cycles an hour, up to %.0f °F, %v\n",
		k.Regime, k.Duty.In(units.Percent), 3600*float64(k.Frequency), k.Highest.Fahrenheit(), err)
	r, _ := h.Release(f.Line, k.CutOut, 1)
	fmt.Printf("let go just then, the coil soaks to %.0f °F\n", r.Peak.Fahrenheit())
	// Output:
	// cycling: 50 % of the time, 72 cycles an hour, up to 169 °F, <nil>
	// let go just then, the coil soaks to 204 °F
}

func ExampleFaultTable() {
	h := thermal.Heater{Output: 120 * units.Kilowatt, Metal: 60, MetalHeat: 490, Water: 7 * units.Liter, Conductance: 2500}
	c := thermal.Controls{
		Thermostat: thermal.Thermostat{Setting: units.Fahrenheit(166), Differential: 10 * units.FahrenheitDelta, StopDelay: 1, FireDelay: 10},
		HighLimit:  units.Fahrenheit(200), HighLimitDelay: 2, FlowSwitchDelay: 1,
	}
	faults := thermal.Faults(6.8*units.GallonPerMinute, 3.74*units.GallonPerMinute)
	limits := []thermal.Limit{{Name: "hose", Temperature: units.Fahrenheit(250)}}
	rows, err := thermal.FaultTable(h, units.Fahrenheit(45), (2760 * units.PSI).Above(site), c, faults, limits)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range rows[2:] {
		if r.Unbounded {
			fmt.Printf("%s: stopped by %v, no end; hose limit after %.0f s\n", r.Fault.Name, r.Guard, float64(r.Limits[0].After))
			continue
		}
		fmt.Printf("%s: stopped by %v, %.0f °F, hose limit passed: %v\n", r.Fault.Name, r.Guard, r.Highest.Fahrenheit(), r.Limits[0].Passed)
	}
	// Output:
	// thermostat stuck, part flow: stopped by high limit, 203 °F, hose limit passed: false
	// high limit failed, part flow: stopped by thermostat, 169 °F, hose limit passed: false
	// flow switch stuck, no flow: stopped by thermostat, 214 °F, hose limit passed: false
	// flow switch and thermostat stuck, no flow: stopped by high limit, 238 °F, hose limit passed: false
	// thermostat and high limit failed, part flow: stopped by nothing, 263 °F, hose limit passed: true
	// all failed, no flow: stopped by nothing, no end; hose limit after 17 s
}

func ExampleFuel_Burn() {
	c, err := thermal.LightHeatingOil().Burn(thermal.FlueReading{
		CarbonDioxide: 0.11, Stack: units.Fahrenheit(450), Air: units.Fahrenheit(70), Site: site,
	})
	fmt.Printf("%.1f %% on the higher value, %.1f %% on the lower, drips below %.0f °F, %v\n",
		100*float64(c.Efficiency), 100*float64(c.EfficiencyOnLower), c.DewPoint.Fahrenheit(), err)
	// Output: 83.3 % on the higher value, 88.9 % on the lower, drips below 105 °F, <nil>
}

func ExampleHose_Deliver() {
	hose := thermal.Hose{
		Length: 150 * units.Foot, Bore: 3. / 8 * units.Inch, Outside: 0.69 * units.Inch,
		Conductivity: 0.2, Emissivity: 0.9, WallDensity: 1200, WallHeat: 1500,
	}
	line := (2760 * units.PSI).Above(site)
	m, _ := thermal.MassFlow(3.4*units.GallonPerMinute, units.Fahrenheit(45), line)
	got, err := hose.Deliver(m, units.Fahrenheit(166), line, thermal.Surroundings{Air: units.Fahrenheit(34), Site: site, Wind: 10 * units.MilePerHour})
	when, _ := hose.Arrival(m, units.Fahrenheit(166), line, 0.95)
	fmt.Printf("%.1f °F at the gun; %.0f %% of the rise after %.0f s, 95 %% after %.0f s; %v\n",
		got.Out.Fahrenheit(), when.Step.In(units.Percent), float64(when.Plug), float64(when.Time), err)
	// Output: 158.0 °F at the gun; 85 % of the rise after 15 s, 95 % after 129 s; <nil>
}

func ExampleDisplace() {
	parts := []thermal.Trapped{
		{Volume: 0.3 * units.Gallon, Water: 0.1 * units.Gallon}, // pump head
		{Volume: 1.8 * units.Gallon, Water: 0.5 * units.Gallon}, // coil, blown down
		{Volume: 0.9 * units.Gallon, Water: 0.2 * units.Gallon}, // hose, blown down
	}
	d, err := thermal.Displace(parts, 0.5, 3*units.Gallon)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range d.Parts {
		fmt.Printf("%.0f %% to %.0f °F\n", p.Glycol.In(units.Percent), p.Protects.Fahrenheit())
	}
	// Output:
	// 50 % to -29 °F
	// 43 % to -12 °F
	// 36 % to 0 °F
}
