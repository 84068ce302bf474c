package fields

import (
	"fmt"
	"reflect"
	"slices"
	"sort"
	"strconv"
	"strings"

	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// errTaken is the error of an id that another element has.
var errTaken = problem.Words("this id is taken", units.ErrConflict)

// errTwice is the error of a name that stands twice.
var errTwice = problem.Words("given twice", units.ErrConflict)

// quantified is what every Value of a kind is.
type quantified interface{ Quantity() units.Quantity }

// A part of a parsed path.
type link struct {
	name string
	id   string // element of a list; empty if none is named
	in   bool   // brackets were written
}

func parse(path string) ([]link, error) {
	bad := func(why string) error {
		return &units.FieldError{Path: path, Want: "a path such as lines[left].hose.length", Err: fmt.Errorf("%w: %s", units.ErrSyntax, why)}
	}
	if path == "" {
		return nil, bad("empty path")
	}
	if len(path) > 500 {
		return nil, bad("path is too long")
	}
	var out []link
	for _, part := range strings.Split(path, ".") {
		l := link{name: part}
		if i := strings.IndexByte(part, '['); i >= 0 {
			if !strings.HasSuffix(part, "]") {
				return nil, bad("bracket is not closed")
			}
			l.name, l.id, l.in = part[:i], part[i+1:len(part)-1], true
			if !ValidID(l.id) {
				return nil, bad(strconv.Quote(printable(l.id)) + " is no id")
			}
		}
		if l.name == "" {
			return nil, bad("a name is empty")
		}
		out = append(out, l)
	}
	return out, nil
}

// find walks to the value of a path below root. When make is set, groups that
// are nil pointers are made on the way; otherwise they end the walk with ok
// false and the field still known.
func (t *Table) find(root reflect.Value, path string, make bool) (f *Field, v reflect.Value, elem bool, err error) {
	links, err := parse(path)
	if err != nil {
		return nil, reflect.Value{}, false, err
	}
	n, v := t.root, root
	for i, l := range links {
		f = n.byName[l.name]
		if f == nil {
			return nil, reflect.Value{}, false, &units.FieldError{Path: path, Want: nearest(n, l.name), Err: ErrUnknown}
		}
		if v.IsValid() {
			v = v.FieldByIndex(f.index)
		}
		last := i == len(links)-1
		switch {
		case l.in && f.Role != List:
			return nil, reflect.Value{}, false, &units.FieldError{Path: path, Want: l.name + " without brackets", Err: ErrUnknown}
		case l.in:
			e := element(f, v, l.id)
			if !e.IsValid() {
				return nil, reflect.Value{}, false, &units.FieldError{Path: path, Want: ids(f, v), Err: ErrUnknown}
			}
			v, n = e, f.sub
			if last {
				return f, v, true, nil
			}
		case last:
			return f, v, false, nil
		case f.Role == Group:
			if f.ptr && v.IsValid() {
				if v.IsNil() {
					if make {
						v.Set(reflect.New(f.typ.Elem()))
						v = v.Elem()
					} else {
						v = reflect.Value{}
					}
				} else {
					v = v.Elem()
				}
			}
			n = f.sub
		case f.Role == List:
			return nil, reflect.Value{}, false, &units.FieldError{Path: path, Want: l.name + "[id], with " + ids(f, v), Err: ErrUnknown}
		case f.Role == PathTable:
			return nil, reflect.Value{}, false, &units.FieldError{Path: path, Want: "the entry changed in the specification itself", Err: problem.Words("an entry of the table "+l.name+" has no path of its own", ErrUnknown)}
		default:
			return nil, reflect.Value{}, false, &units.FieldError{Path: path, Want: "nothing after " + l.name, Err: ErrUnknown}
		}
	}
	return f, v, false, nil
}

func element(f *Field, v reflect.Value, id string) reflect.Value {
	if !v.IsValid() || f.sub.id == nil {
		return reflect.Value{}
	}
	for i := range v.Len() {
		if e := v.Index(i); e.FieldByIndex(f.sub.id.index).String() == id {
			return e
		}
	}
	return reflect.Value{}
}

// ids says which ids a list has.
func ids(f *Field, v reflect.Value) string {
	if !v.IsValid() || v.Len() == 0 || f.sub.id == nil {
		return "an element of " + f.Name + ", which has none"
	}
	var s []string
	for i := range v.Len() {
		s = append(s, v.Index(i).FieldByIndex(f.sub.id.index).String())
	}
	return "one of the ids " + Some(s, 12)
}

// Some joins the first few texts of a list and says how many more there are.
func Some(list []string, most int) string {
	if len(list) <= most+1 { // "and 1 more" takes as much room as the one
		return strings.Join(list, ", ")
	}
	return strings.Join(list[:most], ", ") + fmt.Sprintf(" and %d more", len(list)-most)
}

// noValue is the error of a path that names more than one value.
func noValue(path string, f *Field, v reflect.Value, elem bool) error {
	what, want := "a group of fields", ""
	switch {
	case elem:
		what = "an element of a list"
	case f.Role == List:
		what = "a list"
		if v.IsValid() && v.Len() > 0 && f.sub.id != nil {
			path += elementName(f, v.Index(0), 0)
		} else {
			want = "an element added first, and then a field of it"
		}
	case f.Role == PathTable:
		what, want = "a table", "its entries changed in the specification itself"
	case f.Role == Words:
		what, want = "a list of words", "Set for the whole list, its words with commas or spaces between them"
	}
	at := path
	if f.Role == List && !elem {
		at, _, _ = strings.Cut(path, "[")
	}
	if want == "" {
		want = "a field of it"
		if x := f.sub.example(); x != "" {
			want += ", such as " + path + "." + x
		}
	}
	return &units.FieldError{Path: at, Want: want, Err: problem.Words("names "+what+", not one value", units.ErrSyntax)}
}

// example names a field of a node that holds one value: one that is needed, else the
// first that is not shared by all components.
func (n *node) example() string {
	for _, fits := range [...]func(*Field) bool{
		func(f *Field) bool { return f.Need && (f.Role == Value || f.Role == Text) },
		func(f *Field) bool { return f.Role == Value && !slices.Contains(shared, f.Name) },
		func(f *Field) bool { return f.Role == Value || f.Role == Text },
	} {
		for _, f := range n.fields {
			if f != n.id && fits(f) {
				return f.Name
			}
		}
	}
	return ""
}

// shared are the fields that say nothing about one kind of component.
var shared = []string{"part", "note", "count", "mass", "x", "y", "z", "cost", "price", "lead_time"}

// Exists reports whether path names a field or an element of root, a pointer to
// the table's type, and returns the error that says what would.
func (t *Table) Exists(root any, path string) error {
	_, _, _, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	return err
}

// Get returns the text of a scalar field of root; given is false when the field
// holds nothing.
func (t *Table) Get(root any, path string) (text string, given bool, err error) {
	f, v, elem, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	if err != nil {
		return "", false, err
	}
	if elem || f.Role == Group || f.Role == List || f.Role == PathTable || f.Role == Words {
		return "", false, noValue(path, f, v, elem)
	}
	if !v.IsValid() || v.IsZero() {
		return "", false, nil
	}
	b, err := f.appendText(nil, v)
	return string(b), true, withPath(err, path)
}

// Quantity returns the quantity a path of root holds; ok is false when nothing
// is given there or the field is no quantity.
func (t *Table) Quantity(root any, path string) (q units.Quantity, ok bool) {
	f, v, elem, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	if err != nil || elem || f.Kind == 0 || !v.IsValid() || v.IsZero() {
		return q, false
	}
	return v.Interface().(quantified).Quantity(), true
}

// Set gives a scalar field of root the value the text says; groups that are
// absent are made on the way. An empty text clears the field. A list of words is
// parted by [SplitWords]. On an error root is unchanged.
func (t *Table) Set(root any, path, text string) error {
	f, v, elem, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	if err != nil {
		return err
	}
	if elem || f.Role == Group || f.Role == List || f.Role == PathTable {
		return noValue(path, f, v, elem)
	}
	if f.Name == "id" {
		return &units.FieldError{Path: path, Value: strconv.Quote(printable(text)), Want: "a copy under the new id, and the old element removed", Err: problem.Words("an id is not set", units.ErrConflict)}
	}
	if text == "" {
		if v.IsValid() {
			v.SetZero()
		}
		return nil
	}
	if f.Role == Words {
		list := reflect.MakeSlice(f.typ, 0, 4)
		for _, w := range SplitWords(text) {
			if _, err := f.read(w); err != nil {
				return withPath(err, path)
			}
			list = reflect.Append(list, reflect.ValueOf(w).Convert(f.typ.Elem()))
		}
		if v, err = t.made(root, path); err == nil {
			v.Set(list)
		}
		return err
	}
	sc, err := f.read(text)
	if err != nil {
		return withPath(err, path)
	}
	if v, err = t.made(root, path); err != nil {
		return err
	}
	return withPath(f.store(v, sc), path)
}

// SplitWords parts the text of a list of words: at its commas, or where it has none, at
// its spaces.
func SplitWords(text string) []string {
	if !strings.ContainsRune(text, ',') {
		return strings.Fields(text)
	}
	var out []string
	for _, w := range strings.Split(text, ",") {
		if w = strings.TrimSpace(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// made returns the value at a path that is known to be good, with the groups
// above it.
func (t *Table) made(root any, path string) (reflect.Value, error) {
	_, v, _, err := t.find(reflect.ValueOf(root).Elem(), path, true)
	return v, err
}

// Movable returns nil where a path of root names a field that holds a quantity,
// given or not, and else the error that says what it names.
func (t *Table) Movable(root any, path string) error {
	f, v, elem, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	if err != nil {
		return err
	}
	return t.moves(path, f, v, elem)
}

func (t *Table) moves(path string, f *Field, v reflect.Value, elem bool) error {
	if elem || f.Role == Group || f.Role == List || f.Role == PathTable {
		return noValue(path, f, v, elem)
	}
	if f.Kind != 0 {
		return nil
	}
	words := "the field holds no quantity"
	switch {
	case f.Role == Text && len(f.Choices) == 0 && f.Ref == "":
		words = "the field holds a text, not a quantity"
	case f.Role == Text:
		words = "the field holds a word, not a quantity"
	case f.Role == Words:
		words = "the field holds a list of words, not a quantity"
	case f.Role == Count:
		words = "the field holds a whole number, not a quantity"
	case f.Role == Flag:
		words = "the field holds yes or no, not a quantity"
	}
	text := ""
	if v.IsValid() && !v.IsZero() && f.Role != Words {
		if b, err := f.appendText(nil, v); err == nil {
			text = printable(string(b))
		}
	}
	return &units.FieldError{Path: path, Value: text, Want: "a field that holds a quantity; this one is changed by Set", Err: problem.Words(words, units.ErrConflict)}
}

// SetQuantity gives a quantity field the SI value without going through text.
// The value is checked against the field's range. On an error root is
// unchanged.
func (t *Table) SetQuantity(root any, path string, q units.Quantity) error {
	f, v, elem, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	if err != nil {
		return err
	}
	if err := t.moves(path, f, v, elem); err != nil {
		return err
	}
	if err := f.Kind.Check(q); err != nil {
		return withPath(err, path)
	}
	if err := f.checkRange(q, q.String()); err != nil {
		return withPath(err, path)
	}
	if v, err = t.made(root, path); err != nil {
		return err
	}
	return withPath(v.Addr().Interface().(quantitySetter).SetQuantity(q), path)
}

// A Visit is one field met on a walk: its row and its value. Absent groups are not
// entered.
type Visit struct {
	Field *Field
	Value reflect.Value

	in     *trail
	node   *node         // of the struct that the field stands in
	within reflect.Value // that struct
	path   string        // of a visit that is kept
}

// Path is where the field stands. It is put together when it is asked for.
func (v *Visit) Path() string {
	if v.path != "" {
		return v.path
	}
	return v.in.prefix() + v.Field.Name
}

// Keep returns a visit that is good after the walk.
func (v *Visit) Keep() Visit {
	k := *v
	k.path = v.Path()
	return k
}

// Sibling returns the field of a name in the struct that the visited one stands in.
func (v *Visit) Sibling(name string) (f *Field, value reflect.Value, ok bool) {
	if f = v.node.byName[name]; f == nil {
		return nil, reflect.Value{}, false
	}
	return f, v.within.FieldByIndex(f.index), true
}

// SetText gives the field, which holds one value, what a text says.
func (v *Visit) SetText(text string) error {
	sc, err := v.Field.read(text)
	if err == nil {
		err = v.Field.store(v.Value, sc)
	}
	if err != nil {
		return withPath(err, v.Path())
	}
	return nil
}

// A trail is the way to the fields of one group or of one element of a list.
type trail struct {
	up    *trail
	field *Field
	elem  reflect.Value // of a list
	index int
	text  string // with the last dot, once it was asked for
}

func (t *trail) prefix() string {
	switch {
	case t == nil:
		return ""
	case t.text != "":
	case t.field.Role == List:
		t.text = t.up.prefix() + t.field.Name + elementName(t.field, t.elem, t.index) + "."
	default:
		t.text = t.up.prefix() + t.field.Name + "."
	}
	return t.text
}

// Walk calls visit for every field below root in table order, groups and lists
// before what is in them, and stops when visit returns false. A visit is good until
// visit returns; see [Visit.Keep].
func (t *Table) Walk(root any, visit func(*Visit) bool) {
	w := walker{visit: visit}
	w.walk(t.root, reflect.ValueOf(root).Elem(), nil, 0)
}

// A walker is the memory of one walk.
type walker struct {
	visit  func(*Visit) bool
	at     Visit
	trails [8]trail // by depth
}

// enter returns the trail of what is entered at a depth.
func (w *walker) enter(depth int, up *trail, f *Field, elem reflect.Value, index int) *trail {
	var t *trail
	if depth < len(w.trails) {
		t = &w.trails[depth]
	} else {
		t = new(trail)
	}
	*t = trail{up: up, field: f, elem: elem, index: index}
	return t
}

func (w *walker) walk(n *node, v reflect.Value, in *trail, depth int) bool {
	next := min(depth+1, len(w.trails))
	for _, f := range n.fields {
		fv := v.FieldByIndex(f.index)
		w.at = Visit{Field: f, Value: fv, in: in, node: n, within: v}
		if !w.visit(&w.at) {
			return false
		}
		switch f.Role {
		case Group:
			if f.ptr {
				if fv.IsNil() {
					continue
				}
				fv = fv.Elem()
			}
			if !w.walk(f.sub, fv, w.enter(depth, in, f, reflect.Value{}, 0), next) {
				return false
			}
		case List:
			for i := range fv.Len() {
				e := fv.Index(i)
				if !w.walk(f.sub, e, w.enter(depth, in, f, e, i), next) {
					return false
				}
			}
		}
	}
	return true
}

// elementName is the bracket that names element i of a list in a path.
func elementName(f *Field, e reflect.Value, i int) string {
	if f.sub.id != nil {
		if s := e.FieldByIndex(f.sub.id.index).String(); ValidID(s) {
			return "[" + s + "]"
		}
	}
	return fmt.Sprintf("[#%d]", i+1)
}

// PathOf returns the path of the field that p points at inside root.
func (t *Table) PathOf(root, p any) (string, bool) {
	want := reflect.ValueOf(p)
	if want.Kind() != reflect.Pointer || want.IsNil() {
		return "", false
	}
	found := ""
	t.Walk(root, func(vis *Visit) bool {
		if vis.Value.CanAddr() && vis.Value.Addr().Pointer() == want.Pointer() && vis.Value.Addr().Type() == want.Type() {
			found = vis.Path()
			return false
		}
		return true
	})
	return found, found != ""
}

// Clone returns a deep copy of the value root points at, as a pointer.
func (t *Table) Clone(root any) any {
	src := reflect.ValueOf(root).Elem()
	dst := reflect.New(src.Type())
	clone(dst.Elem(), src)
	return dst.Interface()
}

// Along returns a copy of the value root points at that may be changed at one path:
// what lies on the way there is copied, everything else is shared with root. It is
// for values that are never changed in place.
func (t *Table) Along(root any, path string) (any, error) {
	links, err := parse(path)
	if err != nil {
		return nil, err
	}
	src := reflect.ValueOf(root).Elem()
	dst := reflect.New(src.Type())
	dst.Elem().Set(src)
	n, v := t.root, dst.Elem()
	for _, l := range links {
		f := n.byName[l.name]
		if f == nil {
			return nil, &units.FieldError{Path: path, Want: nearest(n, l.name), Err: ErrUnknown}
		}
		v = v.FieldByIndex(f.index)
		switch f.Role {
		case List:
			list := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(list, v)
			v.Set(list)
			if v = element(f, v, l.id); !v.IsValid() {
				return nil, &units.FieldError{Path: path, Want: ids(f, list), Err: ErrUnknown}
			}
		case Group:
			if f.ptr {
				if v.IsNil() {
					return dst.Interface(), nil // made when it is set
				}
				own := reflect.New(f.typ.Elem())
				own.Elem().Set(v.Elem())
				v.Set(own)
				v = own.Elem()
			}
		default:
			return dst.Interface(), nil
		}
		n = f.sub
	}
	return dst.Interface(), nil
}

// Copy returns a deep copy of a value.
func Copy(v reflect.Value) reflect.Value {
	c := reflect.New(v.Type()).Elem()
	clone(c, v)
	return c
}

func clone(dst, src reflect.Value) {
	switch src.Kind() {
	case reflect.Struct:
		dst.Set(src)
		for i := range src.NumField() {
			if dst.Field(i).CanSet() {
				clone(dst.Field(i), src.Field(i))
			}
		}
	case reflect.Slice:
		if src.IsNil() {
			return
		}
		dst.Set(reflect.MakeSlice(src.Type(), src.Len(), src.Len()))
		for i := range src.Len() {
			clone(dst.Index(i), src.Index(i))
		}
	case reflect.Pointer:
		if src.IsNil() {
			return
		}
		dst.Set(reflect.New(src.Type().Elem()))
		clone(dst.Elem(), src.Elem())
	case reflect.Map:
		if src.IsNil() {
			return
		}
		dst.Set(reflect.MakeMapWithSize(src.Type(), src.Len()))
		for it := src.MapRange(); it.Next(); {
			dst.SetMapIndex(it.Key(), it.Value())
		}
	default:
		dst.Set(src)
	}
}

// Accepts returns the error that Set would give for a text, nil for one that the
// field takes.
func (f *Field) Accepts(text string) error {
	_, err := f.read(text)
	return err
}

// Problems returns every value below root that a file could not have held:
// missing or repeated ids, values out of range, unknown choices. It lets a
// struct filled by Go code be judged like a file.
func (t *Table) Problems(root any) []error {
	var out []error
	add := func(path, value, want string, err error) {
		out = append(out, &units.FieldError{Path: path, Value: value, Want: want, Err: err})
	}
	t.Walk(root, func(vis *Visit) bool {
		f, v := vis.Field, vis.Value
		switch f.Role {
		case List:
			if f.sub.id == nil {
				return true
			}
			seen := map[string]bool{}
			for i := range v.Len() {
				id := v.Index(i).FieldByIndex(f.sub.id.index).String()
				at := fmt.Sprintf("%s[#%d]", vis.Path(), i+1)
				switch {
				case id == "":
					add(at, "", "an id such as left or pump-1", units.ErrMissing)
				case !ValidID(id):
					add(at, strconv.Quote(printable(id)), "an id of small letters, digits and hyphens that begins with a letter", units.ErrSyntax)
				case seen[id]:
					add(at, id, "an id no other element of this list has", errTaken)
				}
				seen[id] = true
			}
		case Text:
			if v.String() == "" {
				return true
			}
			if _, err := f.read(v.String()); err != nil {
				out = append(out, withPath(err, vis.Path()))
			}
		case Words:
			for i := range v.Len() {
				if _, err := f.read(v.Index(i).String()); err != nil {
					out = append(out, withPath(err, vis.Path()))
				}
			}
		case PathTable:
			keys := make(map[string]string, v.Len())
			for it := v.MapRange(); it.Next(); {
				keys[it.Key().String()] = it.Value().String()
			}
			for _, k := range SortedKeys(keys) {
				for _, text := range [...]string{k, keys[k]} {
					if err := CleanText(text); err != nil {
						out = append(out, withPath(err, vis.Path()+"."+printable(k)))
						break
					}
				}
			}
		case Count:
			if v.IsZero() {
				return true
			}
			if _, err := f.read(strconv.FormatInt(v.Int(), 10)); err != nil {
				out = append(out, withPath(err, vis.Path()))
			}
		case Value:
			if v.IsZero() || f.Kind == 0 {
				return true
			}
			q := v.Interface().(quantified).Quantity()
			if err := f.checkRange(q, q.String()); err != nil {
				out = append(out, withPath(err, vis.Path()))
			}
		}
		return true
	})
	return out
}

// SortedKeys returns the keys of a path table in order.
func SortedKeys[K ~string, V any](m map[K]V) []K {
	out := make([]K, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

// Value returns the value at a path for reading or setting in place; ok is
// false when the path names nothing or stands below an absent group.
func (t *Table) Value(root any, path string) (v reflect.Value, ok bool) {
	_, v, _, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	return v, err == nil && v.IsValid()
}

// listOf finds the list that the last link of path stands in.
func (t *Table) listOf(root any, path string, wantElement bool) (f *Field, list reflect.Value, id string, err error) {
	links, err := parse(path)
	if err != nil {
		return nil, list, "", err
	}
	last := links[len(links)-1]
	if last.in != wantElement {
		if err := t.Exists(root, path); err != nil {
			return nil, list, "", err
		}
		if wantElement {
			return nil, list, "", &units.FieldError{Path: path, Want: "a path that ends in an id, such as lines[left]", Err: problem.Words("names no element of a list", units.ErrSyntax)}
		}
		return nil, list, "", &units.FieldError{Path: path, Want: "the list alone, " + strings.TrimSuffix(path, "["+last.id+"]"), Err: problem.Words("names an element, not a list", units.ErrSyntax)}
	}
	at := path
	if wantElement {
		at = strings.TrimSuffix(path, "["+last.id+"]")
	}
	f, list, _, err = t.find(reflect.ValueOf(root).Elem(), at, true)
	if err != nil {
		return nil, list, "", err
	}
	if f.Role != List || f.sub.id == nil {
		return nil, list, "", &units.FieldError{Path: path, Want: "a list whose elements have ids, such as lines", Err: problem.Words("names no list", units.ErrSyntax)}
	}
	if wantElement && !element(f, list, last.id).IsValid() {
		return nil, list, "", &units.FieldError{Path: path, Want: ids(f, list), Err: ErrUnknown}
	}
	return f, list, last.id, nil
}

// Remove takes the element at path out of its list, or empties the group at path as if
// it had never been given.
func (t *Table) Remove(root any, path string) error {
	f, v, elem, err := t.find(reflect.ValueOf(root).Elem(), path, false)
	if err != nil {
		return err
	}
	switch {
	case elem:
	case f.Role == Group:
		if v.IsValid() {
			v.SetZero()
		}
		return nil
	case f.Name == "id":
		return &units.FieldError{Path: path, Want: "the whole element, " + strings.TrimSuffix(path, ".id"), Err: problem.Words("an element is not without an id", units.ErrConflict)}
	case f.Role == List:
		want := "an element of it"
		if v.IsValid() && v.Len() > 0 && f.sub.id != nil {
			want += ", such as " + path + elementName(f, v.Index(0), 0)
		}
		return &units.FieldError{Path: path, Want: want, Err: problem.Words("names a list, and its elements are removed one by one", units.ErrSyntax)}
	case f.Role == PathTable:
		return noValue(path, f, v, elem)
	default:
		return &units.FieldError{Path: path, Want: "an element of a list or a group; an empty text clears a single field: Set(" + strconv.Quote(path) + `, "")`, Err: problem.Words("names a single field", units.ErrSyntax)}
	}
	f, list, id, err := t.listOf(root, path, true)
	if err != nil {
		return err
	}
	kept := reflect.MakeSlice(f.typ, 0, list.Len()-1)
	for i := range list.Len() {
		if e := list.Index(i); e.FieldByIndex(f.sub.id.index).String() != id {
			kept = reflect.Append(kept, e)
		}
	}
	if kept.Len() == 0 {
		kept = reflect.Zero(f.typ) // as if the list had never been given
	}
	list.Set(kept)
	return nil
}

// Add appends an empty element with the given id to the list at path.
func (t *Table) Add(root any, path, id string) error {
	f, list, _, err := t.listOf(root, path, false)
	if err != nil {
		return err
	}
	return t.insert(f, list, path, id, reflect.New(f.typ.Elem()).Elem())
}

// Copy appends a deep copy of the element at path to its list under a new id.
func (t *Table) Copy(root any, path, id string) error {
	f, list, old, err := t.listOf(root, path, true)
	if err != nil {
		return err
	}
	fresh := reflect.New(f.typ.Elem()).Elem()
	clone(fresh, element(f, list, old))
	return t.insert(f, list, path, id, fresh)
}

func (t *Table) insert(f *Field, list reflect.Value, path, id string, e reflect.Value) error {
	if !ValidID(id) {
		return &units.FieldError{Path: path, Value: strconv.Quote(printable(id)), Want: "an id of small letters, digits and hyphens that begins with a letter", Err: units.ErrSyntax}
	}
	if element(f, list, id).IsValid() {
		return &units.FieldError{Path: path, Value: id, Want: "an id no other element of this list has", Err: errTaken}
	}
	e.FieldByIndex(f.sub.id.index).SetString(id)
	list.Set(reflect.Append(list, e))
	return nil
}
