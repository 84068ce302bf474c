package fields

import (
	"encoding"
	"errors"
	"math"
	"reflect"
	"strconv"
	"strings"

	"example.com/washrig/units"
)

// A scalar is what a text says for one field, read and checked but not yet
// stored anywhere.
type scalar struct {
	text string
	flag bool
	num  int64
	q    units.Quantity
	any  reflect.Value // Value fields that are no quantity
}

type quantitySetter interface {
	SetQuantity(units.Quantity) error
}

// read reads the text as a value of the field, checked against its choices
// and its range.
func (f *Field) read(text string) (s scalar, err error) {
	if err := CleanText(text); err != nil {
		return s, err
	}
	switch f.Role {
	case Text, Words: // of a list of words: one of them
		s.text = text
		if len(f.Choices) > 0 {
			i := indexOf(f.Choices, text)
			if i < 0 {
				return s, &units.FieldError{Value: strconv.Quote(text), Want: f.want(), Err: units.ErrRange}
			}
			s.text = f.Choices[i] // the table's own string: equal words share it
		}
	case Flag:
		s.flag = text == "true"
		if !s.flag && text != "false" {
			return s, &units.FieldError{Value: strconv.Quote(text), Want: f.want(), Err: units.ErrSyntax}
		}
	case Count:
		n, err := strconv.Atoi(text)
		if err != nil {
			return s, &units.FieldError{Value: strconv.Quote(text), Want: f.want(), Err: units.ErrSyntax}
		}
		if (f.hasLow && float64(n) < f.low) || (f.hasHigh && float64(n) > f.high) {
			return s, &units.FieldError{Value: text, Want: f.rangeText(), Err: units.ErrRange}
		}
		s.num = int64(n)
	case Value:
		if text == "" {
			return s, &units.FieldError{Value: `""`, Want: "a value, or leave the name out", Err: units.ErrMissing}
		}
		if f.Kind != 0 {
			s.q, err = units.ParseQuantity(f.Kind, text)
			if err != nil {
				return s, f.offer(err, text)
			}
			return s, f.checkRange(s.q, text)
		}
		s.any = reflect.New(f.typ)
		if err := s.any.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(text)); err != nil {
			var fe *units.FieldError
			if errors.As(err, &fe) {
				return s, err
			}
			return s, &units.FieldError{Value: strconv.Quote(text), Want: err.Error(), Err: units.ErrSyntax}
		}
	default:
		return s, &units.FieldError{Value: strconv.Quote(text), Want: "a field that holds one value; this is a " + f.Role.String(), Err: units.ErrSyntax}
	}
	return s, nil
}

// offer says what would do in the unit of the field's range, where both its ends are
// written in one, in place of the first unit of the kind: watts of a motor, not
// horsepower; inches of a bore, not feet.
func (f *Field) offer(err error, text string) error {
	_, symbol, _ := strings.Cut(f.Low, " ")
	_, other, _ := strings.Cut(f.High, " ")
	u, ok := f.Kind.UnitOf(symbol)
	var fe *units.FieldError
	if symbol == "" || symbol != other || !ok || !errors.As(err, &fe) {
		return err
	}
	e := *fe
	if before, ok := strings.CutSuffix(fe.Want, " such as "+f.Kind.Example()); ok {
		if example := f.Kind.Example(); strings.HasSuffix(example, " "+u.Symbol()) && f.Accepts(example) == nil {
			return err
		}
		e.Want = before + " from " + f.Low + " to " + f.High
		return &e
	}
	if u == f.Kind.Unit(units.US) {
		return err
	}
	offered := strings.TrimSpace(text) + " " + symbol // a number without a unit
	if _, bad := units.ParseQuantity(f.Kind, offered); bad != nil {
		return err
	}
	e.Want = offered
	return &e
}

// checkRange checks that a quantity, shown as text, is finite and in the
// field's range. A field without a lower end takes nothing below zero, unless its type is a
// point on a scale; -0 is below.
func (f *Field) checkRange(q units.Quantity, text string) error {
	si := q.SI()
	if _, err := units.NewQuantity(q.Kind(), si); err != nil {
		return err
	}
	if (f.hasLow && si < f.low) || (f.hasHigh && si > f.high) {
		return &units.FieldError{Value: text, Want: f.rangeText(), Err: units.ErrRange}
	}
	if math.Signbit(si) && (!f.hasLow || f.low >= 0) && f.typ.Kind() == reflect.Float64 {
		return &units.FieldError{Value: text, Want: "zero or more", Err: units.ErrRange}
	}
	return nil
}

// store puts what was read into v, which can be addressed and is of the
// field's type.
func (f *Field) store(v reflect.Value, s scalar) error {
	switch f.Role {
	case Text:
		v.SetString(s.text)
	case Flag:
		v.SetBool(s.flag)
	case Count:
		v.SetInt(s.num)
	case Value:
		if f.Kind != 0 {
			return v.Addr().Interface().(quantitySetter).SetQuantity(s.q)
		}
		v.Set(s.any.Elem())
	}
	return nil
}

// set gives v the value that the text says; on an error v is unchanged.
func (f *Field) set(v reflect.Value, text string) error {
	s, err := f.read(text)
	if err != nil {
		return err
	}
	return f.store(v, s)
}

// appendText appends the text of a scalar that is given, as files hold it.
func (f *Field) appendText(b []byte, v reflect.Value) ([]byte, error) {
	switch f.Role {
	case Flag:
		return strconv.AppendBool(b, v.Bool()), nil
	case Count:
		return strconv.AppendInt(b, v.Int(), 10), nil
	case Text:
		return append(b, v.String()...), nil
	}
	if v.CanAddr() { // saves a copy of the value
		v = v.Addr()
	}
	switch x := v.Interface().(type) {
	case encoding.TextAppender:
		return x.AppendText(b)
	case encoding.TextMarshaler:
		t, err := x.MarshalText()
		return append(b, t...), err
	}
	return b, &units.FieldError{Want: "a type that writes itself as text", Err: units.ErrSyntax}
}

func indexOf(list []string, s string) int {
	for i, x := range list {
		if x == s {
			return i
		}
	}
	return -1
}
