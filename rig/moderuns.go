package rig

import "slices"

// running is what runs in a mode: the loads it names, the sources that carry them,
// the engines behind those and behind the pumps of its open guns, every pump of such
// an engine, and the burners of the water its guns spray.
type running struct {
	guns, loads, sources, engines, pumps, heaters []string
}

// components returns the paths of engines, pumps, heaters and sources that run.
func (r *running) components() []Path {
	var out []Path
	for _, x := range [...]struct {
		list string
		ids  []string
	}{{"engines", r.engines}, {"pumps", r.pumps}, {"heaters", r.heaters}, {"sources", r.sources}} {
		for _, id := range x.ids {
			out = append(out, Path(x.list+"["+id+"]"))
		}
	}
	return out
}

func (r *running) gun(id string) bool    { return slices.Contains(r.guns, id) }
func (r *running) load(id string) bool   { return slices.Contains(r.loads, id) }
func (r *running) source(id string) bool { return slices.Contains(r.sources, id) }
func (r *running) engine(id string) bool { return slices.Contains(r.engines, id) }
func (r *running) heater(id string) bool { return slices.Contains(r.heaters, id) }

// runsIn returns what runs in a mode, plugs as they stand in it. A pump without an open gun
// may stand.
func runsIn(s *Spec, mode *Mode) running {
	r := running{guns: mode.Guns, loads: mode.Loads}
	loaded, pumping, needed := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for i := range s.Loads {
		if l := &s.Loads[i]; r.load(l.ID) {
			loaded[mode.sourceOf(l)] = true
		}
	}
	for i := range s.Lines {
		if l := &s.Lines[i]; r.gun(l.ID) {
			pumping[l.Pump] = true
		}
	}
	for i := range s.Pumps {
		if p := &s.Pumps[i]; pumping[p.ID] {
			needed[p.Engine] = true
		}
	}
	for i := range s.Sources {
		if g := &s.Sources[i]; loaded[g.ID] {
			r.sources = append(r.sources, g.ID)
			needed[g.Engine] = true
		}
	}
	for i := range s.Engines {
		if needed[s.Engines[i].ID] {
			r.engines = append(r.engines, s.Engines[i].ID)
		}
	}
	for i := range s.Pumps {
		if p := &s.Pumps[i]; pumping[p.ID] || p.Engine != "" && r.engine(p.Engine) {
			r.pumps = append(r.pumps, p.ID)
		}
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		on := pumping[h.Pump]
		for k := range s.Loads {
			if l := &s.Loads[k]; l.Class == "burner" && (l.Heater == h.ID || l.Heater == "" && len(s.Heaters) == 1) {
				on = on && r.load(l.ID)
			}
		}
		if on {
			r.heaters = append(r.heaters, h.ID)
		}
	}
	return r
}
