package sheet

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/quote"
	"example.com/washrig/units"
)

// Options choose how a sheet is written. The zero value is US units.
type Options struct {
	System units.System
	Full   bool // every judgement that passed and every assumed value, not only the nearest
}

const width = 100

// page collects a text page; the first write error ends it.
type page struct {
	w   io.Writer
	err error
}

func (p *page) line(format string, args ...any) {
	if p.err != nil {
		return
	}
	_, p.err = fmt.Fprintln(p.w, strings.TrimRight(fmt.Sprintf(format, args...), " "))
}

func (p *page) head(s string) {
	p.line("")
	p.line("%s", s)
	p.line("%s", strings.Repeat("-", utf8.RuneCountInString(s)))
}

// para writes words wrapped to the page, every line behind an indent.
func (p *page) para(indent, first, text string) {
	line := first
	empty := true
	for _, w := range strings.Fields(text) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) > width {
			p.line("%s", line)
			line, empty = indent, true
		}
		if !empty {
			line += " "
		}
		line += w
		empty = false
	}
	if !empty {
		p.line("%s", line)
	}
}

// table writes rows in columns as wide as their widest cell; columns whose
// heading begins with a bar are set flush right.
func (p *page) table(rows [][]string) {
	if len(rows) == 0 {
		return
	}
	right := make([]bool, len(rows[0]))
	for i, h := range rows[0] {
		if s, ok := strings.CutPrefix(h, "|"); ok {
			right[i], rows[0][i] = true, s
		}
	}
	wide := make([]int, len(rows[0]))
	for _, r := range rows {
		for i, c := range r {
			wide[i] = max(wide[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range rows {
		var b strings.Builder
		b.WriteString("  ")
		for i, c := range r {
			pad := strings.Repeat(" ", wide[i]-utf8.RuneCountInString(c))
			if right[i] {
				b.WriteString(pad + c)
			} else {
				b.WriteString(c + pad)
			}
			b.WriteString("  ")
		}
		p.line("%s", b.String())
	}
}

// WriteText writes a rig on a page as plain text: what was found, worst first;
// what it does in each mode; its weights by fill state; what starts and where
// it is plugged in; its price. The quote may be nil.
func WriteText(w io.Writer, rep *rig.Report, q *quote.Quote, o Options) error {
	p := &page{w: w}
	m := rep.Model()
	s := m.Spec()
	title := "Rig " + m.Name()
	if s.Title != "" {
		title += ": " + s.Title
	}
	p.line("%s", title)
	p.line("%s", strings.Repeat("=", utf8.RuneCountInString(title)))
	p.line("%s", verdictLine(rep))
	p.para("", "", siteLine(rep, s, o.System))
	p.para("", "", rig.Disclaimer)
	p.findings(rep, o)
	p.modes(rep, o)
	p.fills(rep, o)
	p.plugs(rep, o)
	p.price(q, o)
	p.passed(rep, o)
	p.origins(rep, o)
	p.cautions(rep)
	p.foot(rep, q)
	return p.err
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
	return line + "."
}

func (p *page) findings(rep *rig.Report, o Options) {
	groups := rep.Groups()
	if len(groups) == 0 {
		return
	}
	p.head("What was found, worst first")
	shown := map[string]bool{}
	n := 0
	for _, g := range groups {
		for k, f := range g.Findings {
			key := string(f.Reading.Path()) + string(f.Code)
			if shown[key] || (!o.Full && (n == 7 || (k > 0 && f.Severity < g.Findings[0].Severity))) {
				continue
			}
			n++
			same := likewise(rep, f)
			for _, l := range append(same, f) {
				shown[string(l.Reading.Path())+string(l.Code)] = true
			}
			p.finding(rep, f, same, o.System)
		}
	}
	if more := len(rep.Findings()) - len(shown); more > 0 {
		p.line("  and %d more of the same causes or of less weight.", more)
	}
}

// likewise returns the findings that say the same of other components: one
// code, one severity, and the same printed number.
func likewise(rep *rig.Report, f rig.Finding) []rig.Finding {
	var out []rig.Finding
	for _, g := range rep.Findings() {
		if g.Code == f.Code && g.Severity == f.Severity && g.Reading.Part != f.Reading.Part && g.Reading.Text(units.SI, 3) == f.Reading.Text(units.SI, 3) {
			out = append(out, g)
		}
	}
	return out
}

func (p *page) finding(rep *rig.Report, f rig.Finding, same []rig.Finding, sys units.System) {
	d, _ := rep.Doc(f.Code)
	mark := strings.ToUpper(f.Severity.String())
	where := component(f.Reading)
	for _, l := range same {
		where += ", likewise " + component(l.Reading)
	}
	p.para("      ", fmt.Sprintf("  %-4s ", mark), d.Title+" ("+where+", "+string(f.Code)+")")
	body := against(f, sys) + " — " + stateWords(rep.Model(), f.Reading.State)
	if f.Reading.State.Reach() == rig.Conceivable {
		body += " (conceivable)"
	}
	body += "."
	if f.Source != "" {
		body += " Limit: " + f.Source + "."
	}
	if d.Defers != "" {
		body += " Decides: " + d.Defers + "."
	}
	if f.Override != "" {
		body += " Limit overridden by " + f.Override + "."
	}
	p.para("       ", "       ", body)
	if l := leanWords(rep.Model(), f, sys); l != "" {
		p.para("       ", "       ", l)
	}
}

// cell returns the text of the worst reading of a path in a state, or a dash.
func cell(rep *rig.Report, path rig.Path, s rig.State, sys units.System) string {
	r, ok := rep.WorstIn(path, s)
	if !ok {
		return "–"
	}
	return r.Text(sys, digits)
}

func (p *page) modes(rep *rig.Report, o Options) {
	m := rep.Model()
	spec := m.Spec()
	if len(spec.Lines) == 0 {
		return
	}
	p.head("What it does")
	for _, mode := range m.Modes() {
		p.line("  %s", mode.Title)
		var rows [][]string
		rows = append(rows, []string{"gun", "|at the nozzle", "|flow", "|loss", "|reaction"})
		for _, g := range mode.Guns {
			at := rig.Path("lines[" + g + "].")
			rows = append(rows, []string{"  " + g, cell(rep, at+"nozzle_pressure", mode.State, o.System), cell(rep, at+"flow", mode.State, o.System),
				cell(rep, at+"loss", mode.State, o.System), cell(rep, at+"reaction", mode.State, o.System)})
		}
		if len(mode.Guns) > 0 {
			p.table(rows)
		}
		for i := range spec.Pumps {
			id := spec.Pumps[i].ID
			at := rig.Path("pumps[" + id + "].")
			line := fmt.Sprintf("    pump %s: %s at the pump, %s bypassed", id, cell(rep, at+"pressure", mode.State, o.System), cell(rep, at+"bypass_flow", mode.State, o.System))
			if e := spec.Pumps[i].Engine; e != "" {
				line += fmt.Sprintf("; engine %s asked %s of %s at the site", e, cell(rep, rig.Path("engines["+e+"].demand"), mode.State, o.System), cell(rep, rig.Path("engines["+e+"].available"), mode.State, o.System))
			}
			p.line("%s", line)
		}
		for i := range spec.Heaters {
			id := spec.Heaters[i].ID
			at := rig.Path("heaters[" + id + "].")
			if _, ok := rep.WorstIn(at+"outlet_temperature", mode.State); !ok {
				continue
			}
			p.line("    heater %s: %s out of the coil; %s needed, clean to %s; burner on %s of the time", id,
				cell(rep, at+"outlet_temperature", mode.State, o.System), cell(rep, at+"firing_rate", mode.State, o.System),
				cell(rep, at+"clean_firing", mode.State, o.System), cell(rep, at+"burner_share", mode.State, o.System))
		}
	}
	p.line("  Engines are asked with every load switched on, in the worst hour. Temperatures are at the coil;")
	p.line("  what the hose loses is not in them.")
}

func (p *page) fills(rep *rig.Report, o Options) {
	m := rep.Model()
	if _, ok := rep.Worst("trailer.total"); !ok {
		return
	}
	p.head("Weights by fill state")
	rows := [][]string{{"fill state", "|total", "|tongue", "|share", "|each axle", "|with vehicle"}}
	for _, f := range m.Fills() {
		name := f.Title
		if f.Reach == rig.Conceivable {
			name += " (conceivable)"
		}
		rows = append(rows, []string{name, cell(rep, "trailer.total", f.State, o.System), cell(rep, "trailer.tongue", f.State, o.System),
			cell(rep, "trailer.tongue_share", f.State, o.System), cell(rep, "trailer.axle", f.State, o.System), cell(rep, "tow_vehicle.combination", f.State, o.System)})
	}
	p.table(rows)
	low, high := math.Inf(1), math.Inf(-1)
	for r := range rep.All("trailer.tongue_share") {
		low, high = math.Min(low, r.Value.SI()), math.Max(high, r.Value.SI())
	}
	p.line("  Over every corner of the tanks the tongue carries %s to %s of the weight.", share(low), share(high))
}

func share(x float64) string { return fmt.Sprintf("%.1f %%", 100*x) }

func (p *page) plugs(rep *rig.Report, o Options) {
	m := rep.Model()
	spec := m.Spec()
	if len(spec.Sources) == 0 {
		return
	}
	p.head("What starts, and where it is plugged in")
	listed, err := m.ParseState("any")
	if err == nil && len(spec.Loads) > 0 {
		listed, err = m.ParseState("plugs=as-listed")
	}
	if err != nil {
		p.err = err
		return
	}
	rows := [][]string{{"source", "|running", "|run rating", "|worst start", "|start rating", "|restart", "loads"}}
	for i := range spec.Sources {
		id := spec.Sources[i].ID
		at := rig.Path("sources[" + id + "].")
		var on []string
		for k := range spec.Loads {
			if spec.Loads[k].Source == id {
				on = append(on, spec.Loads[k].ID)
			}
		}
		rows = append(rows, []string{id, cell(rep, at+"running", listed, o.System), cell(rep, at+"run_limit", listed, o.System), cell(rep, at+"start_peak", listed, o.System),
			cell(rep, at+"start_limit", listed, o.System), cell(rep, at+"restart_peak", listed, o.System), strings.Join(on, ", ")})
	}
	p.table(rows)
	p.line("  Ratings are those of the worst hour at the site. Worst start: hand loads in the best order, then")
	p.line("  everything that starts by itself at once. Restart: everything switched on when power comes back.")
	if opts := rep.PlugOptions(); len(opts) > 1 {
		for _, x := range opts {
			word := "carried"
			if x.Verdict > rig.Fix {
				word = "FAILS"
			}
			line := fmt.Sprintf("  %s: %s", plugWords(x.State.On(rig.AxisPlugs)), word)
			if x.Reading.Metric != nil {
				line += fmt.Sprintf(" (%s, %s %s against %s)", component(x.Reading), x.Reading.Metric.Label, x.Reading.Text(o.System, digits), x.Reading.Metric.Text(x.Limit, o.System, digits))
			}
			p.line("%s", line)
		}
	}
}

func (p *page) price(q *quote.Quote, o Options) {
	if q == nil {
		return
	}
	p.head("Price (the dealer's own page)")
	var rows [][]string
	rows = append(rows, []string{"line", "|count", "|cost", "|price"})
	for _, l := range q.Lines {
		text := l.Text
		if text == "" {
			text = string(l.Path)
		}
		if l.Hours != 0 {
			text += ", " + l.Hours.Quantity().Text(units.US, digits)
		}
		if l.Unpriced {
			text += " (no price)"
		}
		if l.Stale {
			text += " (price is old)"
		}
		if !o.Full && l.Cost.Cents() == 0 && !l.Unpriced {
			continue
		}
		rows = append(rows, []string{text, fmt.Sprint(l.Count), l.Cost.String(), l.Price.String()})
	}
	rows = append(rows, []string{"total", "", q.Cost.String(), q.Price.String()})
	p.table(rows)
	p.line("  Margin %.1f %% of the price; mark-up %.1f %% of the cost. Longest lead time %s (%s).", 100*q.Margin, 100*q.MarkUp, days(q.LeadTime), q.Longest)
	if q.Unpriced > 0 {
		p.line("  Incomplete: %d lines have no price.", q.Unpriced)
	}
	if q.Stale > 0 {
		p.line("  %d prices are older than %d days.", q.Stale, q.Book.HoldsFor)
	}
}

func (p *page) passed(rep *rig.Report, o Options) {
	list := rep.Passed()
	if len(list) == 0 {
		return
	}
	p.head("Checked and passed, narrowest first")
	n := 0
	for _, f := range list {
		if f.Limit.SI() == 0 || (!o.Full && n == 6) {
			continue
		}
		n++
		p.para("    ", "  ", fmt.Sprintf("%s: %s — %s. Limit: %s. %s", component(f.Reading), against(f, o.System), stateWords(rep.Model(), f.Reading.State), f.Source, leanWords(rep.Model(), f, o.System)))
	}
	if more := len(list) - n; more > 0 {
		p.line("  and %d more.", more)
	}
}

func (p *page) origins(rep *rig.Report, o Options) {
	m := rep.Model()
	if list := m.Assumed(); len(list) > 0 {
		p.head("Assumed values")
		for i, a := range list {
			if i == 12 && !o.Full {
				p.line("  and %d more.", len(list)-i)
				break
			}
			q, _ := m.Quantity(a.Path)
			why := a.Why
			if why == "" {
				why = "the specification says so"
			}
			p.para("    ", "  ", fmt.Sprintf("%s = %s (%s)", a.Path, q.Text(o.System, digits), why))
		}
	}
	if list := m.Open(); len(list) > 0 {
		p.head("Left open")
		for _, x := range list {
			p.para("    ", "  ", fmt.Sprintf("%s is not given: %s.", x.Path, x.Leave))
		}
	}
	if list := rep.Overrides(); len(list) > 0 {
		p.head("Limits the dealer changed")
		for _, x := range list {
			p.para("    ", "  ", fmt.Sprintf("%s: %s, %s, %s", x.Code, x.Who, x.When, x.Why))
		}
	}
}

func (p *page) cautions(rep *rig.Report) {
	p.head("Cautions")
	for _, c := range rig.Cautions() {
		p.para("    ", "  ", c.Hazard+". "+c.Text+" Decides: "+c.Defers+".")
	}
	p.head("Not checked here")
	p.para("  ", "  ", strings.Join(rig.NotChecked(), "; ")+".")
}

func (p *page) foot(rep *rig.Report, q *quote.Quote) {
	p.line("")
	line := fmt.Sprintf("washrig %s, format %s, specification %s", rig.Version, rig.Format, short(rep.Model().Digest()))
	if d := rep.Model().Shelf().Digest(); d != "" {
		line += ", shelf " + short(d)
	}
	if q != nil && q.Book.QuoteDay.Given() {
		line += ", prices of " + q.Book.QuoteDay.String()
	}
	p.line("%s", line)
}

func short(digest string) string {
	if len(digest) > 12 {
		return digest[:12]
	}
	return digest
}

// WriteComparison writes reports side by side as plain text.
func WriteComparison(w io.Writer, c *batch.Comparison, o Options) error {
	p := &page{w: w}
	p.line("Comparison: the worst state of each rig, against rig %s", c.Names[0])
	p.line("%s", strings.Repeat("=", 60))
	head := []string{"quantity"}
	verdict, counts := []string{"verdict"}, []string{"stop / cannot judge / fix / note"}
	for i, n := range c.Names {
		head = append(head, "|"+n)
		verdict = append(verdict, c.Counts[i].Verdict.String())
		counts = append(counts, fmt.Sprintf("%d / %d / %d / %d", c.Counts[i].Stops, c.Counts[i].Unjudged, c.Counts[i].Fixes, c.Counts[i].Notes))
	}
	rows := [][]string{head, verdict, counts}
	for _, r := range c.Rows {
		row := []string{r.Metric.Label}
		for _, x := range r.Cells {
			t := "–"
			if x.Given {
				t = x.Reading.Text(o.System, digits)
				switch x.Against {
				case batch.Tie:
					t += " ="
				case batch.Better:
					t += " +"
				case batch.Worse:
					t += " −"
				}
			}
			row = append(row, t)
		}
		rows = append(rows, row)
	}
	p.table(rows)
	p.line("  = tie with the first rig, + better, − worse, no mark where neither way is better. There is no score.")
	return p.err
}
