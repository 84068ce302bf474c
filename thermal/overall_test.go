package thermal

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// Overall is what Deliver finds at the inlet, and with Cooled it comes within 3 %
// of the drop that Deliver integrates, while the drop is below 20 K.
func TestOverall_againstDeliver(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		h, s := drawHose(g)
		s.Wet, s.Contact, s.Radiant = 0, 0, units.Temperature{}
		in, m := units.Fahrenheit(g.Float(120, 205)), units.MassFlow(g.LogFloat(0.1, 0.6))
		s.Air = units.Fahrenheit(g.Float(0, 100))
		want, err := h.Deliver(m, in, at27, s)
		if err != nil {
			return err
		}
		got, err := h.Overall(m, in, at27, s)
		if err != nil {
			return err
		}
		if got != want.Overall {
			return fmt.Errorf("%v, Deliver finds %v", got, want.Overall)
		}
		if want.Drop > 20 {
			return nil
		}
		area := math.Pi * float64(h.Outside) * float64(h.Length)
		out, err := Cooled(in, s.Air, units.ThermalConductance(float64(got)*area), m, 4190)
		if err != nil {
			return err
		}
		if d := float64(in.Sub(out)-want.Drop) / float64(want.Drop); d > 0.03 || d < -0.03 {
			return fmt.Errorf("drop %v, Deliver %v", in.Sub(out), want.Drop)
		}
		return nil
	})
}

func TestOverall_refuses(t *testing.T) {
	h := Hose{Length: 150 * units.Foot, Bore: 0.375 * units.Inch, Outside: 0.69 * units.Inch, Conductivity: 0.19, Emissivity: 0.9}
	s := Surroundings{Air: units.Fahrenheit(80), Site: 1 * units.AtmosphereAbsolute}
	if _, err := h.Overall(0.2, units.Fahrenheit(80), at27, s); !errors.Is(err, units.ErrConflict) {
		t.Errorf("water as warm as the air: %v", err)
	}
	if _, err := (Hose{}).Overall(0, units.Temperature{}, 0, Surroundings{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("zero values: %v", err)
	}
}
