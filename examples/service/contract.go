package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/washrig/examples/internal/load"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// Formats of the two documents.
const (
	requestFormat  = "washrig-request/1"
	responseFormat = "washrig-response/1"
)

//go:embed schema/request.schema.json
var requestSchema string

//go:embed schema/response.schema.json
var responseSchema string

// A request is one question: a rig, what it is made of and bought for, and what
// is wanted back. The parts of a request are the library's own files, each as
// strict as its file.
type request struct {
	Format     string          `json:"format" const:"washrig-request/1" doc:"format of this document"`
	Spec       json.RawMessage `json:"spec" doc:"the specification, as in spec.schema.json"`
	Shelf      json.RawMessage `json:"shelf,omitempty" doc:"the dealer's shelf of parts, as in shelf.schema.json"`
	Book       json.RawMessage `json:"book,omitempty" doc:"the dealer's price book; without it there is no quote"`
	Policy     json.RawMessage `json:"policy,omitempty" doc:"changed limits and defaults, house rules"`
	Letterhead json.RawMessage `json:"letterhead,omitempty" doc:"name block, terms and lines to sign on, for pages"`
	Options    options         `json:"options,omitempty" doc:"what is wanted back"`
}

type options struct {
	Units     string   `json:"units,omitempty" enum:"us|si" doc:"units of pages and of the customer's figures; us if left out"`
	Report    *bool    `json:"report,omitempty" doc:"whether the report is wanted; if left out it is for a dealer and is not for a customer"`
	BreakEven *bool    `json:"break_even,omitempty" doc:"whether to search where verdicts turn; true if left out. Verdicts are the same without it, and the answer comes sooner"`
	Audience  string   `json:"audience,omitempty" enum:"dealer|customer" doc:"who the quote and the pages are for; customer if left out. An answer for a customer holds no cost, margin or supplier's number"`
	Pages     []string `json:"pages,omitempty" doc:"pages to lay out: dealer, customer, technician, weights, start, mode-cards, parked, walk-round"`
	Form      string   `json:"form,omitempty" enum:"html|markdown|text" doc:"form of the pages; html if left out"`
}

// A response answers one request. Either problems or the rest is there.
type response struct {
	Format   string              `json:"format" const:"washrig-response/1" doc:"format of this document"`
	Version  string              `json:"version" doc:"version of the library"`
	OK       bool                `json:"ok" doc:"whether the request was answered; a rig that must not be used is an answer too"`
	Problems []problem           `json:"problems,omitempty" doc:"what is wrong with the request, all at once"`
	Report   *rig.Report         `json:"report,omitempty" doc:"the report, as in report.schema.json"`
	Quote    *quote.Quote        `json:"quote,omitempty" doc:"for a dealer: as in quote.schema.json"`
	Customer *sheet.CustomerPage `json:"customer,omitempty" doc:"for a customer: as in customer-page.schema.json, with the quote in it"`
	Pages    map[string]string   `json:"pages,omitempty" doc:"the pages asked for, by name"`
	Cautions []rig.Caution       `json:"cautions" doc:"standing safety texts; they travel with every answer"`
}

// A problem is one thing that is wrong, as a form can show it beside a field.
type problem struct {
	Path    string `json:"path,omitempty" doc:"the field of the request, such as spec.lines[left].hose.length"`
	Line    int    `json:"line,omitempty" doc:"line of the request, from 1"`
	Column  int    `json:"column,omitempty" doc:"column of that line, from 1"`
	Value   string `json:"value,omitempty" doc:"what was given"`
	Want    string `json:"want,omitempty" doc:"what would do"`
	Message string `json:"message" doc:"the whole problem in words; may be reworded"`
}

// maxRequest bounds a request in bytes.
const maxRequest = 20 << 20

// answer answers one request. It never fails: what is wrong is in the answer.
func answer(body []byte) response {
	out := response{Format: responseFormat, Version: rig.Version, Cautions: rig.Cautions()}
	refuse := func(err error) response {
		out.Problems = problems(err)
		return out
	}
	req, at, err := readRequest(body)
	if err != nil {
		return refuse(err)
	}
	j, err := req.read(body, at)
	if err != nil {
		return refuse(err)
	}
	if err := j.fill(&out); err != nil {
		return refuse(err)
	}
	out.OK = true
	return out
}

// A job is a request read and understood.
type job struct {
	model *rig.Model
	book  *quote.Book
	pol   *rig.Policy
	o     sheet.Options
	want  options
}

// readRequest reads the frame of a request: which members there are and where
// they begin. It is as strict as the readers of the members.
func readRequest(body []byte) (*request, map[string]int64, error) {
	if len(body) > maxRequest {
		return nil, nil, fmt.Errorf("the request has more than %d bytes", maxRequest)
	}
	if !utf8.Valid(body) {
		return nil, nil, errors.New("the request is not valid UTF-8")
	}
	req := &request{}
	var format, wanted json.RawMessage
	at, err := members(body, 0, int64(len(body)), "", []member{
		{"format", &format}, {"spec", &req.Spec}, {"shelf", &req.Shelf}, {"book", &req.Book},
		{"policy", &req.Policy}, {"letterhead", &req.Letterhead}, {"options", &wanted},
	})
	if err != nil {
		return nil, nil, err
	}
	if err := json.Unmarshal(format, &req.Format); err != nil || req.Format != requestFormat {
		if err := parts.CheckFormat(req.Format, requestFormat); err != nil {
			return nil, nil, err
		}
	}
	if req.Spec == nil {
		return nil, nil, &units.FieldError{Path: "spec", Want: "a specification", Err: units.ErrMissing}
	}
	if wanted != nil {
		from := at["options"]
		if err := req.Options.read(body, from, from+int64(len(wanted))); err != nil {
			return nil, nil, err
		}
	}
	return req, at, req.Options.check()
}

// A member is one of the members an object may have.
type member struct {
	name string
	raw  *json.RawMessage
}

// members reads the object that stands in body between two offsets, and
// returns where the value of each member begins. A name counts with its case and
// may stand once; path names the object in problems, "" being the request.
func members(body []byte, from, to int64, path string, known []member) (map[string]int64, error) {
	d := json.NewDecoder(bytes.NewReader(body[from:to]))
	fail := func(want string) (map[string]int64, error) {
		line, column := position(body, from+d.InputOffset())
		p := &rig.Problem{Line: line, Column: column, Path: path, Err: &units.FieldError{Path: path, Want: want, Err: units.ErrSyntax}}
		if path == "" {
			p.Err = &units.FieldError{Path: "request", Want: want, Err: units.ErrSyntax}
		}
		return nil, p
	}
	if tok, err := d.Token(); err != nil || tok != json.Delim('{') {
		return fail("an object in braces")
	}
	var names []string
	for _, m := range known {
		names = append(names, m.name)
	}
	at := map[string]int64{}
	for d.More() {
		tok, err := d.Token()
		name, isName := tok.(string)
		if err != nil || !isName {
			return fail("the name of a member in quotes")
		}
		i := slices.Index(names, name)
		if i < 0 {
			return fail("only " + strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1])
		}
		if *known[i].raw != nil {
			return fail(name + " once")
		}
		if err := d.Decode(known[i].raw); err != nil {
			return fail("a value of " + name)
		}
		if string(*known[i].raw) == "null" {
			return fail("a value of " + name + "; leave it out if there is none")
		}
		at[name] = from + d.InputOffset() - int64(len(*known[i].raw))
	}
	if _, err := d.Token(); err != nil {
		return fail("the end of the object")
	}
	if _, err := d.Token(); err != io.EOF {
		return fail("nothing after the end of the object")
	}
	return at, nil
}

// read reads the options that stand in body between two offsets.
func (o *options) read(body []byte, from, to int64) error {
	fields := []struct {
		name string
		to   any
		want string
		raw  json.RawMessage
	}{
		{"units", &o.Units, "a word in quotes", nil},
		{"report", &o.Report, "true or false", nil},
		{"break_even", &o.BreakEven, "true or false", nil},
		{"audience", &o.Audience, "a word in quotes", nil},
		{"pages", &o.Pages, "a list of words in quotes", nil},
		{"form", &o.Form, "a word in quotes", nil},
	}
	var known []member
	for i := range fields {
		known = append(known, member{fields[i].name, &fields[i].raw})
	}
	at, err := members(body, from, to, "options", known)
	if err != nil {
		return err
	}
	var errs []error
	for _, f := range fields {
		if f.raw == nil {
			continue
		}
		if err := json.Unmarshal(f.raw, f.to); err != nil {
			path := "options." + f.name
			line, column := position(body, at[f.name])
			errs = append(errs, &rig.Problem{Line: line, Column: column, Path: path, Err: &units.FieldError{Path: path, Value: clipped(f.raw), Want: f.want, Err: units.ErrSyntax}})
		}
	}
	return errors.Join(errs...)
}

// clipped is the text of a value, short enough for a message.
func clipped(raw json.RawMessage) string {
	const most = 60
	if r := []rune(string(raw)); len(r) > most {
		return string(r[:most]) + "…"
	}
	return string(raw)
}

func (o *options) check() error {
	var errs []error
	word := func(path string, value *string, usual string, choices ...string) {
		if *value == "" {
			*value = usual
		}
		for _, c := range choices {
			if *value == c {
				return
			}
		}
		errs = append(errs, &units.FieldError{Path: "options." + path, Value: fmt.Sprintf("%q", *value), Want: "one of " + strings.Join(choices, ", "), Err: units.ErrRange})
	}
	word("units", &o.Units, "us", "us", "si")
	word("audience", &o.Audience, "customer", "dealer", "customer")
	word("form", &o.Form, "html", "html", "markdown", "text")
	for i := range o.Pages {
		name := fmt.Sprintf("pages[#%d]", i+1)
		if o.Pages[i] == "" {
			errs = append(errs, &units.FieldError{Path: "options." + name, Want: "the name of a page", Err: units.ErrMissing})
			continue
		}
		word(name, &o.Pages[i], "", pageNames...)
		if o.Pages[i] == "dealer" && o.Audience == "customer" {
			errs = append(errs, &units.FieldError{Path: "options." + name, Value: "dealer", Want: "the audience dealer for the dealer's page", Err: units.ErrConflict})
		}
	}
	return errors.Join(errs...)
}

// read reads the members. Every member's problems are reported, with the lines
// and columns of the request.
func (r *request) read(body []byte, at map[string]int64) (*job, error) {
	j := &job{want: r.Options}
	var errs []error
	in := func(name string, raw json.RawMessage, read func(io.Reader) error) {
		if raw == nil {
			return
		}
		if err := read(bytes.NewReader(blankBefore(body, at[name], int64(len(raw))))); err != nil {
			errs = append(errs, prefixed(name, err))
		}
	}
	var spec *rig.Spec
	var shelf *parts.Catalog
	in("spec", r.Spec, func(b io.Reader) (err error) {
		spec, err = rig.ReadSpec(b, rig.ReadLimits{Bytes: maxRequest})
		return err
	})
	in("shelf", r.Shelf, func(b io.Reader) (err error) { shelf, err = parts.ReadJSON(b, maxRequest); return err })
	in("book", r.Book, func(b io.Reader) (err error) { j.book, err = quote.ReadBook(b); return err })
	in("policy", r.Policy, func(b io.Reader) (err error) {
		if j.pol, err = rig.ReadPolicy(b); err == nil {
			err = j.pol.Validate()
		}
		return err
	})
	in("letterhead", r.Letterhead, func(b io.Reader) (err error) { j.o.Letterhead, err = sheet.ReadLetterhead(b); return err })
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	var err error
	if j.o.System, err = load.System(j.want.Units); err != nil {
		return nil, err
	}
	if j.model, err = rig.New(spec, shelf); err != nil {
		return nil, prefixed("spec", err)
	}
	return j, nil
}

// fill assesses the rig and puts what is wanted into the answer.
func (j *job) fill(out *response) error {
	quick := j.want.BreakEven != nil && !*j.want.BreakEven
	rep, err := j.model.Assess(j.pol, &rig.AssessOptions{SkipBreakEven: quick, BandEnds: quick})
	if err != nil {
		return err
	}
	if wanted := j.want.Report; (wanted != nil && *wanted) || (wanted == nil && j.want.Audience == "dealer") {
		out.Report = rep
	}
	var q *quote.Quote
	var cq *quote.CustomerQuote
	if j.book != nil {
		if q, err = quote.Of(j.model, j.book); err != nil {
			return prefixed("spec", err)
		}
		c := q.Customer()
		cq = &c
	}
	customer := sheet.Customer(rep, cq, &j.o)
	if j.want.Audience == "dealer" {
		out.Quote = q
	} else {
		out.Customer = customer
	}
	for _, name := range j.want.Pages {
		d, err := j.page(name, rep, q, customer)
		if err != nil {
			return err
		}
		text, err := written(d, j.want.Form)
		if err != nil {
			return err
		}
		if out.Pages == nil {
			out.Pages = map[string]string{}
		}
		out.Pages[name] = text
	}
	return nil
}

var pageNames = []string{"dealer", "customer", "technician", "weights", "start", "mode-cards", "parked", "walk-round"}

func (j *job) page(name string, rep *rig.Report, q *quote.Quote, customer *sheet.CustomerPage) (*sheet.Document, error) {
	switch name {
	case "dealer":
		return sheet.Dealer(rep, q, &j.o)
	case "customer":
		return customer.Document(j.o.Letterhead)
	case "technician":
		return sheet.Technician(rep, &j.o)
	case "weights":
		return sheet.Weights(rep, &j.o)
	case "start":
		return sheet.StartCard(rep, &j.o)
	}
	return sheet.WalkRound(rep, &j.o)
}

func written(d *sheet.Document, form string) (string, error) {
	var b strings.Builder
	var err error
	switch form {
	case "text":
		err = d.WriteText(&b)
	case "markdown":
		err = d.WriteMarkdown(&b)
	default:
		err = d.WriteHTML(&b)
	}
	return b.String(), err
}

// blankBefore is a member of the body with white space in place of what stands
// before it, so that its reader counts the lines and columns of the request.
func blankBefore(body []byte, at, n int64) []byte {
	out := make([]byte, 0, at+n)
	for _, r := range string(body[:at]) {
		if r == '\n' {
			out = append(out, '\n')
		} else {
			out = append(out, ' ')
		}
	}
	return append(out, body[at:at+n]...)
}

func position(body []byte, off int64) (line, column int) {
	head := body[:min(off, int64(len(body)))]
	return 1 + bytes.Count(head, []byte("\n")), 1 + utf8.RuneCount(head[bytes.LastIndexByte(head, '\n')+1:])
}

// prefixed puts the member before the path of every problem that does not begin
// with it, as those of a policy and a letterhead checked as a whole do.
func prefixed(name string, err error) error {
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range list.Unwrap() {
			out = append(out, prefixed(name, e))
		}
		return errors.Join(out...)
	}
	var p *rig.Problem
	if errors.As(err, &p) {
		c := *p
		c.Path = name
		if p.Path != "" {
			c.Path += "." + p.Path
		}
		c.Err = units.At(name, p.Err)
		return &c
	}
	var f *units.FieldError
	if errors.As(err, &f) && (f.Path == name || strings.HasPrefix(f.Path, name+".")) {
		return err
	}
	return units.At(name, err)
}

// problems lists what is wrong.
func problems(err error) []problem {
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		var out []problem
		for _, e := range list.Unwrap() {
			out = append(out, problems(e)...)
		}
		return out
	}
	x := problem{Message: err.Error()}
	var p *rig.Problem
	if errors.As(err, &p) {
		x.Path, x.Line, x.Column = p.Path, p.Line, p.Column
	}
	var f *units.FieldError
	if errors.As(err, &f) {
		x.Value, x.Want = f.Value, f.Want
		if x.Path == "" {
			x.Path = f.Path
		}
	}
	return []problem{x}
}
