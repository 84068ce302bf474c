package water

import (
	"fmt"
	"testing"

	"example.com/washrig/internal/worked"
)

func TestViscosity_IAPWS_R12_08_table4(t *testing.T) {
	for _, c := range []struct {
		T, rho  float64
		printed string // μPa·s
	}{
		{298.15, 998, "889.735100"},
		{298.15, 1200, "1437.649467"},
		{373.15, 1000, "307.883622"},
		{433.15, 1, "14.538324"},
		{433.15, 1000, "217.685358"},
		{873.15, 1, "32.619287"},
		{873.15, 100, "35.802262"},
		{873.15, 600, "77.430195"},
		{1173.15, 1, "44.217245"},
		{1173.15, 100, "47.640433"},
		{1173.15, 400, "64.154608"},
	} {
		mu, err := Viscosity(c.rho, c.T)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "How viscous is water or steam of this density?",
			Source:   "IAPWS R12-08, Table 4 (μ2 = 1)",
			Status:   worked.Published,
			Given:    []string{fmt.Sprintf("T = %g K", c.T), fmt.Sprintf("ρ = %g kg/m³", c.rho)},
			Printed:  c.printed + " μPa·s",
			Got:      mu * 1e6,
		})
	}
}

func TestConductivity_IAPWS_R15_11_table4(t *testing.T) {
	for _, c := range []struct {
		T, rho  float64
		printed string // mW/(m·K)
	}{
		{298.15, 0, "18.4341883"},
		{298.15, 998, "607.712868"},
		{298.15, 1200, "799.038144"},
		{873.15, 0, "79.1034659"},
	} {
		k, err := Conductivity(c.rho, c.T)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "How well does water or steam of this density conduct heat?",
			Source:   "IAPWS R15-11, Table 4 (without critical enhancement)",
			Status:   worked.Published,
			Given:    []string{fmt.Sprintf("T = %g K", c.T), fmt.Sprintf("ρ = %g kg/m³", c.rho)},
			Printed:  c.printed + " mW/(m·K)",
			Got:      k * 1e3,
		})
	}
}

// Tables 7 and 8 of R15-11: industrial use with IF97. The states of steam
// lie outside the range of the exported functions, so the kernel is called.
func TestConductivity_IAPWS_R15_11_tables7and8(t *testing.T) {
	for _, c := range []struct {
		phase   Phase
		T, p    float64
		printed string
		table   string
	}{
		{Liquid, 620, 20, "481.485195", "Table 7"},
		{Liquid, 620, 50, "545.038940", "Table 7"},
		{Steam, 650, 0.3, "52.2311024", "Table 8"},
		{Steam, 800, 50, "177.709914", "Table 8"},
	} {
		worked.Check(t, worked.Case{
			Question: "How well does it conduct heat near the critical point?",
			Source:   "IAPWS R15-11, " + c.table + " (industrial critical enhancement)",
			Status:   worked.Published,
			Given:    []string{fmt.Sprintf("T = %g K", c.T), fmt.Sprintf("p = %g MPa", c.p)},
			Printed:  c.printed + " mW/(m·K)",
			Got:      properties(c.p*1e6, c.T, c.phase).Conductivity * 1e3,
		})
	}
}

func TestSurfaceTension_IAPWS_R1_76_table1(t *testing.T) {
	for _, c := range []struct {
		T       float64
		printed string // mN/m
	}{
		{273.16, "75.65"}, {283.15, "74.22"}, {293.15, "72.74"}, {303.15, "71.19"},
		{313.15, "69.60"}, {323.15, "67.94"}, {333.15, "66.24"}, {343.15, "64.48"},
		{353.15, "62.67"}, {363.15, "60.82"}, {373.15, "58.91"}, {393.15, "54.97"},
		{413.15, "50.86"}, {433.15, "46.59"}, {453.15, "42.19"}, {473.15, "37.67"},
		{523.15, "26.04"}, {573.15, "14.36"}, {623.15, "3.67"}, {643.15, "0.39"},
	} {
		sigma, err := SurfaceTension(c.T)
		if err != nil {
			t.Fatal(err)
		}
		worked.Check(t, worked.Case{
			Question: "What is the surface tension of water?",
			Source:   "IAPWS R1-76(2014), Table 1",
			Status:   worked.Published,
			Given:    []string{fmt.Sprintf("T = %g K", c.T)},
			Printed:  c.printed + " mN/m",
			Got:      sigma * 1e3,
		})
	}
}

func TestMeltingPressure_IAPWS_R14_08_table3(t *testing.T) {
	p, err := MeltingPressure(260)
	if err != nil {
		t.Fatal(err)
	}
	worked.Check(t, worked.Case{
		Question: "What pressure melts ordinary ice at 260 K?",
		Source:   "IAPWS R14-08(2011), Table 3",
		Status:   worked.Published,
		Given:    []string{"T = 260 K"},
		Printed:  "138.268 MPa",
		Got:      p / 1e6,
	})
}

// SR6-08 is another equation for the same water, fitted to IAPWS-95.
func TestPropertiesAt_IAPWS_SR6_08_table8(t *testing.T) {
	s, err := PropertiesAt(0.1e6, 298.15)
	if err != nil {
		t.Fatal(err)
	}
	const derived = "another formulation of the same water: at this state the two differ by 0.011 % in heat capacity and 0.098 % in sound speed, IF97 being looser in second derivatives"
	const carried = "another formulation for the density that goes in; 1e-4 of the value is far below the uncertainty of the transport equations (about 1 %)"
	for _, x := range []struct {
		what, printed string
		got, within   float64
		reason        string
	}{
		{"density", "997.047013 kg/m³", s.Density, 0.002, "another formulation of the same water: 2e-6 of the value, the agreement of IF97 with IAPWS-95 at this state"},
		{"heat capacity", "4.18144618 kJ/(kg·K)", s.HeatCapacity / 1e3, 0.0042, derived},
		{"speed of sound", "1496.69922 m/s", s.SpeedOfSound, 1.5, derived},
		{"viscosity", "889.996774 μPa·s", s.Viscosity * 1e6, 0.089, carried},
		{"conductivity", "0.606502308 W/(m·K)", s.Conductivity, 0.00006, carried},
	} {
		worked.Check(t, worked.Case{
			Question: "What is the " + x.what + " of water from the mains?",
			Source:   "IAPWS SR6-08(2011), Table 8",
			Status:   worked.Published,
			Given:    []string{"T = 298.15 K", "p = 0.1 MPa"},
			Printed:  x.printed, Got: x.got, Tolerance: x.within, Reason: x.reason,
		})
	}
}
