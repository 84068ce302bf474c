package electrical

import (
	"fmt"
	"slices"

	"example.com/washrig/units"
)

// A Standing says how well a figure of a table is known.
type Standing int

// The zero Standing is invalid.
const (
	Reproduced Standing = iota + 1 // read in a reproduction of the source
	FromMemory                     // recalled, not read
)

// String returns the standing in words.
func (s Standing) String() string {
	switch s {
	case Reproduced:
		return "read in a reproduction"
	case FromMemory:
		return "from memory"
	}
	return fmt.Sprintf("Standing(%d)", int(s))
}

// Ampacity of hard-service cords with thermoset or thermoplastic insulation at
// 30 °C ambient, by the number of conductors that carry current.
//
// Source: NFPA 70 (NEC) Table 400.5(A)(1), columns A (three) and B (two).
// Odd sizes and column A of 18 AWG are from memory.
var hardService = [...]struct {
	gauge      Gauge
	three, two float64
	threeBy    Standing
	twoBy      Standing
}{
	{18, 7, 10, FromMemory, Reproduced},
	{17, 9, 12, FromMemory, Reproduced},
	{16, 10, 13, Reproduced, Reproduced},
	{15, 12, 16, FromMemory, FromMemory},
	{14, 15, 18, Reproduced, Reproduced},
	{13, 17, 21, FromMemory, FromMemory},
	{12, 20, 25, Reproduced, Reproduced},
	{11, 23, 27, FromMemory, FromMemory},
	{10, 25, 30, Reproduced, Reproduced},
	{9, 29, 34, FromMemory, FromMemory},
	{8, 35, 40, Reproduced, Reproduced},
	{7, 40, 47, FromMemory, FromMemory},
	{6, 45, 55, Reproduced, Reproduced},
	{5, 52, 62, FromMemory, FromMemory},
	{4, 60, 70, Reproduced, Reproduced},
	{3, 70, 82, FromMemory, FromMemory},
	{2, 80, 95, Reproduced, Reproduced},
}

// Ampacity of Type W and stage cable, by temperature rating and number of
// conductors in the cable.
//
// Source: NFPA 70 (NEC) Table 400.5(A)(2) (400-5(B) in older editions), as
// given by H. C. Box, Set Lighting Technician's Handbook, 4th ed., Appendix D.
var typeW = [...]struct {
	gauge           Gauge
	rating          float64 // °C
	one, two, three float64
}{
	{8, 90, 80, 74, 65},
	{6, 90, 105, 99, 87},
	{4, 90, 140, 130, 114},
	{2, 90, 190, 174, 152},
	{Gauge1_0, 90, 260, 234, 205},
	{Gauge2_0, 90, 300, 271, 237},
	{Gauge3_0, 90, 350, 313, 274},
	{Gauge4_0, 90, 405, 361, 316},
	{8, 75, 70, 65, 57},
	{6, 75, 95, 88, 77},
	{4, 75, 125, 115, 101},
	{2, 75, 170, 152, 133},
	{Gauge1_0, 75, 230, 207, 181},
	{Gauge2_0, 75, 265, 238, 208},
	{Gauge3_0, 75, 310, 275, 241},
	{Gauge4_0, 75, 360, 317, 277},
	{4, 60, 105, 96, 84},
	{2, 60, 140, 128, 112},
	{Gauge1_0, 60, 195, 173, 151},
	{Gauge2_0, 60, 225, 199, 174},
	{Gauge3_0, 60, 260, 230, 201},
	{Gauge4_0, 60, 300, 265, 232},
}

// CordAmpacity returns what a hard-service cord carries at 30 °C ambient with
// two or three conductors carrying current, and how well the figure is known.
// The neutral of a 120 V cord carries current, its equipment ground does not:
// a 120 V cord has two.
//
// Range: 18 AWG to 2 AWG. Outside it is an error.
//
// Errors: units.ErrMissing and units.ErrRange, paths "gauge" and "carrying".
//
// Source: NFPA 70 (NEC) Table 400.5(A)(1); check the edition in force.
func CordAmpacity(g Gauge, carrying int) (units.Current, Standing, error) {
	var p problems
	p.gauge("gauge", g)
	p.carrying(carrying)
	if err := p.err(); err != nil {
		return 0, 0, err
	}
	for i := range hardService {
		row := &hardService[i]
		if row.gauge == g {
			if carrying == 3 {
				return units.Current(row.three), row.threeBy, nil
			}
			return units.Current(row.two), row.twoBy, nil
		}
	}
	p.rangef("gauge", g, "a size of NEC Table 400.5(A)(1), 18 AWG to 2 AWG")
	return 0, 0, p.err()
}

func (p *problems) carrying(n int) {
	switch {
	case n == 0:
		p.missing("carrying", "2 or 3 conductors that carry current")
	case n != 2 && n != 3:
		p.rangef("carrying", n, "2 or 3 conductors that carry current")
	}
}

// TypeWAmpacity returns what portable power cable of Type W carries at 30 °C
// ambient, by its temperature rating (60, 75 or 90 °C) and its number of
// conductors (1 to 3).
//
// Range: the sizes of the table, 8 AWG (4 AWG at 60 °C) to 4/0. Outside it is
// an error.
//
// Errors: units.ErrMissing and units.ErrRange, paths "gauge", "rating" and
// "conductors".
//
// Source: NFPA 70 (NEC) Table 400.5(A)(2); check the edition in force.
func TypeWAmpacity(g Gauge, rating units.Temperature, conductors int) (units.Current, error) {
	var p problems
	p.gauge("gauge", g)
	if !rating.Given() {
		p.missing("rating", "60, 75 or 90 °C")
	}
	switch {
	case conductors == 0:
		p.missing("conductors", "1 to 3")
	case conductors < 1 || conductors > 3:
		p.rangef("conductors", conductors, "1 to 3")
	}
	if err := p.err(); err != nil {
		return 0, err
	}
	const nearly = 0.01 // K: a rating is a whole number of degrees
	known := false
	for _, row := range typeW {
		if d := rating.Celsius() - row.rating; d < -nearly || d > nearly {
			continue
		}
		known = true
		if row.gauge == g {
			return units.Current([...]float64{row.one, row.two, row.three}[conductors-1]), nil
		}
	}
	if !known {
		p.rangef("rating", rating, "60, 75 or 90 °C")
	} else {
		p.rangef("gauge", g, "a size of NEC Table 400.5(A)(2)")
	}
	return 0, p.err()
}

// breakers are the standard ratings up to the largest that a trailer may meet.
//
// Source: NFPA 70 (NEC) 240.6(A), 2023, three public reproductions.
var breakers = [...]units.Current{15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400}

// BreakerFor returns the smallest standard breaker for a continuous current of
// which it may carry the share continuous:
//
//	I_breaker ≥ I / continuous
//
// continuous = 1 asks for the current alone; 0.8 is the usual share for a load
// of three hours and more, 16 A on 20 A.
//
// Range: up to 400 A. Outside it is an error.
//
// Errors: units.ErrMissing and units.ErrRange, paths "current" and "continuous".
//
// Source: NFPA 70 (NEC) 240.6(A) for the sizes, 210.20(A) for the 80 % (125 %).
func BreakerFor(current units.Current, continuous units.Ratio) (units.Current, error) {
	var p problems
	p.required("current", float64(current), minCurrent, maxCurrent, inAmperes)
	p.share("continuous", continuous)
	if err := p.err(); err != nil {
		return 0, err
	}
	if b := breakerFor(float64(current), float64(continuous)); b > 0 {
		return b, nil
	}
	p.rangef("current", current, "at most "+breakers[len(breakers)-1].String()+" with its share")
	return 0, p.err()
}

func breakerFor(current, continuous float64) units.Current {
	// 0.8 is not a binary number: 16 A on 20 A must not fail by a rounding.
	const rounding = 1e-12
	for _, b := range breakers {
		if current <= float64(b)*continuous*(1+rounding) {
			return b
		}
	}
	return 0
}

// LargestBreaker returns the greatest breaker that NEC 240.4(D) allows for
// copper building wire of 14, 12 and 10 AWG: 15, 20 and 30 A. Cords go by their
// ampacity.
//
// Errors: units.ErrMissing and units.ErrRange, path "gauge".
//
// Source: NFPA 70 (NEC) 240.4(D), public summaries.
func LargestBreaker(g Gauge) (units.Current, error) {
	var p problems
	p.gauge("gauge", g)
	if err := p.err(); err != nil {
		return 0, err
	}
	switch g {
	case 14:
		return 15, nil
	case 12:
		return 20, nil
	case 10:
		return 30, nil
	}
	p.rangef("gauge", g, "14, 12 or 10 AWG")
	return 0, p.err()
}

// An Outlet is a receptacle by its configuration.
type Outlet struct {
	Name    string        // "L5-30R"
	Voltage units.Voltage // rating of the device, not of the supply: 125 for 120 V
	Current units.Current
	Legs    int  // hot wires: 1 for 120 V, 2 for 240 V and for 120/240 V
	Neutral bool // carries a neutral, so that 120 V can be drawn
	Locking bool
}

// Receptacles met on generators, trailers and shore stands.
//
// Source: ANSI/NEMA WD 6; 5-15, 5-20, L5-30, 14-50 and L14-30 as described in
// public summaries, 6-15, 6-20, L6-30, L14-20 and TT-30 from memory.
var outlets = [...]Outlet{
	{"5-15R", 125, 15, 1, true, false},
	{"5-20R", 125, 20, 1, true, false},
	{"L5-20R", 125, 20, 1, true, true},
	{"L5-30R", 125, 30, 1, true, true},
	{"TT-30R", 125, 30, 1, true, false},
	{"6-15R", 250, 15, 2, false, false},
	{"6-20R", 250, 20, 2, false, false},
	{"L6-20R", 250, 20, 2, false, true},
	{"L6-30R", 250, 30, 2, false, true},
	{"L14-20R", 250, 20, 2, true, true},
	{"L14-30R", 250, 30, 2, true, true},
	{"14-30R", 250, 30, 2, true, false},
	{"14-50R", 250, 50, 2, true, false},
}

// Outlets returns the receptacles that the package knows, by voltage and current.
func Outlets() []Outlet { return slices.Clone(outlets[:]) }

// OutletNamed returns the receptacle of a name such as "L5-30R".
//
// Errors: units.ErrMissing and units.ErrRange, path "outlet".
func OutletNamed(name string) (Outlet, error) {
	for _, o := range outlets {
		if o.Name == name {
			return o, nil
		}
	}
	var p problems
	if name == "" {
		p.missing("outlet", `a configuration such as "5-20R"`)
	} else {
		p.rangef("outlet", name, "a configuration of the list, such as 5-20R")
	}
	return Outlet{}, p.err()
}

// OutletLimits returns what may be drawn continuously from an outlet:
//
//	S = V · I · continuous
//
// current is the smaller of the outlet's and its breaker's rating, voltage that
// of the supply (120, not 125), continuous the share of the breaker that may
// flow for hours. The same number limits watts and volt-amperes; clear
// RatedApparent for loads that do not say theirs. There is no start limit: how
// long a breaker holds is on its curve, not on its plate.
//
// Errors: units.ErrMissing and units.ErrRange, paths "voltage", "current" and
// "continuous".
func OutletLimits(voltage units.Voltage, current units.Current, continuous units.Ratio) (Limits, error) {
	var p problems
	p.required("voltage", float64(voltage), minVoltage, 1000, inVolts)
	p.required("current", float64(current), 1, 1000, inAmperes)
	p.share("continuous", continuous)
	if err := p.err(); err != nil {
		return Limits{}, err
	}
	s := float64(voltage) * float64(current) * float64(continuous)
	l := Limits{Rated: units.Power(s), RatedApparent: units.ApparentPower(s)}
	return l, l.Validate()
}

// ShoreSupply returns a shore cord as a source, with the limits of [OutletLimits].
func ShoreSupply(name string, voltage units.Voltage, breaker units.Current, continuous units.Ratio) (Source, error) {
	l, err := OutletLimits(voltage, breaker, continuous)
	if err != nil {
		return Source{}, err
	}
	s := Source{Name: name, Kind: Shore, Rated: l.Rated, RatedApparent: l.RatedApparent}
	return s, s.Validate()
}

// A CordNeed is the question for the thinnest cord.
type CordNeed struct {
	Supply             units.Voltage
	Length             units.Length      // of the cord
	Temperature        units.Temperature // of the conductors under load
	Carrying           int               // conductors that carry current, 2 or 3
	Current            units.Current     // running
	PowerFactor        units.Ratio       // running
	StartCurrent       units.Current     // at the supply voltage; zero: no start to look at
	StartPowerFactor   units.Ratio       // needed with StartCurrent
	Breaker            units.Current     // of the outlet; zero: the smallest standard one that carries Current
	Continuous         units.Ratio       // share of the breaker that may flow for hours
	RunDrop, StartDrop units.Ratio       // most of the supply voltage that may be lost
}

// A CordSize is one gauge against a [CordNeed].
type CordSize struct {
	Gauge    Gauge
	Ampacity units.Current
	By       Standing // of the ampacity
	Breaker  units.Current
	Run      Drop
	Start    Drop // zero without StartCurrent

	Carries, Protected, RunPasses, StartPasses bool
}

// Passes reports whether the gauge meets all of the need: its ampacity the
// running current, the breaker its ampacity, and both drops their limits.
func (c CordSize) Passes() bool {
	return c.Carries && c.Protected && c.RunPasses && c.StartPasses
}

// ChooseCord looks through the sizes of hard-service cord that have a
// resistance in NEC Chapter 9 Table 8, from thin to thick. It returns the first
// that passes, and whether there is one, and all of them with what each comes to.
//
// A cord is stranded copper. It is protected where the breaker is not above its
// ampacity; a breaker that would have to carry more than its continuous share is
// an error, not a cord.
//
// Errors: units.ErrMissing, units.ErrRange and units.ErrConflict at the fields
// of the need, in small letters.
//
// Source: [CordAmpacity], [BreakerFor], [Circuit.Drop], [Circuit.StartDrop].
func ChooseCord(need CordNeed) (best CordSize, ok bool, all []CordSize, err error) {
	breaker, err := need.check()
	if err != nil {
		return CordSize{}, false, nil, err
	}
	for _, row := range hardService {
		c := CordSize{Gauge: row.gauge, Breaker: breaker}
		circuit := Circuit{
			Conductor: Conductor{Gauge: row.gauge}, Length: need.Length,
			Temperature: need.Temperature, Supply: need.Supply,
		}
		if _, err := circuit.Conductor.Resistance(need.Temperature); err != nil {
			continue // an odd size without a resistance
		}
		c.Ampacity, c.By, err = CordAmpacity(row.gauge, need.Carrying)
		if err != nil {
			return CordSize{}, false, nil, err
		}
		c.Carries = need.Current <= c.Ampacity
		c.Protected = breaker <= c.Ampacity
		if c.Run, err = circuit.Drop(need.Current, need.PowerFactor); err != nil {
			continue // the cord cannot pass the current at all
		}
		c.RunPasses = c.Run.Share <= need.RunDrop
		c.StartPasses = true
		if need.StartCurrent > 0 {
			if c.Start, err = circuit.StartDrop(need.StartCurrent, need.Supply, need.StartPowerFactor); err != nil {
				return CordSize{}, false, nil, err
			}
			c.StartPasses = c.Start.Share <= need.StartDrop
		}
		all = append(all, c)
		if !ok && c.Passes() {
			best, ok = c, true
		}
	}
	return best, ok, all, nil
}

func (n CordNeed) check() (breaker units.Current, err error) {
	var p problems
	p.required("supply", float64(n.Supply), minVoltage, maxVoltage, inVolts)
	p.required("length", float64(n.Length), 0, maxLength, inMeters)
	if !n.Temperature.Given() {
		p.missing("temperature", "the temperature of the conductors under load")
	} else {
		p.within("temperature", n.Temperature.Celsius(), -40, 150, inCelsius)
	}
	p.carrying(n.Carrying)
	current := p.required("current", float64(n.Current), minCurrent, maxCurrent, inAmperes)
	p.share("powerFactor", n.PowerFactor)
	if n.StartCurrent != 0 {
		if p.within("startCurrent", float64(n.StartCurrent), minCurrent, maxCurrent, inAmperes) && n.StartCurrent < n.Current {
			p.conflict("startCurrent", n.StartCurrent, "at least the running current, "+n.Current.String())
		}
		p.share("startPowerFactor", n.StartPowerFactor)
	}
	p.optional("breaker", float64(n.Breaker), minCurrent, maxCurrent, inAmperes)
	share := p.share("continuous", n.Continuous)
	p.share("runDrop", n.RunDrop)
	if n.StartCurrent != 0 {
		p.share("startDrop", n.StartDrop)
	}
	if !current || !share || len(p.list) > 0 {
		return 0, p.err()
	}
	least := breakerFor(float64(n.Current), float64(n.Continuous))
	switch {
	case n.Breaker == 0 && least == 0:
		p.rangef("current", n.Current, "less than the greatest standard breaker carries")
	case n.Breaker == 0:
		return least, nil
	case float64(n.Current) > float64(n.Breaker)*float64(n.Continuous)*(1+1e-12):
		p.conflict("breaker", n.Breaker, "one that carries "+n.Current.String()+" with its continuous share")
	}
	return n.Breaker, p.err()
}
