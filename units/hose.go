package units

// A Hose is one row of the table of hose bores.
type Hose struct {
	Size  string // "3/8 in"
	Dash  int    // sixteenths of an inch, the trade's dash number; 6
	Least Length // smallest bore the standard lets pass
	Most  Length // largest
	Bore  Length // halfway between them, the best guess without a measurement
	Area  Area   // π/4 Bore²
}

// Rubber hose built on a rigid mandrel.
//
// Source: ISO 1307:2006, Table 1, type A, in millimetres, read in a public
// reproduction and not in the standard itself. The inch names of the metric
// sizes (6.3 is 1/4 in) are those of SAE J517, from memory.
var hoses = [...]struct {
	size        string
	dash        int
	least, most float64 // mm
}{
	{"3/16 in", 3, 4.6, 5.4},
	{"1/4 in", 4, 6.2, 7.0},
	{"5/16 in", 5, 7.7, 8.5},
	{"3/8 in", 6, 9.3, 10.1},
	{"1/2 in", 8, 12.3, 13.5},
	{"5/8 in", 10, 15.5, 16.7},
	{"3/4 in", 12, 18.6, 19.8},
	{"1 in", 16, 25.0, 26.4},
	{"1-1/4 in", 20, 31.4, 33.0},
	{"1-1/2 in", 24, 37.7, 39.3},
	{"2 in", 32, 50.4, 52.0},
	{"2-1/2 in", 40, 63.1, 65.1},
	{"3 in", 48, 74.6, 77.8},
}

// HoseBore returns the bore of rubber hose of a nominal size, 3/16 to 3 inches:
// the limits of the standard and the middle between them. The pressure lost in
// a hose goes with nearly the fifth power of its bore, so that the limits of
// 3/8 inch hose, 9.3 and 10.1 mm, are nearly 50 % apart in pressure: a
// measured bore is worth having. A size that is not in the table is a [*FieldError]; there
// is no interpolation.
//
// Source: ISO 1307:2006, Table 1, type A, as reproduced in public. Hose built
// without a mandrel varies more.
func HoseBore(nominal Length) (Hose, error) {
	for _, h := range hoses {
		if !sameSize(nominal, Length(h.dash)*Inch/16) {
			continue
		}
		bore := Length((h.least+h.most)/2) * Millimeter
		return Hose{
			Size:  h.size,
			Dash:  h.dash,
			Least: Length(h.least) * Millimeter,
			Most:  Length(h.most) * Millimeter,
			Bore:  bore,
			Area:  circle(bore),
		}, nil
	}
	return Hose{}, &FieldError{Path: "nominal", Value: nominal.Text(Inch, -1), Want: "a nominal hose size from 3/16 in to 3 in, such as 3/8 in", Err: ErrRange}
}
