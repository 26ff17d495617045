package choose

import (
	"errors"
	"strings"
	"testing"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

func TestWishes(t *testing.T) {
	r := &rig.Rig{Candidates: []rig.Candidate{{Price: &q.Money{Amount: 100, Currency: "EUR"}}}}
	us := *r
	us.About.Units = "us"
	for _, c := range []struct {
		rig  *rig.Rig
		w    Wishes
		want Options
	}{
		{r, Wishes{}, Options{}},
		{r, Wishes{"2500 EUR", "60 kg", "20 h", "10 years"}, Options{Budget: 2500, Mass: 60, ShortHours: 20, Life: 10}},
		{r, Wishes{" 2500 ", "60", "20", "10"}, Options{Budget: 2500, Mass: 60, ShortHours: 20, Life: 10}},
		{r, Wishes{"", "100 lb", "", "8 y"}, Options{Mass: 45.359237, Life: 8}},
		{&us, Wishes{Mass: "100"}, Options{Mass: 45.359237}},
	} {
		var o Options
		if err := c.w.Into(&o, c.rig); err != nil {
			t.Errorf("%+v: %v", c.w, err)
		}
		if o.Budget != c.want.Budget || max(o.Mass-c.want.Mass, c.want.Mass-o.Mass) > 1e-9 || o.ShortHours != c.want.ShortHours || o.Life != c.want.Life {
			t.Errorf("%+v: %+v", c.w, o)
		}
	}
	for _, c := range []struct {
		w          Wishes
		path, says string
	}{
		{Wishes{Budget: "-5"}, "budget", "more than nothing"}, {Wishes{Budget: "90 USD"}, "budget", "are in EUR, not in USD"}, {Wishes{Budget: "cheap"}, "budget", ""},
		{Wishes{Mass: "60 V"}, "mass", ""}, {Wishes{Mass: "0"}, "mass", "more than nothing"}, {Wishes{Short: "NaN"}, "short", ""}, {Wishes{Life: "long"}, "life", ""}, {Wishes{Life: "Inf"}, "life", ""},
	} {
		err := c.w.Into(&Options{}, r)
		var in *fit.InputError
		if !errors.As(err, &in) || in.Path != c.path || !strings.Contains(in.Message, c.says) {
			t.Errorf("%+v: %v", c.w, err)
		}
	}
}
