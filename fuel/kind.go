package fuel

import (
	"strconv"
	"strings"

	"example.com/washrig/units"
)

// A Kind is a fuel as the pump label names it. The zero Kind is "not given".
type Kind uint8

// The fuels of the table, in its order.
const (
	GasolineE0   Kind = iota + 1 // gasoline without ethanol
	GasolineE10                  // gasoline with 10 % ethanol by volume, the usual pump gasoline
	Diesel1                      // grade No. 1-D, winter diesel
	Diesel2                      // grade No. 2-D, ordinary diesel and No. 2 heating oil
	Kerosene                     // No. 1-K
	BiodieselB5                  // 95 % No. 2 diesel and 5 % biodiesel by volume
	BiodieselB20                 // 80 % No. 2 diesel and 20 % biodiesel by volume
	Propane                      // HD-5 propane, as a liquid
	NaturalGas                   // pipeline gas, as a gas at 60 °F and 14.696 psia
)

// kindNames are the spellings used in files, in the order of the constants.
var kindNames = [...]string{
	GasolineE0:   "gasoline-e0",
	GasolineE10:  "gasoline-e10",
	Diesel1:      "diesel-1",
	Diesel2:      "diesel-2",
	Kerosene:     "kerosene",
	BiodieselB5:  "biodiesel-b5",
	BiodieselB20: "biodiesel-b20",
	Propane:      "propane",
	NaturalGas:   "natural-gas",
}

// Kinds returns every fuel of the table in its order.
func Kinds() []Kind {
	k := make([]Kind, 0, len(kindNames)-1)
	for i := 1; i < len(kindNames); i++ {
		k = append(k, Kind(i))
	}
	return k
}

// Known reports whether k is a fuel of the table.
func (k Kind) Known() bool { return k > 0 && int(k) < len(kindNames) }

// Gas reports whether the volumes of k are volumes of gas, not of a liquid.
func (k Kind) Gas() bool { return k == NaturalGas }

// String returns the spelling used in files, or a number for a Kind that is not
// in the table.
func (k Kind) String() string {
	if !k.Known() {
		return "Kind(" + strconv.Itoa(int(k)) + ")"
	}
	return kindNames[k]
}

// AppendText appends what MarshalText returns.
func (k Kind) AppendText(b []byte) ([]byte, error) {
	if !k.Known() {
		return b, unknownKind("kind", k)
	}
	return append(b, kindNames[k]...), nil
}

// MarshalText returns the spelling used in files. A Kind that is not in the
// table, the zero Kind included, is an error.
func (k Kind) MarshalText() ([]byte, error) { return k.AppendText(nil) }

// UnmarshalText reads what MarshalText writes.
func (k *Kind) UnmarshalText(text []byte) error {
	v, err := ParseKind(string(text))
	if err != nil {
		return err
	}
	*k = v
	return nil
}

// ParseKind reads the spelling used in files, such as "diesel-2". Letter case
// and spaces count: any other spelling is an error that lists the known ones.
func ParseKind(s string) (Kind, error) {
	for i := 1; i < len(kindNames); i++ {
		if kindNames[i] == s {
			return Kind(i), nil
		}
	}
	return 0, &units.FieldError{
		Path:  "kind",
		Value: strconv.Quote(s),
		Want:  "one of " + strings.Join(kindNames[1:], ", "),
		Err:   units.ErrSyntax,
	}
}

// unknownKind is the error for a Kind without a row in the table.
func unknownKind(path string, k Kind) error {
	want := "one of " + strings.Join(kindNames[1:], ", ")
	if k == 0 {
		return &units.FieldError{Path: path, Want: want, Err: units.ErrMissing}
	}
	return &units.FieldError{Path: path, Value: k.String(), Want: want, Err: units.ErrRange}
}
