package parts

import (
	"reflect"
	"strings"

	"example.com/washrig/internal/fields"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A Kind says what a part is. It is the name of the ratings that belong to it.
type Kind string

// The kinds of part. An Item has no ratings: it has a mass, a place, a price
// and a lead time, like a rack, a box or a coating.
const (
	KindPump       Kind = "pump"
	KindEngine     Kind = "engine"
	KindHeater     Kind = "heater"
	KindHose       Kind = "hose"
	KindNozzle     Kind = "nozzle"
	KindUnloader   Kind = "unloader"
	KindRelief     Kind = "relief"
	KindGenerator  Kind = "generator"
	KindLoad       Kind = "load"
	KindTank       Kind = "tank"
	KindFuelTank   Kind = "fuel_tank"
	KindTrailer    Kind = "trailer"
	KindTowVehicle Kind = "tow_vehicle"
	KindElement    Kind = "element"
	KindItem       Kind = "item"
)

// Phrase returns what the kind is called in a sentence, with its article: "an engine".
func (k Kind) Phrase() string {
	word := strings.ReplaceAll(string(k), "_", " ")
	if word != "" && strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// Kinds returns every kind in the order of the vocabulary.
func Kinds() []Kind {
	return []Kind{KindPump, KindEngine, KindHeater, KindHose, KindNozzle, KindUnloader, KindRelief,
		KindGenerator, KindLoad, KindTank, KindFuelTank, KindTrailer, KindTowVehicle, KindElement, KindItem}
}

// A Part is one line of the dealer's shelf.
type Part struct {
	Number         string         `json:"number" need:"yes" doc:"the dealer's own part number"`
	Kind           string         `json:"kind" need:"yes" choice:"pump|engine|heater|hose|nozzle|unloader|relief|generator|load|tank|fuel_tank|trailer|tow_vehicle|element|item" doc:"what the part is"`
	Description    string         `json:"description" doc:"words for a quote"`
	SupplierNumber string         `json:"supplier_number" doc:"the supplier's number; never on a customer page"`
	Basis          string         `json:"basis" choice:"nameplate|catalogue|measured|assumed" doc:"where the ratings come from; nothing means catalogue"`
	Cost           Money          `json:"cost" doc:"what the dealer pays; never on a customer page"`
	Price          Money          `json:"price" doc:"what the customer pays, if it is not cost and mark-up"`
	PriceDate      Date           `json:"price_date" doc:"day of the cost or price"`
	LeadTime       units.Duration `json:"lead_time" range:"0 day..1500 day" doc:"time from order to delivery"`
	Mass           units.Mass     `json:"mass" range:"0 lb..100000 lb" doc:"mass, dry"`

	Pump       *Pump       `json:"pump" doc:"ratings of a pump"`
	Engine     *Engine     `json:"engine" doc:"ratings of an engine"`
	Heater     *Heater     `json:"heater" doc:"ratings of a heater"`
	Hose       *Hose       `json:"hose" doc:"ratings of a hose"`
	Nozzle     *Nozzle     `json:"nozzle" doc:"ratings of a nozzle"`
	Unloader   *Unloader   `json:"unloader" doc:"ratings of an unloader"`
	Relief     *Relief     `json:"relief" doc:"ratings of a relief valve"`
	Generator  *Generator  `json:"generator" doc:"ratings of a generator"`
	Load       *Load       `json:"load" doc:"ratings of a load"`
	Tank       *Tank       `json:"tank" doc:"ratings of a tank"`
	FuelTank   *FuelTank   `json:"fuel_tank" doc:"ratings of a fuel tank"`
	Trailer    *Trailer    `json:"trailer" doc:"ratings of a trailer"`
	TowVehicle *TowVehicle `json:"tow_vehicle" doc:"ratings of a tow vehicle"`
	Element    *Element    `json:"element" doc:"ratings of a fitting, valve, swivel, filter, gun or lance"`
}

// Ratings returns the part's ratings as a pointer to the component struct of
// its kind, or nil for an item.
func (p *Part) Ratings() any {
	v := reflect.ValueOf(p).Elem()
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Pointer && !f.IsNil() && v.Type().Field(i).Tag.Get("json") == p.Kind {
			return f.Interface()
		}
	}
	return nil
}

// clone returns a copy that shares nothing with p.
func (p *Part) clone() Part {
	c := *p
	v := reflect.ValueOf(&c).Elem()
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Pointer && !f.IsNil() {
			f.Set(fields.Copy(f))
		}
	}
	return c
}

// check refuses a part whose ratings are missing or belong to another kind.
func (p *Part) check() error {
	if p.Number == "" {
		return &units.FieldError{Path: "number", Want: "the dealer's part number", Err: units.ErrMissing}
	}
	if p.Kind == "" {
		return &units.FieldError{Path: "kind", Want: "the kind of part, such as pump", Err: units.ErrMissing}
	}
	v := reflect.ValueOf(p).Elem()
	for i := range v.NumField() {
		f := v.Field(i)
		if f.Kind() != reflect.Pointer {
			continue
		}
		name := v.Type().Field(i).Tag.Get("json")
		switch {
		case f.IsNil() && name == p.Kind:
			return &units.FieldError{Path: name, Want: "the ratings of " + Kind(p.Kind).Phrase(), Err: units.ErrMissing}
		case !f.IsNil() && name != p.Kind:
			return &units.FieldError{Path: name, Want: "ratings under " + p.Kind + " only, or the kind " + name, Err: problem.Words("ratings of another kind than the part, which is of kind "+p.Kind, units.ErrConflict)}
		}
	}
	return nil
}
