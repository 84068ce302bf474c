package glycol_test

import (
	"fmt"

	"example.com/washrig/internal/glycol"
)

func ExampleForFreezingPoint() {
	// Propylene glycol for −20 °F.
	w, err := glycol.ForFreezingPoint(glycol.Propylene, 244.26)
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := glycol.VolumeFraction(glycol.Propylene, w)
	fmt.Printf("%.0f %% by mass, %.0f %% by volume, %v\n", 100*w, 100*v, err)
	// Output: 48 % by mass, 47 % by volume, <nil>
}
