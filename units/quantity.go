package units

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
)

// A Quantity is a value of any kind: what a table of results, a limit or a
// form field holds. It is comparable. The zero Quantity is "not given".
type Quantity struct {
	kind Kind
	si   float64
}

// NewQuantity returns si, counted in [Kind.Base], as a quantity of kind k. An
// invalid kind, NaN, infinities and temperatures that are not above absolute
// zero are a [*FieldError].
func NewQuantity(k Kind, si float64) (Quantity, error) {
	if !k.Valid() {
		return Quantity{}, &FieldError{Want: "a declared kind", Err: ErrMissing}
	}
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return Quantity{}, &FieldError{Value: strconv.FormatFloat(si, 'g', -1, 64), Want: k.row().phrase + " such as " + k.Example(), Err: ErrRange}
	}
	if k == KindTemperature && si <= 0 {
		return Quantity{}, &FieldError{Value: FormatNumber(si, 6) + " K", Want: "a temperature above absolute zero", Err: ErrRange}
	}
	return Quantity{k, si}, nil
}

// ParseQuantity reads s as a quantity of kind k.
func ParseQuantity(k Kind, s string) (Quantity, error) {
	if !k.Valid() {
		return Quantity{}, &FieldError{Want: "a declared kind", Err: ErrMissing}
	}
	v, err := parseScalar(k, s)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{k, v}, nil
}

// Kind returns the kind of q; it is invalid if q is not given.
func (q Quantity) Kind() Kind { return q.kind }

// SI returns the value counted in [Kind.Base]: pascals for a pressure, kelvins
// for a temperature.
func (q Quantity) SI() float64 { return q.si }

// Given reports whether q holds a value. The value may be zero.
func (q Quantity) Given() bool { return q.kind != 0 }

// IsZero reports whether q is not given, for the omitzero option of
// encoding/json.
func (q Quantity) IsZero() bool { return q.kind == 0 }

// In returns q as a plain number of unit u. A unit of another kind is a
// [*FieldError].
func (q Quantity) In(u Unit) (float64, error) {
	if q.kind != u.kind || !q.kind.Valid() {
		return 0, kindError(u.kind, q)
	}
	return u.row().fromSI(q.si), nil
}

// Of returns n units as a quantity, under the terms of [NewQuantity].
func (u Unit) Of(n float64) (Quantity, error) { return NewQuantity(u.kind, u.row().toSI(n)) }

// Text returns q for people, in a unit of the system that suits its size,
// rounded to at most digits significant digits, 6 if digits is below 1 or
// above 6: "2283 psi", "16.63 hp", "95 °F". It is empty if q is not given.
func (q Quantity) Text(s System, digits int) string {
	if !q.Given() {
		return ""
	}
	var buf [64]byte
	return string(appendShown(buf[:0], q.kind, q.si, s, digits))
}

// TextIn is [Quantity.Text] in one given unit, for the columns of a table. It
// falls back to Text in SI if u is a unit of another kind.
func (q Quantity) TextIn(u Unit, digits int) string {
	if !q.Given() {
		return ""
	}
	if u.kind != q.kind {
		return q.Text(SI, digits)
	}
	var buf [64]byte
	r := u.row()
	return string(appendSymbol(appendDigits(buf[:0], r.fromSI(q.si), digits), r.symbol))
}

// String returns q for logs, in SI and at most six digits; "not given" for the
// zero Quantity.
func (q Quantity) String() string {
	if !q.Given() {
		return "not given"
	}
	return short(q.kind, q.si)
}

// AppendText appends the exact text of q, which [ParseQuantity] reads back to
// the same bits; nothing if q is not given. There is no UnmarshalText: "10 °F"
// alone may be a temperature or a difference.
func (q Quantity) AppendText(b []byte) ([]byte, error) {
	if !q.Given() {
		return b, nil
	}
	return appendExact(b, q.kind, q.si)
}

// MarshalText returns the exact text of q; see [Quantity.AppendText].
func (q Quantity) MarshalText() ([]byte, error) { return q.AppendText(nil) }

// MarshalJSON writes {"kind":"pressure","value":3500,"unit":"psi"}, exact in
// the same sense as MarshalText, and null if q is not given.
func (q Quantity) MarshalJSON() ([]byte, error) {
	if !q.Given() {
		return []byte("null"), nil
	}
	t, err := q.MarshalText()
	if err != nil {
		return nil, err
	}
	number, unit, _ := bytes.Cut(t, []byte(" "))
	b := make([]byte, 0, len(t)+48)
	b = append(b, `{"kind":"`...)
	b = append(b, q.kind.String()...)
	b = append(b, `","value":`...)
	b = append(b, number...)
	b = append(b, `,"unit":`...)
	u, err := json.Marshal(string(unit))
	if err != nil {
		return nil, err
	}
	return append(append(b, u...), '}'), nil
}

// UnmarshalJSON reads what MarshalJSON writes, with any unit of the kind. All
// three members are required and no other is read. On error q is unchanged.
func (q *Quantity) UnmarshalJSON(data []byte) error {
	if string(bytes.TrimSpace(data)) == "null" {
		*q = Quantity{}
		return nil
	}
	var in struct {
		Kind  *Kind        `json:"kind"`
		Value *json.Number `json:"value"`
		Unit  *string      `json:"unit"`
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&in); err != nil {
		return err
	}
	switch {
	case in.Kind == nil:
		return &FieldError{Path: "kind", Want: `a name such as "pressure"`, Err: ErrMissing}
	case in.Value == nil:
		return &FieldError{Path: "value", Want: "a number", Err: ErrMissing}
	case in.Unit == nil:
		return &FieldError{Path: "unit", Want: "a unit; the empty text for plain numbers", Err: ErrMissing}
	}
	if in.Kind.find(*in.Unit) < 0 {
		return &FieldError{
			Path:  "unit",
			Value: *in.Unit,
			Want:  "a unit of " + in.Kind.row().phrase + " such as " + in.Kind.Example(),
			Err:   &reason{foundUnit(*in.Kind, *in.Unit), ErrSyntax},
		}
	}
	v, err := ParseQuantity(*in.Kind, in.Value.String()+" "+*in.Unit)
	if err == nil {
		*q = v
	}
	return err
}

// Check returns nil where q is a quantity of kind k, and else the error that says
// what q is and what would do.
func (k Kind) Check(q Quantity) error {
	if q.kind == k {
		return nil
	}
	return kindError(k, q)
}

func kindError(want Kind, q Quantity) error {
	if !q.Given() {
		return &FieldError{Want: want.row().phrase + " such as " + want.Example(), Err: ErrMissing}
	}
	return &FieldError{
		Value: q.String(),
		Want:  want.row().phrase + " such as " + want.Example(),
		Err:   &reason{q.String() + " is " + q.kind.row().phrase, ErrConflict},
	}
}

func setScalar(k Kind, q Quantity, dst *float64) error {
	if q.kind != k {
		return kindError(k, q)
	}
	*dst = q.si
	return nil
}
