package rig

import "fmt"

func (c *checker) stayDates() {
	for i, s := range c.rig.Route {
		if s.From != nil && s.To != nil && s.To.Before(s.From.Time) {
			c.add(c.item("route", i)+".to", fmt.Sprintf("%s is before from, which is %s", s.To, s.From),
				"the last day there", s.From.AddDate(0, 1, 0).Format("2006-01-02"))
		}
	}
}

// overlaps lets one stay end on the day the next starts.
func (c *checker) overlaps() {
	for i, s := range c.rig.Route {
		for j := range i {
			other := c.rig.Route[j]
			if s.From == nil || s.To == nil || other.From == nil || other.To == nil {
				continue
			}
			if s.From.Before(other.To.Time) && other.From.Before(s.To.Time) {
				c.add(c.item("route", i)+".from", fmt.Sprintf("%s to %s overlaps the stay at %s, %s to %s",
					s.From, s.To, other.Name, other.From, other.To), "stays one after the other", "")
			}
		}
	}
}

func (c *checker) coldest() {
	for i, s := range c.rig.Route {
		if s.Coldest != nil && s.Hottest != nil && *s.Coldest > *s.Hottest {
			at := c.item("route", i)
			c.add(at+".coldest", fmt.Sprintf("%s is above hottest, which is %s",
				c.written(at+".coldest"), c.written(at+".hottest")), "a temperature below hottest", "")
		}
	}
}

func (c *checker) latitudes() {
	for i, s := range c.rig.Route {
		at := c.item("route", i)
		switch {
		case s.Near != "" && (s.Latitude != nil || s.Longitude != nil):
			c.add(at+".near", "near stands beside a position", "a station's name, or latitude and longitude", "")
		case s.Latitude != nil && s.Longitude == nil && c.written(at+".longitude") == "":
			c.add(at+".latitude", "latitude stands without longitude", "both, or neither", "longitude: 7.6 °W")
		case s.Longitude != nil && s.Latitude == nil && c.written(at+".latitude") == "":
			c.add(at+".longitude", "longitude stands without latitude", "both, or neither", "latitude: 37.2 °N")
		}
	}
}
