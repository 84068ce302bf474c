package rig

import "example.com/washrig/units"

// A Chemical is something carried or sprayed besides water.
type Chemical struct {
	Stock
	Family string   `json:"family" need:"yes" choice:"detergent|caustic|acid|hydrofluoric|hypochlorite|ammonia|peroxide|solvent" doc:"what it is, by its safety data sheet"`
	Enters string   `json:"enters" choice:"at-gun|after-coil|before-pump" doc:"where it joins the water"`
	Wets   []string `json:"wets" choice:"aluminium|steel|stainless-steel|brass|copper|plastic|rubber|other" doc:"materials it wets"`
	Mist   string   `json:"mist" choice:"yes|no" doc:"whether it is sprayed so that people can breathe it"`

	Strength     units.Ratio            `json:"strength" range:"0.01 %..100 %" doc:"active substance in it as supplied"`
	WantedLow    units.Ratio            `json:"wanted_low" range:"0.0001 %..100 %" doc:"least strength wanted at the nozzle"`
	WantedHigh   units.Ratio            `json:"wanted_high" range:"0.0001 %..100 %" doc:"most strength wanted at the nozzle"`
	Density      units.Density          `json:"density" range:"5 lb/gal..17 lb/gal" doc:"of the chemical as supplied; nothing means as water"`
	Viscosity    units.DynamicViscosity `json:"viscosity" range:"0.2 cP..20000 cP" doc:"of the chemical as cold as it is used; nothing means as water"`
	Carried      units.Volume           `json:"carried" range:"0.01 gal..1000 gal" doc:"how much of it is on the rig"`
	Injector     Injector               `json:"injector" doc:"the jet that draws it into a line"`
	ChemicalPump ChemicalPump           `json:"chemical_pump" doc:"a small pump that sprays it through a line of its own"`
}

// An Injector is a jet at the head of a line that draws a chemical into it. Its
// sheet gives one point: flow, vacuum, draw and loss belong together.
type Injector struct {
	Line        string             `json:"line" ref:"lines" doc:"the line at whose head it stands, before the hose"`
	Flow        units.VolumeFlow   `json:"flow" range:"0.1 gpm..100 gpm" doc:"water flow at which it was rated"`
	Loss        units.Pressure     `json:"loss" range:"1 psi..3000 psi" doc:"pressure it takes from the water at that flow"`
	Vacuum      units.Pressure     `json:"vacuum" range:"0.1 inHg..29 inHg" doc:"vacuum it makes at that flow"`
	Draw        units.VolumeFlow   `json:"draw" range:"0.001 gpm..20 gpm" doc:"water it draws at that flow, without lift"`
	MinimumFlow units.VolumeFlow   `json:"minimum_flow" range:"0.05 gpm..100 gpm" doc:"least water flow at which it draws"`
	MaximumBack units.Ratio        `json:"maximum_back" range:"1 %..100 %" doc:"most pressure behind it over pressure before it at which it draws"`
	LinearShare units.Ratio        `json:"linear_share" range:"0 %..100 %" doc:"share of the loss in tube and metering valve that grows in proportion to the draw"`
	Lift        units.Length       `json:"lift" range:"-30 ft..30 ft" doc:"from the chemical up to the injector; negative where the chemical stands higher"`
	Tip         units.NozzleNumber `json:"tip" range:"0.1..400" doc:"low-pressure tip that the gun wears while it draws; nothing means the line's own nozzle"`
}

// A ChemicalPump is a small diaphragm pump with a pressure switch on a hose of
// its own.
type ChemicalPump struct {
	OpenFlow      units.VolumeFlow   `json:"open_flow" range:"0.05 gpm..50 gpm" doc:"flow against no pressure"`
	StallPressure units.Pressure     `json:"stall_pressure" range:"1 psi..500 psi" doc:"pressure at which it moves nothing"`
	CutOut        units.Pressure     `json:"cut_out" range:"1 psi..500 psi" doc:"pressure at which its switch stops it"`
	CutIn         units.Pressure     `json:"cut_in" range:"0.5 psi..500 psi" doc:"pressure at which its switch starts it again"`
	Stored        units.Volume       `json:"stored" range:"0.001 gal..20 gal" doc:"what hose and accumulator give between the two points of the switch"`
	Bore          units.Length       `json:"bore" range:"0.05 in..2 in" doc:"bore of its hose"`
	Length        units.Length       `json:"length" range:"1 ft..1000 ft" doc:"length of its hose"`
	Rise          units.Length       `json:"rise" range:"-100 ft..100 ft" doc:"climb from the chemical to the nozzle"`
	Tip           units.NozzleNumber `json:"tip" range:"0.01..400" doc:"nozzle at its end"`
	WantedFlow    units.VolumeFlow   `json:"wanted_flow" range:"0.01 gpm..50 gpm" doc:"flow wanted at its end"`
	LeastCycle    units.Duration     `json:"least_cycle" range:"0.5 s..3600 s" doc:"least time from start to start that its motor bears, from its maker"`
}

// given reports whether anything is said about the injector.
func (i *Injector) given() bool { return *i != Injector{} }

// given reports whether anything is said about the pump.
func (c *ChemicalPump) given() bool { return *c != ChemicalPump{} }

// senseOfChemicals refuses injectors and chemical pumps that are given by halves,
// and strengths that contradict each other.
func senseOfChemicals(s *Spec) []error {
	var errs []error
	missing := func(path, want string) {
		errs = append(errs, &units.FieldError{Path: path, Want: want, Err: units.ErrMissing})
	}
	conflict := func(path, value, want string) {
		errs = append(errs, &units.FieldError{Path: path, Value: value, Want: want, Err: units.ErrConflict})
	}
	for i := range s.Chemicals {
		c := &s.Chemicals[i]
		at := "chemicals[" + c.ID + "]"
		if c.WantedLow != 0 && c.WantedHigh != 0 && c.WantedHigh < c.WantedLow {
			conflict(at+".wanted_high", exact(c.WantedHigh), "at least the least wanted, "+exact(c.WantedLow))
		}
		for _, w := range []struct {
			name string
			v    units.Ratio
		}{{"wanted_low", c.WantedLow}, {"wanted_high", c.WantedHigh}} {
			switch {
			case w.v != 0 && c.Strength == 0:
				missing(at+".strength", "the strength as supplied, to hold what is wanted against")
			case w.v > c.Strength:
				conflict(at+"."+w.name, exact(w.v), "no more than the strength as supplied, "+exact(c.Strength))
			}
		}
		if j := &c.Injector; j.given() {
			p := at + ".injector"
			for _, f := range []struct {
				name, want string
				ok         bool
			}{{"line", "the line it stands in", j.Line != ""}, {"flow", "the water flow of its sheet, such as 4 gpm", j.Flow != 0}, {"loss", "what it takes from the water at that flow, such as 250 psi", j.Loss != 0},
				{"vacuum", "the vacuum it makes at that flow, such as 20 inHg", j.Vacuum != 0}, {"draw", "what it draws at that flow, such as 0.4 gpm", j.Draw != 0},
				{"maximum_back", "the back-pressure at which it stops, such as 65 %", j.MaximumBack != 0}} {
				if !f.ok {
					missing(p+"."+f.name, f.want)
				}
			}
			if c.Enters == "before-pump" {
				conflict(at+".enters", c.Enters, "after-coil or at-gun, where its injector stands")
			}
		}
		if k := &c.ChemicalPump; k.given() {
			p := at + ".chemical_pump"
			for _, f := range []struct {
				name, want string
				ok         bool
			}{{"open_flow", "its flow against no pressure, such as 1.8 gpm", k.OpenFlow != 0}, {"stall_pressure", "the pressure at which it moves nothing, such as 60 psi", k.StallPressure != 0},
				{"cut_out", "where its switch stops it, such as 45 psi", k.CutOut != 0}, {"cut_in", "where its switch starts it, such as 25 psi", k.CutIn != 0},
				{"bore", "the bore of its hose, such as 3/8 in", k.Bore != 0}, {"length", "the length of its hose, such as 150 ft", k.Length != 0}, {"tip", "the nozzle at its end, such as 8", k.Tip != 0}} {
				if !f.ok {
					missing(p+"."+f.name, f.want)
				}
			}
			if k.CutOut > k.StallPressure && k.StallPressure != 0 {
				conflict(p+".cut_out", exact(k.CutOut), "no more than the pressure at which it moves nothing, "+exact(k.StallPressure))
			}
			if k.CutIn > k.CutOut && k.CutOut != 0 {
				conflict(p+".cut_in", exact(k.CutIn), "no more than the pressure at which it stops, "+exact(k.CutOut))
			}
		}
	}
	return errs
}
