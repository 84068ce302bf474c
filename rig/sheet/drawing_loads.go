package sheet

import (
	"math"

	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// A restingLoad is what the trailer rests with in one listed fill state.
type restingLoad struct {
	title               string
	total, tongue       float64 // kg
	front               string  // words under the coupler
	axles, sides, whole string
	known               bool
}

// parts are its words in reading order.
func (l restingLoad) parts() []string {
	if !l.known {
		return []string{"not known"}
	}
	out := []string{l.whole + " in all", l.front, l.axles}
	if l.sides != "" {
		out = append(out, l.sides)
	}
	return out
}

// restingLoads reads the loads of every listed fill state.
func (in *source) restingLoads() []restingLoad {
	var out []restingLoad
	for _, f := range in.m.Fills() {
		l := restingLoad{title: f.Title}
		if f.Reach == rig.Conceivable {
			l.title += " (conceivable)"
		}
		at := func(p rig.Path) (rig.Reading, bool) { return in.rep.At(p, f.State) }
		say := func(r rig.Reading) string { return r.Text(in.o.System, digits) }
		total, ok := at("trailer.total")
		tongue, okTongue := at("trailer.tongue")
		if ok && okTongue {
			l.known = true
			l.total, l.tongue = total.Value.SI(), tongue.Value.SI()
			l.whole, l.front = say(total), say(tongue)+" on the tongue"
			if share, ok := at("trailer.tongue_share"); ok {
				l.front += ", " + say(share)
			}
			group := total
			group.Value = units.Mass(total.Value.SI() - tongue.Value.SI()).Quantity()
			l.axles = say(group) + " on the axles"
			if axle, ok := at("trailer.axle"); ok && in.spec.Trailer != nil && in.spec.Trailer.Axles > 1 {
				l.axles += ", " + say(axle) + " on each"
			}
			left, okLeft := at("trailer.left")
			right, okRight := at("trailer.right")
			if okLeft && okRight {
				l.sides = "left wheels " + say(left) + ", right " + say(right)
			}
		}
		out = append(out, l)
	}
	return out
}

// drawLoads draws a row for each fill state: arrows to scale where the trailer
// rests, the centre of mass, and the numbers in words.
func (in *source) drawLoads(p *plot, d *rig.Deck, loads []restingLoad, y float64) float64 {
	if len(loads) == 0 {
		return y
	}
	y += 20
	p.text(border, y, "start", strong, "What it rests with, arrows to scale; the triangle is the centre of mass")
	const arrowMost = 34.0
	most := 0.0
	for _, l := range loads {
		if l.known {
			most = math.Max(most, math.Max(math.Abs(l.tongue), math.Abs(l.total-l.tongue)/float64(len(d.Axles))))
		}
	}
	ball, group := p.x(couplerOf(d)), p.x(d.Trailer.AxleGroup)
	for _, l := range loads {
		y += 30
		if !l.known || most == 0 {
			p.text(border, y, "start", plain, shortened(l.title+": not known", inside, 14))
			continue
		}
		p.text(border, y, "start", plain, shortened(l.title+": "+l.whole+" in all", inside, 14))
		y += 16
		p.line(ball, y, math.Max(group, p.x(d.Axles[len(d.Axles)-1])), y, thin)
		p.arrow(ball, y, arrowMost*math.Abs(l.tongue)/most, l.tongue < 0)
		each := (l.total - l.tongue) / float64(len(d.Axles))
		for _, a := range d.Axles {
			p.arrow(p.x(a), y, arrowMost*math.Abs(each)/most, each < 0)
		}
		if l.total > 0 {
			x := ball + (group-ball)*(1-l.tongue/l.total)
			p.polygon([][2]float64{{x, y - 1}, {x - 6, y - 12}, {x + 6, y - 12}}, solid)
		}
		y += arrowMost + 20
		p.text(border, y, "start", small, l.front)
		p.text(pictureWide/2+40, y, "middle", small, l.axles)
		p.text(pictureWide-border, y, "end", small, l.sides)
	}
	return y
}
