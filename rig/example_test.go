package rig_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
	"example.com/washrig/rig/batch"
	"example.com/washrig/rig/parts"
	"example.com/washrig/rig/quote"
	"example.com/washrig/rig/sheet"
	"example.com/washrig/units"
)

// A quoting app's whole handler: read, resolve, assess, price, print. Problems
// come with the path of the form field they belong to.
func Example_quotingHandler() {
	shelf, _ := demo.Shelf()
	book, _ := demo.Book()
	handler := func(w http.ResponseWriter, req *http.Request) {
		spec, err := rig.ReadSpec(req.Body, rig.ReadLimits{})
		var model *rig.Model
		if err == nil {
			model, err = rig.New(spec, shelf)
		}
		if err != nil {
			w.WriteHeader(http.StatusBadRequest)
			for _, e := range problems(err) {
				fmt.Fprintf(w, "%s: %v\n", e.Path, e)
			}
			return
		}
		report, err := model.Assess(nil, nil)
		var q *quote.Quote
		if err == nil {
			q, err = quote.Of(model, book)
		}
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		_ = sheet.WriteText(w, report, q, sheet.Options{})
	}

	post := func(body string) string {
		rec := httptest.NewRecorder()
		handler(rec, httptest.NewRequest(http.MethodPost, "/", strings.NewReader(body)))
		return rec.Body.String()
	}
	var good bytes.Buffer
	spec, _ := demo.Spec("D")
	_ = spec.Write(&good)
	for i, line := range strings.Split(post(good.String()), "\n") {
		if i < 3 {
			fmt.Println(line)
		}
	}
	fmt.Print(post(strings.Replace(good.String(), `"5200 ft"`, `"5200"`, 1)))
	// Output:
	// Rig D: two guns off the back of the quote
	// =========================================
	// STOP. Found: 3 × stop, 1 × fix, 4 × note.
	// site.elevation: line 6, column 18: site.elevation = 5200: a number without a unit (want 5200 ft or 1580 m)
}

// problems lists the input errors inside a joined error.
func problems(err error) []*rig.Problem {
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		var out []*rig.Problem
		for _, e := range list.Unwrap() {
			out = append(out, problems(e)...)
		}
		return out
	}
	var p *rig.Problem
	if errors.As(err, &p) {
		return []*rig.Problem{p}
	}
	var f *units.FieldError
	if errors.As(err, &f) {
		return []*rig.Problem{{Path: f.Path, Err: err}}
	}
	return []*rig.Problem{{Err: err}}
}

// An analyst's sweep: one field over several values, the worst state of each
// result. The number after which a column turns bad is in the rows.
func Example_sweep() {
	model, _ := demo.Model("B")
	plan := batch.Plan{
		Variants: batch.Sweep("site.elevation", "0 ft", "4000 ft", "8000 ft"),
		Columns:  []rig.Path{"engines[washer].demand", "engines[washer].available", "heaters[heater].clean_firing"},
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
	// policy.limits[trailer-over-rating]: values contradict each other (want another code; a plate cannot be relaxed)
}
