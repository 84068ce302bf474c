package units

// A Position is a coordinate along one axis of the deck. The zero of the axis
// is a real place, so that a Position knows whether it was given; the zero
// Position was not.
type Position struct {
	meters float64
	given  bool
}

// PositionAt returns the position l from the zero of its axis.
func PositionAt(l Length) Position { return Position{float64(l), true} }

// Length returns the distance from the zero of the scale; 0 if x is not given.
func (x Position) Length() Length { return Length(x.meters) }

// Given reports whether x was set. It may be set to zero.
func (x Position) Given() bool { return x.given }

// IsZero reports whether x is not given, for the omitzero option of
// encoding/json.
func (x Position) IsZero() bool { return !x.given }

// Add returns the point d beyond x; it is given only if x is.
func (x Position) Add(d Length) Position {
	if !x.given {
		return x
	}
	return Position{x.meters + float64(d), true}
}

// Sub returns the distance from y to x. Both must be given.
func (x Position) Sub(y Position) Length { return Length(x.meters - y.meters) }

// ParsePosition reads a position such as "96 in". Its error is a [*FieldError].
func ParsePosition(s string) (Position, error) {
	v, err := parseScalar(KindPosition, s)
	return Position{v, err == nil}, err
}

// MustParsePosition is [ParsePosition] for tests and tables: it panics on an error.
func MustParsePosition(s string) Position { return Position{mustParse(KindPosition, s), true} }

// Text returns x in the given unit of length, with prec decimals; the empty
// text if x is not given.
func (x Position) Text(unit Length, prec int) string {
	if !x.given {
		return ""
	}
	return text(KindLength, x.meters, float64(unit), prec)
}

// String returns x for logs, in SI and at most six digits; "not given" for the
// zero Position.
func (x Position) String() string {
	if !x.given {
		return "not given"
	}
	return short(KindPosition, x.meters)
}

// AppendText appends the exact text of x; nothing if x is not given. NaN and
// infinities are errors.
func (x Position) AppendText(b []byte) ([]byte, error) {
	if !x.given {
		return b, nil
	}
	return appendExact(b, KindPosition, x.meters)
}

// MarshalText returns the exact text of x; see [Position.AppendText].
func (x Position) MarshalText() ([]byte, error) { return x.AppendText(nil) }

// UnmarshalText accepts what [ParsePosition] accepts, and the empty text for
// "not given". On error x is unchanged.
func (x *Position) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*x = Position{}
		return nil
	}
	v, f := parse(KindPosition, string(text))
	if f != fine {
		return parseError(KindPosition, string(text), f)
	}
	*x = Position{v, true}
	return nil
}

// Kind returns [KindPosition].
func (x Position) Kind() Kind { return KindPosition }

// Quantity returns x with its kind; the zero Quantity if x is not given.
func (x Position) Quantity() Quantity {
	if !x.given {
		return Quantity{}
	}
	return Quantity{KindPosition, x.meters}
}

// SetQuantity sets x to q; q of another kind is a [*FieldError] and leaves x.
func (x *Position) SetQuantity(q Quantity) error {
	if q.kind != KindPosition {
		return kindError(KindPosition, q)
	}
	*x = Position{q.si, true}
	return nil
}
