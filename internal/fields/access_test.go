package fields_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

func TestOf_refuses(t *testing.T) {
	for name, typ := range map[string]reflect.Type{
		"no tag": reflect.TypeFor[struct{ Flow units.VolumeFlow }](),
		"type without a role": reflect.TypeFor[struct {
			X float64 `json:"x"`
		}](),
		"range without dots": reflect.TypeFor[struct {
			X units.Length `json:"x" range:"1 ft"`
		}](),
		"range of a word": reflect.TypeFor[struct {
			X word `json:"x" range:"1 ft..2 ft"`
		}](),
		"range of other kind": reflect.TypeFor[struct {
			X units.Length `json:"x" range:"1 psi..2 psi"`
		}](),
		"range of no number": reflect.TypeFor[struct {
			X int `json:"x" range:"a..b"`
		}](),
		"two of one name": reflect.StructOf([]reflect.StructField{
			{Name: "X", Type: reflect.TypeFor[int](), Tag: `json:"x"`},
			{Name: "Y", Type: reflect.TypeFor[int](), Tag: `json:"x"`},
		}),
		"inside": reflect.TypeFor[struct {
			X []struct {
				Y chan int `json:"y"`
			} `json:"x"`
		}](),
	} {
		if _, err := fields.Of(typ); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestRows_order(t *testing.T) {
	var got []string
	for _, f := range tableOf[sample](t).Rows() {
		got = append(got, f.Pattern+" "+f.Role.String())
	}
	want := []string{"format text", "plant flag", "count count", "flow value", "drop value", "water value", "height value",
		"share value", "number value", "color value", "valve text", "basin group", "basin.part text", "basin.mass value", "basin.volume value",
		"spare group", "spare.part text", "spare.mass value", "spare.volume value", "lines list", "lines[].id text", "lines[].bore value",
		"lines[].note text", "lines[].trim group", "lines[].trim.offset value", "lines[].trim.rows list", "lines[].trim.rows[].name text",
		"rows list", "rows[].name text", "guns words", "notes table"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}

func TestField(t *testing.T) {
	f, ok := tableOf[sample](t).Lookup("lines[left].trim.offset")
	if !ok || f.Pattern != "lines[].trim.offset" || f.Kind != units.KindLength || f.Low != "-2 ft" || f.High != "2 ft" {
		t.Fatalf("got %+v, %v", f, ok)
	}
	lo, hi, hasLo, hasHi := f.Range()
	if lo != -(2*units.Foot).In(units.Meter) || hi != (2*units.Foot).In(units.Meter) || !hasLo || !hasHi {
		t.Errorf("range %v %v %v %v", lo, hi, hasLo, hasHi)
	}
	mass, _ := tableOf[sample](t).Lookup("basin.mass")
	if mass.Owner() != reflect.TypeFor[stock]() || mass.Type() != reflect.TypeFor[units.Mass]() {
		t.Errorf("owner %v, type %v", mass.Owner(), mass.Type())
	}
	if mass.Group != "water" {
		t.Errorf("group %q", mass.Group)
	}
}

func filled() *sample {
	return &sample{Format: "sample/1", Plant: true, Count: 3, Flow: 4 * units.GallonPerMinute, Height: units.ElevationAt(0), Color: word{"red"},
		Basin: basin{stock{Part: "WT240"}, 240 * units.Gallon}, Guns: []string{"left"},
		Lines: []line{{ID: "left", Bore: 0.375 * units.Inch, Trim: &trim{Offset: -units.Foot}}, {ID: "right"}},
		Notes: map[string]string{"flow": "measured"}}
}

func TestGet(t *testing.T) {
	table, s := tableOf[sample](t), filled()
	for _, c := range []struct {
		path, text string
		given      bool
		is         error
	}{
		{"flow", "4 gpm", true, nil},
		{"plant", "true", true, nil},
		{"count", "3", true, nil},
		{"color", "red", true, nil},
		{"height", "0 ft", true, nil}, // a zero that is given
		{"water", "", false, nil},
		{"basin.part", "WT240", true, nil},
		{"spare.part", "", false, nil}, // below an absent group
		{"lines[left].bore", "0.375 in", true, nil},
		{"lines[left].trim.offset", "-1 ft", true, nil},
		{"lines[right].trim.offset", "", false, nil},
		{"lines[middle].bore", "", false, fields.ErrUnknown},
		{"spare.parts", "", false, fields.ErrUnknown},
		{"flow.x", "", false, fields.ErrUnknown},
		{"flow[left]", "", false, fields.ErrUnknown},
		{"rows[a].name", "", false, fields.ErrUnknown}, // a list without ids
		{"lines.bore", "", false, fields.ErrUnknown},
		{"lines", "", false, units.ErrSyntax},
		{"lines[left]", "", false, units.ErrSyntax},
		{"basin", "", false, units.ErrSyntax},
		{"notes", "", false, units.ErrSyntax},
		{"guns", "", false, units.ErrSyntax},
		{"", "", false, units.ErrSyntax},
		{"lines[left.bore", "", false, units.ErrSyntax},
		{"lines[Left].bore", "", false, units.ErrSyntax},
		{"lines[#1].bore", "", false, units.ErrSyntax},
		{".flow", "", false, units.ErrSyntax},
		{strings.Repeat("a.", 300) + "a", "", false, units.ErrSyntax},
	} {
		text, given, err := table.Get(s, c.path)
		if text != c.text || given != c.given || !errors.Is(err, c.is) {
			t.Errorf("%s: %q, %v, %v", c.path, text, given, err)
		}
		if c.is == nil {
			slot, err := table.Slot(c.path)
			if strings.Contains(c.path, "[") {
				if !errors.Is(err, units.ErrSyntax) {
					t.Errorf("slot of %s: %v", c.path, err)
				}
				continue
			}
			text, given, err2 := slot.Text(s)
			if err != nil || err2 != nil || text != c.text || given != c.given || slot.Path() != c.path {
				t.Errorf("slot of %s: %q, %v, %v, %v", c.path, text, given, err, err2)
			}
		} else if _, err := table.Slot(c.path); err == nil {
			t.Errorf("slot of %s: no error", c.path)
		}
	}
	if q, ok := table.Quantity(s, "lines[left].bore"); !ok || q != (0.375*units.Inch).Quantity() {
		t.Errorf("quantity %v, %v", q, ok)
	}
	if _, ok := table.Quantity(s, "valve"); ok {
		t.Error("a text is no quantity")
	}
	if _, ok := table.Quantity(s, "spare.mass"); ok {
		t.Error("nothing is given below an absent group")
	}
}

func TestSet(t *testing.T) {
	table := tableOf[sample](t)
	for _, c := range []struct {
		path, text, reads string
		is                error
	}{
		{"flow", "6 1/2 gpm", "6.5 gpm", nil},
		{"plant", "false", "", nil},
		{"count", "9", "9", nil},
		{"color", "blue", "blue", nil},
		{"valve", "open", "open", nil},
		{"spare.mass", "150 lb", "150 lb", nil}, // the group is made
		{"lines[right].trim.offset", "1 ft", "1 ft", nil},
		{"flow", "", "", nil},
		{"flow", "4", "", units.ErrSyntax},
		{"flow", "50 gpm", "", units.ErrRange},
		{"spare.mass", "-1 lb", "", units.ErrRange},
		{"spare.mass", "heavy", "", units.ErrSyntax},
		{"plant", "TRUE", "", units.ErrSyntax},
		{"plant", "1", "", units.ErrSyntax},
		{"count", "0", "", units.ErrRange},
		{"valve", "ajar", "", units.ErrRange},
		{"color", "green", "", units.ErrSyntax},
		{"basin.part", "a\tb", "", units.ErrRange},
		{"lines[left].id", "b", "", units.ErrConflict},
		{"lines[left]", "b", "", units.ErrSyntax},
		{"basin", "b", "", units.ErrSyntax},
		{"notes", "b", "", units.ErrSyntax},
		{"guns", "left \u202e", "", units.ErrRange},
		{"flows", "4 gpm", "", fields.ErrUnknown},
	} {
		s := filled()
		err := table.Set(s, c.path, c.text)
		if !errors.Is(err, c.is) {
			t.Errorf("%s = %q: %v", c.path, c.text, err)
		}
		if c.is != nil {
			if d := cmp.Diff(filled(), s, exported); d != "" {
				t.Errorf("%s = %q: changed in spite of the error\n%s", c.path, c.text, d)
			}
			var fe *units.FieldError
			if !errors.As(err, &fe) || fe.Path != c.path {
				t.Errorf("%s = %q: the error has no path: %v", c.path, c.text, err)
			}
			continue
		}
		if text, _, err := table.Get(s, c.path); err != nil || (text != c.reads && c.path != "plant") {
			t.Errorf("%s = %q reads %q, %v", c.path, c.text, text, err)
		}
	}
	s := filled()
	if err := table.Set(s, "spare.mass", ""); err != nil || s.Spare != nil {
		t.Errorf("clearing below an absent group: %v, %v", s.Spare, err)
	}
	if err := table.Set(s, "guns", " left  right "); err != nil || !reflect.DeepEqual(s.Guns, []string{"left", "right"}) {
		t.Errorf("words: %q, %v", s.Guns, err)
	}
}

func TestSetQuantity(t *testing.T) {
	table := tableOf[sample](t)
	for _, c := range []struct {
		path string
		q    units.Quantity
		is   error
	}{
		{"flow", (5 * units.GallonPerMinute).Quantity(), nil},
		{"spare.mass", (5 * units.Pound).Quantity(), nil},
		{"height", units.ElevationAt(-100 * units.Foot).Quantity(), nil},
		{"flow", (5 * units.PSI).Quantity(), units.ErrConflict},
		{"flow", units.Quantity{}, units.ErrMissing},
		{"valve", (5 * units.PSI).Quantity(), units.ErrConflict},
		{"lines[left]", (5 * units.PSI).Quantity(), units.ErrSyntax},
		{"flow", (500 * units.GallonPerMinute).Quantity(), units.ErrRange},
		{"spare.mass", (-5 * units.Pound).Quantity(), units.ErrRange},
		{"spare.mass", units.Mass(math.NaN()).Quantity(), units.ErrRange},
		{"spare.mass", units.Mass(math.Inf(1)).Quantity(), units.ErrRange},
		{"flows", (5 * units.GallonPerMinute).Quantity(), fields.ErrUnknown},
	} {
		s := filled()
		err := table.SetQuantity(s, c.path, c.q)
		if !errors.Is(err, c.is) {
			t.Errorf("%s: %v", c.path, err)
		}
		if c.is != nil {
			if d := cmp.Diff(filled(), s, exported); d != "" {
				t.Errorf("%s: changed in spite of the error\n%s", c.path, d)
			}
			continue
		}
		if got, ok := table.Quantity(s, c.path); !ok || got != c.q {
			t.Errorf("%s: %v, %v", c.path, got, ok)
		}
	}
}

// Every field met on a walk is found again by its path, by its address, and
// through Get and Set of its own text.
func TestWalk_paths(t *testing.T) {
	table := tableOf[sample](t)
	property.Check(t, func(g *property.G) error {
		s := randomSample(g)
		var err error
		fail := func(format string, a ...any) bool { err = fmt.Errorf(format, a...); return false }
		table.Walk(s, func(v *fields.Visit) bool {
			if strings.Contains(v.Path(), "#") { // lists without ids
				return true
			}
			if p, ok := table.PathOf(s, v.Value.Addr().Interface()); !ok || fields.Pattern(p) != v.Field.Pattern {
				return fail("%s: the address leads to %q, %v", v.Path(), p, ok)
			}
			if f, ok := table.Lookup(v.Path()); !ok || f != v.Field {
				return fail("%s: no row", v.Path())
			}
			if e := table.Exists(s, v.Path()); e != nil {
				return fail("%s: %v", v.Path(), e)
			}
			got, ok := table.Value(s, v.Path())
			if !ok || got.Addr().Interface() != v.Value.Addr().Interface() {
				return fail("%s: another value", v.Path())
			}
			switch v.Field.Role {
			case fields.Group, fields.List, fields.Words, fields.PathTable:
				return true
			}
			text, given, e := table.Get(s, v.Path())
			if e != nil || given == v.Value.IsZero() {
				return fail("%s: %q, %v, %v", v.Path(), text, given, e)
			}
			if !given || v.Field.Name == "id" {
				return true
			}
			was := reflect.New(v.Value.Type()).Elem()
			was.Set(v.Value)
			v.Value.SetZero()
			if e := table.Set(s, v.Path(), text); e != nil {
				return fail("%s: %v", v.Path(), e)
			}
			if !v.Value.Equal(was) {
				return fail("%s: set to %v from the text %q of %v", v.Path(), v.Value, text, was)
			}
			return true
		})
		return err
	})
}

func TestPathOf(t *testing.T) {
	table, s := tableOf[sample](t), filled()
	for want, p := range map[string]any{
		"format": &s.Format, "basin": &s.Basin, "basin.part": &s.Basin.Part, "basin.volume": &s.Basin.Volume,
		"lines[left].trim.offset": &s.Lines[0].Trim.Offset, "lines[right].id": &s.Lines[1].ID, "lines": &s.Lines,
	} {
		if got, ok := table.PathOf(s, p); !ok || got != want {
			t.Errorf("%s: %q, %v", want, got, ok)
		}
	}
	other := filled()
	for _, p := range []any{&other.Flow, s.Flow, nil, (*units.VolumeFlow)(nil), &s.Lines[0]} {
		if got, ok := table.PathOf(s, p); ok {
			t.Errorf("%T: %q", p, got)
		}
	}
}

// A clone is equal and shares nothing: setting everything in one leaves the
// other as it was.
func TestClone(t *testing.T) {
	table := tableOf[sample](t)
	property.Check(t, func(g *property.G) error {
		s := randomSample(g)
		c := table.Clone(s).(*sample)
		if d := cmp.Diff(s, c, exported); d != "" {
			return fmt.Errorf("-original +clone\n%s", d)
		}
		keep := table.Clone(s).(*sample)
		table.Walk(c, func(v *fields.Visit) bool {
			switch v.Field.Role {
			case fields.PathTable:
				if v.Value.Len() > 0 {
					v.Value.SetMapIndex(reflect.ValueOf("flow"), reflect.ValueOf("changed"))
				}
			case fields.Words:
				for i := range v.Value.Len() {
					v.Value.Index(i).SetString("changed")
				}
			case fields.List, fields.Group:
			default:
				v.Value.SetZero()
			}
			return true
		})
		if d := cmp.Diff(keep, s, exported); d != "" {
			return fmt.Errorf("-before +after the clone was changed\n%s", d)
		}
		return nil
	})
}

func TestAddCopyRemove(t *testing.T) {
	table, s := tableOf[sample](t), filled()
	if err := table.Add(s, "lines", "middle"); err != nil {
		t.Fatal(err)
	}
	if err := table.Copy(s, "lines[left]", "twin"); err != nil {
		t.Fatal(err)
	}
	s.Lines[3].Trim.Offset = units.Foot
	want := []line{{ID: "left", Bore: 0.375 * units.Inch, Trim: &trim{Offset: -units.Foot}}, {ID: "right"}, {ID: "middle"},
		{ID: "twin", Bore: 0.375 * units.Inch, Trim: &trim{Offset: units.Foot}}}
	if d := cmp.Diff(want, s.Lines, exported); d != "" {
		t.Fatalf("-want +got\n%s", d)
	}
	if err := table.Remove(s, "lines[twin].trim"); err != nil || s.Lines[3].Trim != nil {
		t.Errorf("a group that was taken away: %v, %v", s.Lines[3].Trim, err)
	}
	if err := table.Remove(s, "lines[right].trim"); err != nil {
		t.Errorf("a group that is not there: %v", err)
	}
	before := s.Lines
	if err := table.Remove(s, "lines[right]"); err != nil {
		t.Fatal(err)
	}
	if before[1].ID != "right" {
		t.Error("the list was changed in place")
	}
	for _, id := range []string{"left", "middle", "twin"} {
		if err := table.Remove(s, "lines["+id+"]"); err != nil {
			t.Error(err)
		}
	}
	if s.Lines != nil {
		t.Errorf("left over: %v", s.Lines)
	}

	for name, err := range map[string]error{
		"add to a field":       table.Add(filled(), "flow", "a"),
		"add to no field":      table.Add(filled(), "liens", "a"),
		"add to an element":    table.Add(filled(), "lines[left]", "a"),
		"add without ids":      table.Add(filled(), "rows", "a"),
		"add what is there":    table.Add(filled(), "lines", "left"),
		"add with a bad id":    table.Add(filled(), "lines", "Left!"),
		"copy to what is":      table.Copy(filled(), "lines[left]", "right"),
		"copy to a bad id":     table.Copy(filled(), "lines[left]", ""),
		"copy what is not":     table.Copy(filled(), "lines[x]", "y"),
		"copy a list":          table.Copy(filled(), "lines", "y"),
		"copy a field":         table.Copy(filled(), "lines[left].bore", "y"),
		"remove what is not":   table.Remove(filled(), "lines[x]"),
		"remove a list":        table.Remove(filled(), "lines"),
		"remove a field":       table.Remove(filled(), "flow"),
		"remove an id":         table.Remove(filled(), "lines[left].id"),
		"remove no field":      table.Remove(filled(), "flwo"),
		"remove, list without": table.Remove(filled(), "rows[a]"),
		"remove a bad path":    table.Remove(filled(), "lines[left"),
	} {
		var fe *units.FieldError
		if !errors.As(err, &fe) || fe.Path == "" || fe.Want == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestProblems(t *testing.T) {
	table := tableOf[sample](t)
	if list := table.Problems(filled()); len(list) != 0 {
		t.Errorf("of a good value: %v", list)
	}
	s := filled()
	s.Count, s.Flow, s.Valve, s.Height = 10, units.VolumeFlow(math.NaN()), "ajar", units.ElevationAt(-1e6*units.Foot)
	s.Basin.Part, s.Basin.Mass = "a\x00", -1
	s.Lines = append(s.Lines, line{}, line{ID: "Left"}, line{ID: "left"})
	s.Guns = []string{"\u202e"}
	s.Notes = map[string]string{"b": "\n", "a\n": ""}
	var got []string
	for _, err := range table.Problems(s) {
		got = append(got, err.(*units.FieldError).Path)
	}
	want := []string{"count", "flow", "height", "valve", "basin.part", "basin.mass", "lines[#3]", "lines[#4]", "lines[#5]", "guns", `notes.a\n`, "notes.b"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}

func TestCleanText_joiners(t *testing.T) {
	for _, s := range []string{"", "a\u200cb", "\U0001F468\u200D\U0001F527", "水", strings.Repeat("x", 2000)} {
		if err := fields.CleanText(s); err != nil {
			t.Errorf("%q: %v", s, err)
		}
	}
}

func FuzzPath(f *testing.F) {
	for _, s := range []string{"flow", "lines[left].bore", "lines[left].trim.offset", "basin.part", "a[b]c", "a[[b]]", "lines[].bore", "...", "]", "lines[left][left]"} {
		f.Add(s, "4 gpm")
	}
	table := tableOf[sample](f)
	f.Fuzz(func(t *testing.T, path, text string) {
		s := filled()
		_, given, err := table.Get(s, path)
		exists := table.Exists(s, path)
		if err == nil && exists != nil {
			t.Errorf("%q can be read, but %v", path, exists)
		}
		if given && exists != nil {
			t.Errorf("%q is given, but %v", path, exists)
		}
		if exists == nil {
			if _, ok := table.Lookup(path); !ok && !strings.HasSuffix(path, "]") {
				t.Errorf("%q exists and has no row", path)
			}
		}
		if err := table.Set(s, path, text); err != nil {
			if d := cmp.Diff(filled(), s, exported); d != "" {
				t.Errorf("%q = %q: changed in spite of %v", path, text, err)
			}
		} else if exists != nil {
			t.Errorf("%q = %q was set, but %v", path, text, exists)
		}
		if slot, err := table.Slot(path); err == nil && exists != nil {
			t.Errorf("%q has a slot %v, but %v", path, slot.Path(), exists)
		}
		_, _ = table.Remove(s, path), table.Copy(s, path, text)
		_ = table.Add(s, path, text)
		if list := table.Problems(s); len(list) > 0 {
			t.Errorf("%q = %q: %v", path, text, list)
		}
	})
}
