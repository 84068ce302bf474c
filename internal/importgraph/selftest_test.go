package importgraph

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestViolations(t *testing.T) {
	const m = "example.org/m"
	for _, c := range []struct {
		name string
		p    listed
		want string // "" if allowed
	}{
		{"units alone", listed{ImportPath: m + "/units", Imports: []string{"strings"}}, ""},
		{"units to internal", listed{ImportPath: m + "/units", Imports: []string{m + "/internal/root"}}, "must not import"},
		{"units to gonum", listed{ImportPath: m + "/units", Imports: []string{"gonum.org/v1/gonum/unit"}}, "standard library alone"},
		{"units test to kit", listed{ImportPath: m + "/units", TestImports: []string{m + "/internal/worked"}}, ""},
		{"units test to domain", listed{ImportPath: m + "/units", TestImports: []string{m + "/fuel"}}, "a test of"},
		{"internal to units", listed{ImportPath: m + "/internal/root", Imports: []string{m + "/units"}}, ""},
		{"internal to domain", listed{ImportPath: m + "/internal/root", Imports: []string{m + "/fuel"}}, "must not import"},
		{"internal kit to go-cmp", listed{ImportPath: m + "/internal/golden", Imports: []string{"github.com/google/go-cmp/cmp"}}, ""},
		{"command to domain", listed{ImportPath: m + "/internal/cmd/x", Imports: []string{m + "/fuel"}}, ""},
		{"domain to command", listed{ImportPath: m + "/fuel", Imports: []string{m + "/internal/cmd/x"}}, "must not import"},
		{"domain to units and internal", listed{ImportPath: m + "/thermal", Imports: []string{m + "/units", m + "/internal/water", "gonum.org/v1/gonum/interp"}}, ""},
		{"domain to domain", listed{ImportPath: m + "/thermal", Imports: []string{m + "/fuel"}}, "must not import"},
		{"domain to sub of domain", listed{ImportPath: m + "/thermal", Imports: []string{m + "/hydraulics/tank"}}, "must not import"},
		{"domain test to domain", listed{ImportPath: m + "/thermal", XTestImports: []string{m + "/fuel"}}, "a test of"},
		{"domain test to itself", listed{ImportPath: m + "/thermal", XTestImports: []string{m + "/thermal"}}, ""},
		{"domain test to demo", listed{ImportPath: m + "/thermal", XTestImports: []string{m + "/examples/demo"}}, "a test of"},
		{"sub to its root", listed{ImportPath: m + "/hydraulics/tank", Imports: []string{m + "/hydraulics"}}, ""},
		{"root to its sub", listed{ImportPath: m + "/hydraulics", Imports: []string{m + "/hydraulics/tank"}}, "must not import"},
		{"root to its internal", listed{ImportPath: m + "/hydraulics", Imports: []string{m + "/hydraulics/internal/k"}}, ""},
		{"sub to sibling", listed{ImportPath: m + "/hydraulics/tank", Imports: []string{m + "/hydraulics/vacuum"}}, "must not import"},
		{"domain to rig", listed{ImportPath: m + "/fuel", Imports: []string{m + "/rig"}}, "must not import"},
		{"parts to rig", listed{ImportPath: m + "/rig/parts", Imports: []string{m + "/rig"}}, "must not import"},
		{"parts to domain", listed{ImportPath: m + "/rig/parts", Imports: []string{m + "/electrical"}}, "must not import"},
		{"parts to statics", listed{ImportPath: m + "/rig/parts", Imports: []string{m + "/rig/statics"}}, "must not import"},
		{"rig to all below", listed{ImportPath: m + "/rig", Imports: []string{m + "/rig/parts", m + "/rig/statics", m + "/hydraulics/tank", m + "/fuel"}}, ""},
		{"rig to day", listed{ImportPath: m + "/rig", Imports: []string{m + "/rig/day"}}, "must not import"},
		{"rig test to demo", listed{ImportPath: m + "/rig", XTestImports: []string{m + "/examples/demo"}}, ""},
		{"day to rig", listed{ImportPath: m + "/rig/day", Imports: []string{m + "/rig", m + "/rig/parts"}}, ""},
		{"day to mend", listed{ImportPath: m + "/rig/day", Imports: []string{m + "/rig/mend"}}, "must not import"},
		{"quote to mend", listed{ImportPath: m + "/rig/quote", Imports: []string{m + "/rig/mend"}}, ""},
		{"quote to sheet", listed{ImportPath: m + "/rig/quote", Imports: []string{m + "/rig/sheet"}}, "must not import"},
		{"sheet to quote", listed{ImportPath: m + "/rig/sheet", Imports: []string{m + "/rig/quote"}}, ""},
		{"sheet to examples", listed{ImportPath: m + "/rig/sheet", Imports: []string{m + "/examples/demo"}}, "must not import"},
		{"examples to all", listed{ImportPath: m + "/examples/quote", Imports: []string{m + "/rig/sheet", m + "/examples/demo"}}, ""},
		{"stray top level", listed{ImportPath: m + "/util"}, "no place"},
		{"root package", listed{ImportPath: m}, "no place"},
		{"other module", listed{ImportPath: m + "/fuel", Imports: []string{"example.net/x"}}, "none of the agreed"},
		{"like-named module", listed{ImportPath: m + "/fuel", Imports: []string{"golang.org/x/expand"}}, "none of the agreed"},
		{"other module in test", listed{ImportPath: m + "/fuel", TestImports: []string{"example.net/x"}}, "none of the agreed"},
		{"go-cmp outside tests", listed{ImportPath: m + "/fuel", Imports: []string{"github.com/google/go-cmp/cmp"}, Deps: []string{"github.com/google/go-cmp/cmp"}}, "belongs in tests"},
		{"testing outside tests", listed{ImportPath: m + "/fuel", Deps: []string{"testing"}}, "belongs in tests"},
		{"cgo", listed{ImportPath: m + "/fuel", CgoFiles: []string{"x.go"}}, "needs cgo"},
		{"cgo elsewhere", listed{ImportPath: "gonum.org/v1/gonum/x", CgoFiles: []string{"x.go"}}, "needs cgo"},
		{"cgo in the standard library", listed{ImportPath: "net", Standard: true, CgoFiles: []string{"x.go"}}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := violations(m, []listed{{ImportPath: "strings", Standard: true}, c.p})
			if c.want == "" && len(got) > 0 || c.want != "" && (len(got) != 1 || !strings.Contains(got[0], c.want)) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestModViolations(t *testing.T) {
	var m modfile
	if err := json.Unmarshal([]byte(`{"Module":{"Path":"m"},"Require":[
		{"Path":"gonum.org/v1/gonum"},{"Path":"golang.org/x/exp"},{"Path":"github.com/google/go-cmp"},
		{"Path":"example.net/far","Indirect":true}]}`), &m); err != nil {
		t.Fatal(err)
	}
	if got := modViolations(m); len(got) != 0 {
		t.Errorf("the agreed requirements are reported: %q", got)
	}
	if err := json.Unmarshal([]byte(`{"Require":[{"Path":"example.net/near"}],
		"Replace":[{"Old":{"Path":"gonum.org/v1/gonum"},"New":{"Path":"../gonum"}}],
		"Tool":[{"Path":"example.net/tool"}]}`), &m); err != nil {
		t.Fatal(err)
	}
	if got := modViolations(m); len(got) != 3 {
		t.Errorf("want three violations, got %q", got)
	}
}

func TestForeignTypes(t *testing.T) {
	const src = `package p
import (
	"io"
	"gonum.org/v1/gonum/mat"
	rnd "golang.org/x/exp/rand"
	"example.org/m/units"
)
func F(a *mat.Dense) {}            // 1
func G() (x rnd.Source, err error) { return }  // 2
type T struct {
	Open   mat.Matrix              // 3
	hidden mat.Matrix
	mat.Vector                     // 4
	R      io.Reader
	P      units.Pressure
}
type U map[string]mat.Dense        // 5
var V mat.Dense                    // 6
func f(a *mat.Dense) {}
func H() { var a mat.Dense; _ = a }
func K[M mat.Matrix](m M) {}       // 7
type t struct { A mat.Dense }
`
	got := foreignTypes(t, "p.go", []byte(src), "example.org/m")
	if len(got) != 7 {
		t.Errorf("want seven, got %d:\n%s", len(got), strings.Join(got, "\n"))
	}
}
