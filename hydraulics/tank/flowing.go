package tank

import (
	"math"
	"slices"
)

// flowing is a system as numbers. Its state y holds for each tank the volume and
// the volume of each kind of water; flux holds for each path the flow and the flow
// of each kind, and y' = S·flux with S made of ±1: what leaves one place enters
// another, whatever the solver does.
type flowing struct {
	n, width int // tanks; 1 + kinds
	vessels  []vessel
	paths    []path
	modes    []mode

	level, area []float64 // of the last rates
	nets        []float64 // per tank: flows of links, outlets and devices that are on
	netSlope    []float64 // n × n: derivative of nets by volumes
	flow        []float64 // per path
	flowSlope   []float64 // paths × n
}

type vessel struct {
	form
	floor, uz float64
	least     float64 // below this volume the mixture counts as that of this volume
}

type pathKind uint8

const (
	linkPath pathKind = iota
	outletPath
	drawPath
	fillPath
	spillPath
)

// A path leads from one tank to another; −1 is the outside.
type path struct {
	kind     pathKind
	from, to int
	sill     float64 // height above the common level
	passage  passage
	shut     bool
	oneWay   bool
	rate     float64   // of a draw or fill
	parts    []float64 // of a fill
}

// A threshold is a level at which something switches: a port that falls dry, a
// float valve, the overflow.
type threshold struct {
	volume       float64
	draws, fills []int // paths
	brim         bool
}

// A mode says on which side of each threshold a tank stands, and whether it is
// held at one.
type mode struct {
	at    []threshold
	above []bool
	held  int  // index of the threshold the level is held at, −1 if none
	spill bool // held at the overflow by spilling
	brim  int  // path of the spill
}

func (s *System) compile() *flowing {
	n := len(s.Tanks)
	f := &flowing{n: n, width: 1 + len(s.Kinds)}
	floors := s.floors()
	ux, uy, uz := s.up()
	at := func(i int, pt Point) float64 { // height of a point
		return floors[i] + float64(pt.Height)*uz + float64(pt.Aft)*ux + float64(pt.Left)*uy
	}
	for i := range s.Tanks {
		v := vessel{form: s.Tanks[i].Shape.form(), floor: floors[i], uz: uz}
		v.least = 1e-9 * v.full
		f.vessels = append(f.vessels, v)
	}
	// volume at which the surface reaches a height
	reach := func(i int, height float64) float64 {
		v := &f.vessels[i]
		return v.volume((height - v.floor) / v.uz)
	}
	f.modes = make([]mode, n)
	mark := func(i int, volume float64) *threshold {
		m := &f.modes[i]
		for k := range m.at {
			if math.Abs(m.at[k].volume-volume) <= 1e-9*f.vessels[i].full {
				return &m.at[k]
			}
		}
		m.at = append(m.at, threshold{volume: volume})
		return &m.at[len(m.at)-1]
	}
	for i := range s.Links {
		l := &s.Links[i]
		f.paths = append(f.paths, path{kind: linkPath, from: l.From, to: l.To, passage: l.Opening.passage(s.Fluid),
			sill: math.Max(at(l.From, l.FromPort), at(l.To, l.ToPort)), shut: l.Shut, oneWay: l.OneWay})
	}
	for i := range s.Outlets {
		o := &s.Outlets[i]
		f.paths = append(f.paths, path{kind: outletPath, from: o.Tank, to: -1, passage: o.Opening.passage(s.Fluid),
			sill: at(o.Tank, o.Port), shut: o.Shut})
	}
	for i := range s.Draws {
		d := &s.Draws[i]
		t := mark(d.Tank, reach(d.Tank, at(d.Tank, d.Port)))
		t.draws = append(t.draws, len(f.paths))
		f.paths = append(f.paths, path{kind: drawPath, from: d.Tank, to: -1, rate: float64(d.Flow)})
	}
	for i := range s.Fills {
		d := &s.Fills[i]
		p := path{kind: fillPath, from: -1, to: d.Tank, rate: float64(d.Flow), parts: make([]float64, len(s.Kinds))}
		for k, r := range d.Parts {
			p.parts[k] = float64(r)
		}
		if d.Stop > 0 {
			t := mark(d.Tank, f.vessels[d.Tank].volume(float64(d.Stop)))
			t.fills = append(t.fills, len(f.paths))
		}
		f.paths = append(f.paths, p)
	}
	for i := range s.Tanks {
		v := &f.vessels[i]
		brim := v.full
		if o := s.Tanks[i].Overflow; o.Height > 0 {
			brim = math.Min(brim, reach(i, at(i, o)))
		}
		t := mark(i, brim)
		t.brim = true
		m := &f.modes[i]
		m.brim = len(f.paths)
		f.paths = append(f.paths, path{kind: spillPath, from: i, to: -1})
		slices.SortFunc(m.at, func(a, b threshold) int {
			switch {
			case a.volume < b.volume:
				return -1
			case a.volume > b.volume:
				return 1
			}
			return 0
		})
		m.above = make([]bool, len(m.at))
		m.held = -1
	}
	f.level, f.area, f.nets = make([]float64, n), make([]float64, n), make([]float64, n)
	f.netSlope = make([]float64, n*n)
	f.flow = make([]float64, len(f.paths))
	f.flowSlope = make([]float64, len(f.paths)*n)
	return f
}

// size is the number of components of the state, and of fluxes.
func (f *flowing) size() (state, flux int) { return f.n * f.width, len(f.paths) * f.width }

// on reports whether a draw or fill of a tank runs at its full rate.
func (f *flowing) on(k int) bool {
	p := &f.paths[k]
	i := p.from
	if p.kind == fillPath {
		i = p.to
	}
	m := &f.modes[i]
	for t := range m.at {
		for _, d := range m.at[t].draws {
			if d == k {
				return m.above[t] && m.held != t
			}
		}
		for _, d := range m.at[t].fills {
			if d == k {
				return !m.above[t] && m.held != t
			}
		}
	}
	return true // a fill without a float valve
}

// flows computes the flow of every path and its derivative by the volumes, those
// of tanks held at a threshold last: they take up what the others leave.
func (f *flowing) flows(y []float64) {
	n := f.n
	for i := range f.vessels {
		v := &f.vessels[i]
		f.level[i] = v.level(y[i*f.width])
		f.area[i] = math.Max(v.surface(f.level[i]), 1e-6*v.full/v.h)
	}
	clear(f.nets)
	clear(f.netSlope)
	clear(f.flowSlope)
	for k := range f.paths {
		p := &f.paths[k]
		f.flow[k] = 0
		row := f.flowSlope[k*n : (k+1)*n]
		switch p.kind {
		case linkPath, outletPath:
			if !p.shut {
				f.run(k, p, row)
			}
		case drawPath, fillPath:
			if f.on(k) {
				f.flow[k] = p.rate
			}
		}
		f.credit(k)
	}
	for i := range f.modes {
		m := &f.modes[i]
		if m.held < 0 {
			continue
		}
		t := &m.at[m.held]
		fill, draw := f.rates(t)
		slope := f.netSlope[i*n : (i+1)*n]
		net := f.nets[i]
		if m.spill {
			// fills stopped, draws at their full rate, the rest over the edge
			for _, k := range t.draws {
				f.flow[k] = f.paths[k].rate
			}
			f.flow[m.brim] = net - draw
			copy(f.flowSlope[m.brim*n:(m.brim+1)*n], slope)
			continue
		}
		// λ runs from 0, below the threshold, to 1, above it
		share := (net + fill) / (fill + draw)
		scale := func(k int, by float64) {
			rate := f.paths[k].rate
			row := f.flowSlope[k*n : (k+1)*n]
			for j := range row {
				row[j] = by * rate * slope[j] / (fill + draw)
			}
		}
		for _, k := range t.fills {
			f.flow[k] = (1 - share) * f.paths[k].rate
			scale(k, -1)
		}
		for _, k := range t.draws {
			f.flow[k] = share * f.paths[k].rate
			scale(k, 1)
		}
	}
}

// run computes the flow of a link or outlet.
func (f *flowing) run(k int, p *path, row []float64) {
	a := &f.vessels[p.from]
	ha := a.floor + f.level[p.from]*a.uz
	hb, b := p.sill, -1
	if p.to >= 0 {
		v := &f.vessels[p.to]
		if e := v.floor + f.level[p.to]*v.uz; e > hb {
			hb, b = e, p.to
		}
	}
	sign, up, down := 1.0, p.from, b
	if ha < hb {
		if p.to < 0 || p.oneWay || b < 0 {
			return // nothing stands over the sill
		}
		// the other way: from To, over the sill or into From
		sign, up, down = -1, p.to, p.from
		ha, hb = hb, math.Max(ha, p.sill)
		if hb == p.sill && p.sill > a.floor+f.level[p.from]*a.uz {
			down = -1
		}
	}
	q, slope := p.passage.flow((ha - hb) * p.passage.weight)
	f.flow[k] = sign * q
	slope *= p.passage.weight
	row[up] += sign * slope * f.vessels[up].uz / f.area[up]
	if down >= 0 {
		row[down] -= sign * slope * f.vessels[down].uz / f.area[down]
	}
}

// credit adds a path to what its tanks gain.
func (f *flowing) credit(k int) {
	p := &f.paths[k]
	n := f.n
	add := func(i int, sign float64) {
		if i < 0 {
			return
		}
		f.nets[i] += sign * f.flow[k]
		for j, s := range f.flowSlope[k*n : (k+1)*n] {
			f.netSlope[i*n+j] += sign * s
		}
	}
	add(p.from, -1)
	add(p.to, 1)
}

// rates returns the full rates of what switches at a threshold.
func (f *flowing) rates(t *threshold) (fill, draw float64) {
	for _, k := range t.fills {
		fill += f.paths[k].rate
	}
	for _, k := range t.draws {
		draw += f.paths[k].rate
	}
	return fill, draw
}

// fluxes writes the flow of every path and of every kind of water in it, and with
// slope not nil their derivatives by the state, row by row.
func (f *flowing) fluxes(y, flux, slope []float64) {
	f.flows(y)
	n, w := f.n, f.width
	size := n * w
	clear(slope)
	for k := range f.paths {
		p := &f.paths[k]
		q := f.flow[k]
		flux[k*w] = q
		dq := f.flowSlope[k*n : (k+1)*n]
		if slope != nil {
			row := slope[k*w*size:]
			for j, d := range dq {
				row[j*w] = d
			}
		}
		source := p.from
		if p.kind == linkPath && q < 0 {
			source = p.to
		}
		for c := 1; c < w; c++ {
			share := 0.0
			if source >= 0 {
				share = y[source*w+c] / math.Max(y[source*w], f.vessels[source].least)
			} else {
				share = p.parts[c-1]
			}
			flux[k*w+c] = q * share
			if slope == nil {
				continue
			}
			row := slope[(k*w+c)*size : (k*w+c+1)*size]
			for j, d := range dq {
				row[j*w] = d * share
			}
			if source >= 0 {
				v := math.Max(y[source*w], f.vessels[source].least)
				row[source*w+c] += q / v
				if y[source*w] > f.vessels[source].least {
					row[source*w] -= q * share / v
				}
			}
		}
	}
}

// gather adds S·flux, one column of it, to out: what each tank gains.
func (f *flowing) gather(flux, out []float64) {
	clear(out)
	w := f.width
	for k := range f.paths {
		p := &f.paths[k]
		for c := range w {
			x := flux[k*w+c]
			if p.from >= 0 {
				out[p.from*w+c] -= x
			}
			if p.to >= 0 {
				out[p.to*w+c] += x
			}
		}
	}
}
