package vacuum_test

import (
	"errors"
	"testing"

	"example.com/washrig/hydraulics/vacuum"
	"example.com/washrig/units"
)

// The zero value of everything is refused with a field, or answers; it never panics.
func TestZeroValues(t *testing.T) {
	calls := map[string]func() error{
		"Air":      func() error { return vacuum.Air{}.Validate() },
		"Density":  func() error { _, err := vacuum.Air{}.Density(); return err },
		"Liquid":   func() error { return vacuum.Liquid{}.Validate() },
		"Water":    func() error { _, err := vacuum.Water(units.Temperature{}); return err },
		"Blower":   func() error { _, err := vacuum.NewBlower(vacuum.BlowerPlate{}); return err },
		"Lift":     func() error { _, err := (&vacuum.Blower{}).Lift(vacuum.StandardAir(), 0); return err },
		"Stage":    func() error { _, err := (vacuum.Bank{{}}).Lift(vacuum.StandardAir(), 0); return err },
		"Load":     func() error { _, err := (vacuum.Bank{{}}).Load(vacuum.StandardAir(), 0); return err },
		"Plant":    func() error { _, err := vacuum.Plant{}.Operate(0); return err },
		"PickUp":   func() error { _, err := vacuum.Plant{}.PickUp(0); return err },
		"Hose":     func() error { return path(vacuum.Hose{}) },
		"Fitting":  func() error { return path(vacuum.Fitting{}) },
		"Rated":    func() error { return path(vacuum.RatedLoss{}) },
		"Opening":  func() error { return path(vacuum.Opening{}) },
		"DumpPump": func() error { _, err := vacuum.NewDumpPump(nil, 0); return err },
		"no curve": func() error {
			_, err := vacuum.Dump{Pump: &vacuum.DumpPump{}, Running: 1, Liquid: vacuum.Liquid{Density: 999, Viscosity: 1e-3, SurfaceTension: 0.07}}.At(0)
			return err
		},
		"Dump":        func() error { _, err := vacuum.Dump{}.At(0); return err },
		"Filter":      func() error { return vacuum.Filter{}.Validate() },
		"Fill":        func() error { _, err := vacuum.Fill(0, 0, 0, 0); return err },
		"FloatCycle":  func() error { _, err := vacuum.FloatCycle(0, 0, 0, 0); return err },
		"ChangeOutAt": func() error { _, err := vacuum.BuildUp{}.ChangeOutAt(0, 0, 0, 0); return err },
		"Isothermal":  func() error { _, err := vacuum.IsothermalFlow(0, 0, 0, 0, 0, 0); return err },
		"Outlet":      func() error { _, err := vacuum.IsothermalOutlet(0, 0, 0, 0, 0, 0); return err },
		"Critical":    func() error { _, err := vacuum.IsothermalCritical(0, 0, 0, 0); return err },
		"Carry":       func() error { _, err := vacuum.CarryVelocity(vacuum.Air{}, vacuum.Liquid{}); return err },
		"Turner":      func() error { _, err := vacuum.TurnerVelocity(vacuum.Air{}, vacuum.Liquid{}); return err },
		"Flooding": func() error {
			_, err := vacuum.FloodingVelocity(vacuum.Air{}, vacuum.Liquid{}, 0, 0, 0)
			return err
		},
	}
	for name, call := range calls {
		err := call()
		var f *units.FieldError
		if err == nil || !errors.As(err, &f) || f.Want == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if got := must(vacuum.Bank{}.SealedLift(vacuum.StandardAir()))(t); got != 0 {
		t.Errorf("no motors make %v", got)
	}
	if got := must(vacuum.Bank{}.OpenFlow(vacuum.StandardAir()))(t); got != 0 {
		t.Errorf("no motors pass %v", got)
	}
	if got := must(vacuum.Train{}.Loss(gpm(5), coldWater(t), nil))(t); got != 0 {
		t.Errorf("no filters lose %v", got)
	}
	if b := new(vacuum.Blower); b.OpenFlow() != 0 || b.SealedLift() != 0 {
		t.Error("a blower of nothing has a plate")
	}
	if d := new(vacuum.DumpPump); d.Shutoff() != 0 || d.Runout() != 0 {
		t.Error("a pump of nothing has a sheet")
	}
	op := must(vacuum.Plant{Air: vacuum.StandardAir()}.Operate(0))(t)
	if op.Regime != vacuum.Still {
		t.Errorf("nothing at all: %+v", op)
	}
}

func path(e vacuum.Element) error {
	_, err := vacuum.Plant{Air: vacuum.StandardAir(), Hoses: 1, Path: []vacuum.Element{e}}.Operate(0)
	return err
}
