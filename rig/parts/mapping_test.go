package parts_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

func TestMapping_roundTrip(t *testing.T) {
	m := mapping(t)
	var b bytes.Buffer
	if err := m.Write(&b); err != nil {
		t.Fatal(err)
	}
	back, err := parts.ReadMapping(&b)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(m, back, exact); d != "" {
		t.Errorf("-written +read\n%s", d)
	}
	if err := (parts.Mapping{}).Write(&b); err != nil || b.String() != "{\n  \"format\": \"washrig-mapping/1\"\n}\n" {
		t.Errorf("the zero Mapping: %q, %v", b.String(), err)
	}
}

func TestReadMapping_refuses(t *testing.T) {
	for text, says := range map[string]string{
		`{}`:                              "washrig-mapping/1",
		`{"format": "washrig-mapping/2"}`: "format 2 and this library reads format 1",
		`{"format": "washrig-mapping/2", "new": 1}`:                    "format 2 and this library reads format 1",
		`{"format": "washrig-mapping/1", "colums": []}`:                "columns",
		`{"format": "washrig-mapping/1", "columns": [{"name": "a"}]}`:  "columns[#1].field",
		`{"format": "washrig-mapping/1", "fixed": {"kind": "pumps"}}`:  "fixed.kind",
		`{"format": "washrig-mapping/1", "fixed": {"number": "P"}}`:    "fixed.number",
		`{"format": "washrig-mapping/1", "fixed": {"mass": "12"}}`:     "fixed.mass",
		`{"format": "washrig-mapping/1", "blank": ["\u001b"]}`:         "blank",
		`{"format": "washrig-mapping/1"} x`:                            "after the end",
		`{"format": "washrig-mapping/1", "columns": [{"optional":1}]}`: "true or false",
	} {
		if _, err := parts.ReadMapping(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

func TestMapping_Validate(t *testing.T) {
	good := parts.Mapping{Columns: []parts.Column{{Name: "No", Field: "number"}, {Name: "Kind", Field: "kind"}}}
	if err := good.Validate(); err != nil {
		t.Fatal(err)
	}
	if err := (parts.Mapping{}).Validate(); err != nil {
		t.Errorf("the zero Mapping: %v", err)
	}
	type col = parts.Column
	for _, c := range []struct {
		name string
		add  parts.Column
		path string
		is   error
		says string
	}{
		{"no heading", col{Field: "mass"}, "columns[#3].name", units.ErrMissing, "heading"},
		{"blank heading", col{Name: " \n", Field: "mass"}, "columns[#3].name", units.ErrMissing, "heading"},
		{"no field", col{Name: "a"}, "columns[#3].field", units.ErrMissing, "path"},
		{"unknown field", col{Name: "a", Field: "pump.rated_flwo"}, "columns[#3].field", nil, "rated_flow"},
		{"group", col{Name: "a", Field: "pump"}, "columns[#3].field", units.ErrSyntax, "one of rated_flow"},
		{"list", col{Name: "a", Field: "engine.curve[p1].power"}, "columns[#3].field", units.ErrSyntax, "JSON"},
		{"field twice", col{Name: "a", Field: "number"}, "columns[#3].field", units.ErrConflict, "one column for a field"},
		{"column twice", col{Name: "No", Field: "description"}, "columns[#3].name", units.ErrConflict, "one field of a kind"},
		{"unknown unit", col{Name: "a", Field: "mass", Unit: "stone"}, "columns[#3].unit", units.ErrSyntax, "mass"},
		{"unit of another kind", col{Name: "a", Field: "mass", Unit: "psi"}, "columns[#3].unit", units.ErrSyntax, "mass"},
		{"unit of a text", col{Name: "a", Field: "description", Unit: "lb"}, "columns[#3].unit", units.ErrConflict, "no quantity"},
		{"heading with another unit", col{Name: "Weight (kg)", Field: "mass", Unit: "lb"}, "columns[#3].unit", units.ErrConflict, "kg"},
		{"heading with another unit in square brackets", col{Name: "Weight [kg]", Field: "mass", Unit: "lb"}, "columns[#3].unit", units.ErrConflict, "kg"},
		{"currency of a mass", col{Name: "a", Field: "mass", Currency: "USD"}, "columns[#3].currency", units.ErrConflict, "no amount"},
		{"unknown form of currency", col{Name: "a", Field: "cost", Currency: "$"}, "columns[#3].currency", units.ErrSyntax, "capital"},
		{"order of days of a mass", col{Name: "a", Field: "mass", Date: "day-month-year"}, "columns[#3].date", units.ErrConflict, "no day"},
		{"unknown order of days", col{Name: "a", Field: "price_date", Date: "dmy"}, "columns[#3].date", units.ErrRange, "day-month-year"},
		{"word for nothing known", col{Name: "a", Field: "basis", Words: map[string]string{"x": "hearsay"}}, "columns[#3].words.x", units.ErrRange, "nameplate"},
		{"control character", col{Name: "a\x07", Field: "mass"}, "columns[#3].name", units.ErrRange, "U+0007"},
	} {
		m := parts.Mapping{Columns: append(append([]parts.Column(nil), good.Columns...), c.add)}
		err := m.Validate()
		var fe *units.FieldError
		if !errors.As(err, &fe) || fe.Path != c.path || c.is != nil && !errors.Is(err, c.is) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for _, add := range []parts.Column{
		{Name: "Weight (lb)", Field: "mass", Unit: "pounds"}, // another spelling of the same unit
		{Name: "Weight (lb)", Field: "mass"},                 // units in the cells
		{Name: "Weight (dry)", Field: "mass", Unit: "lb"},    // no unit in the brackets
		{Name: "Efficiency (%)", Field: "pump.efficiency", Unit: "%"},
		{Name: "Efficiency", Field: "pump.efficiency", Unit: "%"},
	} {
		m := parts.Mapping{Columns: append(append([]parts.Column(nil), good.Columns...), add)}
		if err := m.Validate(); err != nil {
			t.Errorf("%+v: %v", add, err)
		}
	}
	for name, m := range map[string]parts.Mapping{
		"number": {Columns: []parts.Column{{Name: "Kind", Field: "kind"}}},
		"kind":   {Columns: []parts.Column{{Name: "No", Field: "number"}}},
	} {
		if err := m.Validate(); !errors.Is(err, units.ErrMissing) || !strings.Contains(err.Error(), name) {
			t.Errorf("without a column for the %s: %v", name, err)
		}
	}
	if err := (parts.Mapping{Format: "washrig-mapping/9"}).Validate(); !errors.Is(err, units.ErrConflict) {
		t.Errorf("another format: %v", err)
	}
	var all parts.Mapping
	for range 3 {
		all.Columns = append(all.Columns, parts.Column{Field: "nothing", Unit: "x"})
	}
	if err := all.Validate(); strings.Count(err.Error(), "\n") < 5 {
		t.Errorf("not all problems at once: %v", err)
	}
}
