package vacuum_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/units"
)

// The tables are made by testdata/reference.py with fluids 1.0.22 and SciPy 1.10.1.

func TestTwoPhase_fluids(t *testing.T) {
	for _, r := range table(t, "twophase_reference.csv") {
		v := map[string]float64{}
		for k, s := range r {
			v[k] = num(t, s)
		}
		x, d, rhol, rhog := v["x"], v["D"], v["rhol"], v["rhog"]
		G := v["m"] / (math.Pi / 4 * d * d)
		darcy := func(G, rho, mu float64) float64 {
			return hydraulics.FrictionFactor(G*d/mu, 0) * G * G / (2 * rho * d)
		}
		msh := vacuum.MullerSteinhagenHeck(darcy(G, rhol, v["mul"]), darcy(G, rhog, v["mug"]), x)
		near(t, "Müller-Steinhagen and Heck", msh, v["msh"], 1e-10)
		near(t, "void fraction", vacuum.VoidFraction(x, rhol, rhog, v["sigma"], G), v["void"], 1e-11)
		// The library's Lockhart and Martinelli takes 0.184/Re^0.2 for turbulent
		// friction, as its authors did.
		power := func(G, rho, mu float64) float64 {
			return 0.184 * math.Pow(G*d/mu, -0.2) * G * G / (2 * rho * d)
		}
		C := vacuum.ChisholmC(G*(1-x)*d/v["mul"], G*x*d/v["mug"])
		lm := vacuum.LockhartMartinelli(power(G*(1-x), rhol, v["mul"]), power(G*x, rhog, v["mug"]), C)
		near(t, "Lockhart and Martinelli", lm, v["lm"], 1e-11)
	}
}

// The whole plant against a root search over an integrated momentum equation. Nine
// digits are printed; the tolerance leaves one to the two integrators.
func TestOperate_scipy(t *testing.T) {
	wet := 0
	for i, r := range table(t, "plant_reference.csv") {
		v := map[string]float64{}
		shape := vacuum.Straight
		for k, s := range r {
			if k != "shape" {
				v[k] = num(t, s)
			} else if s == "parabola" {
				shape = vacuum.Parabola
			}
		}
		b := must(vacuum.NewBlower(vacuum.BlowerPlate{Between: shape, Air: vacuum.StandardAir(),
			Points: []vacuum.BlowerPoint{{Flow: 0, Lift: units.Pressure(v["sealed"])}, {Flow: units.VolumeFlow(v["open"])}}}))(t)
		p := vacuum.Plant{
			Air:    vacuum.Air{Pressure: units.AbsolutePressure(v["p"]), Temperature: units.Kelvin(v["T"])},
			Liquid: vacuum.Liquid{Density: 998.2071, Viscosity: 1.0016e-3, SurfaceTension: 0.07274},
			Motors: vacuum.Parallel(b, int(v["motors"])), Hoses: 1,
			Path: []vacuum.Element{
				vacuum.RatedLoss{Flow: units.VolumeFlow(v["tool_flow"]), Loss: units.Pressure(v["tool_loss"]), Air: vacuum.StandardAir()},
				vacuum.Hose{Bore: units.Length(v["bore"]), Length: units.Length(v["length"]), Rise: units.Length(v["rise"])},
			},
		}
		op := must(p.Operate(units.VolumeFlow(v["water"] / 998.2071)))(t)
		near(t, fmt.Sprintf("row %d, air", i+1), float64(op.Air), v["air"], 2e-8)
		if v["water"] > 0 {
			wet++
			if op.Regime != vacuum.Carried && op.Regime != vacuum.Slugging {
				t.Errorf("row %d: %v", i+1, op.Regime)
			}
		}
	}
	if wet < 5 {
		t.Errorf("only %d rows with water", wet)
	}
}

func TestDump_scipy(t *testing.T) {
	for i, r := range table(t, "dump_reference.csv") {
		v := map[string]float64{}
		shape := vacuum.Straight
		for k, s := range r {
			if k != "shape" {
				v[k] = num(t, s)
			} else if s == "parabola" {
				shape = vacuum.Parabola
			}
		}
		pump := must(vacuum.NewDumpPump([]vacuum.DumpPoint{{Head: units.Length(v["shutoff"])}, {Flow: units.VolumeFlow(v["runout"])}}, shape))(t)
		w := vacuum.Liquid{Density: 998.2071, Viscosity: 1.0016e-3, SurfaceTension: 0.07274}
		d := vacuum.Dump{Pump: pump, Running: int(v["pumps"]), Liquid: w, Rise: units.Length(v["rise"]),
			Bore: units.Length(v["bore"]), Length: units.Length(v["length"]), K: v["k"],
			Filters: vacuum.Train{{Flow: units.VolumeFlow(v["filter_flow"]), Clean: units.Pressure(v["clean"]), Dirty: units.Pressure(v["dirty"]), Linear: units.Ratio(v["linear"])}},
			Loaded:  []units.Ratio{units.Ratio(v["loaded"])}}
		out := must(d.At(units.Pressure(v["vacuum"])))(t)
		near(t, fmt.Sprintf("row %d", i+1), float64(out.Flow), v["flow"], 1e-11)
	}
}
