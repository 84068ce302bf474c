package rig_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/washrig/rig"
)

// Source: 29 CFR 1910.95 Appendix A, Table G-16A, as printed. The tolerance is half a
// unit of the last printed digit. Two rows are left out: copies of the table print 83
// dB(A) as 21.1 and as 21.2, and 104 as 1.1, which its own formula makes 1.15.
func TestNoise_29CFR1910_95_tableG16A(t *testing.T) {
	for _, row := range []string{"80 32", "81 27.9", "82 24.3", "84 18.4", "85 16", "86 13.9", "87 12.1", "88 10.6", "89 9.2", "90 8", "91 7.0", "92 6.1", "93 5.3", "94 4.6", "95 4",
		"96 3.5", "97 3.0", "98 2.6", "99 2.3", "100 2", "101 1.7", "102 1.5", "103 1.3", "105 1", "106 0.87", "107 0.76", "108 0.66", "109 0.57", "110 0.5", "111 0.44", "112 0.38", "113 0.33", "114 0.29", "115 0.25",
		"120 0.125", "125 0.063", "130 0.031"} {
		level, hours, _ := strings.Cut(row, " ")
		l, _ := strconv.ParseFloat(level, 64)
		want, _ := strconv.ParseFloat(hours, 64)
		half := 0.5
		if _, decimals, ok := strings.Cut(hours, "."); ok {
			half *= math.Pow10(-len(decimals))
		}
		if got, _ := rig.DoseHours(l); math.Abs(got-want) > half*(1+1e-9) {
			t.Errorf("%s dB(A): %.4g h, printed %s", level, got, hours)
		}
	}
}

// Source: NIOSH publication 98-126, 85 dB(A) for eight hours and 3 dB for each halving
// (from memory): 88 for four, 94 for one, 100 for a quarter.
func TestNoise_criterion(t *testing.T) {
	for level, want := range map[float64]float64{85: 8, 88: 4, 91: 2, 94: 1, 100: 0.25} {
		if _, got := rig.DoseHours(level); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v dB(A): %v h, want %v", level, got, want)
		}
	}
	// Inverse square: twice the distance, 10 log 4 = 6.0206 dB less; ten times, 20 dB.
	if got := rig.LevelAt(80, 7, 14); math.Abs(got-(80-6.0206)) > 5e-5 {
		t.Errorf("at twice the distance %v", got)
	}
	if got := rig.LevelAt(80, 1, 10); math.Abs(got-60) > 1e-12 {
		t.Errorf("at ten times the distance %v", got)
	}
}

// Two equal parts are 3.01 dB louder than one, and the dose of a day is its hours
// over the hours of the table: 6 h at the level of 92 dB(A), whose time is 6.06 h.
func TestNoise_rig(t *testing.T) {
	// Both guns at their operators' ears: the louder counts, not the sum.
	m := demoModel(t, "B", rig.Set("sources[portable].noise", "20"), rig.Set("lines[left].noise", "92"), rig.Set("lines[right].noise", "90"))
	r := assessed(t, m)
	worst, ok := r.Worst("duty.sound_level")
	if !ok || math.Abs(worst.Value.SI()-92) > 0.01 {
		t.Errorf("sound level %v", worst.Value)
	}
	dose, ok := r.Worst("duty.noise_dose")
	if want := 6 / 6.0629; !ok || math.Abs(dose.Value.SI()-want) > 0.001 {
		t.Errorf("dose %v, want %v", dose.Value, want)
	}
	none := demoModel(t, "B", rig.Set("sources[portable].part", ""), rig.Set("sources[portable].running", "4800 W"), rig.Set("sources[portable].starting", "5800 W"))
	if _, ok := assessed(t, none).Worst("duty.sound_level"); ok {
		t.Error("a level without any sound level given")
	}
}
