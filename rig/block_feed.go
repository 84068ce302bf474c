package rig

import (
	"example.com/washrig/hydraulics"
	"example.com/washrig/hydraulics/tank"
	"example.com/washrig/units"
)

// A feedSupply feeds a pump straight, under the pressure of a main.
type feedSupply struct {
	WaterSupply
	flow units.VolumeFlow // that the pump takes
}

func feedOf(s *Spec, w *WaterSupply) feedSupply {
	f := feedSupply{WaterSupply: *w}
	for i := range s.Pumps {
		if s.Pumps[i].ID == w.Pump {
			f.flow = s.Pumps[i].RatedFlow
		}
	}
	return f
}

// line is what the water of a supply passes: hose, backflow device, meter.
func (w *WaterSupply) line() []hydraulics.Element {
	out := []hydraulics.Element{hydraulics.Hose{Bore: w.Hose.Bore, Length: w.Hose.Length, Roughness: w.Hose.Roughness}}
	if w.DeviceLoss != 0 {
		out = append(out, hydraulics.CheckValve{Cracking: w.DeviceLoss})
	}
	if w.Meter.Loss != 0 {
		out = append(out, hydraulics.RatedLoss{Flow: w.Meter.Flow, Pressure: w.Meter.Loss})
	}
	return out
}

// solve adds the pressure at the inlet of the pump, with its flow and with none.
func (w *feedSupply) solve(fluid hydraulics.Fluid, put func(*Metric, string, float64)) error {
	left, err := tank.Supply{Static: w.Static, Residual: w.Residual, Flow: w.TestFlow}.PressureAt(w.flow)
	if err != nil {
		return err
	}
	n := &hydraulics.Network{Fluid: fluid, Supplies: []hydraulics.Supply{{Flow: w.flow}},
		Sections: []hydraulics.Section{{Parent: hydraulics.Manifold, Elements: append(w.line(), hydraulics.StaticHeight{Rise: w.Climb}), Outlet: &hydraulics.Outlet{}}}}
	r, err := hydraulics.Solve(n)
	if err != nil {
		return err
	}
	put(mFeedInlet, w.ID, float64(left-r.Pressure))
	put(mFeedStatic, w.ID, float64(w.Static)-float64(fluid.Density)*float64(units.StandardGravity)*float64(w.Climb))
	return nil
}
