package batch

import (
	"iter"
	"reflect"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A Variant is one row of a plan: its name and its changes to the base.
type Variant struct {
	Name    string
	Changes []rig.Change
	Inputs  []Input // what was asked for, in the words of the plan
}

// An Input is one cell of a plan: its heading and its text.
type Input struct{ Heading, Text string }

// Variants are the rows of a plan. They are drawn one after the other while the
// plan runs, so a plan may be longer than memory. An error is a row that could
// not be read; the rows after it go on.
type Variants = iter.Seq2[Variant, error]

// A Plan says what is run and which numbers are kept.
type Plan struct {
	Variants Variants
	Headings []string // of the inputs, for the columns of a table
	Columns  []Column
	Policy   *rig.Policy

	// Workers is how many variants are assessed at once; zero means one for
	// each processor. The rows are the same, byte for byte, for any number.
	Workers int

	// Reports gives every row its report. Without it a worker uses the memory of one
	// report for all its rows, which is quicker.
	Reports bool

	// BreakEven searches, for every row, the assumed inputs its verdicts lean on
	// and the values at which they turn, for the row's report. It takes a hundred
	// times as long. Without it an assumed input is tried at both ends of its plausible
	// band, which comes to the same verdicts.
	BreakEven bool
}

// List makes variants of a list.
func List(list ...Variant) Variants {
	return func(yield func(Variant, error) bool) {
		for _, v := range list {
			if !yield(v, nil) {
				return
			}
		}
	}
}

// Sweep makes a variant for each text: the field at path set to it.
func Sweep(path rig.Path, texts ...string) Variants { return Grid(Axis{path, texts}) }

// An Axis is one field with the texts it is set to.
type Axis struct {
	Path  rig.Path
	Texts []string
}

// Grid makes a variant for each combination of texts, the last axis fastest.
func Grid(axes ...Axis) Variants {
	return func(yield func(Variant, error) bool) {
		at := make([]int, len(axes))
		for _, a := range axes {
			if len(a.Texts) == 0 {
				return
			}
		}
		for {
			var v Variant
			var names []string
			for i, a := range axes {
				text := a.Texts[at[i]]
				v.Changes = append(v.Changes, rig.Set(a.Path, text))
				v.Inputs = append(v.Inputs, Input{string(a.Path), text})
				names = append(names, string(a.Path)+" = "+text)
			}
			v.Name = strings.Join(names, ", ")
			if !yield(v, nil) {
				return
			}
			i := len(axes) - 1
			for ; i >= 0; i-- {
				if at[i]++; at[i] < len(axes[i].Texts) {
					break
				}
				at[i] = 0
			}
			if i < 0 {
				return
			}
		}
	}
}

// Replace returns the changes that put a part of the shelf in place of whatever
// stands at a component: its number, and nothing of what the specification gives
// beside it that the part speaks about (ratings, mass, cost, price, lead time).
// Setting the part number alone would leave those in force. What the part does not
// speak about stays, as where an unloader returns to.
func Replace(shelf *parts.Catalog, component rig.Path, number string) ([]rig.Change, error) {
	p, err := shelf.Part(number)
	if err != nil {
		return nil, units.At(string(component)+".part", err)
	}
	known, err := patterns()
	if err != nil {
		return nil, err
	}
	at := string(component) + "."
	if !known[rig.Path(at+"part").Pattern()] {
		return nil, &units.FieldError{Path: string(component), Want: "a component that has a part number, such as lines[left].hose", Err: units.ErrRange}
	}
	changes := []rig.Change{rig.Set(rig.Path(at+"part"), number)}
	var names []string
	said := func(v reflect.Value, i int) {
		if !v.Field(i).IsZero() {
			names = append(names, v.Type().Field(i).Tag.Get("json"))
		}
	}
	own := reflect.ValueOf(p)
	for _, name := range [...]string{"Mass", "Cost", "Price", "LeadTime"} {
		f, _ := own.Type().FieldByName(name)
		said(own, f.Index[0])
	}
	if r := p.Ratings(); r != nil {
		v := reflect.ValueOf(r).Elem()
		for i := range v.NumField() {
			said(v, i)
		}
	}
	for _, n := range names {
		if path := rig.Path(at + n); known[path.Pattern()] {
			changes = append(changes, rig.Set(path, ""))
		}
	}
	return changes, nil
}

// patterns are the fields of a specification.
func patterns() (map[rig.Path]bool, error) {
	docs, err := rig.Fields()
	if err != nil {
		return nil, err
	}
	out := make(map[rig.Path]bool, len(docs))
	for _, d := range docs {
		out[d.Path] = true
	}
	return out, nil
}
