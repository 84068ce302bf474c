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

// lay makes the line of what the water of a supply passes: hose, backflow device, meter.
func (w *WaterSupply) lay(k *suctionWork) {
	k.hose = hydraulics.Hose{Bore: w.Hose.Bore, Length: w.Hose.Length, Roughness: w.Hose.Roughness}
	k.line = append(k.line[:0], &k.hose)
	if w.DeviceLoss != 0 {
		k.device = hydraulics.CheckValve{Cracking: w.DeviceLoss}
		k.line = append(k.line, &k.device)
	}
	if w.Meter.Loss != 0 {
		k.meter = hydraulics.RatedLoss{Flow: w.Meter.Flow, Pressure: w.Meter.Loss}
		k.line = append(k.line, &k.meter)
	}
}

// solve adds the pressure at the inlet of the pump, with its flow and with none.
func (w *feedSupply) solve(k *suctionWork, fluid hydraulics.Fluid, put func(*Metric, string, float64)) error {
	left, err := tank.Supply{Static: w.Static, Residual: w.Residual, Flow: w.TestFlow}.PressureAt(w.flow)
	if err != nil {
		return err
	}
	w.lay(k)
	k.line = append(k.line, hydraulics.StaticHeight{Rise: w.Climb})
	if err := k.run.Set(fluid, "line", k.line); err != nil {
		return err
	}
	loss, _ := k.run.Loss(w.flow)
	put(mFeedInlet, w.ID, float64(left-loss))
	put(mFeedStatic, w.ID, float64(w.Static)-float64(fluid.Density)*float64(units.StandardGravity)*float64(w.Climb))
	return nil
}
