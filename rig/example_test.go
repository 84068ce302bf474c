package rig_test

import (
	"fmt"
	"os"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A changed copy of a model: the one it came from stays as it is.
func ExampleModel_With() {
	d, _ := demo.Model("D")
	better, err := d.With(rig.Set("tanks[fresh].x", "10.8 ft"), rig.Set("tanks[recovered].x", "12.2 ft"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range []*rig.Model{d, better} {
		rep, _ := m.Assess(nil, nil)
		low := rig.Reading{}
		for r := range rep.All("trailer.tongue_share") {
			if low.Metric == nil || r.Value.SI() < low.Value.SI() {
				low = r
			}
		}
		fmt.Printf("least tongue %s, %d stops\n", low.Text(units.US, 3), rep.Count(rig.Stop))
	}
	// Output:
	// least tongue 3.84 %, 3 stops
	// least tongue 10.2 %, 2 stops
}

// A rig in Go code. A pointer finds the path for a remark about a value.
func ExampleSpec_Note() {
	spec := &rig.Spec{
		Format: rig.Format,
		Pumps:  []rig.Pump{{Stock: rig.Stock{ID: "main"}, Pump: parts.Pump{RatedFlow: 4 * units.GallonPerMinute}}},
		Lines: []rig.Line{{
			Stock:  rig.Stock{ID: "left"},
			Pump:   "main",
			Hose:   rig.Hose{Hose: parts.Hose{Bore: 0.375 * units.Inch, Length: 100 * units.Foot}},
			Nozzle: rig.Nozzle{Nozzle: parts.Nozzle{Number: 4}},
		}},
	}
	if err := spec.Note(&spec.Lines[0].Hose.Length, rig.Measured, rig.PlusMinus(2*units.Foot)); err != nil {
		fmt.Println(err)
	}
	_ = spec.Write(os.Stdout)
	// Output:
	// {
	//   "format": "washrig/1",
	//   "pumps": [
	//     {
	//       "id": "main",
	//       "rated_flow": "4 gpm"
	//     }
	//   ],
	//   "lines": [
	//     {
	//       "id": "left",
	//       "pump": "main",
	//       "hose": {
	//         "bore": "0.375 in",
	//         "length": "100 ft"
	//       },
	//       "nozzle": {
	//         "number": "4"
	//       }
	//     }
	//   ],
	//   "basis": {
	//     "lines[left].hose.length": "measured"
	//   },
	//   "tolerance": {
	//     "lines[left].hose.length": "2 ft"
	//   }
	// }
}

// What a dealer changes in the limits is named on every output.
func ExamplePolicy() {
	m, _ := demo.Model("D")
	strict := &rig.Policy{Limits: map[rig.Code]rig.Limit{
		"bypass-heating": {Stop: (10 * units.Minute).Quantity(), Who: "workshop", When: "2026-06-01", Why: "operators idle longer here"},
	}}
	rep, err := m.Assess(strict, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range rep.Findings() {
		if f.Override != "" {
			fmt.Println(f.Code, f.Severity, f.Limit.Text(units.US, 3), "—", f.Override)
		}
	}
	_, err = m.Assess(&rig.Policy{Limits: map[rig.Code]rig.Limit{
		"trailer-over-rating": {Stop: (12000 * units.Pound).Quantity(), Who: "sales", When: "today", Why: "customer insists"},
	}}, nil)
	fmt.Println(err)
	// Output:
	// bypass-heating stop 10 min — workshop, 2026-06-01: operators idle longer here
	// policy.limits[trailer-over-rating]: the limit is a plate, which no policy changes (want another code, or the rating in the specification)
}
