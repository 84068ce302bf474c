package vacuum_test

import (
	"fmt"
	"log"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/units"
)

// Two plate values, a hose and a site give what is picked up, and how far to trust
// it.
func ExamplePlant_PickUp() {
	motor, err := vacuum.NewBlower(vacuum.BlowerPlate{
		Points:  []vacuum.BlowerPoint{{Lift: 110 * units.InchOfWater}, {Flow: 120 * units.CubicFootPerMinute}},
		Between: vacuum.Straight, // the plate prints the ends alone
		Air:     vacuum.StandardAir(),
	})
	if err != nil {
		log.Fatal(err)
	}
	water, err := vacuum.Water(units.Fahrenheit(60))
	if err != nil {
		log.Fatal(err)
	}
	site := vacuum.StandardAir()
	speed, err := vacuum.CarryVelocity(site, water)
	if err != nil {
		log.Fatal(err)
	}
	for n := 1; n <= 2; n++ {
		p := vacuum.Plant{
			Air: site, Liquid: water, Motors: vacuum.Parallel(motor, n), Hoses: 1,
			Path: []vacuum.Element{
				vacuum.RatedLoss{Flow: 100 * units.CubicFootPerMinute, Loss: 8 * units.InchOfWater, Air: vacuum.StandardAir()}, // the tool
				vacuum.Hose{Bore: 2 * units.Inch, Length: 40 * units.Foot, Rise: 3 * units.Foot},
			},
		}
		u, err := p.PickUp(speed)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%d: %s, %.2g to %.2g by the spread of the correlation\n", n, u.Rate.Text(units.GallonPerMinute, 1),
			u.Low.In(units.GallonPerMinute), u.High.In(units.GallonPerMinute))
	}
	// Output:
	// 1: 3.2 gpm, 2.6 to 3.8 by the spread of the correlation
	// 2: 5.3 gpm, 4.4 to 6.3 by the spread of the correlation
}

// The dump pump pulls against the vacuum in the tank.
func ExampleDump_At() {
	pump, err := vacuum.NewDumpPump([]vacuum.DumpPoint{{Head: 20 * units.Foot}, {Flow: 14 * units.GallonPerMinute}}, vacuum.Parabola)
	if err != nil {
		log.Fatal(err)
	}
	water, err := vacuum.Water(units.Fahrenheit(60))
	if err != nil {
		log.Fatal(err)
	}
	d := vacuum.Dump{Pump: pump, Running: 1, Liquid: water, Rise: 3 * units.Foot, Bore: 1 * units.Inch, Length: 15 * units.Foot, K: 4, CheckValve: true}
	for _, vac := range []units.Pressure{0, 40 * units.InchOfWater, 80 * units.InchOfWater, 230 * units.InchOfWater} {
		out, err := d.At(vac)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%3.0f in: %4.1f gpm, %.1f ft of vacuum, %.1f ft short\n", vac.In(units.InchOfWater), out.Flow.In(units.GallonPerMinute), out.Vacuum.In(units.Foot), out.Short.In(units.Foot))
	}
	// Output:
	//   0 in: 11.8 gpm, 0.0 ft of vacuum, 0.0 ft short
	//  40 in: 10.5 gpm, 3.3 ft of vacuum, 0.0 ft short
	//  80 in:  9.1 gpm, 6.7 ft of vacuum, 0.0 ft short
	// 230 in:  0.0 gpm, 19.2 ft of vacuum, 2.2 ft short
}

// What each pass adds and what the make-up water brings follow two laws.
func ExampleLoop() {
	l := vacuum.Loop{Return: 0.65, Evaporate: 0.08}
	soap, err := l.Added()
	if err != nil {
		log.Fatal(err)
	}
	lime, err := l.MakeUp()
	if err != nil {
		log.Fatal(err)
	}
	n, _, err := soap.PassesTo(0.9 * soap.Tank)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("detergent settles at %.2f doses, 90 %% of it after %.1f passes; lime at %.2f of the make-up's\n", float64(soap.Tank), n, float64(lime.Tank))
	// Output:
	// detergent settles at 2.41 doses, 90 % of it after 6.6 passes; lime at 1.19 of the make-up's
}
