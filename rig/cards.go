package rig

// CardsFormat is the first field of cards written as JSON.
const CardsFormat = "washrig-cards/1"

// Cards are all cards of a rig with what travels with each of them. They marshal
// to JSON as they stand; quantities are text with their units.
type Cards struct {
	Format     string       `json:"format"`
	Version    string       `json:"version"`
	Name       string       `json:"name"`
	Title      string       `json:"title,omitempty"`
	SpecDigest string       `json:"spec_digest"`
	Verdict    Severity     `json:"verdict"`
	Grave      []Code       `json:"grave"` // what was found that weighs stop or cannot judge
	Disclaimer string       `json:"disclaimer"`
	Modes      []ModeCard   `json:"modes"`
	Parked     ParkedCard   `json:"parked"`
	Winter     WinterCard   `json:"winter"`
	Overrides  []jsonSigned `json:"overrides"`
	Cautions   []Caution    `json:"cautions"`
	NotChecked []string     `json:"not_checked"`
}

// A jsonSigned is a limit that the dealer changed, as the cards print it.
type jsonSigned struct {
	Code Code   `json:"code"`
	Who  string `json:"who"`
	When string `json:"when"`
	Why  string `json:"why"`
}

// Cards returns the card of each mode, the parked and the winter card.
func (r *Report) Cards() (Cards, error) {
	c := Cards{Format: CardsFormat, Version: Version, Name: r.model.Name(), Title: r.model.spec.Title, SpecDigest: r.model.Digest(), Verdict: r.Verdict(),
		Disclaimer: Disclaimer, Cautions: Cautions(), NotChecked: NotChecked(), Grave: []Code{}, Overrides: []jsonSigned{}}
	for _, f := range r.Findings() {
		if f.Severity >= CannotJudge {
			c.Grave = append(c.Grave, f.Code)
		}
	}
	for _, o := range r.Overrides() {
		c.Overrides = append(c.Overrides, jsonSigned{o.Code, o.Who, o.When, o.Why})
	}
	var err error
	if c.Modes, err = r.ModeCards(); err != nil {
		return c, err
	}
	c.Parked = r.ParkedCard()
	c.Winter, err = r.WinterCard()
	return c, err
}
