package thermal

import (
	"math"

	"example.com/washrig/internal/root"
	"example.com/washrig/internal/water"
	"example.com/washrig/units"
)

// A Fuel is described by its elements and its heat.
type Fuel struct {
	// Mass fractions of the fuel as fired; together at most 1, the rest is ash
	// or not analysed. Sulphur counts with the carbon dioxide.
	Carbon, Hydrogen, Sulphur, Oxygen, Nitrogen, Water units.Ratio
	// Higher heating value by mass. By volume use [HHV.PerMass].
	Higher HHVByMass
}

// LightHeatingOil returns a typical No. 2 heating oil or diesel: 86.5 % carbon,
// 13.2 % hydrogen by mass, 45.4 MJ/kg.
//
// Source: elements common practice; heating value is the least that DIN 51603-1
// admits for light heating oil (from memory). A certificate goes before it.
func LightHeatingOil() Fuel {
	return Fuel{Carbon: 0.865, Hydrogen: 0.132, Higher: HHVByMass(45.4 * units.MegajoulePerKilogram)}
}

// Methane returns CH4, of which natural gas mostly consists: 890.57 kJ/mol.
//
// Source: heats of formation CH4 −74.60, CO2 −393.51, H2O liquid −285.83 kJ/mol
// (NIST, CODATA).
func Methane() Fuel { return hydrocarbon(1, 4, 890.57e3) }

// Propane returns C3H8, of which liquefied petroleum gas mostly consists, burned
// from gas: 2219.17 kJ/mol.
//
// Source: heats of formation C3H8 gas −104.68, CO2 −393.51, H2O liquid −285.83
// kJ/mol (NIST, CODATA).
func Propane() Fuel { return hydrocarbon(3, 8, 2219.17e3) }

// hydrocarbon is the fuel CcHh with a higher heating value in J/mol.
func hydrocarbon(c, h, heat float64) Fuel {
	mC, mH := c*molarC, h*molarH2/2
	m := mC + mH
	return Fuel{Carbon: units.Ratio(mC / m), Hydrogen: units.Ratio(mH / m), Higher: HHVByMass(heat / m)}
}

// Validate reports every field that cannot be used. Carbon must be given; a fuel
// without it shows no carbon dioxide to measure.
func (f Fuel) Validate() error {
	err := all(
		inside("carbon", f.Carbon, 0.05, 1), share("hydrogen", f.Hydrogen), share("sulphur", f.Sulphur),
		share("oxygen", f.Oxygen), share("nitrogen", f.Nitrogen), share("water", f.Water),
		inside("higher", f.Higher, HHVByMass(leastValueByMass), HHVByMass(mostValueByMass)),
	)
	if err != nil {
		return err
	}
	if sum := f.Carbon + f.Hydrogen + f.Sulphur + f.Oxygen + f.Nitrogen + f.Water; sum > 1+1e-9 {
		return refuse("carbon", sum.String()+" with the other elements", "at most 100 %", units.ErrConflict)
	}
	m := f.moles()
	if m.oxygen <= 0 {
		return refuse("oxygen", f.Oxygen.String(), "less than carbon and hydrogen burn", units.ErrConflict)
	}
	if float64(f.Higher) <= m.vapour*vaporisation*1.05 {
		return refuse("higher", f.Higher.String(), "more than the water of the fuel takes to evaporate", units.ErrConflict)
	}
	return nil
}

// A recipe is what a kilogram of fuel brings and needs, in moles.
type recipe struct {
	carbon   float64 // CO2 and SO2 formed
	vapour   float64 // H2O formed or brought
	oxygen   float64 // O2 needed, no excess
	nitrogen float64 // N2 of the fuel
}

func (f Fuel) moles() recipe {
	c, h, s := float64(f.Carbon)/molarC, float64(f.Hydrogen)/molarH2, float64(f.Sulphur)/molarS
	return recipe{
		carbon:   c + s,
		vapour:   h + float64(f.Water)/molarW,
		oxygen:   c + h/2 + s - float64(f.Oxygen)/molarO2,
		nitrogen: float64(f.Nitrogen) / molarN2,
	}
}

// dryStoichiometric is the dry flue gas without excess air, mol/kg.
func (r recipe) dryStoichiometric() float64 {
	return r.carbon + r.nitrogen + r.oxygen*(1-airOxygen)/airOxygen
}

// Lower returns the lower heating value by mass.
//
//	LHV = HHV − ΔHv·(H/M(H2) + W/M(H2O))
//
// ΔHv = 44.004 kJ/mol is the heat of vaporisation of water at 25 °C, H and W the
// mass fractions of hydrogen and water.
//
// Source: definition; CODATA 1989 heats of formation of water.
func (f Fuel) Lower() (LHVByMass, error) {
	if err := f.Validate(); err != nil {
		return 0, err
	}
	return LHVByMass(f.lower()), nil
}

func (f Fuel) lower() float64 { return float64(f.Higher) - f.moles().vapour*vaporisation }

// MostCarbonDioxide returns the share of carbon dioxide in the dry flue gas burned
// without excess air: 15.4 % for heating oil, 11.7 % for methane, 13.7 % for
// propane.
func (f Fuel) MostCarbonDioxide() (units.Ratio, error) {
	if err := f.Validate(); err != nil {
		return 0, err
	}
	m := f.moles()
	return units.Ratio(m.carbon / m.dryStoichiometric()), nil
}

// A FlueReading is what is measured in the stack of a burner.
type FlueReading struct {
	// Shares of the dry flue gas by volume; give exactly one of the two.
	// Oxygen of zero is read as not given.
	Oxygen, CarbonDioxide units.Ratio
	Stack, Air            units.Temperature // flue gas and combustion air
	// Humidity of the air, kilograms of vapour per kilogram of dry air; zero
	// for dry air.
	Humidity units.Ratio
	Site     units.AbsolutePressure // of the air, for the dew point
}

// A Combustion is the balance of a burner.
type Combustion struct {
	ExcessAir                          units.Ratio // air over what is needed, less 1
	AirFuel                            units.Ratio // mass of dry air per mass of fuel
	Oxygen, CarbonDioxide              units.Ratio // of the dry flue gas
	Vapour                             units.Ratio // of the wet flue gas
	DewPoint                           units.Temperature
	Flame                              units.Temperature // adiabatic, without dissociation
	DryGasLoss, VapourLoss, LatentLoss units.Ratio       // shares of the HHV
	Efficiency                         EfficiencyHHV     // 1 − the three losses
	EfficiencyOnLower                  EfficiencyLHV
	LossOnLower                        units.Ratio              // 1 − EfficiencyOnLower, as Siegert's formula gives it
	HeatPerMass                        units.HeatingValueByMass // useful heat per mass of fuel
}

// Burn balances the combustion of a fuel from a reading in the stack.
//
// Per kilogram of fuel, with air as 20.95 % oxygen and the rest nitrogen, complete
// combustion gives
//
//	n(CO2) = C/M(C) + S/M(S),  n(O2 needed) = n(CO2) + H/(2 M(H2)) − O/M(O2)
//	excess e from O2 = e·n / (dry0 + e·n/0.2095) or CO2 = n(CO2)/(dry0 + e·n/0.2095)
//
// n being the oxygen needed and dry0 the dry flue gas without excess. The losses are
// the enthalpy of dry gas and of vapour at the stack temperature less that of the
// air, counted from 25 °C where heating values hold, and the heat of vaporisation
// of the water formed. Soot and carbon monoxide are not in it, nor radiation from
// the casing; the heater's efficiency is lower by them.
//
// All water is counted as vapour: below the dew point the result is a lower bound
// of the efficiency.
//
// Range: oxygen above 0 to 20 %, stack from the air to 1000 K, air −60 °C to 70 °C,
// humidity to 0.1. A carbon dioxide above the most that the fuel can give is
// refused.
//
// Source: element balance and first law; gas enthalpies of GRI-Mech 3.0.
func (f Fuel) Burn(r FlueReading) (Combustion, error) {
	if err := all(units.At("fuel", f.Validate()), r.validate()); err != nil {
		return Combustion{}, err
	}
	m := f.moles()
	dry0 := m.dryStoichiometric()
	var e float64 // excess air
	if r.Oxygen > 0 {
		x := float64(r.Oxygen)
		e = x * dry0 / (m.oxygen * (1 - x/airOxygen))
	} else {
		e = (m.carbon/float64(r.CarbonDioxide) - dry0) * airOxygen / m.oxygen
		if e < -1e-9 {
			return Combustion{}, refuse("carbonDioxide", r.CarbonDioxide.String(),
				"at most "+units.Ratio(m.carbon/dry0).String()+", what this fuel gives without excess air", units.ErrConflict)
		}
		e = math.Max(e, 0)
	}

	air := m.oxygen * (1 + e) / airOxygen // mol of dry air
	dry := dry0 + e*m.oxygen/airOxygen
	airMass := air * (airOxygen*molarO2 + (1-airOxygen)*molarRest)
	moist := float64(r.Humidity) * airMass / molarW
	o2, n2 := e*m.oxygen, m.nitrogen+air*(1-airOxygen)
	steam := m.vapour + moist

	Ts, Ta, hhv := r.Stack.Kelvin(), r.Air.Kelvin(), float64(f.Higher)
	dryLoss := m.carbon*gasCO2.sensible(Ts) + o2*gasO2.sensible(Ts) + n2*gasN2.sensible(Ts) -
		air*(airOxygen*gasO2.sensible(Ta)+(1-airOxygen)*gasN2.sensible(Ta))
	vapourLoss := steam*gasH2O.sensible(Ts) - moist*gasH2O.sensible(Ta)
	latent := m.vapour * vaporisation
	useful := hhv - dryLoss - vapourLoss - latent

	c := Combustion{
		ExcessAir:         units.Ratio(e),
		AirFuel:           units.Ratio(airMass),
		Oxygen:            units.Ratio(o2 / dry),
		CarbonDioxide:     units.Ratio(m.carbon / dry),
		Vapour:            units.Ratio(steam / (dry + steam)),
		DryGasLoss:        units.Ratio(dryLoss / hhv),
		VapourLoss:        units.Ratio(vapourLoss / hhv),
		LatentLoss:        units.Ratio(latent / hhv),
		Efficiency:        EfficiencyHHV(useful / hhv),
		EfficiencyOnLower: EfficiencyLHV(useful / (hhv - latent)),
		HeatPerMass:       units.HeatingValueByMass(useful),
	}
	c.LossOnLower = units.Ratio(1 - float64(c.EfficiencyOnLower))
	var err error
	if c.DewPoint, err = dewPoint(float64(c.Vapour)*float64(r.Site), float64(r.Site)); err != nil {
		return Combustion{}, err
	}
	// The flame holds what the losses would be at its temperature: all of the LHV.
	var products gas
	for _, g := range [...]struct {
		moles float64
		of    *gas
	}{{m.carbon, &gasCO2}, {o2, &gasO2}, {n2, &gasN2}, {steam, &gasH2O}} {
		products.add(g.moles, g.of)
	}
	held := products.absolute(gasReference) + hhv - latent +
		air*(airOxygen*gasO2.sensible(Ta)+(1-airOxygen)*gasN2.sensible(Ta)) + moist*gasH2O.sensible(Ta)
	flame, _, err := root.Safeguarded(func(T float64) (f, slope float64) {
		h, cp := products.heat(T)
		return h - held, cp
	}, Ta, 3500, 2000, 1e-9, 0)
	if err != nil {
		return Combustion{}, refuse("fuel.higher", f.Higher.String(), "a flame below 3500 K", units.ErrRange)
	}
	c.Flame = units.Kelvin(flame)
	return c, nil
}

func (r FlueReading) validate() error {
	var reading error
	switch o, c := r.Oxygen, r.CarbonDioxide; {
	case o != 0 && c != 0:
		reading = refuse("carbonDioxide", c.String(), "either oxygen or carbon dioxide, not both", units.ErrConflict)
	case c != 0:
		reading = inside("carbonDioxide", c, 0.001, 0.3)
	default:
		reading = inside("oxygen", o, 1e-6, 0.2)
	}
	err := all(
		reading,
		between("stack", r.Stack, coldestAir, units.Kelvin(1000)),
		between("air", r.Air, coldestAir, hottestAir),
		inside("humidity", r.Humidity, 0, 0.1),
		sitePressure("site", r.Site),
	)
	if err == nil && r.Stack.Kelvin() < r.Air.Kelvin() {
		err = refuse("stack", r.Stack.String(), "at least the air's "+r.Air.String(), units.ErrConflict)
	}
	return err
}

// WaterDewPoint returns the temperature below which water condenses from the flue
// gas of a fuel burned with dry air.
//
//	y = w/(1/CO2 + w),  w = n(H2O)/n(CO2)
//
// CO2 is the share of carbon dioxide in the dry gas; the dew point is the boiling
// point of water under y times the pressure of the site. A coil whose skin is colder
// drips: taken for a leak, it ends when the coil is warm. It lies near 112 °F for
// oil at 11 % and 130 °F for methane at 9 %, and falls with altitude. The dew point
// of sulphuric acid is far higher and not this one.
//
// Range: carbon dioxide 0.1 % up to the most that the fuel gives.
//
// Source: element balance; IAPWS-IF97.
func (f Fuel) WaterDewPoint(carbonDioxide units.Ratio, site units.AbsolutePressure) (units.Temperature, error) {
	if err := all(units.At("fuel", f.Validate()), inside("carbonDioxide", carbonDioxide, 0.001, 0.3), sitePressure("site", site)); err != nil {
		return units.Temperature{}, err
	}
	m := f.moles()
	if most := m.carbon / m.dryStoichiometric(); float64(carbonDioxide) > most*(1+1e-9) {
		return units.Temperature{}, refuse("carbonDioxide", carbonDioxide.String(), "at most "+units.Ratio(most).String(), units.ErrConflict)
	}
	w := m.vapour / m.carbon
	return dewPoint(w/(1/float64(carbonDioxide)+w)*float64(site), float64(site))
}

// dewPoint is where vapour of the partial pressure p condenses, both in Pa; not
// given where it lies below 0 °C.
func dewPoint(p, site float64) (units.Temperature, error) {
	T, ok := water.BoilingPoint(math.Min(p, site))
	if !ok {
		return units.Temperature{}, nil // drier than air over ice: nothing condenses
	}
	return units.Kelvin(T), nil
}
