package finding

// Merge joins the findings of several stages, most urgent first. What two stages
// found alike, of one rule at one place, stands there once.
func Merge(lists ...[]Finding) []Finding {
	type key struct{ id, where string }
	seen := map[key]bool{}
	merged := []Finding{}
	for _, list := range lists {
		for _, f := range list {
			if k := (key{f.ID, f.Where}); !seen[k] {
				seen[k] = true
				merged = append(merged, f)
			}
		}
	}
	Sort(merged)
	return merged
}
