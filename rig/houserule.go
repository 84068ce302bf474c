package rig

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A HouseRule is a dealer's own check, written as data by a technician. It runs
// beside the library's checks and may be stricter than they are, never looser:
// it only adds findings.
//
// A rule looks at one field of the specification, one metric, or the price.
// Exactly one of Field, Metric and Price is given, and exactly one demand: Given,
// OneOf, Has, AtLeast or AtMost. A field's pattern covers every component; Where
// narrows it to those whose other field has a word. Has is for lists in the order
// of flow or of work, such as lines[].elements: each must hold an element of that
// id, part number or sort, and with Before, ahead of every element of the other
// word; a word that is no sort, no part number and no id of such a list breaks the
// rule, and the finding says so. Given is also for whole groups and lists, such as
// pumps[].thermal_relief. A rule about the price is judged with a quote, not with a report; see
// Policy.Prices.
type HouseRule struct {
	ID       string   `json:"id" doc:"short name; the code of its finding is house- and this name"`
	Author   string   `json:"author" need:"yes" doc:"who wrote the rule; printed with every finding"`
	Text     string   `json:"text" need:"yes" doc:"the rule in the author's words; printed as it stands"`
	Severity string   `json:"severity" choice:"note|fix|stop" doc:"weight of a breach; nothing means fix"`
	Field    string   `json:"field" doc:"pattern of a field of the specification, such as pumps[].relief.part"`
	Metric   string   `json:"metric" doc:"path or pattern of a metric, such as lines[].nozzle_pressure; its worst state counts"`
	Price    string   `json:"price" choice:"mark_up|margin|line_mark_up" doc:"what of the quote: mark-up or margin of the rig, or the mark-up of every line"`
	Where    string   `json:"where" doc:"another field of the same component and its word, such as type=portable"`
	Given    bool     `json:"given" doc:"the field must hold something"`
	OneOf    []string `json:"one_of" doc:"the field must hold one of these texts; of a list of words, each word"`
	Has      string   `json:"has" doc:"the list must hold an element of this id, part number or sort, such as valve"`
	Before   string   `json:"before" doc:"with has: it stands ahead of every element of this id, part number or sort, such as filter"`
	AtLeast  string   `json:"at_least" doc:"least quantity allowed, such as 3 gpm"`
	AtMost   string   `json:"at_most" doc:"greatest quantity allowed"`
}

// Weight is the severity of a breach; zero for a word that is none.
func (h HouseRule) Weight() Severity {
	switch h.Severity {
	case "note":
		return Note
	case "", "fix":
		return Fix
	case "stop":
		return Stop
	}
	return 0
}

// sense checks what every rule needs: a name, an author, words, a weight, one
// subject and one demand.
func (h HouseRule) sense() error {
	bad := func(field, value, want string, err error) error {
		return &units.FieldError{Path: field, Value: value, Want: want, Err: err}
	}
	if !fields.ValidID(h.ID) {
		return bad("id", strconv.Quote(h.ID), "a short name of small letters, digits and hyphens", units.ErrSyntax)
	}
	for _, x := range [][2]string{{"author", h.Author}, {"text", h.Text}} {
		if x[1] == "" {
			return bad(x[0], "", "words that are printed with the finding", units.ErrMissing)
		}
		if err := fields.CleanText(x[1]); err != nil {
			return units.At(x[0], err)
		}
	}
	count := func(given ...bool) (n int) {
		for _, g := range given {
			if g {
				n++
			}
		}
		return n
	}
	switch {
	case count(h.Given, len(h.OneOf) > 0, h.Has != "", h.AtLeast != "", h.AtMost != "") != 1:
		return bad("given", "", "exactly one of given, one_of, has, at_least and at_most", units.ErrConflict)
	case count(h.Field != "", h.Metric != "", h.Price != "") != 1:
		return bad("field", h.Field, "exactly one of field, metric and price", units.ErrConflict)
	case h.Before != "" && h.Has == "":
		return bad("before", h.Before, "has beside it", units.ErrConflict)
	case h.Weight() == 0:
		return bad("severity", h.Severity, "note, fix or stop", units.ErrRange)
	}
	return nil
}

// PriceLimit returns the ratio that a rule about the price holds a quote against,
// and whether it is the least or the most allowed. It refuses a rule that is not
// about the price.
func (h HouseRule) PriceLimit() (limit units.Ratio, least bool, err error) {
	if err := h.sense(); err != nil {
		return 0, false, err
	}
	bad := func(field, value, want string, err error) (units.Ratio, bool, error) {
		return 0, false, &units.FieldError{Path: field, Value: value, Want: want, Err: err}
	}
	switch h.Price {
	case "mark_up", "margin", "line_mark_up":
	default:
		return bad("price", h.Price, "mark_up, margin or line_mark_up", units.ErrRange)
	}
	name, text, least := "at_most", h.AtMost, false
	if h.AtLeast != "" {
		name, text, least = "at_least", h.AtLeast, true
	}
	if text == "" || h.Where != "" {
		return bad("price", h.Price, "at_least or at_most with a price, and no where", units.ErrConflict)
	}
	if limit, err = units.ParseRatio(text); err != nil {
		return 0, false, units.At(name, err)
	}
	if err := inPerCent(name, text, float64(limit)); err != nil {
		return 0, false, err
	}
	return limit, least, nil
}

// inPerCent refuses a share of one and more that is written without a per cent sign:
// 20 is 2000 %, and was meant as 20 %.
func inPerCent(field, text string, share float64) error {
	if share < 1 || strings.Contains(text, "%") {
		return nil
	}
	return &units.FieldError{Path: field, Value: text, Want: text + " %, or " + units.FormatNumber(100*share, 6) + " % if that is meant", Err: problem.Words("a share without a per cent sign", units.ErrSyntax)}
}

// Check turns the rule into a check, or says what is wrong with it. A word that the
// field never holds is refused; a component that a rig may have or not is not.
func (h HouseRule) Check() (Check, error) {
	t, err := specTable()
	if err != nil {
		return nil, err
	}
	if err := h.sense(); err != nil {
		return nil, err
	}
	bad := func(field, value, want string, err error) (Check, error) {
		return nil, &units.FieldError{Path: field, Value: value, Want: want, Err: err}
	}
	if h.Price != "" {
		return bad("price", h.Price, "a rule about a field or a metric; a price is judged with a quote", units.ErrConflict)
	}
	c := &houseCheck{rule: h, severity: h.Weight()}
	if h.Has != "" {
		row, ok := t.Lookup(h.Field)
		if !ok || row.Role != fields.List || row.Pattern != h.Field {
			return bad("field", h.Field, "the pattern of a list, such as lines[].elements", fields.ErrUnknown)
		}
		c.metric = &Metric{Path: Path(row.Pattern), Label: row.Doc, Formula: "as given", Source: "specification"}
	} else if h.Field != "" {
		row, ok := t.Lookup(h.Field)
		switch {
		case !ok || row.Pattern != h.Field:
			return bad("field", h.Field, "the pattern of a field, such as pumps[].relief.part", fields.ErrUnknown)
		case (row.Role == fields.Group || row.Role == fields.List) && !h.Given:
			return bad("field", h.Field, "given beside it, or a field of that group that holds one value", units.ErrConflict)
		case row.Role == fields.PathTable:
			return bad("field", h.Field, "the pattern of a field that the specification states", units.ErrConflict)
		}
		for i, w := range h.OneOf {
			if err := heldBy(row, w); err != nil {
				return nil, units.At("one_of[#"+strconv.Itoa(i+1)+"]", err)
			}
			if row.Kind.Valid() {
				q, err := units.ParseQuantity(row.Kind, w)
				if err != nil {
					return nil, units.At("one_of[#"+strconv.Itoa(i+1)+"]", err)
				}
				c.oneOf = append(c.oneOf, q)
			}
		}
		c.share = strings.HasSuffix(row.Low, "%") || strings.HasSuffix(row.High, "%")
		c.metric = &Metric{Path: Path(row.Pattern), Kind: row.Kind, Label: row.Doc, Formula: "as given", Source: "specification"}
	} else {
		if h.Given || len(h.OneOf) > 0 || h.Has != "" || h.Where != "" {
			return bad("metric", h.Metric, "at_least or at_most with a metric, and no where", units.ErrConflict)
		}
		for _, m := range metricTable {
			if m.Path == Path(h.Metric).Pattern() {
				c.metric = m
			}
		}
		if c.metric == nil || !wellFormed(h.Metric) {
			return bad("metric", h.Metric, "the path of a metric, such as lines[].nozzle_pressure or lines[left].nozzle_pressure", fields.ErrUnknown)
		}
		c.share = c.metric.Unit(units.US).Symbol() == "%"
	}
	if text := h.AtLeast + h.AtMost; text != "" {
		name := "at_least"
		c.bad = Lower
		if h.AtMost != "" {
			name, c.bad = "at_most", Higher
		}
		if !c.metric.Kind.Valid() {
			return bad(name, text, "given or one_of; the field is no quantity", units.ErrConflict)
		}
		if c.limit, err = units.ParseQuantity(c.metric.Kind, text); err != nil {
			return nil, units.At(name, err)
		}
		if c.share {
			if err := inPerCent(name, text, c.limit.SI()); err != nil {
				return nil, err
			}
		}
	}
	if h.Where != "" {
		name, word, ok := strings.Cut(h.Where, "=")
		list, _, has := strings.Cut(h.Field, "[]")
		if !ok || !has {
			return bad("where", h.Where, "a field of the same component and its word, such as type=portable", units.ErrSyntax)
		}
		row, ok := t.Lookup(list + "[]." + name)
		switch {
		case !ok:
			return bad("where", h.Where, "a field of "+list, fields.ErrUnknown)
		case row.Role == fields.Group || row.Role == fields.List || row.Role == fields.PathTable || row.Role == fields.Words:
			return bad("where", h.Where, "a field of "+list+" that holds one value", units.ErrConflict)
		}
		if err := heldBy(row, word); err != nil {
			return nil, units.At("where", err)
		}
		if row.Kind.Valid() && word != "" {
			if c.where, err = units.ParseQuantity(row.Kind, word); err != nil {
				return nil, units.At("where", err)
			}
		}
	}
	return c, nil
}

// heldBy refuses a text that a field never holds, such as a mistyped word of a choice:
// a rule about it would never, or always, fire. No text stands for nothing.
func heldBy(row *fields.Field, text string) error {
	if text == "" {
		return nil
	}
	return row.Accepts(text)
}

// wellFormed reports whether every bracket of a path holds an id or nothing.
func wellFormed(path string) bool {
	for rest := path; ; {
		before, after, ok := strings.Cut(rest, "[")
		if strings.ContainsRune(before, ']') {
			return false
		}
		if !ok {
			return true
		}
		id, next, ok := strings.Cut(after, "]")
		if !ok || id != "" && !fields.ValidID(id) {
			return false
		}
		rest = next
	}
}

// houseCheck runs a house rule.
type houseCheck struct {
	rule     HouseRule
	severity Severity
	metric   *Metric
	limit    units.Quantity
	bad      Direction
	share    bool             // the number is a share, which is written in per cent
	oneOf    []units.Quantity // of a field that holds a quantity
	where    units.Quantity   // what where asks for, if it is a quantity
}

// Codes returns the one code of the rule.
func (c *houseCheck) Codes() []CodeDoc {
	d := CodeDoc{Code: Code("house-" + c.rule.ID), Title: c.rule.Text, Meaning: "House rule of " + c.rule.Author + ": " + c.rule.Text, Metric: c.metric.Path, Bad: c.bad, Defers: c.rule.Author}
	switch c.severity {
	case Note:
		d.Limit.Note = c.limit
	case Fix:
		d.Limit.Fix = c.limit
	case Stop:
		d.Limit.Stop = c.limit
	}
	d.Limit.Source = "house rule of " + c.rule.Author
	return []CodeDoc{d}
}

// Check reports every breach of the rule, and a pass where it is kept.
func (c *houseCheck) Check(v *View, report func(Finding)) {
	code := Code("house-" + c.rule.ID)
	t, err := specTable()
	if err != nil {
		return
	}
	out := func(r Reading, broken bool, m float64) {
		f := Finding{Code: code, Severity: Pass, Reading: r, Limit: c.limit, Margin: m, Source: "house rule of " + c.rule.Author, Root: "house " + c.rule.ID}
		if !r.Value.Given() {
			f.Found, f.Wanted = c.found(t, v, r.Path()), c.wanted()
		}
		if broken {
			f.Severity = c.severity
		}
		report(f)
	}
	if c.rule.Metric != "" {
		if !c.worst(v, out) {
			c.absent(t, v, report)
		}
		return
	}
	t.Walk(v.model.spec, func(vis *fields.Visit) bool {
		p := Path(vis.Path())
		if p.Pattern() != c.metric.Path || !c.applies(t, v, p) {
			return true
		}
		r := Reading{Metric: c.metric, Part: elementOf(p), State: State{set: v.model.axes}}
		switch {
		case c.rule.Has != "":
			out(r, !c.ordered(t, v, vis), 0)
		case c.rule.Given:
			out(r, vis.Value.IsZero() || vis.Field.Role == fields.List && vis.Value.Len() == 0, 0)
		case len(c.rule.OneOf) > 0 && vis.Field.Role == fields.Words:
			broken := vis.Value.Len() == 0
			for i := range vis.Value.Len() {
				broken = broken || !slices.Contains(c.rule.OneOf, vis.Value.Index(i).String())
			}
			out(r, broken, 0)
		case len(c.rule.OneOf) > 0:
			text, given, err := t.Get(v.model.spec, vis.Path())
			broken := err != nil || !given
			if !broken {
				broken = true
				q, _ := v.model.Quantity(p)
				for i, w := range c.rule.OneOf {
					broken = broken && w != text && !(i < len(c.oneOf) && c.oneOf[i].SI() == q.SI())
				}
			}
			out(r, broken, 0)
		default:
			q, given := v.model.Quantity(p)
			if !given {
				return true // nothing to hold against the limit
			}
			r.Value = q
			m := margin(q, c.limit, c.bad)
			out(r, m < 0, m)
		}
		return true
	})
}

// wanted says what a rule about a word asks for.
func (c *houseCheck) wanted() string {
	switch h := &c.rule; {
	case h.Has != "" && h.Before != "":
		return h.Has + " ahead of every " + h.Before
	case h.Has != "":
		return h.Has
	case h.Given:
		return "anything"
	default:
		return strings.Join(h.OneOf, " or ")
	}
}

// found says what stands where a rule about a word looks: the text of a field, or the
// elements of a list in their order.
func (c *houseCheck) found(t *fields.Table, v *View, p Path) string {
	if row, ok := t.Lookup(string(p)); ok && row.Role == fields.Words {
		if list, ok := t.Value(v.model.spec, string(p)); ok {
			var words []string
			for i := range list.Len() {
				words = append(words, list.Index(i).String())
			}
			return strings.Join(words, ", ")
		}
		return ""
	}
	if c.rule.Has == "" {
		if text, given, err := t.Get(v.model.spec, string(p)); err == nil && given {
			return text
		}
		return ""
	}
	var out []string
	t.Walk(v.model.spec, func(vis *fields.Visit) bool {
		if vis.Field.Role == fields.List && Path(vis.Path()) == p {
			for i := range vis.Value.Len() {
				id := vis.Value.Index(i).FieldByName("ID").String()
				if sort, given, err := t.Get(v.model.spec, string(p)+"["+id+"].sort"); err == nil && given && sort != id {
					id += " (" + sort + ")"
				}
				out = append(out, id)
			}
		}
		return true
	})
	if unknown := c.unknown(t, v); unknown != "" {
		out = append(out, "; "+strconv.Quote(unknown)+" is no sort, no part number and no element of the rig")
	}
	return strings.ReplaceAll(strings.Join(out, ", "), ", ;", ";")
}

// unknown returns a word of has and before that nothing answers to: no sort of the
// list's elements, no part number of shelf or rig, and no element of such a list.
// A mistyped word must not read as a rule that is kept.
func (c *houseCheck) unknown(t *fields.Table, v *View) string {
	for _, word := range [...]string{c.rule.Has, c.rule.Before} {
		if word == "" || c.answers(t, v, word) {
			continue
		}
		return word
	}
	return ""
}

func (c *houseCheck) answers(t *fields.Table, v *View, word string) bool {
	if row, ok := t.Lookup(c.rule.Field + "[].sort"); ok && slices.Contains(row.Choices, word) {
		return true
	}
	if shelf := v.model.shelf; shelf != nil {
		if _, err := shelf.Part(word); err == nil {
			return true
		}
	}
	found := false
	t.Walk(v.model.spec, func(vis *fields.Visit) bool {
		if vis.Field.Role == fields.List && Path(vis.Path()).Pattern() == c.metric.Path {
			for i := range vis.Value.Len() {
				e := vis.Value.Index(i)
				part := e.FieldByName("Part")
				found = found || e.FieldByName("ID").String() == word || part.IsValid() && part.String() == word
			}
		}
		return !found
	})
	return found
}

// ordered reports whether a list holds what the rule asks for, where it asks for
// it.
func (c *houseCheck) ordered(t *fields.Table, v *View, list *fields.Visit) bool {
	is := func(id, word string) bool {
		if id == word {
			return true
		}
		for _, name := range [...]string{"part", "sort"} {
			if have, given, err := t.Get(v.model.spec, list.Path()+"["+id+"]."+name); err == nil && given && have == word {
				return true
			}
		}
		return false
	}
	if c.unknown(t, v) != "" {
		return false
	}
	had := false
	for i := range list.Value.Len() {
		id := list.Value.Index(i).FieldByName("ID").String()
		if c.rule.Before != "" && is(id, c.rule.Before) && !had {
			return false
		}
		had = had || is(id, c.rule.Has)
	}
	return had || c.rule.Before != ""
}

// absent passes a rule about a component that the rig has not, and says so: a rule
// is for all rigs, and a mistyped id must not read as a limit that is kept.
func (c *houseCheck) absent(t *fields.Table, v *View, report func(Finding)) {
	end := strings.IndexByte(c.rule.Metric, ']')
	if end < 0 || elementOf(Path(c.rule.Metric)) == "" || t.Exists(v.model.spec, c.rule.Metric[:end+1]) == nil {
		return
	}
	report(Finding{Code: Code("house-" + c.rule.ID), Severity: Pass, Source: "house rule of " + c.rule.Author, Root: "house " + c.rule.ID,
		Reading: Reading{Metric: c.metric, Part: elementOf(Path(c.rule.Metric)), State: State{set: v.model.axes}},
		Found:   "nothing: the rig has no " + c.rule.Metric[:end+1], Wanted: c.rule.AtLeast + c.rule.AtMost})
}

// worst holds the worst reading of each component against the limit, and reports
// whether there is any.
func (c *houseCheck) worst(v *View, out func(Reading, bool, float64)) bool {
	var parts []string
	worst := map[string]Reading{}
	least := map[string]float64{}
	for r := range v.All(Path(c.rule.Metric)) {
		if r.State.Reach() == Fault || r.State.v[AxisPlugs] > 1 {
			continue
		}
		m := margin(r.Value, c.limit, c.bad)
		if old, seen := least[r.Part]; !seen || m < old {
			if !seen {
				parts = append(parts, r.Part)
			}
			worst[r.Part], least[r.Part] = r, m
		}
	}
	for _, p := range parts {
		out(worst[p], least[p] < 0, least[p])
	}
	return len(parts) > 0
}

// applies reports whether the component of a path is one the rule means.
func (c *houseCheck) applies(t *fields.Table, v *View, p Path) bool {
	name, word, ok := strings.Cut(c.rule.Where, "=")
	if !ok {
		return true
	}
	end := strings.IndexByte(string(p), ']')
	if end < 0 {
		return false
	}
	at := string(p[:end+1]) + "." + name
	if c.where.Given() {
		q, given := v.model.Quantity(Path(at))
		return given && q.SI() == c.where.SI()
	}
	have, _, err := t.Get(v.model.spec, at)
	return err == nil && have == word
}

// elementOf returns the id in the first brackets of a path.
func elementOf(p Path) string {
	_, rest, ok := strings.Cut(string(p), "[")
	if !ok {
		return ""
	}
	id, _, _ := strings.Cut(rest, "]")
	return id
}

// HouseRules makes the checks of a list of rules; all problems are returned
// together. Rules about the price are no checks of a report: they belong into
// Policy.Prices.
func HouseRules(rules ...HouseRule) ([]Check, error) {
	var out []Check
	var errs []error
	seen := map[string]bool{}
	for i, h := range rules {
		at := fmt.Sprintf("rules[#%d]", i+1)
		if fields.ValidID(h.ID) {
			at = "rules[" + h.ID + "]"
		}
		if seen[h.ID] {
			errs = append(errs, &units.FieldError{Path: at, Value: h.ID, Want: "a name no other rule has", Err: problem.Words("this name is taken", units.ErrConflict)})
			continue
		}
		seen[h.ID] = true
		c, err := h.Check()
		if err != nil {
			errs = append(errs, units.At(at, err))
			continue
		}
		out = append(out, c)
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return out, nil
}
