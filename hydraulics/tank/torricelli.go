package tank

import (
	"math"

	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// DrainTime returns the time in which the level of an upright tank falls from one
// height above its outlet to another, by the formula of the textbooks.
//
//	t = 2 A / (C a √(2 g)) · (√h₁ − √h₂),  a = π d²/4
//
// A is the cross-section of the tank, d the true bore of the outlet (a nominal pipe
// size is not its bore), C its discharge coefficient. [Drain] also knows other
// shapes, pipe friction and the vent.
//
// Source: E. Torricelli, De motu gravium, 1644; any textbook of hydraulics.
func DrainTime(area units.Area, bore units.Length, coefficient units.Ratio, from, to units.Length) (units.Duration, error) {
	var p problem.List
	problem.Within(&p, "area", area, minSize*minSize, maxSize*maxSize)
	heads(&p, bore, coefficient, from, to)
	if err := p.Join(); err != nil {
		return 0, err
	}
	return units.Duration(fallTime(float64(area), float64(bore), float64(coefficient), float64(from), float64(to))), nil
}

// EqualizingTime returns the time in which the difference of the levels of two
// upright tanks falls from one value to another, through an opening between them.
//
//	t = 2 A₁ A₂ / ((A₁ + A₂) C a √(2 g)) · (√H₁ − √H₂)
//
// Source: as [DrainTime].
func EqualizingTime(area1, area2 units.Area, bore units.Length, coefficient units.Ratio, from, to units.Length) (units.Duration, error) {
	var p problem.List
	problem.Within(&p, "area1", area1, minSize*minSize, maxSize*maxSize)
	problem.Within(&p, "area2", area2, minSize*minSize, maxSize*maxSize)
	heads(&p, bore, coefficient, from, to)
	if err := p.Join(); err != nil {
		return 0, err
	}
	a := float64(area1) * float64(area2) / float64(area1+area2)
	return units.Duration(fallTime(a, float64(bore), float64(coefficient), float64(from), float64(to))), nil
}

func heads(p *problem.List, bore units.Length, coefficient units.Ratio, from, to units.Length) {
	problem.Within(p, "bore", bore, minBore, maxBore)
	problem.Within(p, "coefficient", coefficient, 1e-3, 1)
	problem.Between(p, "from", from, 0, maxHeight)
	if !(to >= 0 && to <= from) {
		p.Add("to", to.String(), "0 to the height it falls from, "+from.String(), units.ErrConflict)
	}
}

func fallTime(A, d, C, h1, h2 float64) float64 {
	a := math.Pi / 4 * d * d
	return 2 * A / (C * a * math.Sqrt(2*gravity)) * (math.Sqrt(h1) - math.Sqrt(h2))
}

// A Crossing is what a steady flow into or out of one of two joined tanks does to
// their levels once both move at the same speed.
type Crossing struct {
	Flow       units.VolumeFlow // through the crossover
	Difference units.Length     // of the levels
}

// SteadyCrossing returns the flow through a crossover, and the difference of levels
// that drives it, when a flow q is drawn from, dumped from or filled into tank 1
// and none into tank 2.
//
//	Q_x = q A₂/(A₁ + A₂),  Δh = head of the crossover at Q_x
//
// The far tank gives or takes its share by area. The formula holds while both
// tanks have water over the crossover and below the lid, and long after the start;
// where Δh nears the height of the tanks it means nothing, and [System.Run] follows
// the levels in time. Any number of tanks: [System.Spread].
func SteadyCrossing(q units.VolumeFlow, area1, area2 units.Area, crossover Opening, fluid hydraulics.Fluid) (Crossing, error) {
	var p problem.List
	problem.Between(&p, "flow", q, 0, maxFlow)
	problem.Within(&p, "area1", area1, minSize*minSize, maxSize*maxSize)
	problem.Within(&p, "area2", area2, minSize*minSize, maxSize*maxSize)
	p.Take("crossover", crossover.Validate())
	checkFluid(&p, fluid)
	if err := p.Join(); err != nil {
		return Crossing{}, err
	}
	x := Crossing{Flow: q * units.VolumeFlow(area2/(area1+area2))}
	w := crossover.passage(fluid)
	dp, _ := w.loss(float64(x.Flow))
	x.Difference = units.Length(dp / w.weight)
	return x, nil
}
