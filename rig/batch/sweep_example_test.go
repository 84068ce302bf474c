package batch_test

import (
	"context"
	"fmt"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig/batch"
	"example.com/washrig/units"
)

// An analyst's sweep: one field over several values, the worst state of each
// result. The number after which a column turns bad is in the rows.
func Example_sweep() {
	model, _ := demo.Model("B")
	plan := batch.Plan{
		Variants: batch.Sweep("site.elevation", "0 ft", "4000 ft", "8000 ft"),
		Columns:  []batch.Column{"engines[washer].demand", "engines[washer].available", "heaters[heater].clean_firing"},
	}
	for row, err := range batch.Run(context.Background(), model, plan) {
		if err != nil {
			fmt.Println(row.Name, err)
			continue
		}
		fmt.Printf("%s:", row.Name)
		for _, c := range row.Cells {
			fmt.Printf(" %s", c.Reading.Text(units.US, 3))
		}
		fmt.Printf(" %v\n", row.Verdict)
	}
	// Output:
	// site.elevation = 0 ft: 14.8 hp 20.3 hp 4.44 gph fix
	// site.elevation = 4000 ft: 14.8 hp 17.5 hp 3.84 gph fix
	// site.elevation = 8000 ft: 14.8 hp 14.6 hp 3.3 gph stop
}
