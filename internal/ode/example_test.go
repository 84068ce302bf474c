package ode_test

import (
	"fmt"

	"example.com/washrig/internal/ode"
)

func ExampleSolver_Integrate() {
	// A pan of 4.2 kJ/K is heated with 1 kW from 20 °C: when does it reach 80 °C?
	var s ode.Solver
	y := []float64{20}
	hot := ode.Event{G: func(_ float64, y []float64) float64 { return y[0] - 80 }, Direction: +1}
	r, err := s.Integrate(func(_ float64, y, dydt []float64) { dydt[0] = 1000 / 4200.0 }, 0, 3600, y, ode.Options{}, hot)
	fmt.Printf("%.3f s, %.3f °C, event %d, %v\n", r.T, y[0], r.Event, err)
	// Output: 252.000 s, 80.000 °C, event 0, <nil>
}
