package units_test

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/washrig/units"
)

func TestNewQuantity(t *testing.T) {
	q, err := units.NewQuantity(units.KindPressure, 101325)
	if err != nil || q.Kind() != units.KindPressure || q.SI() != 101325 || !q.Given() || q.IsZero() {
		t.Errorf("got %v, %v", q, err)
	}
	zero, err := units.NewQuantity(units.KindPressure, 0)
	if err != nil || !zero.Given() || zero == (units.Quantity{}) {
		t.Errorf("a pressure of zero: %v, %v", zero, err)
	}
	for _, c := range []struct {
		kind units.Kind
		si   float64
		is   error
	}{
		{units.KindPressure, math.NaN(), units.ErrRange},
		{units.KindPressure, math.Inf(1), units.ErrRange},
		{units.KindTemperature, 0, units.ErrRange},
		{units.KindTemperature, -5, units.ErrRange},
		{0, 5, units.ErrMissing},
		{255, 5, units.ErrMissing},
	} {
		if q, err := units.NewQuantity(c.kind, c.si); !errors.Is(err, c.is) || q.Given() {
			t.Errorf("NewQuantity(%v, %v) = %v, %v", c.kind, c.si, q, err)
		}
	}
}

func TestQuantity_units(t *testing.T) {
	q := (3500 * units.PSI).Quantity()
	bar, ok := units.KindPressure.UnitOf("barg")
	if !ok || bar.Symbol() != "bar" || bar.String() != "bar" || bar.Constant() != "Bar" || bar.Kind() != units.KindPressure || bar.Factor() != 1e5 || bar.Offset() != 0 {
		t.Fatalf("the unit spelled barg is %+v", bar)
	}
	if n, err := q.In(bar); err != nil || n != (3500*units.PSI).In(units.Bar) {
		t.Errorf("in bar: %v, %v", n, err)
	}
	if got := q.TextIn(bar, 4); got != "241.3 bar" {
		t.Errorf("in bar: %q", got)
	}
	if back, err := bar.Of(250); err != nil || back != (250*units.Bar).Quantity() {
		t.Errorf("250 bar: %v, %v", back, err)
	}
	gpm := units.KindVolumeFlow.Unit(units.US)
	if n, err := q.In(gpm); !errors.Is(err, units.ErrConflict) || n != 0 {
		t.Errorf("a pressure in gpm: %v, %v", n, err)
	}
	if got := q.TextIn(gpm, 4); got != "241.3 bar" {
		t.Errorf("a pressure in gpm: %q", got)
	}
	if n, err := (units.Quantity{}).In(bar); !errors.Is(err, units.ErrMissing) || n != 0 {
		t.Errorf("nothing in bar: %v, %v", n, err)
	}
	if got := (units.Quantity{}).TextIn(bar, 4); got != "" {
		t.Errorf("nothing in bar: %q", got)
	}
	if _, err := (units.Quantity{}).In(units.Unit{}); err == nil {
		t.Error("nothing in no unit has a number")
	}
	if q, err := (units.Unit{}).Of(5); !errors.Is(err, units.ErrMissing) || q.Given() {
		t.Errorf("5 of no unit: %v, %v", q, err)
	}
	if _, ok := units.KindPressure.UnitOf("gpm"); ok {
		t.Error("gpm is taken for a pressure")
	}
	fahrenheit := units.KindTemperature.Unit(units.US)
	if hot, err := fahrenheit.Of(180); err != nil || hot != units.Fahrenheit(180).Quantity() {
		t.Errorf("180 °F: %v, %v", hot, err)
	}
	if cold, err := fahrenheit.Of(-460); !errors.Is(err, units.ErrRange) {
		t.Errorf("-460 °F: %v, %v", cold, err)
	}

	spellings := bar.Spellings()
	spellings[0] = "changed"
	if bar.Symbol() != "bar" || bar.Spellings()[0] != "bar" {
		t.Error("a caller can change the table")
	}
}

func TestQuantity_JSON(t *testing.T) {
	for _, c := range []struct{ quantity, data string }{
		{"3500 psi", `{"kind":"pressure","value":3500,"unit":"psi"}`},
		{"-1e-30 Pa", `{"kind":"pressure","value":-1e-30,"unit":"Pa"}`},
	} {
		q, err := units.ParseQuantity(units.KindPressure, c.quantity)
		if err != nil {
			t.Fatal(err)
		}
		got, err := json.Marshal(q)
		if err != nil || string(got) != c.data {
			t.Errorf("%s: got %s, %v, want %s", c.quantity, got, err, c.data)
		}
	}
	list, err := json.Marshal([]units.Quantity{(88 * units.Percent).Quantity(), units.Fahrenheit(60).Quantity(), (4.5 * units.Nozzle).Quantity(), {}})
	want := `[{"kind":"ratio","value":88,"unit":"%"},{"kind":"temperature","value":60,"unit":"°F"},{"kind":"nozzle-number","value":4.5,"unit":""},null]`
	if err != nil || string(list) != want {
		t.Errorf("got %s, %v, want %s", list, err, want)
	}
	var back []units.Quantity
	if err := json.Unmarshal(list, &back); err != nil || len(back) != 4 || back[1] != units.Fahrenheit(60).Quantity() || back[3].Given() {
		t.Errorf("read back: %v, %v", back, err)
	}
	type box struct {
		Limit units.Quantity `json:"limit,omitzero"`
		Inlet units.Temperature
		Site  units.Elevation `json:",omitzero"`
	}
	if got, err := json.Marshal(box{}); err != nil || string(got) != `{"Inlet":""}` {
		t.Errorf("an empty struct: %s, %v", got, err)
	}
	if got, err := json.Marshal(box{Site: units.ElevationAt(0)}); err != nil || string(got) != `{"Inlet":"","Site":"0 ft"}` {
		t.Errorf("a site at sea level: %s, %v", got, err)
	}

	for _, c := range []struct {
		data string
		is   error // nil: any error
	}{
		{`{"kind":"pressure","value":3500}`, units.ErrMissing},
		{`{"kind":"pressure","unit":"psi"}`, units.ErrMissing},
		{`{"value":3500,"unit":"psi"}`, units.ErrMissing},
		{`{"kind":"pressure","value":3500,"unit":""}`, units.ErrSyntax},
		{`{"kind":"pressure","value":3500,"unit":"gpm"}`, units.ErrSyntax},
		{`{"kind":"pressure","value":3500,"unit":"1/2 psi"}`, units.ErrSyntax},
		{`{"kind":"Pressure","value":3500,"unit":"psi"}`, nil},
		{`{"kind":"pressure","value":"3500","unit":"psi","note":1}`, nil},
		{`{"kind":"pressure","value":1e999,"unit":"psi"}`, nil},
		{`{"kind":"temperature","value":0,"unit":"K"}`, units.ErrRange},
		{`3500`, nil}, {`"3500 psi"`, nil}, {`[]`, nil},
	} {
		q := (5 * units.PSI).Quantity()
		err := json.Unmarshal([]byte(c.data), &q)
		if err == nil || c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%s: %v", c.data, err)
		}
		if q != (5 * units.PSI).Quantity() {
			t.Errorf("%s: an error and the value %v", c.data, q)
		}
	}
}

func TestKind(t *testing.T) {
	kinds := units.Kinds()
	if !slices.IsSorted(kinds) || len(slices.Compact(slices.Clone(kinds))) != len(kinds) {
		t.Errorf("kinds are not in order: %v", kinds)
	}
	for _, k := range kinds {
		text, err := k.MarshalText()
		var back units.Kind
		if err != nil || back.UnmarshalText(text) != nil || back != k || !k.Valid() {
			t.Errorf("%v: %s, %v, read as %v", k, text, err, back)
		}
		if name := k.String(); strings.ToLower(name) != name || strings.ContainsAny(name, " _/") {
			t.Errorf("%q is no plain name", name)
		}
	}
	for _, k := range []units.Kind{0, units.Kind(len(kinds) + 1), 255} {
		if text, err := k.MarshalText(); err == nil {
			t.Errorf("Kind(%d) is written %q", k, text)
		}
		if k.Valid() || len(k.Units()) != 0 || k.Base() != "" || k.Unit(units.US) != (units.Unit{}) {
			t.Errorf("Kind(%d) has something", k)
		}
		if got := k.Unit(units.SI).Symbol(); got != "invalid" {
			t.Errorf("the unit of Kind(%d) is %q", k, got)
		}
	}
	k := units.KindMass
	if err := k.UnmarshalText([]byte("weight")); !errors.Is(err, units.ErrSyntax) || k != units.KindMass {
		t.Errorf("weight: %v, now %v", err, k)
	}
}

func TestTemperature(t *testing.T) {
	if got := units.Fahrenheit(212).Sub(units.Fahrenheit(32)); math.Abs(got.In(units.FahrenheitDelta)-180) > 1e-12*180 {
		t.Errorf("212 - 32 °F is %v", got)
	}
	if got := units.Celsius(20).Add(18 * units.FahrenheitDelta); math.Abs(got.Celsius()-30) > 1e-12*300 {
		t.Errorf("20 °C and 18 °F are %v", got)
	}
	var none units.Temperature
	if none.Given() || none.Valid() || !none.IsZero() || none.Add(5).Given() || none.Quantity().Given() {
		t.Error("the zero Temperature counts as given")
	}
	if text, err := none.MarshalText(); err != nil || len(text) != 0 {
		t.Errorf("nothing is written %q, %v", text, err)
	}
	x := units.Celsius(5)
	if err := x.UnmarshalText(nil); err != nil || x.Given() {
		t.Errorf("the empty text: %v, %v", x, err)
	}
	for _, c := range []struct {
		t    units.Temperature
		want bool
	}{
		{units.Kelvin(1e-9), true}, {units.Celsius(0), true}, {units.Fahrenheit(0), true},
		{units.Kelvin(-1), false}, {units.Kelvin(math.NaN()), false}, {units.Kelvin(math.Inf(1)), false},
	} {
		if c.t.Valid() != c.want || !c.t.Given() {
			t.Errorf("%v K: valid %v, given %v", c.t.Kelvin(), c.t.Valid(), c.t.Given())
		}
	}
	if units.Celsius(0).Compare(units.Celsius(1)) != -1 || units.Celsius(1).Compare(units.Celsius(0)) != 1 || units.Celsius(1).Compare(units.Celsius(1)) != 0 || none.Compare(units.Kelvin(1)) != -1 {
		t.Error("temperatures compare wrongly")
	}
	bad := units.Kelvin(-5).Quantity()
	if err := x.SetQuantity(bad); !errors.Is(err, units.ErrRange) || x.Given() {
		t.Errorf("set to -5 K: %v, now %v", err, x)
	}
	// Both ways on both scales within rounding: 1e-13 of the kelvin reading.
	for _, f := range []float64{-40, 0, 32, 59, 60, 95, 180, 212, 600} {
		if got := units.Fahrenheit(f).Fahrenheit(); math.Abs(got-f) > 1e-13*1000 {
			t.Errorf("%v °F comes back as %v", f, got)
		}
		if got := units.Celsius(f).Celsius(); math.Abs(got-f) > 1e-13*1000 {
			t.Errorf("%v °C comes back as %v", f, got)
		}
	}
}

func TestPoints(t *testing.T) {
	var e units.Elevation
	if e.Given() || !e.IsZero() || e.Length() != 0 || e.Add(5).Given() || e.Quantity().Given() || e == units.ElevationAt(0) {
		t.Error("the zero Elevation counts as given")
	}
	sea := units.ElevationAt(0)
	if !sea.Given() || sea.IsZero() || !sea.Quantity().Given() {
		t.Error("sea level does not count as given")
	}
	if up := sea.Add(100 * units.Foot); up.Sub(sea) != 100*units.Foot || up.Length() != 100*units.Foot {
		t.Errorf("100 ft above sea level is %v", up)
	}
	if text, err := e.MarshalText(); err != nil || len(text) != 0 {
		t.Errorf("nothing is written %q, %v", text, err)
	}
	if err := sea.UnmarshalText(nil); err != nil || sea.Given() {
		t.Errorf("the empty text: %v, %v", sea, err)
	}

	var p units.Position
	if p.Given() || !p.IsZero() || p.Length() != 0 || p.Add(5).Given() || p.Quantity().Given() || p == units.PositionAt(0) {
		t.Error("the zero Position counts as given")
	}
	axle := units.PositionAt(0)
	if !axle.Given() || axle.IsZero() || axle.Add(-3*units.Foot).Sub(axle) != -3*units.Foot {
		t.Error("the position at zero does not count as given")
	}
	if text, err := p.MarshalText(); err != nil || len(text) != 0 {
		t.Errorf("nothing is written %q, %v", text, err)
	}
	if err := axle.UnmarshalText(nil); err != nil || axle.Given() {
		t.Errorf("the empty text: %v, %v", axle, err)
	}
	if bad, err := units.ParseElevation("high"); err == nil || bad.Given() {
		t.Errorf("an elevation of high: %v, %v", bad, err)
	}
}

func TestDuration(t *testing.T) {
	for _, c := range []struct {
		x    units.Duration
		want time.Duration
	}{
		{90 * units.Second, 90 * time.Second},
		{6 * units.Hour, 6 * time.Hour},
		{-1.5 * units.Millisecond, -1500 * time.Microsecond},
		{1e-9 * 2.5, 3}, // rounded half away from zero
		{0, 0},
		{1e5 * units.Day, 1e5 * 24 * time.Hour},
	} {
		got, err := c.x.TimeDuration()
		if err != nil || got != c.want {
			t.Errorf("%v: got %v, %v, want %v", c.x, got, err, c.want)
		}
	}
	for _, x := range []units.Duration{1e6 * units.Day, -1e6 * units.Day, units.Duration(math.NaN()), units.Duration(math.Inf(1)), 9223372036.854775808} {
		if got, err := x.TimeDuration(); !errors.Is(err, units.ErrRange) || got != 0 {
			t.Errorf("%v: got %v, %v", float64(x), got, err)
		}
	}
	if got := units.FromTimeDuration(90 * time.Minute); got != 1.5*units.Hour {
		t.Errorf("90 minutes are %v", got)
	}
}

func TestGauge(t *testing.T) {
	around := units.MustParseAbsolutePressure("1 atm")
	p := 100 * units.PSI
	if got := p.Above(around).Gauge(around); math.Abs(float64(got-p)) > 1e-15*8e5 {
		t.Errorf("100 psi and back are %v", got)
	}
	if got := units.AbsolutePressure(0).Gauge(around); got != -101325*units.Pascal {
		t.Errorf("vacuum at sea level is %v", got)
	}
}

func TestMust(t *testing.T) {
	if got := units.MustParsePressure("3500 psi"); got != 3500*units.PSI {
		t.Errorf("got %v", got)
	}
	defer func() {
		var f *units.FieldError
		if err, ok := recover().(error); !ok || !errors.As(err, &f) || f.Value != "3500" {
			t.Errorf("recovered %v", err)
		}
	}()
	units.MustParsePressure("3500")
	t.Error("a bare number does not panic")
}
