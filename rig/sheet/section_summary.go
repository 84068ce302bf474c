package sheet

import (
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// summary is the verdict, the site it holds for, and the disclaimer.
func summary(d *Document, in *source) error {
	d.Add(Paragraph{Text: verdictLine(in.rep), Strong: true}, Paragraph{Text: siteLine(in.rep, in.spec, in.o.System)}, Paragraph{Text: rig.Disclaimer})
	return nil
}

func verdictLine(rep *rig.Report) string {
	var w []string
	for _, sev := range []rig.Severity{rig.Stop, rig.CannotJudge, rig.Fix, rig.Note} {
		if n := rep.Count(sev); n > 0 {
			w = append(w, fmt.Sprintf("%d × %v", n, sev))
		}
	}
	if len(w) == 0 {
		return "No finding in the checked states."
	}
	switch rep.Verdict() {
	case rig.Stop:
		return "STOP. Found: " + strings.Join(w, ", ") + "."
	case rig.CannotJudge:
		return "CANNOT JUDGE. Found: " + strings.Join(w, ", ") + "."
	}
	return "No stop in the checked states. Found: " + strings.Join(w, ", ") + "."
}

func siteLine(rep *rig.Report, s *rig.Spec, sys units.System) string {
	line := "Site"
	if s.Site.Elevation.Given() {
		line += " " + s.Site.Elevation.Quantity().Text(sys, digits)
	} else {
		line += " elevation not given"
	}
	for _, c := range s.Site.Conditions {
		line += "; " + c.ID + " " + c.Air.Quantity().Text(sys, digits)
	}
	line += "; water " + s.Site.Water.Quantity().Text(sys, digits)
	if r, ok := rep.Worst("site.boiling_point"); ok {
		line += "; water boils at " + r.Text(sys, digits)
	}
	for i := range s.Heaters {
		h := &s.Heaters[i]
		part := ""
		if h.Thermostat.Given() {
			part = "thermostat " + h.Thermostat.Quantity().Text(sys, digits)
		}
		if h.HighLimit.Given() {
			part = join(part, "high limit "+h.HighLimit.Quantity().Text(sys, digits))
		}
		if r, ok := rep.Worst(rig.Path("heaters[" + h.ID + "].clean_firing")); ok {
			part = join(part, "burns clean up to "+r.Text(sys, digits))
		}
		if part != "" {
			line += "; " + named("heater", h.ID) + ": " + part
		}
	}
	return line + "."
}

// join adds a piece to a list in words.
func join(list, more string) string {
	if list == "" {
		return more
	}
	return list + ", " + more
}
