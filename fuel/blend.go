package fuel

import (
	"errors"
	"math"

	"example.com/washrig/units"
)

// Blend returns what a share x by volume of fuel q in fuel p makes: No. 1 diesel
// or kerosene in No. 2 for the winter, biodiesel blends topped up with diesel.
//
//	ρ, h, CO2   (1 − x)·p + x·q          volumes add
//	ν           p^(1 − x)·q^x            at 40 °C
//	cloud, gel  ((1 − x)·Tp^n + x·Tq^n)^(1/n), T in °R, n = 20 for cloud, 12.5 for gel
//
// The waxier part rules the cloud point, so that half of each lies nearer to it.
// The blend keeps the Kind of its larger part; at half of each, that of p.
//
// Errors: a *[units.FieldError] for a share outside 0 to 1, for a field of p or q
// ("p.…"), or ErrConflict for fuels that are not both diesels, kerosene or
// biodiesel blends: gasoline in diesel is a mistake, not a blend.
//
// Source: J. Hu and A. M. Burns, "New method predicts cloud, pour, flash points
// of distillate blends", Hydrocarbon Processing, November 1970, for the indices
// 1/0.05 and 1/0.08; from memory. The trade's rule is 3 °F less cloud point for
// each tenth of No. 1.
func Blend(p, q Properties, x units.Ratio) (Properties, error) {
	err := checkShare("x", x)
	for _, part := range []struct {
		path string
		p    Properties
	}{{"p", p}, {"q", q}} {
		switch part.p.Kind {
		case Diesel1, Diesel2, Kerosene, BiodieselB5, BiodieselB20:
		default:
			err = errors.Join(err, &units.FieldError{
				Path:  part.path,
				Value: part.p.Kind.String(),
				Want:  "a diesel, kerosene or a biodiesel blend",
				Err:   units.ErrConflict,
			})
			continue
		}
		err = errors.Join(err, units.At(part.path, part.p.Validate()))
	}
	switch {
	case err != nil:
		return Properties{}, err
	case x == 0:
		return p, nil
	case x == 1:
		return q, nil
	}
	b := blend(p, q, float64(x))
	if x > 0.5 {
		b.Kind = q.Kind
	}
	return b, nil
}

// blend mixes x of q by volume into p and keeps the Kind of p.
func blend(p, q Properties, x float64) Properties {
	mix := func(a, b float64) float64 { return (1-x)*a + x*b }
	b := p
	b.Density = units.Density(mix(float64(p.Density), float64(q.Density)))
	b.Higher = HigherHeatingValue(mix(float64(p.Higher), float64(q.Higher)))
	b.Lower = LowerHeatingValue(mix(float64(p.Lower), float64(q.Lower)))
	b.CarbonDioxide = EmissionFactor{
		Fossil:   units.Density(mix(float64(p.CarbonDioxide.Fossil), float64(q.CarbonDioxide.Fossil))),
		Biogenic: units.Density(mix(float64(p.CarbonDioxide.Biogenic), float64(q.CarbonDioxide.Biogenic))),
	}
	b.Cold.Cloud = blendCold(p.Cold.Cloud, q.Cold.Cloud, x, 20)
	b.Cold.Gel = blendCold(p.Cold.Gel, q.Cold.Gel, x, 12.5)
	b.Viscosity, b.ViscositySlope = 0, 0
	if p.Viscosity != 0 && q.Viscosity != 0 {
		b.Viscosity = units.KinematicViscosity(math.Exp(mix(math.Log(float64(p.Viscosity)), math.Log(float64(q.Viscosity)))))
		b.ViscositySlope = mix(p.ViscositySlope, q.ViscositySlope)
	}
	return b
}

// blendCold mixes two cold limits by the index T^n; not given if either is not.
func blendCold(a, b units.Temperature, x, n float64) units.Temperature {
	if !a.Given() || !b.Given() {
		return units.Temperature{}
	}
	ratio := math.Pow(b.Kelvin()/a.Kelvin(), n)
	return units.Kelvin(a.Kelvin() * math.Pow((1-x)+x*ratio, 1/n))
}
