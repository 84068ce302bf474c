package thermal

import (
	"testing"

	"example.com/washrig/internal/worked"
	"example.com/washrig/units"
)

func TestTimeToLoss_worked(t *testing.T) {
	s := Scaling{Hardness: 300e-6, Deposited: 0.03, Flow: 3.5 * units.GallonPerMinute, Bore: 0.546 * units.Inch, Length: 50 * units.Foot}
	got := must[ScaleEstimate](t)(s.TimeToLoss(50*units.PSI, 100*units.PSI))
	given := []string{"hardness 300 mg/L, 3 % of it stays", "3.5 gpm", "bore 0.546 in, 50 ft of it hot", "50 psi clean, 100 psi more"}
	worked.Check(t, worked.Case{
		Question: "The coil has lost 100 psi more than when it was clean: how thick is the scale?",
		Source:   "fifth power of the bore by hand: 0.546 in × (1 − 3^(−1/5))/2",
		Status:   worked.Identity, Given: given,
		Printed: "1.368 mm", Got: got.Thickness.In(units.Millimeter),
	})
	worked.Check(t, worked.Case{
		Question: "How many hours of hot running did that take?",
		Source:   "mass balance by hand: 2,440 kg/m³ × π × 12.500 mm × 1.3678 mm × 15.24 m = 1.9975 kg over 3.5 gpm × 300 mg/L × 0.03",
		Status:   worked.Identity, Given: given,
		Printed: "279.2 h", Got: got.Time.In(units.Hour),
	})
}
