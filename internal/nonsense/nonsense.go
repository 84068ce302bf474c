// Package nonsense holds functions that take quantities to what they promise for
// any number in any place: finite results, or an error that names a field; never a
// panic.
//
//	nonsense.Check(t, []nonsense.Call{
//		nonsense.Of("RunTime", fuel.RunTime, 10*units.Gallon, 2*units.GallonPerHour),
//	})
//
// The arguments listed have to be accepted. Then every number inside them, one
// after another, is replaced by each of a list of strange ones.
package nonsense

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.com/washrig/units"
)

// A Call is a function with arguments that it accepts.
type Call struct {
	name string
	f    any
	args []any
}

// Of makes a call of a function whose last result is an error.
func Of(name string, f any, args ...any) Call { return Call{name, f, args} }

// Strange numbers, for the float64 of a quantity and for counts.
var (
	strange = []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 1e-300, math.MaxFloat64}
	counts  = []int64{-1, 0, 99, math.MaxInt32}
)

// points are the types of points on a scale: structs around one number that say
// whether they were given.
var points = map[reflect.Type]func(float64) any{
	reflect.TypeFor[units.Temperature](): func(x float64) any { return units.Kelvin(x) },
	reflect.TypeFor[units.Elevation]():   func(x float64) any { return units.ElevationAt(units.Length(x)) },
	reflect.TypeFor[units.Position]():    func(x float64) any { return units.PositionAt(units.Length(x)) },
}

// A spot is one number inside the arguments of a call.
type spot struct {
	path   string
	values int
	spoil  func(i int) (shown string)
}

// spots returns the numbers inside v, which can be set.
func spots(path string, v reflect.Value) []spot {
	if of := points[v.Type()]; of != nil {
		return []spot{{path, len(strange), func(i int) string {
			v.Set(reflect.ValueOf(of(strange[i])))
			return fmt.Sprint(strange[i])
		}}}
	}
	var out []spot
	switch v.Kind() {
	case reflect.Float64:
		out = append(out, spot{path, len(strange), func(i int) string { v.SetFloat(strange[i]); return fmt.Sprint(strange[i]) }})
	case reflect.Int:
		out = append(out, spot{path, len(counts), func(i int) string { v.SetInt(counts[i]); return fmt.Sprint(counts[i]) }})
	case reflect.Uint8:
		out = append(out, spot{path, 2, func(i int) string { v.SetUint(uint64(i) * 99); return fmt.Sprint(i * 99) }})
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				out = append(out, spots(path+"."+f.Name, v.Field(i))...)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			out = append(out, spots(fmt.Sprintf("%s[%d]", path, i), v.Index(i))...)
		}
	}
	return out
}

// copied returns a deep copy of v that can be set. What a pointer points at is
// shared.
func copied(v reflect.Value) reflect.Value {
	c := reflect.New(v.Type()).Elem()
	c.Set(v)
	switch v.Kind() {
	case reflect.Slice:
		if v.IsNil() {
			break
		}
		c.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := range v.Len() {
			c.Index(i).Set(copied(v.Index(i)))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				c.Field(i).Set(copied(v.Field(i)))
			}
		}
	}
	return c
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// notANumber finds a NaN or an infinity inside a result.
func notANumber(path string, v reflect.Value) string {
	switch x := v.Interface().(type) {
	case units.Temperature:
		if k := x.Kelvin(); !finite(k) || k < 0 {
			return fmt.Sprintf("%s = %v K", path, k)
		}
		return ""
	case units.Elevation:
		if h := float64(x.Length()); !finite(h) {
			return fmt.Sprintf("%s = %v m", path, h)
		}
		return ""
	case units.Position:
		if h := float64(x.Length()); !finite(h) {
			return fmt.Sprintf("%s = %v m", path, h)
		}
		return ""
	}
	switch v.Kind() {
	case reflect.Float64:
		if !finite(v.Float()) {
			return fmt.Sprintf("%s = %v", path, v.Float())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			if s := notANumber(path+"."+v.Type().Field(i).Name, v.Field(i)); s != "" {
				return s
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if s := notANumber(fmt.Sprintf("%s[%d]", path, i), v.Index(i)); s != "" {
				return s
			}
		}
	}
	return ""
}

// Check spoils every number of every call, one at a time.
func Check(t *testing.T, calls []Call) {
	t.Helper()
	for _, c := range calls {
		t.Run(c.name, func(t *testing.T) {
			for _, problem := range c.problems() {
				t.Error(problem)
			}
		})
	}
}

func (c Call) problems() []string {
	var out []string
	fn := reflect.ValueOf(c.f)
	args := func() []reflect.Value {
		a := make([]reflect.Value, len(c.args))
		for i := range c.args {
			v := reflect.ValueOf(c.args[i])
			if want := fn.Type().In(i); v.Type() != want && want.Kind() != reflect.Interface {
				v = v.Convert(want)
			}
			a[i] = copied(v)
		}
		return a
	}
	run := func(a []reflect.Value, what string, mustWork bool) {
		for _, problem := range try(fn, a, mustWork) {
			out = append(out, what+": "+problem)
		}
	}
	run(args(), "as listed", true)
	total := 0
	for i := range c.args {
		list := spots(fmt.Sprintf("argument %d", i), args()[i])
		total += len(list)
		for j, s := range list {
			for k := range s.values {
				a := args()
				shown := spots("", a[i])[j].spoil(k)
				run(a, s.path+" = "+shown, false)
			}
		}
	}
	if total == 0 {
		out = append(out, "no number to spoil")
	}
	return out
}

// try calls a function and says what is wrong with its results.
func try(fn reflect.Value, args []reflect.Value, mustWork bool) (problems []string) {
	defer func() {
		if r := recover(); r != nil {
			problems = append(problems, fmt.Sprintf("panic: %v", r))
		}
	}()
	call := fn.Call
	if fn.Type().IsVariadic() {
		call = fn.CallSlice
	}
	results := call(args)
	last := len(results) - 1
	if err, _ := results[last].Interface().(error); err != nil {
		var field *units.FieldError
		var solver *units.SolverError
		if mustWork || !(errors.As(err, &field) && field.Path != "" || errors.As(err, &solver)) {
			problems = append(problems, fmt.Sprintf("error %v", err))
		}
		for _, r := range results[:last] {
			if !r.IsZero() && r.Kind() != reflect.Slice {
				problems = append(problems, fmt.Sprintf("a result beside the error: %+v", r))
			}
		}
		return problems
	}
	for i, r := range results[:last] {
		if s := notANumber(fmt.Sprintf("result %d", i), r); s != "" {
			problems = append(problems, s)
		}
	}
	return problems
}
