package rig

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"example.com/washrig/units"
)

// A block is one group of numbers that depend on a few axes: its input, which
// is compared to share it between models, and its result, computed at most
// once.
type block[In any] struct {
	in    In
	solve func(*In) ([]*numbers, error)
	once  sync.Once
	kept  atomic.Bool
	out   []*numbers
	err   error
}

// result solves the block on first use. It is safe for concurrent use.
func (b *block[In]) result() ([]*numbers, error) {
	b.once.Do(func() {
		b.out, b.err = b.again(nil)
		b.kept.Store(true)
	})
	return b.out, b.err
}

// within is result with a workspace: a block that is not solved yet is solved there,
// and not kept.
func (b *block[In]) within(w *Workspace) ([]*numbers, error) {
	if w == nil || b.kept.Load() {
		return b.result()
	}
	for i := range w.done {
		if w.done[i].block == any(b) {
			return w.done[i].out, w.done[i].err
		}
	}
	out, err := b.again(w)
	w.done = append(w.done, doneBlock{b, out, err})
	return out, err
}

// isKept reports whether the block is solved for good.
func (b *block[In]) isKept() bool { return b.kept.Load() }

// again solves the block without keeping the result.
func (b *block[In]) again(w *Workspace) ([]*numbers, error) {
	in := scratch[In](w)
	*in = b.in
	any(in).(interface{ in(*Workspace) }).in(w)
	out, err := b.solve(in)
	*in = *new(In)
	for _, n := range out {
		if r, s, bad := n.infinite(); bad && err == nil {
			err = fmt.Errorf("%s of %q is not finite in state %v", r.metric.Path, r.part, s)
		}
	}
	return out, err
}

// share returns old when its input equals in, else a new block.
func share[In any](old *block[In], in In, solve func(*In) ([]*numbers, error)) *block[In] {
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
	water     *block[waterIn]
	noise     *block[noiseIn]
	fault     *block[faultIn]
}

// reads says which parts of the specification the input of each block is made from,
// as the beginnings of paths without ids; numbers of the blocks it stands on come in
// beside them. What a moved value cannot touch is not even compared. A test moves
// every field of many rigs and holds this against the inputs themselves.
var reads = map[string][]string{
	"lines":     {"site.elevation", "site.water", "pumps", "lines", "trunks", "heaters", "engines", "sources", "loads", "tanks", "chemicals"},
	"heat":      {"site.elevation", "site.conditions", "heaters", "pumps"},
	"electric":  {"site.elevation", "site.conditions", "sources", "loads"},
	"engines":   {"site.elevation", "site.conditions", "engines", "pumps", "sources", "fuel_tanks"},
	"statics":   append([]string{"site.water", "trailer", "tow_vehicle", "tanks", "fuel_tanks", "crossovers", "fills", "items"}, weighed...),
	"plumbing":  {"pumps", "lines", "engines", "duty"},
	"suction":   {"site.elevation", "site.conditions", "site.water", "tanks", "pumps", "lines", "supplies", "crossovers", "duty"},
	"gun":       {"site", "lines", "trunks", "heaters", "duty"},
	"burner":    {"site.elevation", "site.water", "duty", "heaters", "pumps", "trunks", "lines"},
	"service":   {"site", "heaters", "pumps"},
	"frost":     {"site.elevation", "site.water", "heaters", "lines", "pumps", "winter"},
	"wiring":    {"site.elevation", "sources", "outlets", "loads", "cords", "heaters", "batteries", "direct_loads", "modes"},
	"recovery":  {"site.elevation", "site.conditions", "duty", "lines", "pumps", "tanks", "crossovers", "recovery", "modes"},
	"fuel":      {"site.elevation", "site.conditions", "duty", "fuel_tanks", "loads", "engines", "pumps", "sources", "heaters", "modes"},
	"stability": append([]string{"site.water", "trailer", "tow_vehicle", "tanks", "fuel_tanks", "crossovers", "fills", "items", "zones", "tie_downs"}, weighed...),
	"chemical":  {"chemicals", "duty"},
	"water":     {"duty", "tanks", "pumps", "lines", "modes", "crossovers", "hose_ends", "recovery", "site.pad"},
	"noise":     {"duty", "engines", "pumps", "heaters", "sources", "loads", "lines", "modes"},
	"coupled":   {"site.elevation", "site.conditions", "site.water", "heaters", "engines", "sources", "loads"},
	"fault":     {"site.conditions"},
}

// weighed are the lists of what is bought and weighs, beside items and tanks.
var weighed = []string{"engines", "pumps", "heaters", "trunks", "lines", "recovery", "sources", "loads", "cords", "batteries", "chemicals"}

// placing are the fields of those that only the weights and the deck read.
var placing = []string{"x", "y", "z", "mass", "box"}

// touches reports whether the input of a block may read the field at a path.
func touches(block string, p Path) bool {
	if block != "statics" && block != "stability" {
		if _, rest, ok := strings.Cut(string(p), "]."); ok {
			name, _, _ := strings.Cut(rest, ".")
			if list, _, _ := strings.Cut(string(p), "["); slices.Contains(placing, name) && slices.Contains(weighed, list) {
				return false
			}
		}
	}
	for _, at := range reads[block] {
		if Path(at).covers(p) {
			return true
		}
	}
	return false
}

// compileBlocks makes the inputs of all blocks; blocks whose input is that of parent
// are shared with it. Where moved is not empty, that field alone differs from parent.
func (m *Model) compileBlocks(parent *Model, moved Path) {
	var old blocks
	if parent != nil {
		old = parent.blocks
	}
	b := &m.blocks
	open := func(name string, upstream ...bool) bool {
		return moved == "" || slices.Contains(upstream, true) || touches(name, moved)
	}
	next(&b.lines, old.lines, open("lines"), m.linesInput, solveLines)
	lines := b.lines != old.lines
	next(&b.heat, old.heat, open("heat", lines), func() heatIn { return m.heatInput(b.lines) }, solveHeat)
	heat := b.heat != old.heat
	next(&b.electric, old.electric, open("electric"), m.electricInput, solveElectric)
	electric := b.electric != old.electric
	next(&b.engines, old.engines, open("engines", lines, electric), func() enginesIn { return m.enginesInput(b.lines, b.electric) }, solveEngines)
	engines := b.engines != old.engines
	next(&b.statics, old.statics, open("statics"), m.staticsInput, solveStatics)
	statics := b.statics != old.statics
	next(&b.plumbing, old.plumbing, open("plumbing", lines), func() plumbingIn { return m.plumbingInput(b) }, solvePlumbing)
	next(&b.suction, old.suction, open("suction"), func() suctionIn { return m.suctionInput(b) }, solveSuction)
	next(&b.gun, old.gun, open("gun", lines), func() gunIn { return m.gunInput(b.lines) }, solveGun)
	next(&b.burner, old.burner, open("burner", lines), func() burnerIn { return m.burnerInput(b) }, solveBurner)
	next(&b.service, old.service, open("service", lines), func() serviceIn { return m.serviceInput(b.lines) }, solveService)
	next(&b.frost, old.frost, open("frost"), m.frostInput, solveFrost)
	next(&b.wiring, old.wiring, open("wiring", electric, engines), func() wiringIn { return m.wiringInput(b) }, solveWiring)
	next(&b.recovery, old.recovery, open("recovery", lines), func() recoveryIn { return m.recoveryInput(b) }, solveRecovery)
	next(&b.fuel, old.fuel, open("fuel", lines, heat, electric, engines), func() fuelIn { return m.fuelInput(b) }, solveFuel)
	next(&b.stability, old.stability, open("stability", statics), func() stabilityIn { return m.stabilityInput(b) }, solveStability)
	wiring := b.wiring != old.wiring
	next(&b.chemical, old.chemical, open("chemical", lines), func() chemicalIn { return m.chemicalInput(b.lines) }, solveChemical)
	next(&b.coupled, old.coupled, open("coupled", lines, wiring), func() coupledIn { return m.coupledInput(b) }, solveCoupled)
	next(&b.water, old.water, open("water", lines), func() waterIn { return m.waterInput(b) }, solveWater)
	next(&b.noise, old.noise, open("noise"), m.noiseInput, solveNoise)
	burner, recovery := b.burner != old.burner, b.recovery != old.recovery
	next(&b.fault, old.fault, open("fault", lines, engines, burner, recovery), func() faultIn { return m.faultInput(b) }, solveFault)
}

// next makes a block, or takes the old one where its input is not open or the same.
func next[In any](to **block[In], old *block[In], open bool, input func() In, solve func(*In) ([]*numbers, error)) {
	if !open && old != nil {
		*to = old
		return
	}
	*to = share(old, input(), solve)
}

// A listed block is one entry of the order of reports.
type listed struct {
	name   string
	solved interface {
		within(*Workspace) ([]*numbers, error)
		again(*Workspace) ([]*numbers, error)
		isKept() bool
	}
}

// list returns the blocks in the order of reports.
func (b *blocks) list() [20]listed {
	return [...]listed{{"lines", b.lines}, {"heat", b.heat}, {"engines", b.engines}, {"electric", b.electric}, {"statics", b.statics},
		{"plumbing", b.plumbing}, {"suction", b.suction}, {"gun", b.gun}, {"burner", b.burner}, {"service", b.service}, {"frost", b.frost},
		{"wiring", b.wiring}, {"recovery", b.recovery}, {"fuel", b.fuel}, {"stability", b.stability}, {"chemical", b.chemical}, {"coupled", b.coupled}, {"water", b.water}, {"noise", b.noise}, {"fault", b.fault}}
}

// all returns the numbers of every block in the order of reports.
func (b *blocks) all() ([]*numbers, error) { return b.within(nil) }

// within is all with a workspace.
func (b *blocks) within(w *Workspace) ([]*numbers, error) {
	var out []*numbers
	if w != nil {
		out = w.lists[:0]
	}
	for _, l := range b.list() {
		n, err := l.solved.within(w)
		if err != nil {
			return nil, err
		}
		out = append(out, n...)
	}
	if w != nil {
		w.lists = out
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
