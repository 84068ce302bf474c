package fields

import (
	"encoding"
	"fmt"
	"reflect"
	"regexp"
	"strings"

	"example.com/washrig/units"
)

// A Role says what a field is to the reader of a file.
type Role uint8

// The roles of a field.
const (
	Text      Role = iota + 1 // a string
	Flag                      // true or false
	Count                     // a whole number
	Value                     // a type that reads and writes itself as text
	Group                     // a struct
	List                      // a slice of structs, each with an id
	Words                     // a slice of strings
	PathTable                 // a map from path to text
)

// String names the role as a document would.
func (r Role) String() string {
	switch r {
	case Text:
		return "text"
	case Flag:
		return "flag"
	case Count:
		return "count"
	case Value:
		return "value"
	case Group:
		return "group"
	case List:
		return "list"
	case Words:
		return "words"
	case PathTable:
		return "table"
	}
	return "invalid"
}

// A Field is one row of the table.
type Field struct {
	Pattern string // lines[].hose.length
	Name    string // length
	Role    Role
	Kind    units.Kind // zero unless the value is a quantity
	Doc     string
	Group   string
	Need    bool
	Default string // as written in the tag; empty if there is none
	Why     string // where the default comes from
	When    string // name=word: the default holds only where that sibling field has that word
	Low     string // as written in the range tag
	High    string
	Choices []string
	Ref     string // list the text must name an element of

	typ       reflect.Type
	owner     reflect.Type // the struct type that declares it
	index     []int
	sub       *node
	ptr       bool // a Group reached through a pointer
	low, high float64
	hasLow    bool
	hasHigh   bool
	pos       int // row in the table
}

// Type is the Go type of the field.
func (f *Field) Type() reflect.Type { return f.typ }

// Owner is the struct type that declares the field: for a field of an embedded
// struct, the embedded one.
func (f *Field) Owner() reflect.Type { return f.owner }

// Range returns the closed range of an accepted quantity in SI units. An open
// end is reported by its flag.
func (f *Field) Range() (low, high float64, hasLow, hasHigh bool) {
	return f.low, f.high, f.hasLow, f.hasHigh
}

type node struct {
	typ    reflect.Type
	fields []*Field
	byName map[string]*Field
	id     *Field
}

// A Table describes one struct type and everything below it.
type Table struct {
	root *node
	rows []*Field
	pats map[string]*Field
}

// Rows returns the fields in the order of the struct type.
func (t *Table) Rows() []*Field { return t.rows }

// Lookup finds the row of a pattern or of a path.
func (t *Table) Lookup(path string) (*Field, bool) {
	f, ok := t.pats[Pattern(path)]
	return f, ok
}

// Pattern replaces every id in a path by empty brackets.
func Pattern(path string) string {
	if !strings.ContainsRune(path, '[') {
		return path
	}
	var b strings.Builder
	in := false
	for _, r := range path {
		switch {
		case r == '[':
			in = true
			b.WriteString("[]")
		case r == ']':
			in = false
		case !in:
			b.WriteRune(r)
		}
	}
	return b.String()
}

var (
	idForm      = regexp.MustCompile(`^[a-z][a-z0-9-]*$`)
	unmarshaler = reflect.TypeFor[encoding.TextUnmarshaler]()
	kinder      = reflect.TypeFor[interface{ Kind() units.Kind }]()
)

// maxID is the longest id, in bytes.
const maxID = 64

// ValidID reports whether s may name an element of a list: idForm, and not too long.
func ValidID(s string) bool {
	if s == "" || len(s) > maxID || s[0] < 'a' || s[0] > 'z' {
		return false
	}
	for i := 1; i < len(s); i++ {
		if c := s[i]; (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' {
			return false
		}
	}
	return true
}

// Of builds the table of the struct type of root. An error is a mistake in the
// tags of the type.
func Of(root reflect.Type) (*Table, error) {
	t := &Table{pats: map[string]*Field{}}
	n, err := t.build(root, "", "")
	if err != nil {
		return nil, err
	}
	t.root = n
	return t, nil
}

func (t *Table) build(typ reflect.Type, prefix, group string) (*node, error) {
	n := &node{typ: typ, byName: map[string]*Field{}}
	if err := t.add(n, typ, nil, prefix, group); err != nil {
		return nil, err
	}
	return n, nil
}

func (t *Table) add(n *node, typ reflect.Type, index []int, prefix, group string) error {
	for i := range typ.NumField() {
		sf := typ.Field(i)
		name := sf.Tag.Get("json")
		if name == "-" || (!sf.IsExported() && !sf.Anonymous) {
			continue
		}
		at := append(append([]int(nil), index...), i)
		if sf.Anonymous && name == "" {
			if err := t.add(n, sf.Type, at, prefix, group); err != nil {
				return err
			}
			continue
		}
		if name == "" {
			return fmt.Errorf("fields: %v.%s has no json tag", typ, sf.Name)
		}
		f := &Field{
			Pattern: prefix + name, Name: name,
			Doc: sf.Tag.Get("doc"), Group: group, Need: sf.Tag.Get("need") == "yes",
			Default: sf.Tag.Get("default"), Why: sf.Tag.Get("why"), When: sf.Tag.Get("when"), Ref: sf.Tag.Get("ref"),
			typ: sf.Type, owner: typ, index: at,
		}
		if g := sf.Tag.Get("group"); g != "" {
			f.Group = g
		}
		if f.Group == "" {
			f.Group = name
		}
		if c := sf.Tag.Get("choice"); c != "" {
			f.Choices = strings.Split(c, "|")
		}
		if _, dup := n.byName[name]; dup {
			return fmt.Errorf("fields: %v has two fields named %q", typ, name)
		}
		n.fields = append(n.fields, f)
		n.byName[name] = f
		if name == "id" {
			n.id = f
		}
		f.pos = len(t.rows)
		t.rows = append(t.rows, f)
		t.pats[f.Pattern] = f
		if err := t.classify(f, sf); err != nil {
			return err
		}
	}
	return nil
}

func (t *Table) classify(f *Field, sf reflect.StructField) error {
	typ := sf.Type
	switch {
	case reflect.PointerTo(typ).Implements(unmarshaler):
		f.Role = Value
		if typ.Implements(kinder) {
			f.Kind = reflect.Zero(typ).Interface().(interface{ Kind() units.Kind }).Kind()
		}
		return f.readRange(sf.Tag.Get("range"))
	case typ.Kind() == reflect.String:
		f.Role = Text
	case typ.Kind() == reflect.Bool:
		f.Role = Flag
	case typ.Kind() == reflect.Int:
		f.Role = Count
		return f.readRange(sf.Tag.Get("range"))
	case typ.Kind() == reflect.Struct:
		f.Role = Group
		sub, err := t.build(typ, f.Pattern+".", f.Group)
		f.sub = sub
		return err
	case typ.Kind() == reflect.Pointer && typ.Elem().Kind() == reflect.Struct:
		f.Role, f.ptr = Group, true
		sub, err := t.build(typ.Elem(), f.Pattern+".", f.Group)
		f.sub = sub
		return err
	case typ.Kind() == reflect.Slice && typ.Elem().Kind() == reflect.Struct:
		f.Role = List
		sub, err := t.build(typ.Elem(), f.Pattern+"[].", f.Group)
		f.sub = sub
		return err
	case typ.Kind() == reflect.Slice && typ.Elem().Kind() == reflect.String:
		f.Role = Words
	case typ.Kind() == reflect.Map && typ.Key().Kind() == reflect.String && typ.Elem().Kind() == reflect.String:
		f.Role = PathTable
	default:
		return fmt.Errorf("fields: %s has the unsupported type %v", f.Pattern, typ)
	}
	return nil
}

func (f *Field) readRange(tag string) error {
	if tag == "" {
		return nil
	}
	low, high, ok := strings.Cut(tag, "..")
	if !ok {
		return fmt.Errorf("fields: range %q of %s has no dots", tag, f.Pattern)
	}
	f.Low, f.High = low, high
	read := func(s string) (float64, bool, error) {
		if s == "" {
			return 0, false, nil
		}
		if f.Role == Count {
			var n int
			_, err := fmt.Sscan(s, &n)
			return float64(n), true, err
		}
		if f.Kind == 0 {
			return 0, false, fmt.Errorf("fields: %s has a range but is no quantity", f.Pattern)
		}
		q, err := units.ParseQuantity(f.Kind, s)
		if err != nil {
			return 0, false, fmt.Errorf("fields: range of %s: %w", f.Pattern, err)
		}
		return q.SI(), true, nil
	}
	var err error
	if f.low, f.hasLow, err = read(low); err != nil {
		return err
	}
	f.high, f.hasHigh, err = read(high)
	return err
}
