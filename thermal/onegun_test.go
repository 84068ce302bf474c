package thermal

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// The duty of a flow times the output is the heat the setting needs, and half the
// flow has half the duty.
func TestHeatAtFlow_duty(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		d := draw(g)
		set := units.Fahrenheit(g.Float(111, 200))
		output := units.Power(g.LogFloat(10, 300)) * units.Kilowatt
		a, err := HeatAtFlow(d.flow, d.in, output, set, d.line)
		if err != nil {
			return err
		}
		b, err := HeatAtFlow(d.flow/2, d.in, output, set, d.line)
		if err != nil {
			return err
		}
		if math.Abs(float64(a.Duty-2*b.Duty)) > 1e-12*float64(a.Duty) {
			return fmt.Errorf("duty %v, at half flow %v", a.Duty, b.Duty)
		}
		if b.Uncontrolled.Phase != Runaway && b.Uncontrolled.Temperature.Kelvin() < a.Uncontrolled.Temperature.Kelvin() {
			return fmt.Errorf("half the flow leaves colder: %v and %v", b.Uncontrolled.Temperature, a.Uncontrolled.Temperature)
		}
		// Short of heat and short of the setting are the same thing.
		if (a.Duty > 1) != (a.Controlled.Kelvin() < set.Kelvin()-1e-9) {
			return fmt.Errorf("duty %v and outlet %v for %v", a.Duty, a.Controlled, set)
		}
		return nil
	})
}

func TestHeatAtFlow_edges(t *testing.T) {
	in, set := units.Fahrenheit(45), units.Fahrenheit(166)
	g := must[GunHeat](t)(HeatAtFlow(0, in, 100*units.Kilowatt, set, at27))
	if g.Uncontrolled.Phase != Runaway || g.Controlled.Given() || g.Duty != 0 {
		t.Errorf("burner without flow: %+v", g)
	}
	g = must[GunHeat](t)(HeatAtFlow(4*units.GallonPerMinute, in, 0, set, at27))
	if g.Duty != 1 || g.Controlled != in {
		t.Errorf("burner out: %+v", g)
	}
	g = must[GunHeat](t)(HeatAtFlow(4*units.GallonPerMinute, units.Fahrenheit(180), 100*units.Kilowatt, set, at27))
	if g.Duty != 0 || g.Needed != 0 || g.Controlled != units.Fahrenheit(180) {
		t.Errorf("inlet above the setting: %+v", g)
	}
	if _, err := HeatAtFlows([]units.VolumeFlow{1e-4, -1}, in, 100*units.Kilowatt, set, at27); err == nil || err.Error()[:9] != "flows[#2]" {
		t.Errorf("second flow negative: %v", err)
	}
}
