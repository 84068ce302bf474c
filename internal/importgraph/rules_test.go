package importgraph

import (
	"fmt"
	"slices"
	"strings"
)

// A listed package is what go list tells of one.
type listed struct {
	ImportPath   string
	Name         string
	Dir          string
	Standard     bool
	GoFiles      []string
	CgoFiles     []string
	SwigFiles    []string
	SwigCXXFiles []string
	Imports      []string
	TestImports  []string
	XTestImports []string
	Deps         []string
}

// requirements are the modules that go.mod may name as its own need.
var requirements = []string{"github.com/google/go-cmp", "golang.org/x/exp", "gonum.org/v1/gonum"}

const comparing = "github.com/google/go-cmp"

// layers puts every package outside internal, examples and units in a row;
// each may import what stands in earlier layers, units and internal.
var layers = [][]string{
	{"hydraulics", "thermal", "electrical", "fuel", "rig/statics", "rig/parts"},
	{"rig"},
	{"rig/mend", "rig/day", "rig/batch"},
	{"rig/quote"},
	{"rig/sheet"},
}

// unit is the part of the module whose packages are treated alike, and its layer:
// "hydraulics/tank" belongs to "hydraulics", "rig/quote/internal/x" to "rig/quote".
func unit(path string) (name string, layer int) {
	layer = -1
	for i, names := range layers {
		for _, n := range names {
			if within(path, n) && len(n) > len(name) {
				name, layer = n, i
			}
		}
	}
	return name, layer
}

func within(path, root string) bool {
	return path == root || strings.HasPrefix(path, root+"/")
}

// mayImport reports whether from may import to; both are paths in the module.
func mayImport(from, to string) bool {
	switch {
	case within(to, "internal/cmd"):
		return false
	case within(from, "examples"), within(from, "internal/cmd"):
		return true
	case within(to, "examples"):
		return false
	case within(to, "units"):
		return true
	case within(from, "units"):
		return false
	case within(to, "internal"):
		return true
	case within(from, "internal"):
		return false
	}
	fromUnit, fromLayer := unit(from)
	toUnit, toLayer := unit(to)
	if fromLayer < 0 || toLayer < 0 {
		return false
	}
	if fromUnit == toUnit {
		// Beside its own root a package sees what is internal to it.
		return to == toUnit || strings.Contains("/"+to+"/", "/internal/")
	}
	// A unit named without its subpackages is a layer of its own: what lies
	// below rig and has no place in the layers belongs to rig.
	return toLayer < fromLayer
}

// mayImportInTest is mayImport for test files. They may also use the kits,
// the subpackages of their own unit and, from rig on, the demo scenario.
func mayImportInTest(from, to string) bool {
	if mayImport(from, to) || from == to {
		return true
	}
	fromUnit, fromLayer := unit(from)
	toUnit, _ := unit(to)
	switch {
	case within(to, "internal/cmd"):
		return false
	case within(to, "internal"):
		return true
	case within(to, "examples/demo"):
		return fromLayer >= 1
	case fromUnit != "" && fromUnit == toUnit:
		return true
	}
	return false
}

// violations lists, in the packages' order, what breaks a rule.
func violations(module string, packages []listed) []string {
	var bad []string
	report := func(format string, a ...any) { bad = append(bad, fmt.Sprintf(format, a...)) }
	standard := map[string]bool{"C": false, "unsafe": true}
	for _, p := range packages {
		if p.Standard {
			standard[p.ImportPath] = true
		}
	}
	relative := func(path string) (string, bool) {
		if path == module {
			return ".", true
		}
		return strings.CutPrefix(path, module+"/")
	}
	for _, p := range packages {
		if p.Standard {
			continue
		}
		if files := slices.Concat(p.CgoFiles, p.SwigFiles, p.SwigCXXFiles); len(files) > 0 {
			report("%s needs cgo: %s", p.ImportPath, strings.Join(files, ", "))
		}
		from, ours := relative(p.ImportPath)
		if !ours {
			continue
		}
		if _, layer := unit(from); layer < 0 && !within(from, "units") && !within(from, "internal") && !within(from, "examples") {
			report("%s has no place in the layout", p.ImportPath)
		}
		for _, path := range p.Imports {
			to, ours := relative(path)
			switch {
			case ours && !mayImport(from, to):
				report("%s must not import %s", p.ImportPath, path)
			case ours || standard[path]:
			case within(from, "units"):
				report("%s must not import %s: units has the standard library alone", p.ImportPath, path)
			case !slices.ContainsFunc(requirements, func(r string) bool { return within(path, r) }):
				report("%s imports %s, which is in none of the agreed modules", p.ImportPath, path)
			}
		}
		if !within(from, "internal") {
			for _, path := range p.Deps {
				if path == "testing" || within(path, comparing) {
					report("%s depends on %s, which belongs in tests", p.ImportPath, path)
				}
			}
		}
		tests := slices.Concat(p.TestImports, p.XTestImports)
		slices.Sort(tests)
		for _, path := range slices.Compact(tests) {
			to, ours := relative(path)
			if ours && !mayImportInTest(from, to) {
				report("a test of %s must not import %s", p.ImportPath, path)
			}
			// Packages that only tests import are not listed; a path whose first
			// element has no dot is of the standard library.
			first, _, _ := strings.Cut(path, "/")
			if !ours && strings.Contains(first, ".") &&
				!slices.ContainsFunc(requirements, func(r string) bool { return within(path, r) }) {
				report("a test of %s imports %s, which is in none of the agreed modules", p.ImportPath, path)
			}
		}
	}
	return bad
}

// A modfile is what go mod edit -json tells of go.mod.
type modfile struct {
	Module  struct{ Path string }
	Require []struct {
		Path     string
		Indirect bool
	}
	Replace []struct{ Old, New struct{ Path string } }
	Tool    []struct{ Path string }
}

func modViolations(m modfile) []string {
	var bad []string
	for _, r := range m.Require {
		if !r.Indirect && !slices.Contains(requirements, r.Path) {
			bad = append(bad, "go.mod requires "+r.Path+", which is not agreed")
		}
	}
	for _, r := range m.Replace {
		bad = append(bad, "go.mod replaces "+r.Old.Path)
	}
	for _, t := range m.Tool {
		bad = append(bad, "go.mod names the tool "+t.Path+"; tools are run at a version instead")
	}
	return bad
}
