package units

// Above returns the absolute pressure of p over the pressure around it:
// 100 psi above 14.7 psia is 114.7 psia.
func (x Pressure) Above(around AbsolutePressure) AbsolutePressure {
	return around + AbsolutePressure(x)
}

// Gauge returns how far x lies above the pressure around it; below, it is
// negative.
func (x AbsolutePressure) Gauge(around AbsolutePressure) Pressure {
	return Pressure(x - around)
}
