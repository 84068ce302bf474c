package hydraulics

import "example.com/washrig/units"

// A Result is the steady state of a network. Pressures are gauge.
type Result struct {
	Pressure units.Pressure   // in the manifold, on the line side of the unloaders
	Flow     units.VolumeFlow // into the lines, metered at the pump's density
	Supplies []SupplyResult   // as in the network
	Sections []SectionResult  // as in the network

	// Residual bounds what is left of error in any flow, relative to the flow of the
	// pumps: the largest last correction times the largest relative one, because
	// Newton's method squares its errors. Closure is the mass that the outlets,
	// bypasses, reliefs and leaks do not account for, relative to what the pumps
	// move.
	Residual   units.Ratio
	Closure    units.Ratio
	Iterations int
}

// An UnloaderState is what the unloader does.
type UnloaderState uint8

const (
	Idle       UnloaderState = iota // the whole flow goes to the line
	Regulating                      // part of the flow, or all of it, is bypassed at the set point
	Dumping                         // open: the pump works against the bypass alone
)

var unloaderStates = [...]string{"idle", "regulating", "dumping"}

// String returns the state as a word.
func (s UnloaderState) String() string {
	if int(s) < len(unloaderStates) {
		return unloaderStates[s]
	}
	return "unknown state"
}

// A SupplyResult is what one pump and its valves do. Flows are metered at the
// pump's density; Line + Bypass + Relief + Leakage is the flow of the supply.
type SupplyResult struct {
	Pressure units.Pressure // at the pump head
	Line     units.VolumeFlow
	Bypass   units.VolumeFlow
	Relief   units.VolumeFlow
	Leakage  units.VolumeFlow
	Feed     units.VolumeFlow // drawn through the suction line: without what bypasses straight to the inlet
	Power    units.Power      // hydraulic: what leaves the pump head, at its pressure
	Unloader UnloaderState

	// Held is the flow that would have gone to the line had a flow-actuated
	// unloader not opened; near its Actuation it hunts. Zero otherwise.
	Held units.VolumeFlow
}

// A SectionResult is one section of a network.
type SectionResult struct {
	Mass    units.MassFlow
	Flow    units.VolumeFlow // at the section's own density
	Metered units.VolumeFlow // at the pump's density: what a bucket of cold water says
	Inlet   units.Pressure
	Outlet  units.Pressure // where there are nozzles: before them

	// Regulated is what the regulator at the beginning takes off; zero where there is
	// none, or where it stands wide open.
	Regulated units.Pressure

	// Elements has the loss by element, in order of flow: Inlet − Regulated − Outlet is
	// its sum.
	Elements []ElementResult
}

// An ElementResult is one element of a section.
type ElementResult struct {
	Loss units.Pressure

	// Zero for an element without a bore of its own.
	Velocity units.Velocity
	Reynolds float64

	// Zero for an element without friction.
	Friction float64 // Darcy factor
	Regime   Regime
}

// NozzleFlows appends to flows what each nozzle of an outlet passes, metered as
// total, when the outlet passes total.
func (o *Outlet) NozzleFlows(flows []units.VolumeFlow, total units.VolumeFlow) []units.VolumeFlow {
	sum := 0.
	for i := range o.Nozzles {
		if t := &o.Nozzles[i]; !t.Blocked {
			sum += float64(t.Number) * (1 + float64(t.Wear))
		}
	}
	for i := range o.Nozzles {
		t := &o.Nozzles[i]
		q := units.VolumeFlow(0)
		if !t.Blocked && sum > 0 {
			q = total * units.VolumeFlow(float64(t.Number)*(1+float64(t.Wear))/sum)
		}
		flows = append(flows, q)
	}
	return flows
}
