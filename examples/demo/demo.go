// Package demo embeds the one demo scenario of the project: a shelf of parts
// and four rigs for the same work. Everything in it is invented.
//
// The scenario is soil and weed-seed wash-down of earth movers on an upland
// site at 5,200 ft without mains: two operators where two guns are wanted,
// wash water caught on a bermed pad and kept apart, 160 °F at the gun and 2,200
// to 2,600 psi at the nozzle.
package demo

import (
	"bytes"
	"embed"
	"fmt"
	"strings"

	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
)

//go:embed *.json
var files embed.FS

// Names lists the rigs: A one gun, B two guns on one pump, C two guns on two
// skids, D "off the back of the quote".
func Names() []string { return []string{"A", "B", "C", "D"} }

// Spec returns the specification of a rig as its file is written.
func Spec(name string) (*rig.Spec, error) {
	b, err := files.ReadFile("rig-" + strings.ToLower(name) + ".json")
	if err != nil {
		return nil, fmt.Errorf("demo: no rig %q; there are A, B, C and D", name)
	}
	return rig.ReadSpec(bytes.NewReader(b), rig.ReadLimits{})
}

// Shelf returns the parts the rigs are made of.
func Shelf() (*parts.Catalog, error) {
	b, err := files.ReadFile("parts.json")
	if err != nil {
		return nil, err
	}
	return parts.ReadJSON(bytes.NewReader(b), 0)
}

// Model returns a rig of the scenario, resolved.
func Model(name string) (*rig.Model, error) {
	s, err := Spec(name)
	if err != nil {
		return nil, err
	}
	shelf, err := Shelf()
	if err != nil {
		return nil, err
	}
	return rig.New(s, shelf)
}

// Book returns the price book of the scenario.
func Book() (*quote.Book, error) {
	b, err := files.ReadFile("book.json")
	if err != nil {
		return nil, err
	}
	return quote.ReadBook(bytes.NewReader(b))
}
