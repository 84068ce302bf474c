package rig_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/washrig/rig"
	"example.com/washrig/rig/parts"
	"example.com/washrig/units"
)

// fromDeck is a trailer whose places are counted from the front edge of its deck, which
// lies four feet behind the ball: a frame of 2,000 lb seven feet behind the edge, a skid
// of 600 lb two feet behind it, the axles eight feet behind it.
func fromDeck() *rig.Spec {
	return &rig.Spec{Name: "from the deck",
		Trailer: &rig.Trailer{Stock: rig.Stock{ID: "chassis", Mass: 2000 * units.Pound, X: feet(7)},
			Trailer: parts.Trailer{Axles: 2, AxleGroup: feet(8), Coupler: feet(-4)}},
		Items: []rig.Item{{Stock: rig.Stock{ID: "skid", Mass: 600 * units.Pound, X: feet(2)}}},
	}
}

// By hand, moments about the axles, 12 ft behind the ball: 2000·(8 − 7)/12 + 600·(8 − 2)/12
// = 466.67 lb on the tongue; the centre of mass is (2000·11 + 600·6)/2600 = 9.846 ft behind
// the ball.
func TestOrigin_frontOfTheDeck(t *testing.T) {
	t.Parallel()
	m, r, err := mustModel(fromDeck())
	if err != nil {
		t.Fatal(err)
	}
	at, err := m.ParseState("fill=corner:dry")
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		path rig.Path
		want float64
		unit units.Quantity
	}{
		{"trailer.tongue", 466.6667, units.Pound.Quantity()},
		{"trailer.group", 2133.3333, units.Pound.Quantity()},
		{"trailer.centre_aft", 9.8462, units.Foot.Quantity()},
	} {
		have, ok := r.At(x.path, at)
		if got := have.Value.SI() / x.unit.SI(); !ok || math.Abs(got-x.want) > 5e-5 {
			t.Errorf("%s is %g, want %g", x.path, got, x.want)
		}
	}
}

// A place that no trailer reaches from its coupler is refused, wherever the origin is.
func TestOrigin_refuses(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		name   string
		change rig.Change
		want   string
	}{
		{"an axle ahead of the ball", rig.Set("trailer.axle_group", "-4 ft"), "trailer.axle_group = -4 ft: outside the accepted range (want from 1 ft to 100 ft aft of the coupler, which is at -4 ft)"},
		{"a place counted from elsewhere", rig.Set("items[skid].x", "-30 ft"), "items[skid].x = -30 ft: outside the accepted range (want from -20 ft to 200 ft aft of the coupler, which is at -4 ft)"},
		{"a slip of the decimal point", rig.Set("trailer.jack", "120 ft"), "trailer.jack = 120 ft: outside the accepted range (want from -10 ft to 100 ft aft of the coupler, which is at -4 ft)"},
	} {
		s := fromDeck()
		if err := s.Apply(x.change); err != nil {
			t.Fatal(err)
		}
		_, err := rig.New(s, nil)
		if !errors.Is(err, units.ErrRange) || !strings.Contains(err.Error(), x.want) {
			t.Errorf("%s: %v\nwant %s", x.name, err, x.want)
		}
	}
}
