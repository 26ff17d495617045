package rig

import (
	"strconv"
	"strings"

	q "ampstead/quantity"
)

// expected says in words what the field takes.
func (f *field) expected() string {
	switch f.kind {
	case whole:
		return "a whole number"
	case yesNo:
		return "yes or no"
	case amount:
		return f.dim.Article
	case setting:
		return f.dim.Article + " or off"
	case size:
		return "a conductor size"
	case money:
		return "an amount with its currency"
	case day:
		return "a date as year-month-day"
	case block:
		return "keys below it: " + strings.Join(f.inner.keys(), ", ")
	case blocks:
		return "a list, each item behind a dash"
	}
	if f.oneof != nil {
		return either(f.oneof)
	}
	return f.doc
}

// within is expected with the bounds named.
func (f *field) within() string {
	switch f.kind {
	case setting:
		return f.dim.Article + f.between() + ", or off"
	case whole, amount:
		return f.expected() + f.between()
	}
	return f.expected()
}

// between names the bounds, if there are two.
func (f *field) between() string {
	if f.low == nil || f.high == nil {
		return ""
	}
	return " from " + f.bound(*f.low) + " to " + f.bound(*f.high)
}

func (f *field) bound(v float64) string {
	if f.dim == nil {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return f.dim.Text(v, q.Metric)
}

// example is a value as a person writes it.
func (f *field) example() string {
	switch {
	case f.eg != "":
		return f.eg
	case len(f.oneof) > 0:
		return f.oneof[0]
	}
	return ""
}

// line is the example with its key in front.
func (f *field) line() string {
	if f.example() == "" {
		return ""
	}
	return f.key + ": " + f.example()
}

// listExample is the first needed key of an item.
func (f *field) listExample() string {
	for i := range f.inner.fields {
		if g := &f.inner.fields[i]; g.need && g.eg != "" {
			return "- " + g.line()
		}
	}
	return ""
}

// either writes "a, b or c".
func either(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// oneOf writes "one of a, b, c".
func oneOf(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return "one of " + strings.Join(words, ", ")
}
