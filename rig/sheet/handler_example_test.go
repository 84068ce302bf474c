package sheet_test

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"

	"example.com/washrig/examples/demo"
	"example.com/washrig/rig"
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
		if i < 2 {
			fmt.Println(line)
		}
	}
	fmt.Print(post(strings.Replace(good.String(), `"5200 ft"`, `"5200"`, 1)))
	// Output:
	// Rig D: two guns off the back of the quote
	// =========================================
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
