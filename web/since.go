package web

import (
	"fmt"
	"strings"

	"ampstead/finding"
)

// since is what one edit did to the findings.
type since struct {
	Gone, New []finding.Finding
}

// sinceOf compares the findings before and after an edit; nil when there were none to
// compare, because nothing could be worked out.
func sinceOf(before, after *reading) *since {
	if before.result == nil || after.result == nil {
		return nil
	}
	was, is := before.found(), after.found()
	return &since{Gone: without(was, is), New: without(is, was)}
}

// without are the findings of a list that the other list does not have.
func without(list, other []finding.Finding) []finding.Finding {
	type key struct {
		id, where string
		severity  finding.Severity
	}
	has := map[key]bool{}
	for _, f := range other {
		has[key{f.ID, f.Where, f.Severity}] = true
	}
	var left []finding.Finding
	for _, f := range list {
		if !has[key{f.ID, f.Where, f.Severity}] {
			left = append(left, f)
		}
	}
	return left
}

// Text says it in a sentence.
func (s *since) Text() string {
	var parts []string
	if n := len(s.Gone); n > 0 {
		parts = append(parts, findings(n)+" gone")
	}
	if n := len(s.New); n > 0 {
		parts = append(parts, fmt.Sprintf("%d new", n))
	}
	if len(parts) == 0 {
		return "The last edit changed no finding"
	}
	return "The last edit: " + strings.Join(parts, ", ")
}

func findings(n int) string {
	if n == 1 {
		return "1 finding"
	}
	return fmt.Sprintf("%d findings", n)
}

// mostSaid is how many findings that came or went are told one by one.
const mostSaid = 3

// FirstGone and FirstNew are the ones that are told.
func (s *since) FirstGone() []finding.Finding { return s.Gone[:min(len(s.Gone), mostSaid)] }
func (s *since) FirstNew() []finding.Finding  { return s.New[:min(len(s.New), mostSaid)] }
