package parts_test

import (
	"fmt"
	"strings"

	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// A dealer's export, the mapping that explains its columns, and what becomes of
// a row that is wrong.
func ExampleReadCSV() {
	export := `Item no.,Category,Our cost,Flow (gpm),Max psi
P68,Pump,890.00,6.8,3500
P44,Pump,612.50,"4,4",3500
P36,Pump,540.00,13.6 L/min,3000
`
	shelf, report, err := parts.ReadCSV(strings.NewReader(export), parts.Mapping{
		Name: "own shelf",
		Columns: []parts.Column{
			{Name: "Item no.", Field: "number"},
			{Name: "Category", Field: "kind", Words: map[string]string{"Pump": "pump"}},
			{Name: "Our cost", Field: "cost", Currency: "USD"},
			{Name: "Flow (gpm)", Field: "pump.rated_flow", Unit: "gpm"},
			{Name: "Max psi", Field: "pump.maximum_pressure", Unit: "psi"},
		},
		Fixed: map[string]string{"price_date": "2026-03-01"},
	}, parts.CSVOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range shelf.Parts("") {
		fmt.Println(p.Number, p.Cost, p.Pump.RatedFlow.Text(units.GallonPerMinute, 1), p.PriceDate)
	}
	for i := range report.Problems {
		p := &report.Problems[i]
		fmt.Printf("row %d, column %d, %s\n", p.Row, p.Column, p.Name)
	}
	// Output:
	// P36 540.00 USD 3.6 gpm 2026-03-01
	// P68 890.00 USD 6.8 gpm 2026-03-01
	// row 3, column 4, Flow (gpm)
}

func exampleShelf() *parts.Catalog {
	var list []parts.Part
	for _, n := range []units.NozzleNumber{3.5, 4, 4.5, 5} {
		list = append(list, parts.Part{Number: fmt.Sprintf("N%g", float64(n)), Kind: "nozzle", Nozzle: &parts.Nozzle{Number: n}})
	}
	for _, flow := range []units.VolumeFlow{3.6, 4.4, 6.8} {
		list = append(list, parts.Part{Number: fmt.Sprintf("P%.0f", 10*float64(flow)), Kind: "pump", Pump: &parts.Pump{RatedFlow: flow * units.GallonPerMinute}})
	}
	shelf, err := parts.NewCatalog("example", list...)
	if err != nil {
		panic(err)
	}
	return shelf
}

func ExampleCatalog_Find() {
	list, err := exampleShelf().Find(parts.KindPump, parts.Between("pump.rated_flow", 4*units.GallonPerMinute, 8*units.GallonPerMinute))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range list {
		fmt.Println(p.Number)
	}
	// Output:
	// P44
	// P68
}

// What the shelf has next to a nozzle of number 4.27.
func ExampleCatalog_Neighbours() {
	n, err := exampleShelf().Neighbours(parts.KindNozzle, "nozzle.number", units.NozzleNumber(4.27))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(n.Below[0].Number, len(n.At), n.Above[0].Number)
	// Output: N4 0 N4.5
}

// The dealer's own prices over a supplier's list.
func ExampleLayer() {
	supplier, err := parts.NewCatalog("supplier", parts.Part{Number: "R1", Kind: "item"}, parts.Part{Number: "R2", Kind: "item"})
	if err != nil {
		fmt.Println(err)
		return
	}
	own, err := parts.NewCatalog("own", parts.Part{Number: "R2", Kind: "item", Description: "rack, powder coated"})
	if err != nil {
		fmt.Println(err)
		return
	}
	shelf, err := parts.Layer(supplier, own)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range shelf.Parts("") {
		from, _ := shelf.Origin(p.Number)
		fmt.Printf("%s from %s: %q\n", p.Number, from, p.Description)
	}
	// Output:
	// R1 from supplier: ""
	// R2 from own: "rack, powder coated"
}

func ExampleCatalog_WriteCSV() {
	var b strings.Builder
	if err := exampleShelf().WriteCSV(&b, parts.Mapping{Columns: []parts.Column{
		{Name: "Item no.", Field: "number"},
		{Name: "Category", Field: "kind"},
		{Name: "Flow (gpm)", Field: "pump.rated_flow", Unit: "gpm"},
		{Name: "Nozzle", Field: "nozzle.number"},
	}}); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(strings.ReplaceAll(b.String(), "\r\n", "\n"))
	// Output:
	// Item no.,Category,Flow (gpm),Nozzle
	// N3.5,nozzle,,3.5
	// N4,nozzle,,4
	// N4.5,nozzle,,4.5
	// N5,nozzle,,5
	// P36,pump,3.6,
	// P44,pump,4.4,
	// P68,pump,6.8,
}
