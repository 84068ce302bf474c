package quote

import (
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A Breach is a house rule about the price that a quote breaks. It is the
// dealer's own, as the quote is.
type Breach struct {
	Rule     rig.HouseRule
	Severity rig.Severity
	Line     rig.Path // of a rule about lines
	Value    units.Ratio
	Limit    units.Ratio
}

// Judge holds a quote against house rules about its price, in their order. Lines
// without a cost have no mark-up and are passed over, and so is a quote none of
// whose lines has one.
func (q *Quote) Judge(rules []rig.HouseRule) ([]Breach, error) {
	var out []Breach
	costed := false
	for _, l := range q.Lines {
		costed = costed || l.Cost.Cents() != 0
	}
	for _, h := range rules {
		limit, least, err := h.PriceLimit()
		if err != nil {
			return nil, units.At("rules["+h.ID+"]", err)
		}
		hold := func(line rig.Path, value float64) {
			if v := units.Ratio(value); least && v < limit || !least && v > limit {
				out = append(out, Breach{h, h.Weight(), line, v, limit})
			}
		}
		switch {
		case !costed:
		case h.Price == "mark_up":
			hold("", q.MarkUp)
		case h.Price == "margin":
			hold("", q.Margin)
		default:
			for _, l := range q.Lines {
				if l.Cost.Cents() != 0 && !l.Unpriced && !l.Uncosted {
					hold(l.Path, MarkUp(l.Cost.Cents(), l.Price.Cents()))
				}
			}
		}
	}
	return out, nil
}
