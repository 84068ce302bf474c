package rig

import (
	_ "embed" // the schema is a file, so that it can be read without Go
	"errors"

	"example.com/washrig/units"
)

// CardsFormat is the first field of cards written as JSON.
const CardsFormat = "washrig-cards/1"

// Cards are all cards of a rig with what travels with each of them. They marshal
// to JSON as they stand; see schema/cards.schema.json. Members may be added within a
// format number; none is renamed, and none changes its meaning.
type Cards struct {
	Format     string         `json:"format" const:"washrig-cards/1" doc:"format of this document"`
	Version    string         `json:"version" doc:"version of the library that made it"`
	Name       string         `json:"name" doc:"name of the rig"`
	Title      string         `json:"title,omitempty" doc:"one line about the rig"`
	SpecDigest string         `json:"spec_digest" doc:"names the specification as it was written"`
	Verdict    Severity       `json:"verdict" doc:"the gravest severity found"`
	Grave      []Code         `json:"grave" doc:"what was found that weighs stop or cannot judge"`
	Disclaimer string         `json:"disclaimer" doc:"the sentence that stands on every output"`
	Modes      []ModeCard     `json:"modes" doc:"a card for each mode"`
	Plugs      CardPlugs      `json:"plugs" doc:"where loads may be plugged in; added within format 1"`
	WalkRound  WalkCard       `json:"walk_round" doc:"the figures asked for when the rig is shown; added within format 1"`
	Parked     ParkedCard     `json:"parked" doc:"how the trailer is set down"`
	Winter     WinterCard     `json:"winter" doc:"what the cold does and what is done against it"`
	Overrides  []jsonOverride `json:"overrides" doc:"limits that the dealer changed"`
	Defaults   []jsonDefault  `json:"changed_defaults" doc:"defaults that the dealer changed; added within format 1"`
	Off        []Code         `json:"switched_off" doc:"checks that the dealer left out; added within format 1"`
	Cautions   []Caution      `json:"cautions" doc:"standing safety texts; they travel with every card"`
	NotChecked []string       `json:"not_checked" doc:"what this version does not look at"`
}

// CardPlugs are the plug card as data; see PlugCard.
type CardPlugs struct {
	Passing     []State       `json:"passing" doc:"plug assignments that nothing is too small for, widest margin first"`
	Unplaceable []string      `json:"unplaceable" doc:"a smallest set of loads that cannot all be on at once wherever they are plugged in"`
	LeaveOut    []string      `json:"leave_out" doc:"a smallest set without which the others can"`
	Off         []CardPlugOff `json:"off" doc:"what comes of leaving one source off all day"`
	NotSearched string        `json:"not_searched,omitempty" doc:"why nothing was looked for: more loads or sources than can be searched"`
}

// CardPlugOff is one source left off all day; see SourceOff.
type CardPlugOff struct {
	Source  string            `json:"source" doc:"the source"`
	Passes  bool              `json:"passes" doc:"whether the others carry everything"`
	Plugs   map[string]string `json:"plugs" doc:"the source of each load then"`
	Hours   units.Duration    `json:"hours" doc:"running time of generator engines saved"`
	Fuel    units.Volume      `json:"fuel" doc:"likewise; negative if the others burn more"`
	Quieter float64           `json:"quieter_db" doc:"by which the loudest mode is quieter"`
}

//go:embed schema/cards.schema.json
var cardsSchema string

// CardsSchema returns the JSON Schema (draft 2020-12) of cards written as JSON.
// Members may be added within a format number, so the schema allows those it does not
// know.
func CardsSchema() string { return cardsSchema }

// Cards returns every card of the rig: those of its modes, plugs, walk-round, parked and
// winter.
func (r *Report) Cards() (Cards, error) {
	c := Cards{Format: CardsFormat, Version: Version, Name: r.model.Name(), Title: r.model.spec.Title, SpecDigest: r.model.Digest(), Verdict: r.Verdict(),
		Disclaimer: Disclaimer, Cautions: Cautions(), NotChecked: NotChecked(), Grave: []Code{}}
	for _, f := range r.Findings() {
		if f.Severity >= CannotJudge {
			c.Grave = append(c.Grave, f.Code)
		}
	}
	changes := r.PolicyChanges()
	c.Overrides, c.Defaults, c.Off = changes.json()
	var err error
	if c.Modes, err = r.ModeCards(); err != nil {
		return c, err
	}
	if c.Plugs, err = r.cardPlugs(); err != nil {
		return c, err
	}
	c.WalkRound = r.WalkCard()
	c.Parked = r.ParkedCard()
	if c.Winter, err = r.WinterCard(); err != nil {
		return c, err
	}
	c.listed()
	return c, nil
}

// listed makes lists that hold nothing empty ones, so that readers of the data find a
// list wherever there can be one.
func (c *Cards) listed() {
	list(&c.Modes)
	for i := range c.Modes {
		m := &c.Modes[i]
		list(&m.Guns)
		list(&m.Valves)
		list(&m.Ends)
		list(&m.Plugs)
		list(&m.Off)
		list(&m.Start)
		list(&m.Shut)
		list(&m.Protect)
		list(&m.Water)
		list(&m.Stop)
		list(&m.Trapped)
		for k := range m.Water {
			list(&m.Water[k].Joined)
			list(&m.Water[k].Feeds)
		}
	}
	list(&c.Parked.Steps)
	list(&c.Parked.Dump)
	list(&c.Parked.States)
	list(&c.Winter.Parts)
	list(&c.Winter.Freezing)
	list(&c.Winter.Steps)
	list(&c.Winter.Not)
}

func list[T any](s *[]T) {
	if *s == nil {
		*s = []T{}
	}
}

// cardPlugs is the plug card as data.
func (r *Report) cardPlugs() (CardPlugs, error) {
	out := CardPlugs{Passing: []State{}, Off: []CardPlugOff{}}
	p, err := r.PlugCard()
	var many *StatesError
	if errors.As(err, &many) {
		out.NotSearched, err = many.Error(), nil
	}
	for _, o := range p.Passing {
		out.Passing = append(out.Passing, o.State)
	}
	out.Unplaceable, out.LeaveOut = append([]string{}, p.Unplaceable...), append([]string{}, p.LeaveOut...)
	for _, o := range p.Off {
		out.Off = append(out.Off, CardPlugOff{o.Source, o.Passes, o.Plugs, o.Hours, o.Fuel, rounded(o.Noise)})
	}
	return out, err
}
