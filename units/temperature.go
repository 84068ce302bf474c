package units

import "math"

// A Temperature is a point on the thermodynamic scale. It is a struct so that
// 60 cannot be taken for 60 °C and two temperatures cannot be added. The zero
// Temperature is read as "not given": absolute zero is no temperature of any
// part of a rig, and no text is read as it.
type Temperature struct{ kelvin float64 }

// Kelvin returns the temperature k kelvins above absolute zero.
func Kelvin(k float64) Temperature { return Temperature{k} }

// Celsius returns the temperature c degrees Celsius: K = °C + 273.15.
func Celsius(c float64) Temperature { return Temperature{c + 273.15} }

// Fahrenheit returns the temperature f degrees Fahrenheit:
// K = (°F + 459.67) × 5/9.
func Fahrenheit(f float64) Temperature { return Temperature{float64((f+459.67)*5) / 9} }

// Kelvin returns t in kelvins, 0 if t is not given.
func (t Temperature) Kelvin() float64 { return t.kelvin }

// Celsius returns t in degrees Celsius.
func (t Temperature) Celsius() float64 { return t.kelvin - 273.15 }

// Fahrenheit returns t in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t.kelvin*9/5) - 459.67 }

// Given reports whether t was set.
func (t Temperature) Given() bool { return t.kelvin != 0 }

// IsZero reports whether t is not given, for the omitzero option of
// encoding/json.
func (t Temperature) IsZero() bool { return t.kelvin == 0 }

// Valid reports whether t is given, finite and above absolute zero.
func (t Temperature) Valid() bool { return t.kelvin > 0 && t.kelvin <= math.MaxFloat64 }

// Add returns t warmed by d. The result is "not given" only if t is, or if d
// takes it to absolute zero.
func (t Temperature) Add(d TemperatureDelta) Temperature {
	if !t.Given() {
		return t
	}
	return Temperature{t.kelvin + float64(d)}
}

// Sub returns the rise from u to t. Both must be given.
func (t Temperature) Sub(u Temperature) TemperatureDelta {
	return TemperatureDelta(t.kelvin - u.kelvin)
}

// Compare returns -1, 0 or +1 as t is colder than, equal to or warmer than u.
// A temperature that is not given is the coldest.
func (t Temperature) Compare(u Temperature) int {
	switch {
	case t.kelvin < u.kelvin:
		return -1
	case t.kelvin > u.kelvin:
		return +1
	}
	return 0
}

// ParseTemperature reads a temperature such as "180 °F", "60 C" or "300 K".
// Its error is a [*FieldError].
func ParseTemperature(s string) (Temperature, error) {
	v, err := parseScalar(KindTemperature, s)
	return Temperature{v}, err
}

// MustParseTemperature is [ParseTemperature] for tests and tables: it panics
// on an error.
func MustParseTemperature(s string) Temperature {
	return Temperature{mustParse(KindTemperature, s)}
}

// Text returns t in the scale of the system, °F or °C, with prec decimals; the
// empty text if t is not given.
func (t Temperature) Text(s System, prec int) string {
	if !t.Given() {
		return ""
	}
	var buf [64]byte
	u := KindTemperature.Unit(s).row()
	return string(appendNumberUnit(buf[:0], u.fromSI(t.kelvin), prec, u.symbol))
}

// String returns t for logs, in degrees Celsius and at most six digits;
// "not given" for the zero Temperature.
func (t Temperature) String() string {
	if !t.Given() {
		return "not given"
	}
	return short(KindTemperature, t.kelvin)
}

// AppendText appends the exact text of t; nothing if t is not given.
// Temperatures that no text is read as are errors.
func (t Temperature) AppendText(b []byte) ([]byte, error) {
	if !t.Given() {
		return b, nil
	}
	if !t.Valid() {
		return nil, &FieldError{Value: t.String(), Want: "a finite temperature above absolute zero", Err: ErrRange}
	}
	return appendExact(b, KindTemperature, t.kelvin)
}

// MarshalText returns the exact text of t; see [Temperature.AppendText].
func (t Temperature) MarshalText() ([]byte, error) { return t.AppendText(nil) }

// UnmarshalText accepts what [ParseTemperature] accepts, and the empty text
// for "not given". On error t is unchanged.
func (t *Temperature) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*t = Temperature{}
		return nil
	}
	return unmarshalScalar(KindTemperature, text, &t.kelvin)
}

// Kind returns [KindTemperature].
func (t Temperature) Kind() Kind { return KindTemperature }

// Quantity returns t with its kind; the zero Quantity if t is not given.
func (t Temperature) Quantity() Quantity {
	if !t.Given() {
		return Quantity{}
	}
	return Quantity{KindTemperature, t.kelvin}
}

// SetQuantity sets t to q; q of another kind is a [*FieldError] and leaves t.
func (t *Temperature) SetQuantity(q Quantity) error {
	if q.kind == KindTemperature && !(q.si > 0) {
		return &FieldError{Value: q.String(), Want: "a temperature above absolute zero", Err: ErrRange}
	}
	return setScalar(KindTemperature, q, &t.kelvin)
}
