package rig

import (
	"fmt"
	"reflect"
	"sync"

	"example.com/washrig/units"
)

// A block is one group of numbers that depend on a few axes: its input, which
// is compared to share it between models, and its result, computed at most
// once.
type block[In any] struct {
	in    In
	solve func(In) ([]*numbers, error)
	once  sync.Once
	out   []*numbers
	err   error
}

// result solves the block on first use. It is safe for concurrent use.
func (b *block[In]) result() ([]*numbers, error) {
	b.once.Do(func() {
		b.out, b.err = b.solve(b.in)
		for _, n := range b.out {
			if r, s, bad := n.infinite(); bad && b.err == nil {
				b.err = fmt.Errorf("%s of %q is not finite in state %v", r.metric.Path, r.part, s)
			}
		}
	})
	return b.out, b.err
}

// again solves the block without keeping the result.
func (b *block[In]) again() ([]*numbers, error) { return b.solve(b.in) }

// share returns old when its input equals in, else a new block.
func share[In any](old *block[In], in In, solve func(In) ([]*numbers, error)) *block[In] {
	if old != nil && reflect.DeepEqual(old.in, in) {
		return old
	}
	return &block[In]{in: in, solve: solve}
}

// blocks are the groups of numbers of a model. A later block may read an
// earlier one: engines read lines and electric.
type blocks struct {
	lines    *block[linesIn]
	heat     *block[heatIn]
	electric *block[electricIn]
	engines  *block[enginesIn]
	statics  *block[staticsIn]

	plumbing  *block[plumbingIn]
	suction   *block[suctionIn]
	gun       *block[gunIn]
	burner    *block[burnerIn]
	service   *block[serviceIn]
	frost     *block[frostIn]
	wiring    *block[wiringIn]
	recovery  *block[recoveryIn]
	fuel      *block[fuelIn]
	stability *block[stabilityIn]
	chemical  *block[chemicalIn]
	coupled   *block[coupledIn]
}

func (m *Model) compileBlocks(parent *Model) error {
	var old blocks
	if parent != nil {
		old = parent.blocks
	}
	b := &m.blocks
	b.lines = share(old.lines, m.linesInput(), solveLines)
	b.heat = share(old.heat, m.heatInput(b.lines), solveHeat)
	b.electric = share(old.electric, m.electricInput(), solveElectric)
	b.engines = share(old.engines, m.enginesInput(b.lines, b.electric), solveEngines)
	b.statics = share(old.statics, m.staticsInput(), solveStatics)
	b.plumbing = share(old.plumbing, m.plumbingInput(b), solvePlumbing)
	b.suction = share(old.suction, m.suctionInput(b), solveSuction)
	b.gun = share(old.gun, m.gunInput(b.lines), solveGun)
	b.burner = share(old.burner, m.burnerInput(b), solveBurner)
	b.service = share(old.service, m.serviceInput(b.lines), solveService)
	b.frost = share(old.frost, m.frostInput(), solveFrost)
	b.wiring = share(old.wiring, m.wiringInput(b), solveWiring)
	b.recovery = share(old.recovery, m.recoveryInput(b), solveRecovery)
	b.fuel = share(old.fuel, m.fuelInput(b), solveFuel)
	b.stability = share(old.stability, m.stabilityInput(b), solveStability)
	b.chemical = share(old.chemical, m.chemicalInput(b.lines), solveChemical)
	b.coupled = share(old.coupled, m.coupledInput(b), solveCoupled)
	return nil
}

// A listed block is one entry of the order of reports.
type listed struct {
	name   string
	solved interface {
		result() ([]*numbers, error)
		again() ([]*numbers, error)
	}
}

func (l listed) again() ([]*numbers, error) { return l.solved.again() }

// list returns the blocks in the order of reports.
func (b *blocks) list() [17]listed {
	return [...]listed{{"lines", b.lines}, {"heat", b.heat}, {"engines", b.engines}, {"electric", b.electric}, {"statics", b.statics},
		{"plumbing", b.plumbing}, {"suction", b.suction}, {"gun", b.gun}, {"burner", b.burner}, {"service", b.service}, {"frost", b.frost},
		{"wiring", b.wiring}, {"recovery", b.recovery}, {"fuel", b.fuel}, {"stability", b.stability}, {"chemical", b.chemical}, {"coupled", b.coupled}}
}

// all returns the numbers of every block in the order of reports.
func (b *blocks) all() ([]*numbers, error) {
	var out []*numbers
	for _, l := range b.list() {
		n, err := l.solved.result()
		if err != nil {
			return nil, err
		}
		out = append(out, n...)
	}
	return out, nil
}

// An hour is one condition of the site in the form the blocks use.
type hour struct {
	state int // on AxisSite
	air   units.Temperature
}

func (m *Model) hours() []hour {
	out := make([]hour, len(m.spec.Site.Conditions))
	for i, c := range m.spec.Site.Conditions {
		out[i] = hour{i + 1, c.Air}
	}
	return out
}
