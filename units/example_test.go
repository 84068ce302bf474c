package units_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.com/washrig/units"
)

func Example() {
	p := 3500 * units.PSI
	fmt.Printf("%.1f bar\n", p.In(units.Bar))
	fmt.Println(p.Text(units.Megapascal, 2))

	// A number in a variable needs a conversion to the type.
	gpm := 5.5
	q := units.VolumeFlow(gpm) * units.GallonPerMinute
	fmt.Println(q.Text(units.LiterPerMinute, 1))

	// The power in the water: plain numbers in SI, then a type again.
	hydraulic := units.Power(float64(p) * float64(q))
	fmt.Println(hydraulic.Text(units.Horsepower, 2))
	// Output:
	// 241.3 bar
	// 24.13 MPa
	// 20.8 L/min
	// 11.23 hp
}

func ExampleParsePressure() {
	for _, s := range []string{"3500 psi", "241.3 bar", "3500", "4 gpm", "3,500 psi"} {
		p, err := units.ParsePressure(s)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(p.Text(units.PSI, 0))
	}
	// Output:
	// 3500 psi
	// 3500 psi
	// 3500: a number without a unit (want 3500 psi or 241 bar)
	// 4 gpm: gpm is a flow (want a pressure such as 3500 psi)
	// 3,500 psi: digits are written together with a decimal point: no decimal comma, no thousands separator (want a pressure such as 3500 psi)
}

func ExampleParseLength() {
	for _, s := range []string{"3/8 in", "1-1/2 in", "50 ft", "9.5 mm"} {
		l, err := units.ParseLength(s)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(l.Text(units.Millimeter, 3))
	}
	// Output:
	// 9.525 mm
	// 38.100 mm
	// 15240.0 mm
	// 9.500 mm
}

func ExamplePressure_MarshalText() {
	type nozzle struct {
		Pressure units.Pressure     `json:"pressure"`
		Flow     units.VolumeFlow   `json:"flow"`
		Number   units.NozzleNumber `json:"number"`
		Water    units.Temperature  `json:"water"`
	}
	n := nozzle{3500 * units.PSI, 5.5 * units.GallonPerMinute, 5.5 * units.Nozzle, units.Fahrenheit(180)}
	data, err := json.Marshal(n)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(string(data))

	var back nozzle
	if err := json.Unmarshal(data, &back); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(back == n)
	// Output:
	// {"pressure":"3500 psi","flow":"5.5 gpm","number":"5.5","water":"180 °F"}
	// true
}

func ExampleTemperature() {
	inlet := units.Fahrenheit(60)
	outlet := inlet.Add(120 * units.FahrenheitDelta)
	fmt.Println(outlet.Text(units.US, 0), "is", outlet.Text(units.SI, 1))

	rise := outlet.Sub(inlet)
	fmt.Println(rise.Text(units.KelvinDelta, 1))

	var unset units.Temperature
	fmt.Println(unset.Given(), units.Celsius(0).Given())
	// Output:
	// 180 °F is 82.2 °C
	// 66.7 K
	// false true
}

func ExampleQuantity() {
	q := (16.6265 * units.Horsepower).Quantity()
	fmt.Println(q.Kind(), q.Text(units.US, 4), q.Text(units.SI, 4))

	// One unit for a column of a table.
	column := q.Kind().Unit(units.SI)
	n, err := q.In(column)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("power_%v %.2f\n", column, n)
	// Output:
	// power 16.63 hp 12.4 kW
	// power_kW 12.40
}

func ExampleAt() {
	err := errors.Join(
		&units.FieldError{Path: "hose.length", Value: "-3 m", Want: "more than 0 m", Err: units.ErrRange},
		&units.FieldError{Path: "hose.bore", Err: units.ErrMissing},
	)
	err = units.At("lines[left]", err)
	fmt.Println(err)
	fmt.Println(errors.Is(err, units.ErrMissing))
	// Output:
	// lines[left].hose.length = -3 m: outside the accepted range (want more than 0 m)
	// lines[left].hose.bore: required value not given
	// true
}

func ExampleSteelPipe() {
	p, err := units.SteelPipe(1.5*units.Inch, units.Schedule40)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.Size, "has a bore of", p.Bore.Text(units.Inch, 3))

	_, err = units.SteelPipe(1.61*units.Inch, units.Schedule40)
	fmt.Println(err)
	// Output:
	// 1-1/2 in has a bore of 1.610 in
	// nominal = 1.61 in: outside the accepted range (want a nominal pipe size from 1/8 in to 6 in, such as 1-1/2 in)
}

func ExampleHoseBore() {
	h, err := units.HoseBore(0.375 * units.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(h.Size, "is", h.Least.Text(units.Millimeter, 1), "to", h.Most.Text(units.Millimeter, 1))
	// Output: 3/8 in is 9.3 mm to 10.1 mm
}

func ExampleAWG() {
	w, err := units.AWG("2/0")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(w.Size, w.Diameter.Text(units.Inch, 4), w.Area.Text(units.SquareMillimeter, 1))
	// Output: 2/0 AWG 0.3648 in 67.4 mm²
}

func ExampleDuration_TimeDuration() {
	d, err := units.ParseDuration("1.5 min")
	if err != nil {
		fmt.Println(err)
		return
	}
	std, err := d.TimeDuration()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d, std)
	// Output: 1.5 min 1m30s
}

func ExamplePressure_Above() {
	site := units.MustParseAbsolutePressure("24.9 inHg")
	fmt.Println((40 * units.PSI).Above(site).Text(units.PSIA, 1))
	// Output: 52.2 psia
}

func ExampleDecimals() {
	// A gauge with marks every 0.02 bar is read to two decimals.
	fmt.Println((3 * units.PSI).Text(units.Bar, units.Decimals(0.02)))
	// Output: 0.21 bar
}

func ExampleFormatNumber() {
	fmt.Println(units.FormatNumber(2283.41, 4), units.FormatNumber(0.0005833333, 3))
	// Output: 2283 0.000583
}
