package travel

import (
	"errors"
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/internal/near"
	"ampstead/rig"
)

func TestStationNearbyGivesThePosition(t *testing.T) {
	s := stay("north", "2027-01-01", "2027-12-31")
	s.Near, s.Latitude, s.Longitude = "EGPE", nil, nil
	r := &rig.Rig{Route: []rig.Stay{s}}
	placed, err := withPlaces(r)
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "latitude", float64(*placed.Route[0].Latitude), 57.53, 0.05)
	near.Equal(t, "longitude", float64(*placed.Route[0].Longitude), -4.05, 0.05)
	if r.Route[0].Latitude != nil {
		t.Error("the rig itself was changed")
	}
}

func TestStationMustBeOne(t *testing.T) {
	for name, says := range map[string]string{"San": "several weather stations", "Xyzzy": "no weather station"} {
		s := stay("somewhere", "2027-01-01", "2027-12-31")
		s.Near = name
		_, err := withPlaces(&rig.Rig{Route: []rig.Stay{s}})
		var in *fit.InputError
		if !errors.As(err, &in) || !strings.Contains(in.Message, says) || in.Path != "route.somewhere.near" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
