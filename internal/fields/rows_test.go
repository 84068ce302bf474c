package fields_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/property"
	"example.com/washrig/units"
)

// dump writes what Rows finds, one row a line.
func dump(text string) []string {
	var out []string
	r := fields.NewRows(text)
	for r.Next() {
		row, line := r.Row()
		if col, err := r.Err(); err != nil {
			out = append(out, fmt.Sprintf("%d/%d cell %d is wrong", row, line, col))
			continue
		}
		out = append(out, fmt.Sprintf("%d/%d %q", row, line, r.Cells()))
	}
	return out
}

func TestRows(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"nothing", "", nil},
		{"one cell", "a", []string{`1/1 ["a"]`}},
		{"LF", "a,b\nc,d\n", []string{`1/1 ["a" "b"]`, `2/2 ["c" "d"]`}},
		{"CRLF", "a,b\r\nc,d\r\n", []string{`1/1 ["a" "b"]`, `2/2 ["c" "d"]`}},
		{"CR", "a,b\rc,d\r", []string{`1/1 ["a" "b"]`, `2/2 ["c" "d"]`}},
		{"blank rows are counted", "a\n\n,,\n \u00a0,\"\"\n\"\n\"\nb", []string{`1/1 ["a"]`, `6/7 ["b"]`}},
		{"break in quotes", "\"a\nb\",c\r\n\"d\r\n\re\",f\ng", []string{`1/1 ["a\nb" "c"]`, `2/3 ["d\r\n\re" "f"]`, `3/6 ["g"]`}},
		{"doubled quotes", `"a ""b"" c","""",""` + "\n", []string{`1/1 ["a \"b\" c" "\"" ""]`}},
		{"quote inside a bare cell", `3/8" hose,x`, []string{`1/1 ["3/8\" hose" "x"]`}},
		{"comma at the end", "a,\nb,", []string{`1/1 ["a" ""]`, `2/2 ["b" ""]`}},
		{"text after a quote", "a,\"b\"c,d\ne,f", []string{`1/1 cell 2 is wrong`, `2/2 ["e" "f"]`}},
		{"quote never closed", "a,b\n\"c,d\ne,f\ng,h", []string{`1/1 ["a" "b"]`, `2/2 cell 1 is wrong`, `3/3 ["e" "f"]`, `4/4 ["g" "h"]`}},
		{"quote closed by another's", "\"a,b\n\"c\",d\ne", []string{`1/1 cell 1 is wrong`, `2/2 ["c" "d"]`, `3/3 ["e"]`}},
		{"quote never closed in the last line", "a\n\"b", []string{`1/1 ["a"]`, `2/2 cell 1 is wrong`}},
		{"quote that opens below a good break", "\"a\nb\",\"c\nd\ne", []string{`1/1 cell 2 is wrong`, `2/3 ["d"]`, `3/4 ["e"]`}},
		{"doubled quote at the end", "\"a\"\"", []string{`1/1 cell 1 is wrong`}},
		{"long cell", "\"" + strings.Repeat("x", 70_000) + "\",a\nb", []string{`1/1 cell 1 is wrong`, `2/2 ["b"]`}},
	} {
		if d := cmp.Diff(c.want, dump(c.text)); d != "" {
			t.Errorf("%s: -want +got\n%s", c.name, d)
		}
	}
}

// What package encoding/csv writes is read as it was meant, with either end of
// a line; what AppendCell writes, encoding/csv reads.
func TestRows_encodingCSV(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		var want [][]string
		for range g.Int(1, 5) {
			row := []string{"x"} // no row without text
			for range g.Int(0, 4) {
				row = append(row, strings.Join([]string{
					property.OneOf(g, "", "a", " ", `"`, ",", "\n", "\r\n", "'", "="), property.OneOf(g, "", "b", `""`, "水,\n"),
				}, property.OneOf(g, "", "-")))
			}
			want = append(want, row)
		}
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.UseCRLF = g.Bool()
		if err := w.WriteAll(want); err != nil {
			return err
		}
		var got [][]string
		r := fields.NewRows(b.String())
		for r.Next() {
			if _, err := r.Err(); err != nil {
				return err
			}
			cells := slices.Clone(r.Cells())
			for i := range cells { // the writer makes CRLF of every LF, its own reader LF of every CRLF
				cells[i] = strings.ReplaceAll(cells[i], "\r\n", "\n")
			}
			got = append(got, cells)
		}
		for i := range want {
			for j := range want[i] {
				want[i][j] = strings.ReplaceAll(want[i][j], "\r\n", "\n")
			}
		}
		if d := cmp.Diff(want, got); d != "" {
			return fmt.Errorf("%q: -want +got\n%s", b.String(), d)
		}
		var ours []byte
		for _, row := range want {
			for j, c := range row {
				if j > 0 {
					ours = append(ours, ',')
				}
				ours = fields.AppendCell(ours, c)
			}
			ours = append(ours, '\r', '\n')
		}
		cr := csv.NewReader(strings.NewReader(string(ours)))
		cr.FieldsPerRecord = -1
		theirs, err := cr.ReadAll()
		if err != nil {
			return fmt.Errorf("%q: %w", ours, err)
		}
		if d := cmp.Diff(want, theirs); d != "" {
			return fmt.Errorf("%q: -written +read by encoding/csv\n%s", ours, d)
		}
		return nil
	})
}

func TestFold(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "a": "a", " a\u00a0": "a", "\r\n a \r\n b\n\n c\r": "a b c", "Flow\n(gpm)": "Flow (gpm)", "a  b": "a  b", "\n": "",
	} {
		if got := fields.Fold(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}

func TestFormula(t *testing.T) {
	for _, s := range []string{"=1+1", "+1+1", "-1+1", "@SUM(A1)", " =1", "\u00a0=1", "＝1", "＋1", "－1", "＠A", "-", "+", "-5 ft", "--5", "-+5", "-.5.", "=",
		"-1e5", "=HYPERLINK(\"x\")", "+A1"} {
		if !fields.Formula(s) {
			t.Errorf("%q is none", s)
		}
	}
	for _, s := range []string{"", "a", "5", "-5", "+5", "-5.25", "a=b", "'=1", "3-4"} {
		if fields.Formula(s) {
			t.Errorf("%q is one", s)
		}
	}
}

// No written cell can be taken for a formula, and reading gives back the text.
func TestInert(t *testing.T) {
	property.Check(t, func(g *property.G) error {
		var s string
		for range g.Int(0, 6) {
			s += property.OneOf(g, "'", "=", "+", "-", "@", " ", "1", "a", ".", "＝", "\"")
		}
		in := fields.Inert(s)
		if fields.Formula(in) {
			return fmt.Errorf("%q is written as the formula %q", s, in)
		}
		if back := fields.Revive(in); back != s {
			return fmt.Errorf("%q is written as %q and read as %q", s, in, back)
		}
		return nil
	})
}

// The list of refused characters against the tables of package unicode.
func TestCleanText_unicode(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if 0xD800 <= r && r < 0xE000 {
			continue
		}
		want := unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) || r == unicode.ReplacementChar
		switch {
		case r == 0x200C || r == 0x200D: // joiners, which some scripts need
			want = false
		case r == 0xFFFC: // stands for an object that got lost
			want = true
		case r == 0x2065: // a hole in the row of invisible characters
			want = true
		case 0xE0000 <= r && r <= 0xE007F: // tags, unassigned ones too
			want = true
		case r > 0xFFFF: // format characters of musical notation, hieroglyphs, shorthand
			want = false
		}
		if got := fields.CleanText(string(r)) != nil; got != want {
			t.Errorf("U+%04X is refused: %v, want %v", r, got, want)
		}
	}
}

func TestReadText(t *testing.T) {
	for in, want := range map[string]string{"a,b": "a,b", "\ufeffa": "a", "": "", "\xb0F": "\xb0F"} {
		if got, err := fields.ReadText(strings.NewReader(in), 100); got != want || err != nil {
			t.Errorf("%q: %q, %v", in, got, err)
		}
	}
	for _, in := range []string{"\xff\xfea\x00", "\xfe\xff\x00a", "a\x00b\x00"} {
		if _, err := fields.ReadText(strings.NewReader(in), 100); !errors.Is(err, units.ErrSyntax) || !strings.Contains(err.Error(), "UTF-16") {
			t.Errorf("%q: %v", in, err)
		}
	}
	in := new(spaces)
	if _, err := fields.ReadText(io.LimitReader(in, 100<<20), 1<<20); !errors.Is(err, fields.ErrTooLarge) || in.read > 2<<20 {
		t.Errorf("%v after %d bytes", err, in.read)
	}
	if _, err := fields.ReadText(broken{}, 100); !errors.Is(err, errBroken) {
		t.Errorf("got %v", err)
	}
}

func FuzzRows(f *testing.F) {
	for _, s := range []string{"a,b\r\nc", "\"a\nb\",c", "\"a", "\"a\"b\nc", "\"\"\"\"\n", "a\"b,\"c\"\r\r\n", ",,\n,", "\"\"\"a\n\"\"\"a\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r := fields.NewRows(text)
		last, wrong := 0, false
		var ours [][]string
		for r.Next() {
			row, line := r.Row()
			if row <= last || line < row && !strings.Contains(text, "\"") {
				t.Fatalf("row %d, line %d after row %d of %q", row, line, last, text)
			}
			last = row
			if col, err := r.Err(); err != nil {
				wrong = true
				if col < 1 {
					t.Errorf("no cell: %v", err)
				}
				continue
			}
			ours = append(ours, slices.Clone(r.Cells()))
		}
		if wrong || strings.Contains(text, "\r") || strings.Contains(text, "\ufeff") {
			return // encoding/csv takes CR for text
		}
		cr := csv.NewReader(strings.NewReader(text))
		cr.FieldsPerRecord, cr.LazyQuotes = -1, true
		theirs, err := cr.ReadAll()
		if err != nil {
			t.Fatalf("encoding/csv: %v of %q", err, text)
		}
		theirs = slices.DeleteFunc(theirs, func(row []string) bool { return strings.Trim(strings.Join(row, ""), " \u00a0\u202f\n") == "" })
		if d := cmp.Diff(theirs, ours, cmpopts.EquateEmpty()); d != "" {
			t.Errorf("%q: -encoding/csv +Rows\n%s", text, d)
		}
	})
}
