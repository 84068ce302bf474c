package rig

import (
	"sort"

	"example.com/washrig/hydraulics"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// lineElements lays out what stands in a line, in the order of flow: the hose,
// the loss of its fittings together, then each element.
func lineElements(h *Hose, together parts.RatedLoss, list []Element) []hydraulics.Element {
	out := []hydraulics.Element{hydraulics.Pipe{Part: hydraulics.Part{Name: "hose"}, Bore: h.Bore, Length: h.Length, Roughness: h.Roughness}}
	if together.Loss != 0 {
		out = append(out, hydraulics.RatedLoss{Part: hydraulics.Part{Name: "fittings"}, Flow: together.Flow, Pressure: together.Loss})
	}
	for i := range list {
		out = append(out, hydraulicElement(&list[i])...)
	}
	return out
}

// injectorsOf lists the jets at the head of a line. Each takes its loss whether
// it draws or not.
func injectorsOf(s *Spec, line string) []hydraulics.Element {
	var out []hydraulics.Element
	for i := range s.Chemicals {
		if j := &s.Chemicals[i].Injector; j.Line == line {
			out = append(out, hydraulics.RatedLoss{Part: hydraulics.Part{Name: injectorName(s.Chemicals[i].ID)}, Flow: j.Flow, Pressure: j.Loss})
		}
	}
	sort.Slice(out, func(a, b int) bool { return out[a].(hydraulics.RatedLoss).Name < out[b].(hydraulics.RatedLoss).Name })
	return out
}

// injectorName is the name of a chemical's injector among the elements of a line.
func injectorName(chemical string) string { return "injector of " + chemical }

// hydraulicElement is one element as package hydraulics takes it. What is given
// decides: a climb, a filter by its rated drops, a check valve by its opening
// pressure, a loss at a flow, or velocity heads of a bore; an element with a
// rating alone costs nothing.
func hydraulicElement(e *Element) []hydraulics.Element {
	part := hydraulics.Part{Name: e.ID, MaxPressure: e.MaximumPressure, MaxTemperature: e.MaximumTemperature}
	var out []hydraulics.Element
	if e.Rise != 0 {
		out = append(out, hydraulics.StaticHeight{Part: part, Rise: e.Rise})
	}
	switch {
	case e.Sort == "filter" && e.Loss != 0:
		out = append(out, hydraulics.Filter{Part: part, Flow: e.Flow, Clean: e.Loss, Dirty: e.DirtyLoss, Linear: e.LinearShare})
	case e.Sort == "check-valve" && e.Loss != 0:
		out = append(out, hydraulics.CheckValve{Part: part, Cracking: e.Loss, K: float64(e.K), Bore: e.Bore})
	case e.Loss != 0:
		out = append(out, hydraulics.RatedLoss{Part: part, Flow: e.Flow, Pressure: e.Loss, Linear: e.LinearShare})
	case e.K != 0:
		out = append(out, hydraulics.Fitting{Part: part, K: float64(e.K), Bore: e.Bore})
	}
	return out
}

// leastOf is the least pressure rating of a hose and its elements.
func leastOf(h *Hose, list []Element) units.Pressure {
	least := h.MaximumPressure
	for i := range list {
		if r := list[i].MaximumPressure; r != 0 && (least == 0 || r < least) {
			least = r
		}
	}
	return least
}

func nozzlesOf(n *Nozzle) []hydraulics.Nozzle {
	out := make([]hydraulics.Nozzle, max(n.Tips, 1))
	for i := range out {
		out[i] = hydraulics.Nozzle{Number: n.Number, Wear: n.Wear}
	}
	return out
}

// unloaderOf is an unloader as package hydraulics takes it; one without a
// setting is none.
func unloaderOf(u *Unloader) hydraulics.Unloader {
	if u.Setting == 0 {
		return hydraulics.Unloader{}
	}
	out := hydraulics.Unloader{Kind: hydraulics.PressureRegulating, Set: u.Setting, Rise: u.Rise, Bypass: u.Unloaded}
	switch u.Type {
	case "flow-actuated":
		out.Kind, out.Actuation = hydraulics.FlowActuated, u.Actuation
	case "trapped-pressure":
		out.Kind = hydraulics.TrappedPressure
	}
	if u.ReturnTo == "inlet" {
		out.Return = hydraulics.ToInlet
	}
	return out
}

func reliefOf(r *Relief) hydraulics.Relief {
	if r.Setting == 0 {
		return hydraulics.Relief{}
	}
	return hydraulics.Relief{Set: r.Setting, Accumulation: r.Accumulation}
}

// senseOfLines refuses elements, trunks, unloaders and reels that are given by
// halves.
func senseOfLines(s *Spec) []error {
	var errs []error
	missing := func(path, want string) {
		errs = append(errs, &units.FieldError{Path: path, Want: want, Err: units.ErrMissing})
	}
	conflict := func(path, value, want string) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrConflict})
	}
	list := func(at string, el []Element) {
		for i := range el {
			e, p := &el[i], at+".elements["+el[i].ID+"]"
			switch {
			case e.Loss != 0 && e.Flow == 0 && e.Sort != "check-valve":
				missing(p+".flow", "the flow at which the loss was rated, such as 4 gpm")
			case e.K != 0 && e.Bore == 0:
				missing(p+".bore", "the bore that k belongs to, such as 1/4 in")
			case e.DirtyLoss != 0 && e.DirtyLoss < e.Loss:
				conflict(p+".dirty_loss", exact(e.DirtyLoss), "at least the clean loss, "+exact(e.Loss))
			}
		}
	}
	rough := func(at string, roughness, bore units.Length) {
		if bore != 0 && roughness > bore/20 {
			conflict(at, exact(roughness), "at most a twentieth of the bore")
		}
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		rough("heaters["+h.ID+"].coil_roughness", h.CoilRoughness, h.CoilBore)
	}
	for i := range s.Trunks {
		rough("trunks["+s.Trunks[i].ID+"].hose.roughness", s.Trunks[i].Hose.Roughness, s.Trunks[i].Hose.Bore)
	}
	for i := range s.Lines {
		rough("lines["+s.Lines[i].ID+"].hose.roughness", s.Lines[i].Hose.Roughness, s.Lines[i].Hose.Bore)
	}
	pumpOf := map[string]string{}
	for i := range s.Trunks {
		pumpOf[s.Trunks[i].ID] = s.Trunks[i].Pump
		list("trunks["+s.Trunks[i].ID+"]", s.Trunks[i].Elements)
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		at := "lines[" + l.ID + "]"
		list(at, l.Elements)
		if p, ok := pumpOf[l.Trunk]; ok && p != l.Pump {
			conflict(at+".trunk", l.Trunk, "a trunk of its own pump, "+l.Pump)
		}
		r := l.Reel
		if given := (r.Core != 0) || (r.Flange != 0) || (r.Width != 0); given {
			switch {
			case r.Core == 0 || r.Flange == 0 || r.Width == 0:
				missing(at+".reel.core", "core, flange and width together")
			case r.Flange <= r.Core:
				conflict(at+".reel.flange", exact(r.Flange), "more than the core, "+exact(r.Core))
			case l.Hose.OutsideDiameter == 0:
				missing(at+".hose.outside_diameter", "the outside diameter of the hose, for its reel")
			}
		}
	}
	for i := range s.Pumps {
		p := &s.Pumps[i]
		at := "pumps[" + p.ID + "]"
		if p.Unloader.Type == "flow-actuated" && p.Unloader.Setting != 0 && p.Unloader.Actuation == 0 {
			missing(at+".unloader.actuation", "the flow below which it opens, such as 1 gpm")
		}
		if p.Unloader.Unloaded > p.Unloader.Setting && p.Unloader.Setting != 0 {
			conflict(at+".unloader.unloaded", exact(p.Unloader.Unloaded), "no more than its setting, "+exact(p.Unloader.Setting))
		}
	}
	return errs
}
