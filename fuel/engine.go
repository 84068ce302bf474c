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
}

// Validate returns every problem of e, joined in field order.
func (e Engine) Validate() error {
	var errs []error
	switch {
	case e.Gross == 0 && e.Net == 0:
		errs = append(errs, missing("gross", "more than 0 hp"))
	case e.Gross != 0:
		errs = append(errs, checkPower("gross", e.Gross))
	}
	if e.Net != 0 {
		errs = append(errs, checkPower("net", e.Net))
		if e.Gross != 0 && e.Net > e.Gross {
			errs = append(errs, &units.FieldError{
				Path:  "net",
				Value: e.Net.Text(units.Horsepower, 2),
				Want:  "at most the gross power, " + e.Gross.Text(units.Horsepower, 2),
				Err:   units.ErrConflict,
			})
		}
	}
	errs = append(errs,
		checkPositiveShare("continuous", e.Continuous),
		units.At("plate", e.Plate.Validate()))
	return errors.Join(errs...)
}

// A SitePower says how a rating becomes the power an engine has at a site.
type SitePower struct {
	Rating     units.Power // what the sheet says: net if given, else gross
	Continuous units.Power // the rating times the continuous share, at reference air
	Factor     units.Ratio // what the site leaves of it
	Power      units.Power // what may be asked of the shaft at the site, hour after hour
}

// Available returns what may be asked of the engine at the site, hour after
// hour:
//
//	P = P_rating · continuous · f
//
// P_rating is Net if it is given, else Gross, and f is [PlateDerating.Factor].
// A sheet that gives only gross power flatters the engine by its fan, filter
// and muffler.
//
// Errors: a *[units.FieldError] for a field of e ("engine.…") or of s ("site.…").
func (e Engine) Available(s Site) (SitePower, error) {
	if err := errors.Join(units.At("engine", e.Validate()), units.At("site", s.Validate())); err != nil {
		return SitePower{}, err
	}
	f, err := e.Plate.Factor(s.Elevation, s.Air)
	if err != nil {
		return SitePower{}, err
	}
	a := SitePower{Rating: e.Gross, Factor: f}
	if e.Net != 0 {
		a.Rating = e.Net
	}
	a.Continuous = a.Rating * units.Power(e.Continuous)
	a.Power = a.Continuous * units.Power(f)
	return a, nil
}
