package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/internal/golden"
	"example.com/washrig/internal/jsonschema"
	"example.com/washrig/internal/property"
	"example.com/washrig/rig"
	"example.com/washrig/rig/quote"
)

// demoRequest is a request about a rig of the demo with the given options.
func demoRequest(t testing.TB, name, options string) string {
	t.Helper()
	spec, err := demo.Spec(name)
	if err != nil {
		t.Fatal(err)
	}
	shelf, err := demo.Shelf()
	if err != nil {
		t.Fatal(err)
	}
	var s, p bytes.Buffer
	if err := spec.Write(&s); err != nil {
		t.Fatal(err)
	}
	if err := shelf.WriteJSON(&p); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("{\n\"format\": \"washrig-request/1\",\n\"spec\": %s,\n\"shelf\": %s,\n\"book\": %s,\n\"options\": %s}", s.String(), p.String(), demoBook, options)
}

const demoBook = `{"format":"washrig-book/1","currency":"USD","mark_up":"35 %","hour_price":"95.00 USD","hour_cost":"52.00 USD","holds_for":365,"quote_day":"2026-06-01"}`

func text(t testing.TB, a response) string {
	t.Helper()
	data, err := encode(a)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestAnswer_dealer(t *testing.T) {
	a := answer([]byte(demoRequest(t, "B", `{"audience":"dealer","break_even":false,"pages":["dealer","technician"],"form":"text"}`)))
	if !a.OK || a.Report == nil || a.Quote == nil || a.Customer != nil || len(a.Pages) != 2 {
		t.Fatalf("%+v", a.Problems)
	}
	if !strings.Contains(a.Pages["dealer"], "Margin") || !strings.Contains(a.Pages["technician"], "Every reading of every state") {
		t.Error("the pages are not those asked for")
	}
	doc := text(t, a)
	if err := jsonschema.Check([]byte(responseSchema), []byte(doc)); err != nil {
		t.Error(err)
	}
	var parts struct{ Report, Quote json.RawMessage }
	if err := json.Unmarshal([]byte(doc), &parts); err != nil {
		t.Fatal(err)
	}
	if err := jsonschema.Check([]byte(rig.ReportSchema()), parts.Report); err != nil {
		t.Error(err)
	}
	if err := jsonschema.Check([]byte(quote.Schema()), parts.Quote); err != nil {
		t.Error(err)
	}
	if doc != text(t, answer([]byte(demoRequest(t, "B", `{"audience":"dealer","break_even":false,"pages":["dealer","technician"],"form":"text"}`)))) {
		t.Error("the same request got another answer")
	}
}

// A customer is who is answered unless the dealer is named.
func TestAnswer_customer(t *testing.T) {
	for _, options := range []string{`{"break_even":false}`, `{"break_even":false,"audience":"customer","units":"si","pages":["customer"],"form":"markdown"}`} {
		a := answer([]byte(demoRequest(t, "D", options)))
		if !a.OK || a.Report != nil || a.Quote != nil || a.Customer == nil || a.Customer.Quote == nil {
			t.Fatalf("%s: %+v", options, a.Problems)
		}
		if err := jsonschema.Check([]byte(responseSchema), []byte(text(t, a))); err != nil {
			t.Error(err)
		}
	}
}

// Over random price books and options, no cost, ratio or supplier's number is
// among the bytes of an answer for a customer.
func TestAnswer_customerBytes(t *testing.T) {
	cases, found := 0, 0
	property.Check(t, func(g *property.G) error {
		cases++
		cost, hour := g.Int(1_000_003, 9_999_999), g.Int(4_001, 6_999)
		supplier := fmt.Sprintf("SUP%08d", g.Int(0, 99_999_999))
		k := g.Int(1001, 9999)
		body := fmt.Sprintf(`{"format":"washrig-request/1","spec":{"format":"washrig/1","name":"x","items":[{"id":"box","part":"BOX"}],"labour":[{"id":"build","title":"build","time":"7 h"}]},
			"shelf":{"format":"washrig-parts/1","parts":[{"number":"BOX","kind":"item","description":"box","supplier_number":%q,"cost":"%d.%02d USD"}]},
			"book":{"format":"washrig-book/1","currency":"USD","mark_up":"%d.%02d %%","hour_price":"99.00 USD","hour_cost":"%d.%02d USD"},
			"options":{"audience":"AUDIENCE","report":true,"pages":["customer"],"form":%q}}`,
			supplier, cost/100, cost%100, k/100, k%100, hour/100, hour%100, property.OneOf(g, "html", "text", "markdown"))
		secrets := []string{supplier, fmt.Sprintf("%d.%02d", cost/100, cost%100), fmt.Sprintf("%d.%02d USD", hour/100, hour%100), fmt.Sprintf("%d.%02d", (cost+7*hour)/100, (cost+7*hour)%100), fmt.Sprintf("0.%04d", k)}
		a := answer([]byte(strings.Replace(body, "AUDIENCE", "customer", 1)))
		if !a.OK {
			return fmt.Errorf("%+v", a.Problems)
		}
		data, err := encode(a)
		if err != nil {
			return err
		}
		for _, s := range secrets {
			if bytes.Contains(data, []byte(s)) {
				return fmt.Errorf("the customer is given %q", s)
			}
		}
		data, err = encode(answer([]byte(strings.NewReplacer(`"customer"]`, `"dealer"]`, "AUDIENCE", "dealer").Replace(body))))
		if err != nil {
			return err
		}
		for _, s := range secrets[:4] {
			if bytes.Contains(data, []byte(s)) {
				found++
			}
		}
		return nil
	})
	if found < 4*cases {
		t.Errorf("the search found only %d of %d secrets in the dealer's answers, where they are", found, 4*cases)
	}
}

// Every mistake comes with its path and its place in the request.
func TestAnswer_problems(t *testing.T) {
	const spec = `{"format":"washrig/1","name":"x"}`
	for _, c := range []struct {
		body string
		want []problem // path, line and column
		has  string
	}{
		{``, []problem{{Line: 1, Column: 1}}, "an object"},
		{`[]`, []problem{{Line: 1}}, "an object"},
		{`{"format":"washrig-request/1"}`, []problem{{Path: "spec"}}, "a specification"},
		{`{"format":"washrig-request/2","spec":` + spec + `}`, []problem{{Path: "format"}}, "format 2"},
		{`{"spec":` + spec + `}`, []problem{{Path: "format"}}, "washrig-request/1"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"colour":1}`, []problem{{Line: 1}}, "only format, spec"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"spec":` + spec + `}`, []problem{{Line: 1}}, "spec once"},
		{`{"format":"washrig-request/1","spec":` + spec + `} x`, []problem{{Line: 1}}, "nothing after the end"},
		{`{"format":"washrig-request/1","spec":` + spec, []problem{{Line: 1}}, "request"},
		{"{\"format\":\"washrig-request/1\",\n\"spec\":{\"format\":\"washrig/1\",\n  \"sites\":{}}}", []problem{{Path: "spec.sites", Line: 3, Column: 3}}, "unknown name"},
		{"{\"format\":\"washrig-request/1\", \"x\":0}", []problem{{Line: 1}}, "only format"},
		{"{\"format\":\"washrig-request/1\",\n\n\"spec\":" + spec + ",\n\"book\":{\"format\":\"washrig-book/1\",\"currency\":\"USD\",\"mark_up\":35}}", []problem{{Path: "book.mark_up", Line: 4}}, "book.mark_up"},
		{`{"format":"washrig-request/1","spec":{"format":"washrig/1","site":{"elevation":"5200"}},"shelf":{"format":"washrig-parts/1","parts":[{"number":"A"}]}}`,
			[]problem{{Path: "spec.site.elevation", Line: 1}, {Path: "shelf.parts[A].kind"}}, "5200 ft"},
		{`{"format":"washrig-request/1","spec":{"format":"washrig/1","lines":[{"id":"left"}]}}`, []problem{{Path: "spec.lines[left].pump"}}, "spec.lines[left].hose"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"options":{"units":"imperial","pages":["front"]}}`, []problem{{Path: "options.units"}, {Path: "options.pages[#1]"}}, "us, si"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"options":{"pages":["dealer"]}}`, []problem{{Path: "options.pages[#1]"}}, "the audience dealer"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"options":{"colour":1}}`, []problem{{Path: "options", Line: 1}}, "only units, report, break_even, audience, pages and form"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"options":{"Units":"si"}}`, []problem{{Path: "options", Line: 1}}, "only units"},
		{"{\"format\":\"washrig-request/1\",\"spec\":" + spec + ",\n\"options\":{\"units\":\"us\",\n\"units\":\"si\"}}", []problem{{Path: "options", Line: 3}}, "units once"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"options":{"pages":null}}`, []problem{{Path: "options", Line: 1}}, "leave it out"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"options":null}`, []problem{{Line: 1}}, "leave it out"},
		{`{"format":"washrig-request/1","spec":null}`, []problem{{Line: 1}}, "leave it out"},
		{"{\"format\":\"washrig-request/1\",\"spec\":" + spec + ",\n\"options\":{\"report\":\"yes\",\n\"pages\":[5]}}",
			[]problem{{Path: "options.report", Line: 2, Column: 21}, {Path: "options.pages", Line: 3}}, "true or false"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"options":[]}`, []problem{{Path: "options", Line: 1}}, "an object"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"policy":{"format":"washrig-policy/1","off":["engine-overload"]}}`, []problem{{Path: "policy.off"}}, "never switched off"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"letterhead":{"format":"washrig-letterhead/1","name":"a\u0007"}}`, []problem{{Path: "letterhead.name", Line: 1}}, "control characters"},
		{`{"format":"washrig-request/1","spec":` + spec + `,"letterhead":{"format":"washrig-letterhead/2"}}`, []problem{{Path: "letterhead.format"}}, "format 2"},
		{"{\"format\":\"washrig-request/1\",\"spec\":{\"name\":\"\xff\"}}", []problem{{}}, "UTF-8"},
	} {
		a := answer([]byte(c.body))
		if a.OK || len(a.Problems) < len(c.want) {
			t.Errorf("%s: %+v", c.body, a.Problems)
			continue
		}
		for i, w := range c.want {
			got := a.Problems[i]
			if (w.Path != "" && got.Path != w.Path) || (w.Line != 0 && got.Line != w.Line) || (w.Column != 0 && got.Column != w.Column) {
				t.Errorf("%s: problem %d is at %q, line %d, column %d; want %+v", c.body, i+1, got.Path, got.Line, got.Column, w)
			}
		}
		doc := text(t, a)
		if !strings.Contains(doc, c.has) {
			t.Errorf("%s: the answer lacks %q: %s", c.body, c.has, doc)
		}
		if strings.ContainsAny(doc, "\x07\x1b") || len(a.Cautions) == 0 {
			t.Errorf("%s: %s", c.body, doc)
		}
		if err := jsonschema.Check([]byte(responseSchema), []byte(doc)); err != nil {
			t.Errorf("%s: %v", c.body, err)
		}
	}
}

// The request beside the program and its answer, as a person would read them.
func TestAnswer_golden(t *testing.T) {
	body, err := os.ReadFile("request.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := jsonschema.Check([]byte(requestSchema), body); err != nil {
		t.Error(err)
	}
	a := answer(body)
	if !a.OK {
		t.Fatalf("%+v", a.Problems)
	}
	var b bytes.Buffer
	if err := json.Indent(&b, []byte(text(t, a)), "", "  "); err != nil {
		t.Fatal(err)
	}
	golden.Equal(t, "answer.json", b.Bytes())
}

func TestAnswer_tooLarge(t *testing.T) {
	if a := answer(bytes.Repeat([]byte(" "), maxRequest+1)); a.OK || !strings.Contains(a.Problems[0].Message, "bytes") {
		t.Errorf("%+v", a.Problems)
	}
}

// The committed schemas are those the types give.
func TestSchemas_inStep(t *testing.T) {
	object := jsonschema.Schema{"type": "object"}
	for _, s := range []struct {
		name, have string
		o          jsonschema.Options
		typ        reflect.Type
	}{
		{"request.schema.json", requestSchema, jsonschema.Options{Title: "Request about a wash rig", Doc: "The members spec and shelf have schemas of their own: spec.schema.json and shelf.schema.json.", Closed: true,
			Types: map[reflect.Type]jsonschema.Schema{reflect.TypeFor[json.RawMessage](): object}}, reflect.TypeFor[request]()},
		{"response.schema.json", responseSchema, jsonschema.Options{Title: "Answer about a wash rig", Doc: "The member report has a schema of its own: report.schema.json. Members may be added within a format number.",
			Types: map[reflect.Type]jsonschema.Schema{reflect.TypeFor[rig.Report](): object}}, reflect.TypeFor[response]()},
	} {
		s.o.ID = s.name
		got, err := jsonschema.Make(s.typ, s.o)
		if err != nil {
			t.Fatal(err)
		}
		if golden.Update() {
			if err := os.WriteFile("schema/"+s.name, got, 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if d := golden.Diff([]byte(s.have), got); d != "" {
			t.Errorf("schema/%s is out of step with the types (run the test with -update):\n%s", s.name, d)
		}
	}
	if !golden.Update() {
		if err := jsonschema.Check([]byte(requestSchema), []byte(demoRequest(t, "A", `{"units":"us","pages":["customer"]}`))); err != nil {
			t.Error(err)
		}
		if err := jsonschema.Check([]byte(requestSchema), []byte(`{"format":"washrig-request/1","spec":{},"colour":1}`)); err == nil {
			t.Error("the schema takes a member the contract does not have")
		}
	}
}

// Whatever the request holds, there is an answer, and it is JSON.
func FuzzAnswer(f *testing.F) {
	f.Add(`{"format":"washrig-request/1","spec":{"format":"washrig/1","name":"x"}}`)
	f.Add(`{"format":"washrig-request/1","spec":{"format":"washrig/1","lines":[{"id":"a"}]},"options":{"audience":"dealer"}}`)
	f.Add(`{"spec":`)
	f.Add("{\"format\":1}\n")
	f.Fuzz(func(t *testing.T, body string) {
		a := answer([]byte(body))
		if a.OK == (len(a.Problems) > 0) {
			t.Fatalf("ok %v with %d problems", a.OK, len(a.Problems))
		}
		if data, err := encode(a); err != nil || !json.Valid(data) {
			t.Fatalf("%v: %s", err, data)
		}
	})
}
