package fuel_test

import (
	"fmt"

	"example.com/washrig/fuel"
	"example.com/washrig/units"
)

// What an engine has at the site, what is asked of it, and what pressure still
// fits.
func Example() {
	engine := fuel.Engine{
		Gross:      23 * units.Horsepower,
		Continuous: 0.90,
		Plate:      fuel.PlateDerating{PerThousandFeet: 0.035, PerTenFahrenheitAbove: 0.01},
	}
	site := fuel.Site{Elevation: units.ElevationAt(5200 * units.Foot), Air: units.Fahrenheit(95)}
	has, err := engine.Available(site)
	if err != nil {
		fmt.Println(err)
		return
	}
	demands := []fuel.Demand{
		{Name: "pump", Shaft: 13.62 * units.Horsepower},
		{Name: "belt generator", Shaft: 6.45 * units.Horsepower},
	}
	budget, err := fuel.PowerBudget(has.Power, demands)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s at the site, %s asked, most of it by the %s\n",
		has.Power.Text(units.Horsepower, 2), budget.Total.Text(units.Horsepower, 2), budget.Name)
	if !budget.Fits() {
		fits, err := fuel.LargestPressure(has.Power, demands, budget.Largest, 2900*units.PSI)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("short by %s; %s still fits\n", budget.Deficit.Text(units.Horsepower, 1), fits.Text(units.PSI, 0))
	}
	// Output:
	// 16.63 hp at the site, 20.07 hp asked, most of it by the pump
	// short by 3.4 hp; 2167 psi still fits
}

// Every rule for one engine, side by side.
func ExampleEngine_Corrections() {
	engine := fuel.Engine{
		Gross: 23 * units.Horsepower, Continuous: 0.90, Ignition: fuel.Spark,
		Plate: fuel.PlateDerating{PerThousandFeet: 0.03},
	}
	f, err := engine.Corrections(fuel.Site{
		Elevation: units.ElevationAt(5200 * units.Foot), Air: units.Fahrenheit(95), Humidity: 0.20,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("plate %.2f, SAE J1349 %.2f, ISO 3046-1 %.2f, rule of thumb %.2f\n",
		float64(f.Plate), float64(f.J1349), float64(f.ISO3046), float64(f.Thumb))
	// Output: plate 0.84, SAE J1349 0.79, ISO 3046-1 0.81, rule of thumb 0.80
}

// A pump held by its unloader pulls less power as the engine slows down, so a
// small overload settles below the rated speed.
func ExampleEngine_Settle() {
	curve, err := fuel.NewPowerCurve([]fuel.PowerPoint{
		{Speed: 2400 * units.RPM, Power: 16.5 * units.Horsepower},
		{Speed: 3000 * units.RPM, Power: 20.5 * units.Horsepower},
		{Speed: 3600 * units.RPM, Power: 23.0 * units.Horsepower},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	engine := fuel.Engine{
		Gross: 23 * units.Horsepower, Continuous: 0.90, Curve: curve,
		Governor: fuel.Governor{NoLoad: 3750 * units.RPM, Droop: 0.042},
	}
	site := fuel.Site{Elevation: units.ElevationAt(0), Air: units.Fahrenheit(77)}
	for _, pump := range []units.Power{10, 24, 40} {
		s, err := engine.Settle(site, []fuel.Demand{
			{Name: "pump", Shaft: pump * units.Horsepower, Exponent: fuel.ConstantTorque},
		})
		switch {
		case err != nil:
			fmt.Println(err)
		case s.Stalls:
			fmt.Printf("%v hp: stalls, short by %s\n", float64(pump), s.Deficit.Text(units.Horsepower, 1))
		default:
			fmt.Printf("%v hp: %s, wide open below its rating: %v\n", float64(pump), s.Speed.Text(units.RPM, 0), s.Lugs())
		}
	}
	// Output:
	// 10 hp: 3683 rpm, wide open below its rating: false
	// 24 hp: 3261 rpm, wide open below its rating: true
	// 40 hp: stalls, short by 10.2 hp
}

// Two lines of a fuel table make the whole line, in any fuel the engine takes.
func ExampleWillansFromPlate() {
	e10, err := fuel.PropertiesOf(fuel.GasolineE10)
	if err != nil {
		fmt.Println(err)
		return
	}
	generator, err := fuel.WillansFromPlate(
		fuel.ConsumptionPoint{Load: 2.4 * units.Kilowatt, Rate: 0.45 * units.GallonPerHour},
		fuel.ConsumptionPoint{Load: 4.8 * units.Kilowatt, Rate: 0.72 * units.GallonPerHour}, e10)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, load := range []units.Power{0, 1.1, 2.95, 4.8} {
		b, err := generator.Burn(load*units.Kilowatt, e10)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v kW: %s, %.0f %% of the heat\n", float64(load), b.Rate.Text(units.GallonPerHour, 2), 100*float64(b.Efficiency))
	}
	// Output:
	// 0 kW: 0.18 gph, 0 % of the heat
	// 1.1 kW: 0.30 gph, 11 % of the heat
	// 2.95 kW: 0.51 gph, 18 % of the heat
	// 4.8 kW: 0.72 gph, 20 % of the heat
}

// The certificate that came with the delivery replaces what it states.
func ExampleProperties_With() {
	diesel, err := fuel.PropertiesOf(fuel.Diesel2)
	if err != nil {
		fmt.Println(err)
		return
	}
	winter, err := diesel.With(fuel.Certificate{
		Density:   52.2 * units.PoundPerCubicFoot,
		DensityAt: units.Fahrenheit(80),
		Cold:      fuel.ColdLimits{Cloud: units.Fahrenheit(-5), Gel: units.Fahrenheit(-20)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range []fuel.Properties{diesel, winter} {
		r, err := p.ColdAt(units.Fahrenheit(5))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s at 60 °F, %v at 5 °F\n", p.Density.Text(units.PoundPerGallon, 2), r.State)
	}
	// Output:
	// 7.07 lb/gal at 60 °F, gelled at 5 °F
	// 7.04 lb/gal at 60 °F, flows at 5 °F
}

// What agencies print for one number.
func ExampleFigures() {
	figures, err := fuel.Figures(fuel.Diesel2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range figures {
		if f.Property == fuel.PropertyLower {
			fmt.Printf("%.0f %s, %s, used %v\n", f.Value, f.Unit, f.Source, f.Used)
		}
	}
	// Output:
	// 129488 BTU/gal, GREET fuel specifications, reprinted by the Hydrogen Analysis Resource Center, used true
	// 128488 BTU/gal, Alternative Fuels Data Center, U.S. Department of Energy, which takes it from GREET, used false
	// 127500 BTU/gal, California Energy Commission, CEC-600-2007-002-D, Table 2-5, 2008, used false
}

// Two fifths of No. 1 diesel for the winter.
func ExampleBlend() {
	no2, err := fuel.PropertiesOf(fuel.Diesel2)
	if err != nil {
		fmt.Println(err)
		return
	}
	no1, err := fuel.PropertiesOf(fuel.Diesel1)
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := fuel.Blend(no2, no1, 0.4)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("clouds at %.0f °F, %.1f %% less heat a gallon\n",
		b.Cold.Cloud.Fahrenheit(), 100*(1-float64(b.Higher/no2.Higher)))
	// Output: clouds at 3 °F, 1.0 % less heat a gallon
}

// A tank on a slope, and which tank runs dry first.
func ExampleTank_ContentAt() {
	tank := fuel.Tank{
		Length: 24 * units.Inch, Width: 14 * units.Inch, Height: 12 * units.Inch,
		PickUp:    fuel.PickUp{Height: 1 * units.Inch, Forward: units.PositionAt(22 * units.Inch)},
		FillLimit: 0.95,
	}
	for _, nose := range []units.Angle{0, 6} {
		c, err := tank.ContentAt(1, fuel.Slope{NoseUp: nose * units.Degree})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("nose up %v°: %s of %s\n", float64(nose), c.Usable.Text(units.Gallon, 1), c.Filled.Text(units.Gallon, 1))
	}
	order, err := fuel.RunOut([]fuel.Supply{
		{Name: "gasoline", Usable: 12.9 * units.Gallon, Rate: 1.6 * units.GallonPerHour},
		{Name: "burner oil", Usable: 28 * units.Gallon, Rate: 1.9 * units.GallonPerHour},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s runs dry first, after %.1f h\n", order[0].Name, order[0].Lasts.In(units.Hour))
	// Output:
	// nose up 0°: 15.1 gal of 16.6 gal
	// nose up 6°: 13.6 gal of 16.6 gal
	// gasoline runs dry first, after 8.1 h
}

// What the job's fuel costs and leaves in the air.
func ExampleProperties_Job() {
	b5, err := fuel.PropertiesOf(fuel.BiodieselB5)
	if err != nil {
		fmt.Println(err)
		return
	}
	j, err := b5.Job(1.9*units.GallonPerHour, 6*units.Hour, 10_000*units.SquareFoot, fuel.Price{Amount: 4.10, Per: units.Gallon})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("$%.2f the job, $%.2f each 1,000 ft², %s of fossil carbon dioxide\n",
		j.Job.Cost, j.PerThousandSquareFeet.Cost, j.Job.Fossil.Text(units.Kilogram, 0))
	// Output: $46.74 the job, $4.67 each 1,000 ft², 111 kg of fossil carbon dioxide
}
