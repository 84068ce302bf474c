package importgraph

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// root returns the directory of go.mod.
func root(t *testing.T) string {
	t.Helper()
	file := strings.TrimSpace(string(run(t, ".", "env", "GOMOD")))
	if filepath.Base(file) != "go.mod" {
		t.Fatalf("go env GOMOD is %q: the tests are run inside the module", file)
	}
	return filepath.Dir(file)
}

func run(t *testing.T, dir string, args ...string) []byte {
	t.Helper()
	cmd := exec.Command("go", args...)
	cmd.Dir = dir
	// With cgo off, files that need it would not be listed.
	cmd.Env = append(os.Environ(), "CGO_ENABLED=1", "GOWORK=off")
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			t.Fatalf("go %s: %v\n%s", strings.Join(args, " "), err, exit.Stderr)
		}
		t.Fatalf("go %s: %v", strings.Join(args, " "), err)
	}
	return out
}

func readModfile(t *testing.T, root string) (m modfile) {
	t.Helper()
	if err := json.Unmarshal(run(t, root, "mod", "edit", "-json"), &m); err != nil {
		t.Fatal(err)
	}
	return m
}

func list(t *testing.T, root string, args ...string) (packages []listed) {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(run(t, root, append([]string{"list", "-json"}, args...)...)))
	for {
		var p listed
		if err := d.Decode(&p); err == io.EOF {
			return packages
		} else if err != nil {
			t.Fatal(err)
		}
		packages = append(packages, p)
	}
}

func TestImports(t *testing.T) {
	root := root(t)
	module := readModfile(t, root).Module.Path
	packages := list(t, root, "-deps", "./...")
	ours := 0
	for _, p := range packages {
		if within(p.ImportPath, module) {
			ours++
		}
	}
	if ours < 3 {
		t.Fatalf("go list shows %d packages of %s: the test looks at nothing", ours, module)
	}
	for _, v := range violations(module, packages) {
		t.Error(v)
	}
}

func TestRequirements(t *testing.T) {
	m := readModfile(t, root(t))
	if len(m.Require) == 0 {
		t.Error("go.mod requires nothing: the test looks at nothing")
	}
	for _, v := range modViolations(m) {
		t.Error(v)
	}
}

// Types of v0 modules come and go; an exported signature that had one would
// hand their changes on to every user.
func TestSignatures(t *testing.T) {
	root := root(t)
	module := readModfile(t, root).Module.Path
	seen := 0
	for _, p := range list(t, root, "./...") {
		path := strings.TrimPrefix(p.ImportPath, module+"/")
		if p.Name == "main" || within(path, "internal") {
			continue
		}
		for _, name := range p.GoFiles {
			seen++
			file := filepath.Join(p.Dir, name)
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range foreignTypes(t, filepath.ToSlash(filepath.Join(path, name)), src, module) {
				t.Error(v)
			}
		}
	}
	if seen == 0 {
		t.Skip("no package outside internal yet")
	}
}

// foreignTypes lists the exported declarations of a file whose types name a
// package of another module.
func foreignTypes(t *testing.T, name string, src []byte, module string) (bad []string) {
	t.Helper()
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, name, src, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	foreign := map[string]string{}
	for _, s := range f.Imports {
		path, err := strconv.Unquote(s.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		if first, _, _ := strings.Cut(path, "/"); !strings.Contains(first, ".") || within(path, module) {
			continue
		}
		local := path[strings.LastIndex(path, "/")+1:]
		if s.Name != nil {
			local = s.Name.Name
		}
		foreign[local] = path
	}
	look := func(what string, n ast.Node) {
		ast.Inspect(n, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BlockStmt:
				return false
			case *ast.Field:
				// A field or method that is not exported may be of any type.
				if len(n.Names) > 0 && !slices.ContainsFunc(n.Names, func(i *ast.Ident) bool { return i.IsExported() }) {
					return false
				}
			case *ast.SelectorExpr:
				if x, ok := n.X.(*ast.Ident); ok && foreign[x.Name] != "" {
					bad = append(bad, set.Position(n.Pos()).String()+": exported "+what+" names a type of "+foreign[x.Name])
				}
			}
			return true
		})
	}
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() {
				// Parameters are fields too, but their names do not hide their types.
				for _, list := range []*ast.FieldList{d.Type.TypeParams, d.Type.Params, d.Type.Results} {
					if list == nil {
						continue
					}
					for _, field := range list.List {
						look(d.Name.Name, field.Type)
					}
				}
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					if s.Name.IsExported() {
						look(s.Name.Name, s.Type)
					}
				case *ast.ValueSpec:
					if s.Type != nil && slices.ContainsFunc(s.Names, func(i *ast.Ident) bool { return i.IsExported() }) {
						look(s.Names[0].Name, s.Type)
					}
				}
			}
		}
	}
	return bad
}
