package units

import "strings"

//go:generate go run ../internal/cmd/unitsgen zkinds.go

// A Kind names a dimension that has a type of its own in this package.
// Two kinds may share an SI unit: a [Moment] is not an [Energy], and an
// [AbsolutePressure] is not a [Pressure].
type Kind uint8

type kindRow struct {
	typ     string // Go name
	name    string // stable text
	phrase  string // "a pressure"
	base    string // SI base unit
	example string
	units   []unitRow
}

type unitRow struct {
	symbol    string
	constant  string
	factor    float64
	offset    float64 // points only: si = (value + offset) × factor
	ten       bool    // factor is 10^exp: digits are scaled before they are read
	exp       int
	least     float64 // smallest and largest number written in this unit; 0 = no limit
	most      float64
	us, si    bool // printed for that System
	spellings []string
}

// Kinds returns all kinds in declaration order.
func Kinds() []Kind {
	out := make([]Kind, 0, len(table)-1)
	for k := 1; k < len(table); k++ {
		out = append(out, Kind(k))
	}
	return out
}

func (k Kind) row() *kindRow {
	if int(k) >= len(table) {
		k = 0
	}
	return &table[k]
}

// Valid reports whether k is one of the declared kinds.
func (k Kind) Valid() bool { return k != 0 && int(k) < len(table) }

// String returns the stable lower-case name of k, such as "volume-flow";
// "invalid" if k is not a declared kind.
func (k Kind) String() string {
	if !k.Valid() {
		return "invalid"
	}
	return table[k].name
}

// Base returns the symbol of the SI unit that [Quantity.SI] counts in: "Pa".
// It is empty for dimensionless kinds.
func (k Kind) Base() string { return k.row().base }

// Phrase returns what the kind is called in a sentence, with its article: "an elevation".
func (k Kind) Phrase() string { return k.row().phrase }

// Example returns a text that parses as this kind: "3500 psi".
func (k Kind) Example() string { return k.row().example }

// ParseKind returns the kind with the given name; see [Kind.String].
func ParseKind(name string) (Kind, error) {
	for k := 1; k < len(table); k++ {
		if table[k].name == name {
			return Kind(k), nil
		}
	}
	return 0, &FieldError{Value: strings.Clone(name), Want: `the name of a kind, such as "pressure"`, Err: ErrSyntax}
}

// MarshalText returns the name of k; an invalid kind is an error.
func (k Kind) MarshalText() ([]byte, error) {
	if !k.Valid() {
		return nil, &FieldError{Want: "a declared kind", Err: ErrMissing}
	}
	return []byte(table[k].name), nil
}

// UnmarshalText accepts what [ParseKind] accepts.
func (k *Kind) UnmarshalText(text []byte) error {
	v, err := ParseKind(string(text))
	if err == nil {
		*k = v
	}
	return err
}

// A System is a choice of units to print in.
type System uint8

const (
	US System = iota // US trade units: psi, gpm, hp, °F
	SI               // metric trade units: bar, L/min, kW, °C
)

// String returns "US" or "SI".
func (s System) String() string {
	if s == US {
		return "US"
	}
	return "SI"
}

func (u *unitRow) in(s System) bool {
	if s == US {
		return u.us
	}
	return u.si
}

// A Unit is one unit of a kind. It is comparable; the zero Unit is invalid.
type Unit struct {
	kind  Kind
	index uint8
}

func (u Unit) row() *unitRow {
	rows := u.kind.row().units
	if int(u.index) >= len(rows) {
		return &unitRow{symbol: "invalid", factor: 1}
	}
	return &rows[u.index]
}

// Units returns the units of k: the trade's own first, which also decides ties
// between equally short exact texts.
func (k Kind) Units() []Unit {
	out := make([]Unit, len(k.row().units))
	for i := range out {
		out[i] = Unit{k, uint8(i)}
	}
	return out
}

// Unit returns the unit that quantities of kind k are tabulated in: one unit
// for a whole column, where [Quantity.Text] may choose a smaller one for a
// small value.
func (k Kind) Unit(s System) Unit {
	for i := range k.row().units {
		if k.row().units[i].in(s) {
			return Unit{k, uint8(i)}
		}
	}
	return Unit{}
}

// UnitOf returns the unit of kind k with the given spelling.
func (k Kind) UnitOf(spelling string) (Unit, bool) {
	i := k.find(spelling)
	if i < 0 {
		return Unit{}, false
	}
	return Unit{k, uint8(i)}, true
}

// find returns the index of the unit spelled s, or -1.
func (k Kind) find(s string) int {
	rows := k.row().units
	for i := range rows {
		if s == "" && rows[i].symbol == "" {
			return i
		}
		for _, sp := range rows[i].spellings {
			if sp == s {
				return i
			}
		}
	}
	return -1
}

// Kind returns the kind u belongs to.
func (u Unit) Kind() Kind { return u.kind }

// Symbol returns the written form of u: "gpm". It is empty for plain numbers.
func (u Unit) Symbol() string { return u.row().symbol }

// String returns the symbol.
func (u Unit) String() string { return u.row().symbol }

// Constant returns the name of the Go constant: "GallonPerMinute". It is empty
// for the points [Temperature], [Elevation] and [Position].
func (u Unit) Constant() string { return u.row().constant }

// Spellings returns every text that is read as u, the symbol first.
func (u Unit) Spellings() []string {
	return append([]string(nil), u.row().spellings...)
}

// Factor and Offset give the SI value of a number n of units as
// (n + Offset) × Factor.
func (u Unit) Factor() float64 { return u.row().factor }

// Offset is zero but for temperatures; see [Unit.Factor].
func (u Unit) Offset() float64 { return u.row().offset }

// toSI converts a number of units.
func (u *unitRow) toSI(n float64) float64 {
	if u.offset != 0 {
		return pointToSI(n, u)
	}
	return n * u.factor
}

// fromSI is the inverse, to rounding.
func (u *unitRow) fromSI(si float64) float64 {
	if u.offset != 0 {
		return pointFromSI(si, u)
	}
	return si / u.factor
}

// pointToSI and pointFromSI take the operations in the order of [Fahrenheit]
// and [Temperature.Fahrenheit], so that both ways give the same bits.
// The conversions to float64 forbid fused operations.
func pointToSI(n float64, u *unitRow) float64 {
	if u.factor == 1 {
		return n + u.offset
	}
	return float64((n+u.offset)*5) / 9
}

func pointFromSI(si float64, u *unitRow) float64 {
	if u.factor == 1 {
		return si - u.offset
	}
	return float64(si*9/5) - u.offset
}
