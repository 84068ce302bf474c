package batch_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func drawn(t testing.TB, v batch.Variants) (list []batch.Variant, errs []error) {
	t.Helper()
	for x, err := range v {
		list, errs = append(list, x), append(errs, err)
	}
	return list, errs
}

// changes says what a variant changes. What a replaced nozzle clears grows with
// the vocabulary; its number stands for the rest.
func changes(v batch.Variant) string {
	var w []string
	for _, c := range v.Changes {
		text := c.String()
		if strings.HasPrefix(text, "lines[left].nozzle.") && strings.HasSuffix(text, " = ") && c.Path() != "lines[left].nozzle.number" {
			continue
		}
		w = append(w, text)
	}
	return strings.Join(w, "; ")
}

// One table as a spreadsheet exports it, and the same as JSON Lines.
func TestReadCSV_andLines(t *testing.T) {
	m := model(t, "B")
	const table = "\ufeffname,site.elevation,replace lines[left].nozzle,remove loads[dump-pump],copy lines[left],add items\r\n" +
		"\r\n" +
		"\"high\r\nand dry\",8000 ft,N45,yes,,\r\n" +
		"plain,,,,,\r\n" +
		"grown,,,no,third,spare BOX\r\n" +
		"open,(clear),,,,crate\r\n"
	const lines = "\ufeff" + `{"name":"high and dry","site.elevation":"8000 ft","replace lines[left].nozzle":"N45","remove loads[dump-pump]":"yes"}` + "\r\n\r\n" +
		`{"name":"plain"}` + "\n" +
		`{"name":"grown","remove loads[dump-pump]":"no","copy lines[left]":"third","add items":"spare BOX"}` + "\n" +
		`{"name":"open","site.elevation":"(clear)","add items":"crate"}`
	want := []string{
		"high and dry: site.elevation = 8000 ft; lines[left].nozzle.part = N45; lines[left].nozzle.number = ; remove loads[dump-pump]",
		"plain: ",
		"grown: copy lines[left] as third; add spare (part BOX) to items",
		"open: site.elevation = ; add crate to items",
	}
	head, v, err := batch.ReadCSV(strings.NewReader(table), m)
	if err != nil || strings.Join(head, "|") != "site.elevation|replace lines[left].nozzle|remove loads[dump-pump]|copy lines[left]|add items" {
		t.Fatalf("%q, %v", head, err)
	}
	list, errs := drawn(t, v)
	_, v, err = batch.ReadLines(strings.NewReader(lines), m)
	if err != nil {
		t.Fatal(err)
	}
	other, more := drawn(t, v)
	for i, w := range want {
		for _, x := range []struct {
			form string
			list []batch.Variant
			errs []error
		}{{"CSV", list, errs}, {"JSON Lines", other, more}} {
			if len(x.list) != len(want) {
				t.Fatalf("%s: %d variants, %v", x.form, len(x.list), errors.Join(x.errs...))
			}
			if got := x.list[i].Name + ": " + changes(x.list[i]); got != w || x.errs[i] != nil {
				t.Errorf("%s, row %d: %s, %v\nwant %s", x.form, i, got, x.errs[i], w)
			}
		}
	}
}

// A part in place of another: what the specification gave beside the old one
// does not stay in force.
func TestReplace(t *testing.T) {
	m := model(t, "B")
	s := m.Written()
	s.Lines[0].Nozzle.Number = 6
	m, err := rig.New(s, m.Shelf())
	if err != nil {
		t.Fatal(err)
	}
	number := func(m *rig.Model) units.NozzleNumber { return m.Spec().Lines[0].Nozzle.Number }
	if number(m) != 6 {
		t.Fatalf("the base has nozzle %v", number(m))
	}
	set, err := m.With(rig.Set("lines[left].nozzle.part", "N45"))
	if err != nil || number(set) != 6 {
		t.Errorf("setting the number alone gives nozzle %v, %v; what stands beside it stays", number(set), err)
	}
	list, err := batch.Replace(m.Shelf(), "lines[left].nozzle", "N45")
	if err != nil {
		t.Fatal(err)
	}
	replaced, err := m.With(list...)
	if err != nil || number(replaced) != 4.5 {
		t.Errorf("replacing gives nozzle %v, %v", number(replaced), err)
	}
	for _, c := range []struct {
		path rig.Path
		part string
		want string
	}{{"lines[left].nozzle", "NO-SUCH", "NO-SUCH"}, {"site", "N45", "a component that has a part number"}, {"duty", "N45", "part number"}} {
		if _, err := batch.Replace(m.Shelf(), c.path, c.part); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s by %s: %v", c.path, c.part, err)
		}
	}
}

// partsAt are the part numbers of a specification by the place they stand at.
func partsAt(t testing.TB, m *rig.Model) map[rig.Path]string {
	t.Helper()
	var b bytes.Buffer
	if err := m.Written().Write(&b); err != nil {
		t.Fatal(err)
	}
	var whole any
	if err := json.Unmarshal(b.Bytes(), &whole); err != nil {
		t.Fatal(err)
	}
	out := map[rig.Path]string{}
	var walk func(at string, x any)
	walk = func(at string, x any) {
		switch x := x.(type) {
		case map[string]any:
			if n, ok := x["part"].(string); ok {
				out[rig.Path(at)] = n
			}
			for k, v := range x {
				walk(strings.TrimPrefix(at+"."+k, "."), v)
			}
		case []any:
			for _, e := range x {
				if e, ok := e.(map[string]any); ok {
					if id, ok := e["id"].(string); ok {
						walk(at+"["+id+"]", e)
					}
				}
			}
		}
	}
	walk("", whole)
	return out
}

// Every part that stands in a rig of the demo goes in place of itself by a table, and
// nothing that the part does not speak about is lost: the rig is the same.
func TestReplace_everyPart(t *testing.T) {
	for _, name := range demo.Names() {
		base := model(t, name)
		all := partsAt(t, base)
		if len(all) < 10 {
			t.Fatalf("rig %s has %d parts", name, len(all))
		}
		for at, number := range all {
			_, v, err := batch.ReadCSV(strings.NewReader("name,replace "+string(at)+"\na,"+number+"\n"), base)
			if err != nil {
				t.Fatal(err)
			}
			for row, err := range v {
				var m *rig.Model
				if err == nil {
					m, err = base.With(row.Changes...)
				}
				if err != nil {
					t.Errorf("rig %s, %s by %s: %v", name, at, number, err)
					continue
				}
				if got, _, err := m.Get(at + ".part"); err != nil || got != number {
					t.Errorf("rig %s, %s: part %q, %v", name, at, got, err)
				}
			}
		}
	}
}

// What a part says takes the place of what stands there, a whole curve too; what it
// does not say stays.
func TestReplace_whatThePartSays(t *testing.T) {
	shelf, err := parts.NewCatalog("invented",
		parts.Part{Number: "PLAIN", Kind: "engine", Engine: &parts.Engine{GrossPower: 20 * units.Horsepower}},
		parts.Part{Number: "CURVED", Kind: "engine", Engine: &parts.Engine{GrossPower: 20 * units.Horsepower, Curve: []parts.PowerPoint{
			{ID: "slow", Speed: 2000 * units.RPM, Power: 12 * units.Horsepower}, {ID: "fast", Speed: 3600 * units.RPM, Power: 20 * units.Horsepower}}}})
	if err != nil {
		t.Fatal(err)
	}
	s, err := rig.ReadSpec(strings.NewReader(`{"format": "washrig/1", "name": "x", "engines": [{"id": "e", "gross_power": "16 hp", "droop": "5 %", "noise": 80,
		"curve": [{"id": "a", "speed": "2400 rpm", "power": "13 hp"}, {"id": "b", "speed": "3600 rpm", "power": "16 hp"}]}],
		"basis": {"engines[e].curve[a].power": "measured"}}`), rig.ReadLimits{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := rig.New(s, shelf)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		part, first string
	}{{"PLAIN", "a"}, {"CURVED", "slow"}} {
		list, err := batch.Replace(shelf, "engines[e]", c.part)
		if err != nil {
			t.Fatal(err)
		}
		n, err := m.With(list...)
		if err != nil {
			t.Fatalf("%s: %v", c.part, err)
		}
		e := n.Spec().Engines[0]
		if e.GrossPower != 20*units.Horsepower || e.Noise != 80 || e.Droop != 0.05 || len(e.Curve) != 2 || e.Curve[0].ID != c.first {
			t.Errorf("%s: %+v", c.part, e)
		}
	}
	if _, err := m.With(rig.Set("engines", "")); err == nil {
		t.Error("an empty text took every engine away")
	}
}

func TestReadCSV_refusesHeadings(t *testing.T) {
	m := model(t, "B")
	for _, c := range []struct{ text, want string }{
		{"", "line of headings"},
		{"name;site.elevation\nx;5 ft\n", "semicolons"},
		{"name,site.elevations\n", "column site.elevations"},
		{"name,lines[].hose.length\n", "id of an element"},
		{"name,lines\n", "holds one value"},
		{"name,lines[left]\n", "holds one value"},
		{"name,replace site\n", "part number"},
		{"name,add trailer\n", "a list"},
		{"name,remove lines\n", "an element"},
		{"name,delete lines[left]\n", "replace, add, copy or remove"},
		{"name,name\n", "once"},
		{"a\x1b[31m\n", "control characters"},
		{"a\u202eb\n", "control characters"},
		{"x\xff\n", "x"},
		{"name,no-such,neither\n", "neither"}, // every mistake, not the first alone
		{"\"a\n", "line 1"},
	} {
		_, _, err := batch.ReadCSV(strings.NewReader(c.text), m)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, want %q", c.text, err, c.want)
		}
		if err != nil && strings.ContainsAny(err.Error(), "\x1b\u202e") {
			t.Errorf("%q: the message passes the character on", c.text)
		}
	}
}

// A bad line says where it is wrong; the rest loads.
func TestReadCSV_badLines(t *testing.T) {
	m := model(t, "B")
	_, v, err := batch.ReadCSV(strings.NewReader("name,site.elevation,remove lines[left],replace lines[left].hose\n"+
		"good,5 ft,,\n"+
		"short,5 ft\n"+
		"maybe,5 ft,maybe,\n"+
		"shelf,5 ft,,NO-SUCH\n"+
		"bell,5\u0007 ft,,\n"+
		"bytes,\xff,,\n"+
		"both,5 ft,maybe,NO-SUCH\n"+
		"again,6 ft,,\n"), m)
	if err != nil {
		t.Fatal(err)
	}
	list, errs := drawn(t, v)
	want := []string{"", "line 3: ", "line 4, column remove lines[left]: ", "line 5, column replace lines[left].hose: ", "line 6, column site.elevation: ", "line 7, column site.elevation: ", "line 8, column remove", ""}
	if len(list) != len(want) {
		t.Fatalf("%d lines, %v", len(list), errors.Join(errs...))
	}
	for i, w := range want {
		if (errs[i] == nil) != (w == "") || (w != "" && !strings.HasPrefix(errs[i].Error(), w)) {
			t.Errorf("line %d: %v, want %q", i+2, errs[i], w)
		}
	}
	if list[6].Name != "both" || strings.Count(errs[6].Error(), "\n") != 1 {
		t.Errorf("two mistakes in %q: %v", list[6].Name, errs[6])
	}
	var p *batch.PlanError
	if !errors.As(errs[1], &p) || p.Line != 3 {
		t.Errorf("%v is no *PlanError of line 3", errs[1])
	}
}

func TestReadLines_bad(t *testing.T) {
	m := model(t, "B")
	good := `{"name":"good","site.elevation":"5 ft"}` + "\n"
	for _, c := range []struct{ text, want string }{
		{"", "an object a line"},
		{"[]\n", "object"},
		{`{"site.elevation":5280}`, "text in quotes"},
		{`{"site.elevation":null}`, "text in quotes"},
		{`{"site.elevation":{"x":1}}`, "text in quotes"},
		{`{"site.elevation":"5 ft","site.elevation":"6 ft"}`, "twice"},
		{`{"site.elevation":"5 ft"} x`, "after the end"},
		{`{"site.elevation":"5 ft"`, "EOF"},
		{`{"site.altitude":"5 ft"}`, "site.altitude"},
		{`{"site.elevation":"5\u001b[0m ft"}`, "control characters"},
		{"{\"site.elevation\":\"\xff\"}", "UTF-8"},
	} {
		_, v, err := batch.ReadLines(strings.NewReader(c.text), m)
		if err == nil {
			_, errs := drawn(t, v)
			err = errors.Join(errs...)
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s first: %v, want %q", c.text, err, c.want)
		}
		if c.text == "" {
			continue
		}
		_, v, err = batch.ReadLines(strings.NewReader(good+c.text+"\n"+good), m)
		if err != nil {
			t.Fatal(err)
		}
		list, errs := drawn(t, v)
		if len(list) != 3 || errs[0] != nil || errs[1] == nil || errs[2] != nil || !strings.Contains(errs[1].Error(), "line 2") || !strings.Contains(errs[1].Error(), c.want) {
			t.Errorf("%s second: %v", c.text, errs)
		}
	}
	long := good + `{"name":"` + strings.Repeat("x", 2<<20) + `"}` + "\n"
	_, v, err := batch.ReadLines(strings.NewReader(long), m)
	if err != nil {
		t.Fatal(err)
	}
	_, errs := drawn(t, v)
	if len(errs) != 2 || errs[1] == nil || !strings.Contains(errs[1].Error(), "line 2") {
		t.Errorf("a line of two megabytes: %v", errs)
	}
}

type broken struct{ n int }

func (b *broken) Read(p []byte) (int, error) {
	if b.n++; b.n == 1 {
		return copy(p, "name,site.elevation\na,1 ft\n"), nil
	}
	return 0, io.ErrUnexpectedEOF
}

// A reader that fails ends the plan with its error, once.
func TestReadCSV_readerFails(t *testing.T) {
	_, v, err := batch.ReadCSV(&broken{}, model(t, "B"))
	if err != nil {
		t.Fatal(err)
	}
	_, errs := drawn(t, v)
	if len(errs) != 2 || errs[0] != nil || !errors.Is(errs[1], io.ErrUnexpectedEOF) {
		t.Errorf("%v", errs)
	}
}

// Whatever a plan holds, it is read or refused, and both forms end.
func FuzzReadPlan(f *testing.F) {
	f.Add("name,site.elevation\na,5 ft\n")
	f.Add("\ufeffname,replace lines[left].hose\r\n\"a\r\nb\",HS38\r\n")
	f.Add(`{"name":"x","add items":"a B"}` + "\n" + `{"copy lines[left]":"c"}`)
	f.Add("name;x\n1,5;2\n")
	f.Add("remove lines[left]\nyes\nno\n\n")
	m := model(f, "A")
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func(io.Reader, *rig.Model) ([]string, batch.Variants, error){batch.ReadCSV, batch.ReadLines} {
			_, v, err := read(strings.NewReader(text), m)
			if err != nil {
				continue
			}
			n := 0
			for x, err := range v {
				if err == nil {
					_ = fmt.Sprint(x.Name, changes(x))
				}
				if n++; n > len(text)+2 {
					t.Fatalf("%d variants of %d bytes", n, len(text))
				}
			}
		}
	})
}
