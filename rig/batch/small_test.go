package batch_test

import (
	"strings"
	"testing"

	"example.com/washrig/rig"
)

// small is a rig of a few components, for tests of what surrounds the numbers:
// it is quick, and what is added to the demo does not change it.
func small(t testing.TB) *rig.Model {
	t.Helper()
	s, err := rig.ReadSpec(strings.NewReader(`{
		"format": "washrig/1", "name": "small",
		"site": {"elevation": "5200 ft", "water": "45 °F", "conditions": [{"id": "afternoon", "air": "95 °F"}]},
		"engines": [{"id": "washer", "gross_power": "16 hp", "continuous_share": "90 %", "loss_per_1000_ft": "3.5 %", "loss_per_10_f": "1 %"}],
		"pumps": [{"id": "main", "rated_flow": "4.4 gpm", "maximum_pressure": "3500 psi", "maximum_inlet_temperature": "145 °F", "efficiency": "88 %", "engine": "washer", "belt_efficiency": "96 %",
			"tank": "fresh", "unloader": {"setting": "2900 psi", "return_to": "tank"}, "relief": {"setting": "3400 psi"}}],
		"heaters": [{"id": "heater", "pump": "main", "efficiency": "84 %", "heating_value": "138500 BTU/gal", "clean_firing": "3.2 gph", "thermostat": "166 °F", "high_limit": "200 °F"}],
		"lines": [{"id": "left", "pump": "main", "hose": {"bore": "0.375 in", "length": "150 ft"}, "nozzle": {"number": "5.5"}},
			{"id": "right", "pump": "main", "hose": {"bore": "0.375 in", "length": "150 ft"}, "nozzle": {"number": "5.5"}}],
		"tanks": [{"id": "fresh", "nominal": "240 gal", "usable": "232 gal"}]
	}`), rig.ReadLimits{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := rig.New(s, nil)
	if err != nil {
		t.Fatal(err)
	}
	return m
}
