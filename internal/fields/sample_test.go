package fields_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// A sample has a field of every role.
type sample struct {
	Format string             `json:"format" need:"yes" doc:"sample/1"`
	Plant  bool               `json:"plant"`
	Count  int                `json:"count" range:"1..9" default:"2" why:"a pair"`
	Flow   units.VolumeFlow   `json:"flow" range:"0.1 gpm..40 gpm" doc:"delivery"`
	Drop   units.Pressure     `json:"drop" range:"..900 psi"`
	Water  units.Temperature  `json:"water" range:"33 °F..212 °F"`
	Height units.Elevation    `json:"height" range:"-1500 ft..15000 ft"`
	Share  units.Ratio        `json:"share" range:"5 %..100 %"`
	Number units.NozzleNumber `json:"number" range:"0.1..200"`
	Color  word               `json:"color"`
	Valve  string             `json:"valve" choice:"open|shut"`
	Basin  basin              `json:"basin" group:"water"`
	Spare  *basin             `json:"spare"`
	Lines  []line             `json:"lines" doc:"one a gun"`
	Rows   []row              `json:"rows"`
	Guns   []string           `json:"guns" ref:"lines"`
	Notes  map[string]string  `json:"notes"`
	Hidden func()             `json:"-"`
}

type stock struct {
	Part string     `json:"part"`
	Mass units.Mass `json:"mass"`
}

type basin struct {
	stock
	Volume units.Volume `json:"volume" range:"1 gal..500 gal"`
}

type line struct {
	ID   string       `json:"id"`
	Bore units.Length `json:"bore"`
	Note string       `json:"note"`
	Trim *trim        `json:"trim"`
}

type trim struct {
	Offset units.Length `json:"offset" range:"-2 ft..2 ft"`
	Rows   []row        `json:"rows"`
}

type row struct {
	Name string `json:"name"`
}

// A word reads and writes itself and is no quantity.
type word struct{ s string }

func (w word) MarshalText() ([]byte, error) { return []byte(w.s), nil }
func (word) Pattern() string                { return "^(?:red|blue)$" }
func (w *word) UnmarshalText(b []byte) error {
	if s := string(b); s != "red" && s != "blue" {
		return errors.New("red or blue")
	}
	w.s = string(b)
	return nil
}

func tableOf[T any](t testing.TB) *fields.Table {
	t.Helper()
	table, err := fields.Of(reflect.TypeFor[T]())
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func decode(t testing.TB, text string) (*sample, error) {
	t.Helper()
	s := new(sample)
	return s, tableOf[sample](t).Decode(strings.NewReader(text), s, fields.Limits{})
}

// randomSample fills a sample with values that a file could hold.
func randomSample(g *property.G) *sample {
	text := func() string {
		return property.OneOf(g, "", "left", `3/8" hose, "hot"`, "naïve 水 \\ / <b> & '", "=1+1", strings.Repeat("x", 300), "a\u200db")
	}
	s := &sample{Format: "sample/1", Plant: g.Bool(), Count: g.Int(0, 9), Valve: property.OneOf(g, "", "open", "shut"),
		Color: property.OneOf(g, word{}, word{"red"}, word{"blue"})}
	if g.Bool() {
		s.Flow = units.VolumeFlow(g.Float(0.1, 40)) * units.GallonPerMinute
		s.Flow = min(max(s.Flow, 0.1*units.GallonPerMinute), 40*units.GallonPerMinute)
		s.Drop = units.Pressure(g.LogFloat(1e-3, 1e6))
		s.Number = units.NozzleNumber(g.Float(0.1, 200))
		s.Share = units.Ratio(g.Float(0.05, 1))
	}
	if g.Bool() {
		s.Water = units.Fahrenheit(g.Float(34, 211))
		s.Height = units.ElevationAt(units.Length(g.Float(-400, 4000)))
	}
	pool := func() basin {
		return basin{stock{Part: text(), Mass: units.Mass(g.LogFloat(1e-3, 1e4))}, units.Volume(g.Float(0.01, 1.8))}
	}
	if g.Bool() {
		s.Basin = pool()
	}
	if g.Bool() {
		p := pool()
		s.Spare = &p
	}
	for _, id := range []string{"left", "right", "a-1"}[:g.Int(0, 3)] {
		l := line{ID: id, Note: text(), Bore: units.Length(g.LogFloat(1e-4, 1))}
		if g.Bool() {
			l.Trim = &trim{Offset: units.Length(g.Float(-0.6, 0.6))}
			for range g.Int(0, 2) {
				l.Trim.Rows = append(l.Trim.Rows, row{text()})
			}
		}
		s.Lines = append(s.Lines, l)
		s.Guns = append(s.Guns, id)
	}
	for range g.Int(0, 2) {
		s.Rows = append(s.Rows, row{text()})
	}
	if g.Bool() {
		s.Notes = map[string]string{"flow": text(), "lines[left].bore": "measured"}
	}
	return s
}
