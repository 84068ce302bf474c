package fuel_test

import (
	"testing"

	"example.com/washrig/fuel"
	"example.com/washrig/internal/nonsense"
	"example.com/washrig/units"
)

// Whatever number stands in whatever place, a function returns finite results or
// an error that names a field, and the arguments listed are accepted.
func TestNonsense(t *testing.T) {
	const (
		hp, gph, gal = units.Horsepower, units.GallonPerHour, units.Gallon
		inch         = units.Inch
	)
	gasoline, diesel := row(t, fuel.GasolineE10), row(t, fuel.Diesel2)
	there := fuel.Site{Elevation: units.ElevationAt(5200 * units.Foot), Air: units.Fahrenheit(95), Pressure: 83.7 * units.KilopascalAbsolute, Humidity: 0.3}
	engine := fuel.Engine{
		Gross: 23 * hp, Net: 21 * hp, Continuous: 0.9, Ignition: fuel.Spark,
		Plate:    fuel.PlateDerating{PerThousandFeet: 0.035, PerTenFahrenheitAbove: 0.01, From: units.ElevationAt(0), Reference: units.Fahrenheit(77)},
		Governor: fuel.Governor{NoLoad: 3750 * units.RPM, Droop: 0.04},
	}
	burning := engine
	burning.Ignition, burning.Correction, burning.EngineFactor, burning.Mechanical = fuel.Compression, fuel.ByISO3046, 0.4, 0.85
	burning.Aspiration, burning.Coolant = fuel.ChargeCooled, units.Celsius(30)
	points := []fuel.PowerPoint{{Speed: 2000 * units.RPM, Power: 13 * hp}, {Speed: 2800 * units.RPM, Power: 19 * hp}, {Speed: 3700 * units.RPM, Power: 23 * hp}}
	curve, err := fuel.NewPowerCurve(points)
	if err != nil {
		t.Fatal(err)
	}
	settled := engine
	settled.Curve = curve
	demands := []fuel.Demand{{Name: "pump", Shaft: 13.6 * hp, Exponent: fuel.ConstantTorque}, {Name: "generator", Shaft: 1.2 * hp}}
	willans := fuel.Willans{Rated: 10 * hp, NoLoad: 12 * units.Kilowatt, FullLoad: 30 * units.Kilowatt}
	chart := []fuel.ConsumptionPoint{{Load: 5 * hp, Rate: 0.6 * gph}, {Load: 10 * hp, Rate: 1 * gph}}
	consumption, err := fuel.NewConsumptionCurve(chart, gasoline)
	if err != nil {
		t.Fatal(err)
	}
	tank := fuel.Tank{
		Nominal: 16 * gal, FillLimit: 0.95, Length: 24 * inch, Width: 14 * inch, Height: 12 * inch,
		PickUp: fuel.PickUp{Height: 1 * inch, Forward: units.PositionAt(8 * inch), Left: units.PositionAt(7 * inch)},
	}
	certificate := fuel.Certificate{
		Density: 840, DensityAt: units.Celsius(15), Higher: diesel.Higher, Lower: diesel.Lower, CarbonDioxide: diesel.CarbonDioxide,
		Cold: fuel.ColdLimits{Cloud: units.Celsius(-12), Gel: units.Celsius(-18)}, Viscosity: 2.6 * units.Centistokes,
		ColdViscosity: 6 * units.Centistokes, ColdViscosityAt: units.Celsius(0),
	}
	slope := fuel.Slope{NoseUp: 5 * units.Degree, LeftSideUp: -3 * units.Degree}
	price := fuel.Price{Amount: 4.25, Per: gal}
	nonsense.Check(t, []nonsense.Call{
		nonsense.Of("PropertiesOf", fuel.PropertiesOf, fuel.Diesel2),
		nonsense.Of("Figures", fuel.Figures, fuel.Diesel2),
		nonsense.Of("Properties.DensityAt", fuel.Properties.DensityAt, diesel, units.Fahrenheit(95)),
		nonsense.Of("Properties.DensityAt of propane", fuel.Properties.DensityAt, row(t, fuel.Propane), units.Fahrenheit(95)),
		nonsense.Of("Properties.DensityAt of gas", fuel.Properties.DensityAt, row(t, fuel.NaturalGas), units.Fahrenheit(95)),
		nonsense.Of("Properties.ViscosityAt", fuel.Properties.ViscosityAt, diesel, units.Fahrenheit(40)),
		nonsense.Of("Properties.NozzleAt", fuel.Properties.NozzleAt, diesel, units.Fahrenheit(40)),
		nonsense.Of("Properties.ColdAt", fuel.Properties.ColdAt, diesel, units.Fahrenheit(5)),
		nonsense.Of("Properties.With", fuel.Properties.With, diesel, certificate),
		nonsense.Of("Properties.Tally", fuel.Properties.Tally, diesel, 12*gal, price),
		nonsense.Of("Properties.Job", fuel.Properties.Job, diesel, 2*gph, 6*units.Hour, 20_000*units.SquareFoot, price),
		nonsense.Of("Blend", fuel.Blend, diesel, row(t, fuel.Diesel1), units.Ratio(0.3)),
		nonsense.Of("HigherByMass", fuel.HigherByMass, 45.5*units.MegajoulePerKilogram, units.Density(845)),
		nonsense.Of("LowerByMass", fuel.LowerByMass, 42.7*units.MegajoulePerKilogram, units.Density(845)),
		nonsense.Of("HigherInput", fuel.HigherInput, 4.75*gph, diesel.Higher),
		nonsense.Of("LowerInput", fuel.LowerInput, 4.75*gph, diesel.Lower),
		nonsense.Of("FiringFor", fuel.FiringFor, 190*units.Kilowatt, diesel.Higher),
		nonsense.Of("Burner.Average", fuel.Burner.Average, fuel.Burner{Firing: 3.5 * gph, Duty: 0.55}),
		nonsense.Of("Site.DryPressure", fuel.Site.DryPressure, there),
		nonsense.Of("PlateDerating.Factor", fuel.PlateDerating.Factor, engine.Plate, there.Elevation, there.Air),
		nonsense.Of("J1349.Factor", fuel.J1349.Factor, fuel.J1349{Ignition: fuel.Spark}, 83*units.KilopascalAbsolute, there.Air),
		nonsense.Of("J1349.Factor of a diesel", fuel.J1349.Factor, fuel.J1349{Ignition: fuel.Compression, Aspiration: fuel.Turbocharged, Fuel: 0.5}, 83*units.KilopascalAbsolute, there.Air),
		nonsense.Of("ISO3046.Factor", fuel.ISO3046.Factor, fuel.ISO3046{Ignition: fuel.Compression, Aspiration: fuel.ChargeCooled, Mechanical: 0.85, Coolant: units.Celsius(30)}, there),
		nonsense.Of("ISO3046.Factor of a spark engine", fuel.ISO3046.Factor, fuel.ISO3046{Ignition: fuel.Spark}, there),
		nonsense.Of("Engine.Available", fuel.Engine.Available, engine, there),
		nonsense.Of("Engine.Available by ISO 3046-1", fuel.Engine.Available, burning, there),
		nonsense.Of("Engine.Corrections", fuel.Engine.Corrections, burning, there),
		nonsense.Of("Engine.Settle", fuel.Engine.Settle, settled, there, demands),
		nonsense.Of("Governor.Rated", fuel.Governor.Rated, engine.Governor),
		nonsense.Of("PowerBudget", fuel.PowerBudget, 16.6*hp, demands),
		nonsense.Of("LargestPressure", fuel.LargestPressure, 16.6*hp, demands, 0, 2900*units.PSI),
		nonsense.Of("PowerCurve", func(points []fuel.PowerPoint, n units.RotationalSpeed) (units.Power, error) {
			c, err := fuel.NewPowerCurve(points)
			if err != nil {
				return 0, err
			}
			return c.PowerAt(n)
		}, points, 3000*units.RPM),
		nonsense.Of("PowerCurve.TorqueAt", curve.TorqueAt, 3000*units.RPM),
		nonsense.Of("Willans.Burn", fuel.Willans.Burn, willans, 7*hp, gasoline),
		nonsense.Of("FitWillans", fuel.FitWillans, chart, gasoline),
		nonsense.Of("WillansFromPlate", fuel.WillansFromPlate, chart[0], chart[1], gasoline),
		nonsense.Of("ConsumptionCurve.Burn", consumption.Burn, 7*hp, gasoline),
		nonsense.Of("NewConsumptionCurve", func(points []fuel.ConsumptionPoint, p fuel.Properties, load units.Power) (fuel.Burn, error) {
			c, err := fuel.NewConsumptionCurve(points, p)
			if err != nil {
				return fuel.Burn{}, err
			}
			return c.Burn(load, p)
		}, chart, gasoline, 7*hp),
		nonsense.Of("TypicalConsumption", fuel.TypicalConsumption, fuel.SmallGasoline, 20*hp),
		nonsense.Of("IdleDown", fuel.IdleDown, willans, gasoline, 3600*units.RPM, 1800*units.RPM),
		nonsense.Of("SpecificRate", fuel.SpecificRate, 0.5*units.PoundPerHorsepowerHour, 20*hp, gasoline),
		nonsense.Of("Tank.ContentAt", fuel.Tank.ContentAt, tank, units.Ratio(0.9), slope),
		nonsense.Of("Tank.ContentAt by share", fuel.Tank.ContentAt, fuel.Tank{Nominal: 14 * gal, UsableFraction: 0.9}, units.Ratio(0.9), slope),
		nonsense.Of("RunTime", fuel.RunTime, 12*gal, 1.4*gph),
		nonsense.Of("RunOut", fuel.RunOut, []fuel.Supply{{Name: "gasoline", Usable: 12 * gal, Rate: 1.4 * gph}, {Name: "diesel", Usable: 27 * gal, Rate: 2 * gph}}),
		nonsense.Of("NominalFor", fuel.NominalFor, 6*units.Hour, 2*gph, units.Ratio(0.9)),
	})
}
