package electrical

import (
	"math"

	"example.com/washrig/units"
)

// A Battery is a storage battery by its rating: Capacity at the current that
// empties it in Rate.
type Battery struct {
	Capacity units.Charge
	Rate     units.Duration // 20 h for most lead-acid batteries
	Exponent float64        // Peukert's k, 1 to 2
}

const (
	maxCharge = 1e9 // C
	minCharge = 1e-3
)

func (b *Battery) fields(p *problems) {
	p.required("capacity", float64(b.Capacity), minCharge, maxCharge, inCoulombs)
	p.required("rate", float64(b.Rate), 60, 3.6e6, inSeconds)
	p.required("exponent", b.Exponent, 1, 2, plain(""))
}

// Runtime returns how long a full battery gives a constant current:
//
//	t = H · (C / (I·H))^k
//
// C is the capacity, H the hours of its rating, k Peukert's exponent. Range:
// currents between a hundredth and a thousand times the rated one C/H; outside
// the law means little and the current is an error.
//
// Errors: units.ErrMissing and units.ErrRange, paths "capacity", "rate",
// "exponent", "current".
//
// Source: W. Peukert, "Über die Abhängigkeit der Kapazität von der
// Entladestromstärke bei Bleiakkumulatoren", Elektrotechnische Zeitschrift 20, 1897.
func (b Battery) Runtime(current units.Current) (units.Duration, error) {
	var p problems
	b.fields(&p)
	if err := p.err(); err != nil {
		return 0, err
	}
	rated := float64(b.Capacity) / float64(b.Rate)
	p.required("current", float64(current), rated/100, rated*1000, inAmperes)
	if err := p.err(); err != nil {
		return 0, err
	}
	return units.Duration(float64(b.Rate) * math.Pow(rated/float64(current), b.Exponent)), nil
}

// PeukertExponent returns the exponent that goes through two runtimes of one
// battery:
//
//	k = ln(t₁/t₂) / ln(I₂/I₁)
//
// Errors: units.ErrMissing and units.ErrRange, paths "current1", "time1",
// "current2", "time2"; units.ErrConflict at "time2" where k would not lie
// between 1 and 2 or the currents are equal.
//
// Source: [Battery.Runtime] at two points.
func PeukertExponent(current1 units.Current, time1 units.Duration, current2 units.Current, time2 units.Duration) (float64, error) {
	var p problems
	p.required("current1", float64(current1), minCurrent, maxCurrent, inAmperes)
	p.required("time1", float64(time1), 1, maxDuration, inSeconds)
	p.required("current2", float64(current2), minCurrent, maxCurrent, inAmperes)
	p.required("time2", float64(time2), 1, maxDuration, inSeconds)
	if err := p.err(); err != nil {
		return 0, err
	}
	k := math.Log(float64(time1/time2)) / math.Log(float64(current2/current1))
	const rounding = 1e-12
	if !(k >= 1-rounding && k <= 2) {
		p.conflict("time2", time2, "a runtime that makes an exponent from 1 to 2")
		return 0, p.err()
	}
	return max(k, 1), nil
}

// cold is what a lead-acid battery can give and what an engine asks to be
// cranked, both over those at 80 °F.
//
// Source: a table that workshops hand on, two public copies without an author;
// common practice.
var cold = [...]struct{ fahrenheit, gives, asks float64 }{
	{-20, 0.25, 3.50},
	{0, 0.40, 2.10},
	{32, 0.65, 1.55},
	{80, 1, 1},
}

// CapacityShare returns what a lead-acid battery can give at a temperature, as a
// share of what it gives at 80 °F, straight lines between
//
//	−20 °F 25 %,  0 °F 40 %,  32 °F 65 %,  80 °F 100 %
//
// Range: −20 to 140 °F, 1 above 80 °F.
//
// Errors: units.ErrMissing and units.ErrRange, path "temperature".
//
// Source: common practice, see the package's table.
func CapacityShare(at units.Temperature) (units.Ratio, error) {
	gives, _, err := coldAt(at)
	return units.Ratio(gives), err
}

// CrankingDemand returns the current that an engine asks to be cranked at a
// temperature, over that at 80 °F, straight lines between
//
//	−20 °F 350 %,  0 °F 210 %,  32 °F 155 %,  80 °F 100 %
//
// Range and errors as of [CapacityShare].
//
// Source: common practice, see the package's table.
func CrankingDemand(at units.Temperature) (units.Ratio, error) {
	_, asks, err := coldAt(at)
	return units.Ratio(asks), err
}

func coldAt(at units.Temperature) (gives, asks float64, err error) {
	var p problems
	if !at.Given() {
		p.missing("temperature", "-20 to 140 °F")
	} else {
		// A temperature typed in °F comes back with the last bits changed.
		const rounding = 1e-9
		p.within("temperature", at.Fahrenheit(), -20-rounding, 140+rounding, inFahrenheit)
	}
	if err := p.err(); err != nil {
		return 0, 0, err
	}
	f := max(at.Fahrenheit(), cold[0].fahrenheit)
	for i := 1; i < len(cold); i++ {
		a, b := cold[i-1], cold[i]
		if f <= b.fahrenheit {
			x := (f - a.fahrenheit) / (b.fahrenheit - a.fahrenheit)
			return a.gives + (b.gives-a.gives)*x, a.asks + (b.asks-a.asks)*x, nil
		}
	}
	return 1, 1, nil
}

// A CrankingReserve is a battery against the engine it has to crank.
type CrankingReserve struct {
	Available units.Current
	Needed    units.Current
	Reserve   units.Ratio // (Available − Needed)/Available
}

// Cranking returns what a battery has left over when it cranks an engine.
//
// coldCranking is its cold-cranking current, which is defined at 0 °F and so is
// not cut again for cold down to there; below it falls as [CapacityShare]. A
// battery that is only charged to a share gives that share of it, a guess on the
// low side. warm is what the starter draws at 80 °F; it rises as [CrankingDemand].
//
// Errors: units.ErrMissing and units.ErrRange, paths "coldCranking", "charge",
// "warm", "temperature".
//
// Source: SAE J537 for the definition of the cold-cranking current (0 °F, 30 s,
// 7.2 V), from memory; the rest is common practice.
func Cranking(coldCranking units.Current, charge units.Ratio, warm units.Current, at units.Temperature) (CrankingReserve, error) {
	var p problems
	p.required("coldCranking", float64(coldCranking), 1, maxCurrent, inAmperes)
	p.share("charge", charge)
	p.required("warm", float64(warm), minCurrent, maxCurrent, inAmperes)
	gives, asks, err := coldAt(at)
	if err != nil {
		p.list = append(p.list, err)
	}
	if err := p.err(); err != nil {
		return CrankingReserve{}, err
	}
	zero := cold[1].gives // at 0 °F
	r := CrankingReserve{
		Available: units.Current(float64(coldCranking) * float64(charge) * min(gives/zero, 1)),
		Needed:    units.Current(float64(warm) * asks),
	}
	r.Reserve = units.Ratio((r.Available - r.Needed) / r.Available)
	return r, nil
}

// An OutputPoint is a point of a charging curve.
type OutputPoint struct {
	Speed  units.RotationalSpeed
	Output units.Current
}

// ChargingOutput returns the current of a charging coil or alternator at a speed,
// by straight lines between points in order of rising speed.
//
// Outside the points is an error: nothing is guessed.
//
// Errors: units.ErrMissing for fewer than two points, units.ErrConflict for
// points out of order and units.ErrRange, paths "points[#1].speed" and "speed".
func ChargingOutput(points []OutputPoint, speed units.RotationalSpeed) (units.Current, error) {
	var p problems
	if len(points) < 2 {
		p.missing("points", "at least two points")
	}
	for i, q := range points {
		path := element("points", "", i)
		p.within(path+".speed", float64(q.Speed), 0, maxSpeed, inRadiansPerSecond)
		p.within(path+".output", float64(q.Output), 0, maxCurrent, inAmperes)
		if i > 0 && !(q.Speed > points[i-1].Speed) {
			p.conflict(path+".speed", q.Speed, "more than the point before, "+points[i-1].Speed.String())
		}
	}
	if len(p.list) == 0 {
		p.within("speed", float64(speed), float64(points[0].Speed), float64(points[len(points)-1].Speed), inRadiansPerSecond)
	}
	if err := p.err(); err != nil {
		return 0, err
	}
	for i := 1; ; i++ {
		if a, b := points[i-1], points[i]; speed <= b.Speed {
			x := float64((speed - a.Speed) / (b.Speed - a.Speed))
			return units.Current(float64(a.Output)*(1-x) + float64(b.Output)*x), nil
		}
	}
}

// A DirectLoad is a consumer of the 12 V side.
type DirectLoad struct {
	Name    string
	Current units.Current // while it is on
	Duty    units.Ratio   // share of the time that it is on
}

// A DirectBudget is the 12 V side over an hour of running.
type DirectBudget struct {
	Charging units.Current
	Average  units.Current // Σ current · duty
	Peak     units.Current // everything on at once
	Net      units.Current // Charging − Average; negative empties the battery
	PeakNet  units.Current // Charging − Peak
}

// BudgetDirect weighs the loads of the 12 V side against what is charged at
// running speed.
//
// Errors: units.ErrMissing, units.ErrRange and units.ErrConflict, paths
// "charging" and "loads[clutch].duty".
func BudgetDirect(charging units.Current, loads []DirectLoad) (DirectBudget, error) {
	var p problems
	p.within("charging", float64(charging), 0, maxCurrent, inAmperes)
	b := DirectBudget{Charging: charging}
	for i := range loads {
		l := &loads[i]
		first := 0
		for loads[first].Name != l.Name {
			first++
		}
		// Paths are spelt where something is wrong.
		if !(l.Name != "" && first == i && l.Current >= minCurrent && l.Current <= maxCurrent && l.Duty >= 0 && l.Duty <= 1) {
			path := element("loads", l.Name, i)
			if l.Name == "" {
				p.missing(path+".name", "a name that tells this load from the others")
			} else if first < i {
				p.conflict(path+".name", l.Name, "a name of its own for each load")
			}
			p.required(path+".current", float64(l.Current), minCurrent, maxCurrent, inAmperes)
			p.within(path+".duty", float64(l.Duty), 0, 1, ratio("(100 %)"))
		}
		b.Average += l.Current * units.Current(l.Duty)
		b.Peak += l.Current
	}
	if err := p.err(); err != nil {
		return DirectBudget{}, err
	}
	b.Net = charging - b.Average
	b.PeakNet = charging - b.Peak
	return b, nil
}

// SustainedDuty returns the share of the time that a short-time load such as a
// reel motor may be on for ever, with what the rest of the 12 V side leaves of
// the charging current:
//
//	d = η·N / (I − N + η·N)      I > N > 0
//
// N is what is left, I the load, η the charge that comes back out of the battery
// over the charge that went in: while the load is on the battery gives I − N,
// the rest of the time it takes N. One for I ≤ N, zero for N ≤ 0.
//
// Errors: units.ErrMissing and units.ErrRange, paths "left", "load",
// "chargeEfficiency".
//
// Source: balance of charge.
func SustainedDuty(left, load units.Current, chargeEfficiency units.Ratio) (units.Ratio, error) {
	var p problems
	p.within("left", float64(left), -maxCurrent, maxCurrent, inAmperes)
	p.required("load", float64(load), minCurrent, maxCurrent, inAmperes)
	p.share("chargeEfficiency", chargeEfficiency)
	if err := p.err(); err != nil {
		return 0, err
	}
	n, i, eta := float64(left), float64(load), float64(chargeEfficiency)
	switch {
	case n <= 0:
		return 0, nil
	case i <= n:
		return 1, nil
	}
	return units.Ratio(eta * n / (i - n + eta*n)), nil
}

// StandingTime returns how long a battery feeds a standby current with no engine
// running:
//
//	t = C · u / I
//
// C is the capacity at the temperature (see [CapacityShare]), u the share of it
// that may be used. So slow a discharge is not corrected for its rate.
//
// Errors: units.ErrMissing and units.ErrRange, paths "capacity", "usable",
// "standby"; more than a hundred years is out of range.
//
// Source: definition of the capacity.
func StandingTime(capacity units.Charge, usable units.Ratio, standby units.Current) (units.Duration, error) {
	var p problems
	p.required("capacity", float64(capacity), minCharge, maxCharge, inCoulombs)
	p.share("usable", usable)
	p.required("standby", float64(standby), minCurrent, maxCurrent, inAmperes)
	if err := p.err(); err != nil {
		return 0, err
	}
	t := float64(capacity) * float64(usable) / float64(standby)
	if t > maxDuration {
		p.rangef("standby", standby, "enough to empty the battery in a hundred years")
		return 0, p.err()
	}
	return units.Duration(t), nil
}

// InverterInput returns what a battery inverter draws from its battery:
//
//	I = (P/η + P₀) / V
//
// P is its output, η its efficiency without the idle draw P₀, V the battery's
// voltage under that load.
//
// Errors: units.ErrMissing and units.ErrRange, paths "output", "efficiency",
// "idle", "voltage".
//
// Source: definition of efficiency.
func InverterInput(output units.Power, efficiency units.Ratio, idle units.Power, voltage units.Voltage) (units.Current, error) {
	var p problems
	p.within("output", float64(output), 0, maxPower, inWatts)
	p.share("efficiency", efficiency)
	p.within("idle", float64(idle), 0, maxPower, inWatts)
	p.required("voltage", float64(voltage), minVoltage, maxVoltage, inVolts)
	if err := p.err(); err != nil {
		return 0, err
	}
	return units.Current((float64(output)/float64(efficiency) + float64(idle)) / float64(voltage)), nil
}
