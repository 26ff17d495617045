package web

import (
	"net/http"

	"ampstead/home"
)

type findingsPage struct {
	Frame  frame
	Tally  string
	Unsaid string
	Found  []foundRow
	Chains []string // how the stages that ran reckon
}

// findings shows all that was found in full.
func (s *site) findings(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	known := s.known(r.Context(), now)
	res := home.Of(known)
	p := findingsPage{Frame: s.frame(r, "overview", "All findings", now), Tally: tallyText(res), Unsaid: unsaidText(res),
		Found: foundRows(s.homeModel(now, known), res, now.places()), Chains: chainsOf(known)}
	s.render(w, http.StatusOK, "findings", p)
}

// chainsOf names how each stage that ran reckons.
func chainsOf(k home.Known) []string {
	list := []string{"settings"}
	for _, c := range []struct {
		key string
		has bool
	}{{"wiring", k.Wire != nil}, {"faults", k.Drill != nil}, {"year", k.Travel != nil}, {"bench", k.Proof != nil}, {"log", k.Kept != nil && k.Kept.Readings > 0}, {"compare", k.Choice != nil}} {
		if c.has {
			list = append(list, c.key)
		}
	}
	return list
}

func unsaidText(res *home.Result) string {
	text := ""
	for _, stage := range res.Unsaid {
		text = joined(text, unsaidWords[stage])
	}
	return text
}
