package sheet_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig/sheet"
)

// The deck of a rig as an SVG file, to be printed, mailed or put into a page.
func ExampleDeck() {
	model, _ := demo.Model("B")
	report, err := model.Assess(nil, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	drawing, ok, err := sheet.Deck(report, nil)
	if err != nil || !ok {
		fmt.Println("nothing to draw:", err)
		return
	}
	dir, err := os.MkdirTemp("", "deck")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	file, err := os.Create(filepath.Join(dir, "rig-b-deck.svg"))
	if err != nil {
		fmt.Println(err)
		return
	}
	err = drawing.WriteSVG(file)
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, line := range drawing.Words() {
		if strings.HasPrefix(line, "I ") { // the first travel state
			fmt.Println(line)
		}
	}
	// Output:
	// I leaving the depot, fresh tank full: 6926 lb in all; tongue 917.3 lb, 13.24 %; axle group 6009 lb; each axle 3004 lb; left wheels 2989 lb, right 3019 lb; centre of mass 10.93 ft aft of the ball, 0.1993 in right, 2.759 ft high.
}
