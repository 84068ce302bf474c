package electrical

import (
	"fmt"
	"math"

	"example.com/washrig/units"
)

// A Material is what a conductor is made of. The zero Material is copper
// without a coating, the usual one.
type Material int

// Conductor materials.
const (
	Copper       Material = iota
	CoatedCopper          // tinned
	Aluminum
)

// String returns the material in words.
func (m Material) String() string {
	switch m {
	case Copper:
		return "copper"
	case CoatedCopper:
		return "coated copper"
	case Aluminum:
		return "aluminum"
	}
	return fmt.Sprintf("Material(%d)", int(m))
}

// A Conductor is one wire of a cord or cable. The zero Solid means stranded,
// as every cord is.
type Conductor struct {
	Gauge    Gauge
	Material Material
	Solid    bool
}

// Direct-current resistance at 75 °C.
//
// Source: NFPA 70 (NEC) Chapter 9 Table 8, ohms per 1,000 ft, public
// reproduction. Some copies print the solid values 3.07, 1.93 and 1.21 of 14,
// 12 and 10 AWG in the stranded rows; stranded are 3.14, 1.98 and 1.24.
// A solid size that the table does not have is missing.
var table8 = [...]struct {
	gauge                    Gauge
	solid                    bool
	copper, coated, aluminum float64
}{
	{18, true, 7.77, 8.08, 12.8},
	{18, false, 7.95, 8.45, 13.1},
	{16, true, 4.89, 5.08, 8.05},
	{16, false, 4.99, 5.29, 8.21},
	{14, true, 3.07, 3.19, 5.06},
	{14, false, 3.14, 3.26, 5.17},
	{12, true, 1.93, 2.01, 3.18},
	{12, false, 1.98, 2.05, 3.25},
	{10, true, 1.21, 1.26, 2.0},
	{10, false, 1.24, 1.29, 2.04},
	{8, true, 0.764, 0.786, 1.26},
	{8, false, 0.778, 0.809, 1.28},
	{6, false, 0.491, 0.51, 0.808},
	{4, false, 0.308, 0.321, 0.508},
	{3, false, 0.245, 0.254, 0.403},
	{2, false, 0.194, 0.201, 0.319},
	{1, false, 0.154, 0.16, 0.253},
	{Gauge1_0, false, 0.122, 0.127, 0.201},
	{Gauge2_0, false, 0.0967, 0.101, 0.159},
	{Gauge3_0, false, 0.0766, 0.0797, 0.126},
	{Gauge4_0, false, 0.0608, 0.0626, 0.1},
}

// Temperature coefficients at 75 °C, per kelvin, of NEC Chapter 9 Table 8, note 2.
const (
	alphaCopper   = 0.00323
	alphaAluminum = 0.00330 // from memory
)

// Resistance returns the direct-current resistance of a conductor at its own
// temperature, for one way:
//
//	R = R75 · [1 + α · (t − 75 °C)]
//
// α is 0.00323/K for copper and 0.00330/K for aluminum. At 60 Hz the sizes that
// a trailer carries are within 2 % of it.
//
// Range: the sizes of the table, 18 AWG to 4/0, of solid wire to 8 AWG; −40 to
// 150 °C. Outside it is an error.
//
// Errors: units.ErrMissing and units.ErrRange, paths "gauge", "material",
// "temperature".
//
// Source: NFPA 70 (NEC) Chapter 9 Table 8 and its note 2.
func (c Conductor) Resistance(at units.Temperature) (units.ResistancePerLength, error) {
	var p problems
	r := c.resistance(&p, "gauge", "material", "temperature", at)
	return units.ResistancePerLength(r), p.err()
}

func (c Conductor) resistance(p *problems, gauge, material, temperature string, at units.Temperature) float64 {
	before := len(p.list)
	p.gauge(gauge, c.Gauge)
	if c.Material < Copper || c.Material > Aluminum {
		p.rangef(material, c.Material, "copper, coated copper or aluminum")
	}
	if !at.Given() {
		p.missing(temperature, "the temperature of the conductor")
	} else {
		p.within(temperature, at.Celsius(), -40, 150, inCelsius)
	}
	if len(p.list) > before {
		return 0
	}
	for i := range table8 {
		row := &table8[i]
		if row.gauge == c.Gauge && row.solid == c.Solid {
			r75, alpha := row.copper, alphaCopper
			switch c.Material {
			case CoatedCopper:
				r75 = row.coated
			case Aluminum:
				r75, alpha = row.aluminum, alphaAluminum
			}
			return r75 * float64(units.OhmPerKilofoot) * (1 + alpha*(at.Celsius()-75))
		}
	}
	want := "a size of NEC Chapter 9 Table 8, 18 AWG to 4/0 AWG"
	if c.Solid {
		want = "a solid size of NEC Chapter 9 Table 8, 18 AWG to 8 AWG"
	}
	p.rangef(gauge, c.Gauge, want)
	return 0
}

// AnnealedCopperResistance returns the resistance of a solid round wire of
// annealed copper of 100 % conductivity:
//
//	R = 10.371 Ω·cmil/ft / A · [1 + 0.00393/K · (t − 20 °C)]
//
// A is d² with d in mils, by [Gauge.Diameter]. Range: 4/0 to 36 AWG, −40 to
// 150 °C. Table 8 is within 1 % of it for solid and 2 % above for stranded wire,
// whose strands are longer than the wire (TestResistance_annealedCopper).
//
// Errors: as of [Conductor.Resistance].
//
// Source: International Annealed Copper Standard, IEC 60028 (1913 values in
// US units); ASTM B258 for the diameter.
func AnnealedCopperResistance(g Gauge, at units.Temperature) (units.ResistancePerLength, error) {
	var p problems
	p.gauge("gauge", g)
	if !at.Given() {
		p.missing("temperature", "the temperature of the conductor")
	} else {
		p.within("temperature", at.Celsius(), -40, 150, inCelsius)
	}
	if err := p.err(); err != nil {
		return 0, err
	}
	mils := gaugeDiameter(g.number()) / (0.0254 / 1000)
	perFoot := 10.371 / (mils * mils) * (1 + 0.00393*(at.Celsius()-20))
	return units.ResistancePerLength(perFoot * 1000 * float64(units.OhmPerKilofoot)), nil
}

// A Conduit is what wires run in, where that changes their reactance.
type Conduit int

// Conduits of NEC Chapter 9 Table 9. The zero Conduit is plastic.
const (
	PlasticConduit Conduit = iota
	AluminumConduit
	SteelConduit
)

// String returns the conduit in words.
func (c Conduit) String() string {
	switch c {
	case PlasticConduit:
		return "plastic"
	case AluminumConduit:
		return "aluminum"
	case SteelConduit:
		return "steel"
	}
	return fmt.Sprintf("Conduit(%d)", int(c))
}

// Alternating-current resistance and reactance to neutral of three single
// copper conductors in conduit, 600 V, 60 Hz, 75 °C, ohms per 1,000 ft.
//
// Source: NFPA 70 (NEC) Chapter 9 Table 9, two public reproductions.
var table9 = [...]struct {
	gauge                       Gauge
	xPlasticAluminum, xSteel    float64
	rPlastic, rAluminum, rSteel float64
}{
	{14, 0.058, 0.073, 3.1, 3.1, 3.1},
	{12, 0.054, 0.068, 2.0, 2.0, 2.0},
	{10, 0.05, 0.063, 1.2, 1.2, 1.2},
	{8, 0.052, 0.065, 0.78, 0.78, 0.78},
	{6, 0.051, 0.064, 0.49, 0.49, 0.49},
	{4, 0.048, 0.06, 0.31, 0.31, 0.31},
	{3, 0.047, 0.059, 0.25, 0.25, 0.25},
	{2, 0.045, 0.057, 0.19, 0.2, 0.2},
	{1, 0.046, 0.057, 0.15, 0.16, 0.16},
	{Gauge1_0, 0.044, 0.055, 0.12, 0.12, 0.12},
	{Gauge2_0, 0.043, 0.054, 0.1, 0.1, 0.1},
	{Gauge3_0, 0.042, 0.052, 0.077, 0.082, 0.079},
	{Gauge4_0, 0.041, 0.051, 0.062, 0.067, 0.063},
}

// ConduitImpedance returns resistance and reactance to neutral, for one way, of
// copper wires in conduit at 75 °C and 60 Hz. In a cord the reactance is less:
// the wires lie closer.
//
// Range: 14 AWG to 4/0. Outside it is an error.
//
// Errors: units.ErrMissing and units.ErrRange, paths "gauge" and "conduit".
//
// Source: NFPA 70 (NEC) Chapter 9 Table 9.
func ConduitImpedance(g Gauge, c Conduit) (resistance, reactance units.ResistancePerLength, err error) {
	var p problems
	p.gauge("gauge", g)
	if c < PlasticConduit || c > SteelConduit {
		p.rangef("conduit", c, "plastic, aluminum or steel")
	}
	if err := p.err(); err != nil {
		return 0, 0, err
	}
	for _, row := range table9 {
		if row.gauge == g {
			r, x := row.rPlastic, row.xPlasticAluminum
			switch c {
			case AluminumConduit:
				r = row.rAluminum
			case SteelConduit:
				r, x = row.rSteel, row.xSteel
			}
			const u = units.OhmPerKilofoot
			return units.ResistancePerLength(r) * u, units.ResistancePerLength(x) * u, nil
		}
	}
	p.rangef("gauge", g, "a size of NEC Chapter 9 Table 9, 14 AWG to 4/0 AWG")
	return 0, 0, p.err()
}

// EffectiveImpedance returns the impedance that multiplied by the current gives
// nearly the voltage drop at a power factor:
//
//	Z = R · cos φ + X · sin φ
//
// Range: powerFactor from 0.001 to 1, lagging. [Circuit.Drop] needs no such
// approximation.
//
// Errors: units.ErrRange and units.ErrMissing, paths "resistance", "reactance",
// "powerFactor".
//
// Source: NFPA 70 (NEC) Chapter 9 Table 9, note 2.
func EffectiveImpedance(resistance, reactance units.ResistancePerLength, powerFactor units.Ratio) (units.ResistancePerLength, error) {
	var p problems
	p.within("resistance", float64(resistance), 0, maxPerLength, inOhmsPerMeter)
	p.within("reactance", float64(reactance), 0, maxPerLength, inOhmsPerMeter)
	p.share("powerFactor", powerFactor)
	if err := p.err(); err != nil {
		return 0, err
	}
	cos := float64(powerFactor)
	return units.ResistancePerLength(float64(resistance)*cos + float64(reactance)*math.Sqrt(1-cos*cos)), nil
}

const maxPerLength = 1e3 // Ω/m
