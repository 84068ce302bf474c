package fuel

import (
	"errors"

	"example.com/washrig/units"
)

// An Engine is what its data sheet and its rating plate say about power.
type Engine struct {
	Gross      units.Power   // at the maker's reference air, without accessories; required unless Net is given
	Net        units.Power   // with its fan, filter and muffler on; not given: Gross stands for it
	Continuous units.Ratio   // share of the rating it may give hour after hour, above 0, up to 1; required
	Plate      PlateDerating // altitude and heat; the zero value takes nothing off

	// How the site is judged. The zero Correction is the plate's; the others need
	// the Ignition.
	Correction   Correction
	Ignition     Ignition
	Aspiration   Aspiration
	EngineFactor units.Ratio       // of a diesel, for SAE J1349; not given: 0.3
	Mechanical   units.Ratio       // mechanical efficiency at the rating, for ISO 3046-1; not given: 0.80
	Coolant      units.Temperature // into the charge cooler, for ISO 3046-1; not given: the air's

	// For [Engine.Settle] alone.
	Curve    *PowerCurve // full throttle, on the basis of Gross, at reference air
	Governor Governor
}

// j1349 and iso3046 are the standards for this engine.
func (e Engine) j1349() J1349 {
	return J1349{Ignition: e.Ignition, Aspiration: e.Aspiration, Fuel: e.EngineFactor}
}

func (e Engine) iso3046() ISO3046 {
	return ISO3046{Ignition: e.Ignition, Aspiration: e.Aspiration, Mechanical: e.Mechanical, Coolant: e.Coolant}
}

// Validate returns every problem of e, joined in field order. Curve and Governor
// are looked at by [Engine.Settle].
func (e Engine) Validate() error {
	var gross, net, correction error
	switch {
	case e.Gross == 0 && e.Net == 0:
		gross = missing("gross", "more than 0 hp")
	case e.Gross != 0:
		gross = checkPower("gross", e.Gross)
	}
	if e.Net != 0 {
		net = checkPower("net", e.Net)
		if net == nil && e.Gross != 0 && e.Net > e.Gross {
			net = &units.FieldError{
				Path:  "net",
				Value: e.Net.Text(units.Horsepower, 2),
				Want:  "at most the gross power, " + e.Gross.Text(units.Horsepower, 2),
				Err:   units.ErrConflict,
			}
		}
	}
	switch e.Correction {
	case ByPlate:
	case ByJ1349:
		correction = e.j1349().Validate()
	case ByISO3046:
		correction = e.iso3046().Validate()
	default:
		correction = outside("correction", number(float64(e.Correction)), "plate, SAE J1349 or ISO 3046-1")
	}
	return errors.Join(gross, net,
		checkPositiveShare("continuous", e.Continuous),
		units.At("plate", e.Plate.Validate()),
		correction)
}

// rating is the power of the sheet and its share of gross.
func (e Engine) rating() (p units.Power, ofGross float64) {
	if e.Net == 0 {
		return e.Gross, 1
	}
	if e.Gross == 0 {
		return e.Net, 1
	}
	return e.Net, float64(e.Net / e.Gross)
}

// A SitePower says how a rating becomes the power an engine has at a site.
type SitePower struct {
	Rating     units.Power // what the sheet says: net if given, else gross
	Continuous units.Power // the rating times the continuous share, at reference air
	Correction Correction  // what judged the site
	Factor     units.Ratio // what the site leaves, at most 1
	Power      units.Power // what may be asked of the shaft at the site, hour after hour
}

// Available returns what may be asked of the engine at the site, hour after
// hour:
//
//	P = P_rating · continuous · min(f, 1)
//
// P_rating is Net if it is given, else Gross, and f is the factor of e's
// Correction. A sheet that gives only gross power flatters the engine by its
// fan, filter and muffler. Air denser than the reference is not counted: a
// rating promises no more than itself.
//
// Errors: a *[units.FieldError] for a field of e ("engine.…") or of s ("site.…").
func (e Engine) Available(s Site) (SitePower, error) {
	f, err := e.siteFactor(s)
	if err != nil {
		return SitePower{}, err
	}
	a := SitePower{Correction: e.Correction, Factor: min(f, 1)}
	a.Rating, _ = e.rating()
	a.Continuous = a.Rating * units.Power(e.Continuous)
	a.Power = a.Continuous * units.Power(a.Factor)
	return a, nil
}

// siteFactor is the factor of e's correction, after both have been checked.
func (e Engine) siteFactor(s Site) (units.Ratio, error) {
	if err := errors.Join(units.At("engine", e.Validate()), units.At("site", s.Validate())); err != nil {
		return 0, err
	}
	switch e.Correction {
	case ByJ1349:
		dry, err := s.DryPressure()
		if err != nil {
			return 0, err
		}
		return e.j1349().Factor(dry, s.Air)
	case ByISO3046:
		return e.iso3046().Factor(s)
	}
	return e.Plate.Factor(s.Elevation, s.Air)
}

// SiteFactors are what the corrections make of one engine at one site, side by
// side. None is capped at 1.
type SiteFactors struct {
	Plate   units.Ratio // the engine's own plate
	J1349   units.Ratio // SAE J1349; 0 where it has no formula, for boosted spark engines
	ISO3046 units.Ratio // ISO 3046-1
	Thumb   units.Ratio // rule of thumb: 3.5 % per 1,000 ft, 1 % per 10 °F above 77 °F
}

// Corrections returns every correction for the engine at the site, whichever of
// them Available uses. The Ignition is required.
//
// The rule of thumb is of naturally aspirated engines; a turbocharged one keeps
// more of its power in thin air and less in hot.
//
// Errors: a *[units.FieldError] for a field of e ("engine.…") or of s ("site.…").
func (e Engine) Corrections(s Site) (SiteFactors, error) {
	err := units.At("engine", errors.Join(e.Validate(), checkIgnition(e.Ignition)))
	if err = errors.Join(err, units.At("site", s.Validate())); err != nil {
		return SiteFactors{}, err
	}
	var out SiteFactors
	if out.Plate, err = e.Plate.Factor(s.Elevation, s.Air); err != nil {
		return SiteFactors{}, err
	}
	thumb := PlateDerating{PerThousandFeet: 0.035, PerTenFahrenheitAbove: 0.01}
	if out.Thumb, err = thumb.Factor(s.Elevation, s.Air); err != nil {
		return SiteFactors{}, err
	}
	if e.Ignition != Spark || e.Aspiration == NaturallyAspirated {
		dry, err := s.DryPressure()
		if err != nil {
			return SiteFactors{}, err
		}
		if out.J1349, err = e.j1349().Factor(dry, s.Air); err != nil {
			return SiteFactors{}, units.At("engine", err)
		}
	}
	if out.ISO3046, err = e.iso3046().Factor(s); err != nil {
		return SiteFactors{}, units.At("engine", err)
	}
	return out, nil
}
