// Package glycol gives the freezing point and the density of solutions of
// propylene and of ethylene glycol in water.
//
//	w, err := glycol.ForFreezingPoint(glycol.Propylene, 255.37) // 0.368 by mass for 0 °F
//	T, err := glycol.FreezingPoint(glycol.Propylene, 0.5)       // 240.96 K, −25.9 °F
//
// Strength is a fraction of mass; antifreeze is mixed by volume, and
// [MassFraction] converts. The freezing point is where the first ice forms. A
// glycol mixture then turns to slush and bursts a pipe only well below, so that
// tables of "burst protection" show lower temperatures. Inhibited antifreeze
// contains some per cent of other matter; its maker's table goes before this one.
//
// Source: Å. Melinder, Properties of Secondary Working Fluids for Indirect
// Systems, 2nd ed., International Institute of Refrigeration 2010: polynomials
// fitted to measurements, coefficients as carried by the open-source libraries
// modelica-ibpsa and SecondaryCoolantProps, which agree. Pure glycols in the
// volume conversion: ASHRAE Handbook — Fundamentals (2017), chapter 31.
//
// Outside its range a function returns a [*units.FieldError] that names the
// quantity, the value and the range, and zero; NaN is outside every range.
package glycol
