package parts_test

import (
	"bytes"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"example.com/washrig/rig/parts"
)

// bigShelf is a dealer's export of n rows: pumps, hoses, nozzles and items in
// one table, units in the headings.
func bigShelf(n int) string {
	var b strings.Builder
	b.WriteString("\ufeffItem no.,Category,Description,Supplier no.,Our cost,Priced on,Lead days,Weight (lb),Flow (gpm),Max psi,Bore (in),Length (ft),Nozzle,Shelf place\r\n")
	for i := range n {
		common := fmt.Sprintf(`"sold by the piece, invented",SUP-%d,%d.%02d,2026-03-%02d,%d,%d`, i, 10+i%900, i%100, 1+i%28, i%60, 1+i%300)
		switch i % 4 {
		case 0:
			fmt.Fprintf(&b, "P%06d,Pump,%s,%d.%d,%d,,,,A%d\r\n", i, common, 1+i%20, i%10, 1000+i%4000, i)
		case 1:
			fmt.Fprintf(&b, "H%06d,Hose,%s,,%d,3/8,%d,,B%d\r\n", i, common, 3000+i%3000, 10+i%290, i)
		case 2:
			fmt.Fprintf(&b, "N%06d,Nozzle,%s,,,,,%d.5,C%d\r\n", i, common, 1+i%30, i)
		default:
			fmt.Fprintf(&b, "I%06d,Rack,%s,,,,,,D%d\r\n", i, common, i)
		}
	}
	return b.String()
}

var bigMapping = parts.Mapping{Name: "big", Columns: []parts.Column{
	{Name: "Item no.", Field: "number"},
	{Name: "Category", Field: "kind", Words: map[string]string{"Pump": "pump", "Hose": "hose", "Nozzle": "nozzle", "Rack": "item"}},
	{Name: "Description", Field: "description"},
	{Name: "Supplier no.", Field: "supplier_number"},
	{Name: "Our cost", Field: "cost", Currency: "USD"},
	{Name: "Priced on", Field: "price_date"},
	{Name: "Lead days", Field: "lead_time", Unit: "day"},
	{Name: "Weight (lb)", Field: "mass", Unit: "lb"},
	{Name: "Flow (gpm)", Field: "pump.rated_flow", Unit: "gpm"},
	{Name: "Max psi", Field: "pump.maximum_pressure", Unit: "psi"},
	{Name: "Max psi", Field: "hose.maximum_pressure", Unit: "psi"},
	{Name: "Bore (in)", Field: "hose.bore", Unit: "in"},
	{Name: "Length (ft)", Field: "hose.length", Unit: "ft"},
	{Name: "Nozzle", Field: "nozzle.number"},
}}

// held measures the memory that what f returns keeps alive.
func held[T any](f func() T) (T, float64) {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	x := f()
	runtime.GC()
	runtime.ReadMemStats(&after)
	return x, float64(after.HeapAlloc) - float64(before.HeapAlloc)
}

func BenchmarkReadCSV(b *testing.B) {
	const rows = 50_000
	text := bigShelf(rows)
	load := func() *parts.Catalog {
		c, rep, err := parts.ReadCSV(strings.NewReader(text), bigMapping, parts.CSVOptions{})
		if err != nil || c.Len() != rows {
			b.Fatalf("%v, %+v", err, rep.Problems[:min(len(rep.Problems), 3)])
		}
		return c
	}
	c, size := held(load)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		load()
	}
	runtime.KeepAlive(c)
	b.ReportMetric(size/(1<<20), "MiB-held")
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/row")
}

func BenchmarkReadJSON(b *testing.B) {
	const rows = 50_000
	c, _, err := parts.ReadCSV(strings.NewReader(bigShelf(rows)), bigMapping, parts.CSVOptions{})
	if err != nil {
		b.Fatal(err)
	}
	var text bytes.Buffer
	if err := c.WriteJSON(&text); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(text.Len()))
	b.ReportAllocs()
	for b.Loop() {
		c, err := parts.ReadJSON(bytes.NewReader(text.Bytes()), 0)
		if err != nil || c.Len() != rows {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/part")
}

func BenchmarkDigest(b *testing.B) {
	const rows = 50_000
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		c, _, err := parts.ReadCSV(strings.NewReader(bigShelf(rows)), bigMapping, parts.CSVOptions{})
		if err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		c.Digest()
	}
}
