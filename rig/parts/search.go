package parts

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Valued is a value of a kind of package units: 6 * units.GallonPerMinute, or
// a units.Temperature, or a units.Quantity of a form.
type Valued interface{ Quantity() units.Quantity }

// A Where is one condition on a part, made by Between, AtLeast, AtMost or Is.
type Where struct {
	path      string
	low, high units.Quantity
	text      string
	is        bool
}

// Between asks for parts whose quantity at a path, such as "pump.rated_flow" or
// "lead_time", lies between two values, both included.
func Between(path string, low, high Valued) Where {
	return Where{path: path, low: low.Quantity(), high: high.Quantity()}
}

// AtLeast asks for parts whose quantity at a path is no less than low.
func AtLeast(path string, low Valued) Where { return Where{path: path, low: low.Quantity()} }

// AtMost asks for parts whose quantity at a path is no more than high.
func AtMost(path string, high Valued) Where { return Where{path: path, high: high.Quantity()} }

// Is asks for parts whose field at a path has exactly the given text, as files
// hold it: Is("heater.fuel", "oil"). The empty text asks for parts that do not
// give the field.
func Is(path, text string) Where { return Where{path: path, text: text, is: true} }

// Two values that differ by less than this, relative to the larger, are the
// same: a value multiplied out and one read from text differ by some 1e-16.
const same = 1e-12

func less(a, b float64) bool { return a < b-same*math.Max(math.Abs(a), math.Abs(b)) }

// A criterion is a Where that was looked up.
type criterion struct {
	Where
	slot *fields.Slot
}

// ratingOf looks up a path that parts of the kind can have.
func ratingOf(kind Kind, path string) (*fields.Slot, error) {
	p, err := look(path)
	if err != nil {
		return nil, err
	}
	if kind != "" && p.kind != "" && p.kind != string(kind) {
		return nil, &units.FieldError{Path: path, Want: "a rating of the kind " + string(kind), Err: problem.Words("a rating of the kind "+p.kind, units.ErrConflict)}
	}
	return p.slot, nil
}

func quantityOf(kind Kind, path string) (*fields.Slot, error) {
	slot, err := ratingOf(kind, path)
	if err == nil && slot.Field().Kind == 0 {
		err = &units.FieldError{Path: path, Want: "a field that holds a quantity, or the condition Is", Err: problem.Words("the field holds no quantity", units.ErrConflict)}
	}
	return slot, err
}

func (w Where) lookUp(kind Kind) (criterion, error) {
	if w.path == "" {
		return criterion{}, &units.FieldError{Path: "where", Want: "a condition made by Between, AtLeast, AtMost or Is", Err: units.ErrMissing}
	}
	if w.is {
		slot, err := ratingOf(kind, w.path)
		return criterion{w, slot}, err
	}
	slot, err := quantityOf(kind, w.path)
	if err != nil {
		return criterion{}, err
	}
	k := slot.Field().Kind
	bounds := 0
	for _, q := range [...]units.Quantity{w.low, w.high} {
		if !q.Given() {
			continue
		}
		bounds++
		if err := k.Check(q); err != nil {
			return criterion{}, units.At(w.path, err)
		}
		if math.IsNaN(q.SI()) || math.IsInf(q.SI(), 0) {
			return criterion{}, &units.FieldError{Path: w.path, Value: q.String(), Want: "a finite bound", Err: units.ErrRange}
		}
	}
	if bounds == 0 {
		return criterion{}, &units.FieldError{Path: w.path, Want: "a bound that is given", Err: units.ErrMissing}
	}
	if bounds == 2 && less(w.high.SI(), w.low.SI()) {
		return criterion{}, &units.FieldError{Path: w.path, Value: w.low.String() + " to " + w.high.String(), Want: "the lower bound first", Err: problem.Words("nothing lies between", units.ErrConflict)}
	}
	return criterion{w, slot}, nil
}

func (c *criterion) holds(p *Part) bool {
	if c.is {
		text, given, err := c.slot.Text(p)
		return err == nil && text == c.text && given == (c.text != "")
	}
	q, ok := c.slot.Quantity(p)
	return ok && !(c.low.Given() && less(q.SI(), c.low.SI())) && !(c.high.Given() && less(c.high.SI(), q.SI()))
}

// search returns the places of the parts of a kind for which all conditions
// hold.
func (c *Catalog) search(kind Kind, where []Where) ([]int, error) {
	if kind != "" && !slices.Contains(Kinds(), kind) {
		return nil, &units.FieldError{Path: "kind", Value: strconv.Quote(string(kind)), Want: "a kind of part, such as pump", Err: units.ErrRange}
	}
	list := make([]criterion, len(where))
	for i, w := range where {
		var err error
		if list[i], err = w.lookUp(kind); err != nil {
			return nil, err
		}
	}
	var out []int
next:
	for i := 0; i < c.Len(); i++ {
		p := &c.parts[i]
		if kind != "" && p.Kind != string(kind) {
			continue
		}
		for k := range list {
			if !list[k].holds(p) {
				continue next
			}
		}
		out = append(out, i)
	}
	return out, nil
}

// Find returns copies of the parts of a kind, or of every kind for the empty
// one, for which all conditions hold, in order of number:
//
//	shelf.Find(parts.KindPump, parts.Between("pump.rated_flow", 6*units.GallonPerMinute, 8*units.GallonPerMinute))
//
// A part that does not give a field is not found by a bound on it. A path that
// names nothing, or a rating of another kind, is an error. [Sort] puts what was
// found in another order.
func (c *Catalog) Find(kind Kind, where ...Where) ([]Part, error) {
	places, err := c.search(kind, where)
	if err != nil {
		return nil, err
	}
	out := make([]Part, len(places))
	for k, i := range places {
		out[k] = c.parts[i].clone()
	}
	return out, nil
}

// Sort puts parts in order of the field at a path, the smallest first:
// quantities by size, days from the earliest, amounts by currency and cents,
// text by its bytes. Parts that do not give the field come last; parts that are
// equal stay in the order they were in.
func Sort(list []Part, path string) error {
	p, err := look(path)
	if err != nil {
		return err
	}
	slices.SortStableFunc(list, func(a, b Part) int { return p.compare(&a, &b) })
	return nil
}

func (p *planned) compare(a, b *Part) int {
	va, okA := p.slot.Value(a, false)
	vb, okB := p.slot.Value(b, false)
	okA, okB = okA && !va.IsZero(), okB && !vb.IsZero()
	switch {
	case !okA && !okB:
		return 0
	case !okA:
		return 1
	case !okB:
		return -1
	}
	switch p.form {
	case quantity:
		qa, _ := p.slot.Quantity(a)
		qb, _ := p.slot.Quantity(b)
		return cmp.Compare(qa.SI(), qb.SI())
	case money:
		ma, mb := va.Interface().(Money), vb.Interface().(Money)
		return cmp.Or(cmp.Compare(ma.currency, mb.currency), cmp.Compare(ma.cents, mb.cents))
	case date:
		return vb.Interface().(Date).DaysUntil(va.Interface().(Date))
	}
	if va.CanInt() {
		return cmp.Compare(va.Int(), vb.Int())
	}
	return cmp.Compare(va.String(), vb.String())
}

// Neighbours are the parts next to a value of a rating.
type Neighbours struct {
	Below []Part // of the largest rating under the value
	At    []Part // of that very rating
	Above []Part // of the smallest rating over the value
}

// Neighbours returns what the shelf has next to a value: the next smaller and the
// next larger nozzle, pump or hose, among the parts of the kind for which all
// conditions hold. Each list holds the parts that share one rating, in order of
// number, and is empty if the shelf ends there.
func (c *Catalog) Neighbours(kind Kind, path string, value Valued, where ...Where) (Neighbours, error) {
	bound, err := AtLeast(path, value).lookUp(kind)
	if err != nil {
		return Neighbours{}, err
	}
	places, err := c.search(kind, where)
	if err != nil {
		return Neighbours{}, err
	}
	v := bound.low.SI()
	below, above := math.Inf(-1), math.Inf(1)
	var n Neighbours
	for _, i := range places {
		q, ok := bound.slot.Quantity(&c.parts[i])
		x := q.SI()
		switch {
		case !ok:
		case less(x, v):
			if less(below, x) || math.IsInf(below, -1) {
				below, n.Below = x, nil
			}
			if !less(x, below) {
				n.Below = append(n.Below, c.parts[i].clone())
			}
		case less(v, x):
			if less(x, above) || math.IsInf(above, 1) {
				above, n.Above = x, nil
			}
			if !less(above, x) {
				n.Above = append(n.Above, c.parts[i].clone())
			}
		default:
			n.At = append(n.At, c.parts[i].clone())
		}
	}
	return n, nil
}
