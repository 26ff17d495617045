package rig

import "strings"

// nearest returns the word most like text, or "" when none is like it: at most
// a third of its letters changed, added, left out or swapped.
func nearest(text string, words []string) string {
	text = strings.ToLower(text)
	best, least := "", len([]rune(text))/3+1
	for _, w := range words {
		if len(w) > len(text)+least || len(text) > 4*len(w)+least {
			continue
		}
		if d := distance(text, w); d < least || d == least && best == "" {
			best, least = w, d
		}
	}
	return best
}

// distance counts the letters to change, add, leave out or swap with their
// neighbour to turn a into b (optimal string alignment, Damerau 1964).
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) > 60 {
		return len(x)
	}
	older, old, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range row {
		old[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			row[j] = min(old[j]+1, row[j-1]+1, old[j-1]+differs(x[i-1], y[j-1]))
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], older[j-2]+1)
			}
		}
		older, old, row = old, row, older
	}
	return old[len(y)]
}

func differs(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}
