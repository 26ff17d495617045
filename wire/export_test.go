package wire

// RuleIDs lists what is looked for.
func RuleIDs() []string {
	var ids []string
	for _, r := range rules {
		ids = append(ids, r.id)
	}
	return ids
}
