package tank

import (
	"example.com/washrig/hydraulics"
	"example.com/washrig/internal/problem"
	"example.com/washrig/units"
)

// A line is a run of elements that carries one flow.
type line struct {
	net hydraulics.Network
	ws  hydraulics.Workspace
	res hydraulics.Result
}

func (l *line) set(fluid hydraulics.Fluid, elements []hydraulics.Element) error {
	for i, e := range elements {
		if e == nil {
			return &units.FieldError{Path: problem.Element("line", "", i), Want: "an element of package hydraulics", Err: units.ErrMissing}
		}
	}
	l.net = hydraulics.Network{
		Fluid:    fluid,
		Supplies: []hydraulics.Supply{{Flow: 1}},
		// A wide nozzle at the end lets every line pass the flow, one without loss too.
		Sections: []hydraulics.Section{{Name: "line", Parent: hydraulics.Manifold, Elements: elements,
			Outlet: &hydraulics.Outlet{Nozzles: []hydraulics.Nozzle{{Number: 1e4}}}}},
	}
	return nil
}

// at returns the losses at a flow; the result is valid until the next call.
func (l *line) at(q units.VolumeFlow) (*hydraulics.SectionResult, error) {
	l.net.Supplies[0].Flow = q
	if err := l.ws.Solve(&l.net, &l.res); err != nil {
		return nil, err
	}
	return &l.res.Sections[0], nil
}

// loss returns the sum of the losses at a flow, height included.
func (l *line) loss(q units.VolumeFlow) (units.Pressure, error) {
	r, err := l.at(q)
	if err != nil {
		return 0, err
	}
	sum := units.Pressure(0)
	for _, e := range r.Elements {
		sum += e.Loss
	}
	return sum, nil
}
