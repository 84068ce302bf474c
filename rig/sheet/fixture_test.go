package sheet_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/rig/sheet"
)

func demoReport(t testing.TB, name string, p *rig.Policy) *rig.Report {
	t.Helper()
	m, err := demo.Model(name)
	if err != nil {
		t.Fatal(err)
	}
	return assess(t, m, p)
}

func assess(t testing.TB, m *rig.Model, p *rig.Policy) *rig.Report {
	t.Helper()
	rep, err := m.Assess(p, &rig.AssessOptions{SkipBreakEven: true, BandEnds: true})
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

func demoQuote(t testing.TB, rep *rig.Report) *quote.Quote {
	t.Helper()
	b, err := demo.Book()
	if err != nil {
		t.Fatal(err)
	}
	q, err := quote.Of(rep.Model(), b)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func letterhead() *sheet.Letterhead {
	return &sheet.Letterhead{Format: sheet.LetterheadFormat, Mark: "I. D.", Name: "An Invented Dealer", Address: []string{"1 Invented Road", "00000 Nowhere"},
		Terms: []string{"Half with the order, half at handover."}, Validity: "This quote holds for 30 days.", Signatures: []string{"for the dealer, date", "for the customer, date"}}
}

// small is a rig of a few components with a price, so that kept pages change
// only when what they show does.
func small(t testing.TB, changes ...rig.Change) *rig.Model {
	t.Helper()
	s, err := rig.ReadSpec(strings.NewReader(smallSpec), rig.ReadLimits{})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Apply(changes...); err != nil {
		t.Fatal(err)
	}
	m, err := rig.New(s, nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

const smallSpec = `{
	"format": "washrig/1", "name": "small", "title": "one gun, invented",
	"site": {"elevation": "5200 ft", "place": "open", "water": "45 °F", "conditions": [{"id": "afternoon", "air": "95 °F"}]},
	"duty": {"surface": ["soil"], "run_off": "contained", "height": "ground"},
	"engines": [{"id": "washer", "gross_power": "16 hp", "continuous_share": "90 %", "loss_per_1000_ft": "3.5 %", "loss_per_10_f": "1 %", "cost": "1290.00 USD"}],
	"pumps": [{"id": "main", "rated_flow": "4.4 gpm", "maximum_pressure": "3500 psi", "maximum_inlet_temperature": "145 °F", "efficiency": "88 %", "engine": "washer", "belt_efficiency": "96 %",
		"tank": "fresh", "unloader": {"setting": "2900 psi", "return_to": "tank"}, "relief": {"setting": "3400 psi"}, "cost": "760.00 USD", "lead_time": "21 day"}],
	"heaters": [{"id": "heater", "pump": "main", "efficiency": "84 %", "heating_value": "138500 BTU/gal", "clean_firing": "3.2 gph", "thermostat": "166 °F", "high_limit": "200 °F", "maximum_temperature": "200 °F", "maximum_pressure": "4000 psi", "flow_switch": "yes", "price": "2592.00 USD"}],
	"lines": [{"id": "gun", "pump": "main", "hose": {"bore": "0.375 in", "length": "150 ft", "maximum_pressure": "4000 psi", "maximum_temperature": "250 °F"}, "nozzle": {"number": "5.5"}}],
	"tanks": [{"id": "fresh", "nominal": "240 gal"}],
	"labour": [{"id": "build", "title": "build", "time": "8 h"}]
}`

// forms are the three ways of writing a document.
var forms = []struct {
	name  string
	write func(*sheet.Document, io.Writer) error
}{{"txt", (*sheet.Document).WriteText}, {"md", (*sheet.Document).WriteMarkdown}, {"html", (*sheet.Document).WriteHTML}}

func written(t testing.TB, d *sheet.Document, write func(*sheet.Document, io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(d, &b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// everyPage returns every page of a rig by name.
func everyPage(t testing.TB, rep *rig.Report, q *quote.Quote, o *sheet.Options) map[string]*sheet.Document {
	t.Helper()
	must := func(d *sheet.Document, err error) *sheet.Document {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	var c *quote.CustomerQuote
	if q != nil {
		x := q.Customer()
		c = &x
	}
	var head *sheet.Letterhead
	if o != nil {
		head = o.Letterhead
	}
	return map[string]*sheet.Document{
		"dealer":     must(sheet.Dealer(rep, q, o)),
		"customer":   must(sheet.Customer(rep, c, o).Document(head)),
		"technician": must(sheet.Technician(rep, o)),
		"weights":    must(sheet.Weights(rep, o)),
		"start":      must(sheet.StartCard(rep, o)),
		"mode-cards": must(sheet.ModeCards(rep, o)),
		"parked":     must(sheet.ParkedCard(rep, o)),
		"walk-round": must(sheet.WalkRound(rep, o)),
	}
}

func amount(t testing.TB, s string) parts.Money {
	t.Helper()
	m, err := parts.ParseMoney(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}
