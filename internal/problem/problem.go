package problem

import (
	"errors"
	"strconv"

	"example.com/washrig/units"
)

// Words returns an error that reads as the words and is kind for errors.Is.
func Words(words string, kind error) error { return &worded{words, kind} }

type worded struct {
	words string
	kind  error
}

func (w *worded) Error() string { return w.words }
func (w *worded) Unwrap() error { return w.kind }

// A Quantity is any scalable kind of package units.
type Quantity interface {
	~float64
	String() string
}

// A List collects problems in the order in which they are added. The zero List is
// empty.
type List []error

// Add adds a problem with one field; value is empty where none was given.
func (p *List) Add(path, value, want string, kind error) {
	*p = append(*p, &units.FieldError{Path: path, Value: value, Want: want, Err: kind})
}

// Take adds what a part reports, behind the path of the part.
func (p *List) Take(path string, err error) {
	if err != nil {
		*p = append(*p, units.At(path, err))
	}
}

// Join returns the problems as one error, nil where there are none.
func (p List) Join() error { return errors.Join(p...) }

// Within asks for a given value from lo to hi; zero means not given.
func Within[Q Quantity](p *List, path string, v Q, lo, hi float64) {
	if v == 0 {
		p.Add(path, "", Q(lo).String()+" to "+Q(hi).String(), units.ErrMissing)
		return
	}
	Between(p, path, v, lo, hi)
}

// Between asks for a value from lo to hi; zero is a value like any other.
func Between[Q Quantity](p *List, path string, v Q, lo, hi float64) {
	if !(float64(v) >= lo && float64(v) <= hi) {
		p.Add(path, v.String(), Q(lo).String()+" to "+Q(hi).String(), units.ErrRange)
	}
}

// Number asks for a dimensionless value from lo to hi.
func Number(p *List, path string, v, lo, hi float64) {
	if !(v >= lo && v <= hi) {
		p.Add(path, Format(v), Format(lo)+" to "+Format(hi), units.ErrRange)
	}
}

// Whole asks for a count from lo to hi.
func Whole(p *List, path string, v, lo, hi int) {
	if v < lo || v > hi {
		p.Add(path, strconv.Itoa(v), strconv.Itoa(lo)+" to "+strconv.Itoa(hi), units.ErrRange)
	}
}

// Format writes a plain number as errors show it.
func Format(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// At names the i-th element of a list by its position from 1.
func At(list string, i int) string { return list + "[#" + strconv.Itoa(i+1) + "]" }

// Element names the i-th element of a list: by name where that is an identifier, else
// by its position.
func Element(list, name string, i int) string {
	if identifier(name) {
		return list + "[" + name + "]"
	}
	return At(list, i)
}

func identifier(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if !(c >= 'a' && c <= 'z' || i > 0 && (c >= '0' && c <= '9' || c == '-')) {
			return false
		}
	}
	return s != ""
}
