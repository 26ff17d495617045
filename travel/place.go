package travel

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/weather/climate"
)

// withPlaces returns the rig with the position of every stay that only names a
// station nearby filled in; r itself stays as it is. Errors: *fit.InputError for
// a name that no station or several stations bear.
func withPlaces(r *rig.Rig) (*rig.Rig, error) {
	if !slices.ContainsFunc(r.Route, func(s rig.Stay) bool { return s.Near != "" }) {
		return r, nil
	}
	placed := *r
	placed.Route = slices.Clone(r.Route)
	for k := range placed.Route {
		s := &placed.Route[k]
		if s.Near == "" {
			continue
		}
		p, err := station(s)
		if err != nil {
			return nil, err
		}
		s.Latitude, s.Longitude = new(q.Latitude(p.Latitude)), new(q.Longitude(p.Longitude))
		if s.Elevation == nil {
			s.Elevation = new(q.Length(p.Elevation))
		}
	}
	return &placed, nil
}

// station finds the one station a stay names: by its whole name or code, or by
// a part that only one of them has.
func station(s *rig.Stay) (climate.Place, error) {
	found, err := climate.Find(s.Near)
	if err != nil {
		return climate.Place{}, err
	}
	whole := slices.DeleteFunc(slices.Clone(found), func(p climate.Place) bool {
		return !strings.EqualFold(p.Name, s.Near) && !strings.EqualFold(p.Code, s.Near)
	})
	if len(whole) == 1 {
		return whole[0], nil
	}
	if len(found) == 1 {
		return found[0], nil
	}
	bad := &fit.InputError{Path: "route." + s.Name + ".near", Message: fmt.Sprintf("no weather station is called %q", s.Near),
		Expected: "a station of the built-in list, or latitude and longitude", Example: "latitude: 37.2 °N"}
	if len(found) > 0 {
		bad.Message = fmt.Sprintf("several weather stations fit %q", s.Near)
		bad.Expected = "one of " + candidates(found)
		bad.Example = "near: " + found[0].Code
	}
	return climate.Place{}, bad
}

// candidates lists the first few places that fit, each with its code.
func candidates(found []climate.Place) string {
	var names []string
	for _, p := range found[:min(len(found), 6)] {
		names = append(names, fmt.Sprintf("%s (%s)", p.Name, p.Code))
	}
	return strings.Join(names, ", ")
}
