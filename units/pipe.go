package units

import (
	"math"
	"strconv"
)

// A PipeSchedule is the wall series of a steel pipe.
type PipeSchedule int

const (
	Schedule40 PipeSchedule = 40 // standard weight in the sizes listed here
	Schedule80 PipeSchedule = 80 // extra strong in the sizes listed here
)

// A Pipe is one row of the table of steel pipe.
type Pipe struct {
	Size     string // "1-1/2 in"
	Schedule PipeSchedule
	Outside  Length // outside diameter
	Wall     Length // nominal wall thickness
	Bore     Length // Outside - 2 Wall
	Area     Area   // π/4 Bore²
}

// Steel pipe.
//
// Source: ASME B36.10M, Table 1, in inches; the standard itself was not read.
// The rows agree with public reproductions of the table, and after conversion
// with the metric columns of the same table in the library fluids 1.0.22. Mill
// tolerance on the wall is 12.5 %, so that a real bore differs.
var pipes = [...]struct {
	size                            string
	nominal                         float64 // in
	outside, schedule40, schedule80 float64 // in
}{
	{"1/8 in", 0.125, 0.405, 0.068, 0.095},
	{"1/4 in", 0.25, 0.540, 0.088, 0.119},
	{"3/8 in", 0.375, 0.675, 0.091, 0.126},
	{"1/2 in", 0.5, 0.840, 0.109, 0.147},
	{"3/4 in", 0.75, 1.050, 0.113, 0.154},
	{"1 in", 1, 1.315, 0.133, 0.179},
	{"1-1/4 in", 1.25, 1.660, 0.140, 0.191},
	{"1-1/2 in", 1.5, 1.900, 0.145, 0.200},
	{"2 in", 2, 2.375, 0.154, 0.218},
	{"2-1/2 in", 2.5, 2.875, 0.203, 0.276},
	{"3 in", 3, 3.500, 0.216, 0.300},
	{"3-1/2 in", 3.5, 4.000, 0.226, 0.318},
	{"4 in", 4, 4.500, 0.237, 0.337},
	{"5 in", 5, 5.563, 0.258, 0.375},
	{"6 in", 6, 6.625, 0.280, 0.432},
}

// SteelPipe returns the dimensions of steel pipe of a nominal size, 1/8 to 6
// inches, in schedule 40 or 80. A nominal size is a name: 1-1/2 inch pipe of
// schedule 40 has a bore of 1.610 inches. A size or schedule that is not in
// the table is a [*FieldError]; there is no interpolation.
//
// Source: ASME B36.10M, Table 1, as reproduced in public.
func SteelPipe(nominal Length, s PipeSchedule) (Pipe, error) {
	if s != Schedule40 && s != Schedule80 {
		return Pipe{}, &FieldError{Path: "schedule", Value: strconv.Itoa(int(s)), Want: "40 or 80", Err: ErrRange}
	}
	for _, p := range pipes {
		if !sameSize(nominal, Length(p.nominal)*Inch) {
			continue
		}
		wall := p.schedule40
		if s == Schedule80 {
			wall = p.schedule80
		}
		bore := Length(p.outside-2*wall) * Inch
		return Pipe{
			Size:     p.size,
			Schedule: s,
			Outside:  Length(p.outside) * Inch,
			Wall:     Length(wall) * Inch,
			Bore:     bore,
			Area:     circle(bore),
		}, nil
	}
	return Pipe{}, &FieldError{Path: "nominal", Value: nominal.Text(Inch, -1), Want: "a nominal pipe size from 1/8 in to 6 in, such as 1-1/2 in", Err: ErrRange}
}

// sameSize reports whether two names of a size, given as lengths, are one:
// 0.375 in and 9.525 mm may differ in the last bits.
func sameSize(a, b Length) bool {
	return math.Abs(float64(a-b)) <= 1e-9*math.Abs(float64(b))
}

// circle returns the area of a circle.
func circle(diameter Length) Area {
	d := float64(diameter)
	return Area(pi / 4 * d * d)
}
