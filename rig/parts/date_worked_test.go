package parts_test

import (
	"testing"

	"example.com/washrig/internal/worked"
)

func TestDate_DaysUntil_julian(t *testing.T) {
	for _, c := range []struct{ question, source, from, to, printed string }{
		{"How old is a price of 17 November 1858 on 1 January 2000?",
			"IAU resolution B1 of the XXIII General Assembly (1997): the modified Julian date is JD − 2 400 000.5, zero on 1858 November 17.0; J2000.0 is JD 2 451 545.0, noon of 2000 January 1",
			"1858-11-17", "2000-01-01", "51544 d"},
		{"How many days are 400 years of the calendar?",
			"Gregorian calendar: 97 leap years in 400 years, 400 × 365 + 97",
			"1600-03-01", "2000-03-01", "146097 d"},
		{"How many days lie between the epochs of Unix and of the modified Julian date?",
			"IEEE Std 1003.1, Seconds since the Epoch (1970-01-01); JD 2 440 587.5 at that instant, less 2 400 000.5",
			"1858-11-17", "1970-01-01", "40587 d"},
	} {
		worked.Check(t, worked.Case{Question: c.question, Source: c.source, Status: worked.Identity,
			Given: []string{"from " + c.from, "to " + c.to}, Printed: c.printed,
			Got: float64(day(t, c.from).DaysUntil(day(t, c.to)))})
	}
}
