package units

// An Elevation is a geopotential height above mean sea level. Sea level is a
// real elevation, so that an Elevation knows whether it was given; the zero
// Elevation was not.
type Elevation struct {
	meters float64
	given  bool
}

// ElevationAt returns the elevation l above mean sea level.
func ElevationAt(l Length) Elevation { return Elevation{float64(l), true} }

// Length returns the distance from the zero of the scale; 0 if x is not given.
func (x Elevation) Length() Length { return Length(x.meters) }

// Given reports whether x was set. It may be set to zero.
func (x Elevation) Given() bool { return x.given }

// IsZero reports whether x is not given, for the omitzero option of
// encoding/json.
func (x Elevation) IsZero() bool { return !x.given }

// Add returns the point d above x; it is given only if x is.
func (x Elevation) Add(d Length) Elevation {
	if !x.given {
		return x
	}
	return Elevation{x.meters + float64(d), true}
}

// Sub returns the distance from y to x. Both must be given.
func (x Elevation) Sub(y Elevation) Length { return Length(x.meters - y.meters) }

// ParseElevation reads an elevation such as "5280 ft". Its error is a [*FieldError].
func ParseElevation(s string) (Elevation, error) {
	v, err := parseScalar(KindElevation, s)
	return Elevation{v, err == nil}, err
}

// MustParseElevation is [ParseElevation] for tests and tables: it panics on an error.
func MustParseElevation(s string) Elevation { return Elevation{mustParse(KindElevation, s), true} }

// Text returns x in the given unit of length, with prec decimals; the empty
// text if x is not given.
func (x Elevation) Text(unit Length, prec int) string {
	if !x.given {
		return ""
	}
	return text(KindLength, x.meters, float64(unit), prec)
}

// String returns x for logs, in SI and at most six digits; "not given" for the
// zero Elevation.
func (x Elevation) String() string {
	if !x.given {
		return "not given"
	}
	return short(KindElevation, x.meters)
}

// AppendText appends the exact text of x; nothing if x is not given. NaN and
// infinities are errors.
func (x Elevation) AppendText(b []byte) ([]byte, error) {
	if !x.given {
		return b, nil
	}
	return appendExact(b, KindElevation, x.meters)
}

// MarshalText returns the exact text of x; see [Elevation.AppendText].
func (x Elevation) MarshalText() ([]byte, error) { return x.AppendText(nil) }

// UnmarshalText accepts what [ParseElevation] accepts, and the empty text for
// "not given". On error x is unchanged.
func (x *Elevation) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*x = Elevation{}
		return nil
	}
	v, f := parse(KindElevation, string(text))
	if f != fine {
		return parseError(KindElevation, string(text), f)
	}
	*x = Elevation{v, true}
	return nil
}

// Kind returns [KindElevation].
func (x Elevation) Kind() Kind { return KindElevation }

// Quantity returns x with its kind; the zero Quantity if x is not given.
func (x Elevation) Quantity() Quantity {
	if !x.given {
		return Quantity{}
	}
	return Quantity{KindElevation, x.meters}
}

// SetQuantity sets x to q; q of another kind is a [*FieldError] and leaves x.
func (x *Elevation) SetQuantity(q Quantity) error {
	if q.kind != KindElevation {
		return kindError(KindElevation, q)
	}
	*x = Elevation{q.si, true}
	return nil
}
