package choose

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Wishes are the constraints of a search as a person writes them: quantities with
// units or bare numbers, empty for none.
type Wishes struct {
	Budget string // "2500 EUR"; a bare number is in the currency of the file
	Mass   string // "80 kg"; a bare number is in the units of the file
	Short  string // most hours short a year, "20 h"
	Life   string // least years of life, "10 years"
}

// Into reads the wishes into options. Errors: *fit.InputError, its path "budget",
// "mass", "short" or "life".
func (w Wishes) Into(o *Options, r *rig.Rig) error {
	sys, _ := q.ParseSystem(r.About.Units)
	for _, one := range []struct {
		path, text, eg string
		read           func(text string) (float64, error)
		to             *float64
	}{
		{"budget", w.Budget, "2500", func(text string) (float64, error) { return price(text, r) }, &o.Budget},
		{"mass", w.Mass, "80 kg", func(text string) (float64, error) { return measure(text, q.Kilograms, q.Kilograms.Show(1, sys)) }, &o.Mass},
		{"short", w.Short, "20 h", func(text string) (float64, error) { return measure(text, q.Hours, "h") }, &o.ShortHours},
		{"life", withoutYears(w.Life), "10 years", func(text string) (float64, error) { return measure(text, q.Plain, "") }, &o.Life},
	} {
		text := strings.TrimSpace(one.text)
		if text == "" {
			continue
		}
		v, err := one.read(text)
		if err == nil && (!(v > 0) || math.IsInf(v, 0)) {
			err = errors.New("it has to be more than nothing")
		}
		if err != nil {
			return &fit.InputError{Path: one.path, Message: err.Error(), Expected: "a number, with or without its unit", Example: one.eg}
		}
		*one.to = v
	}
	return nil
}

// price reads an amount, or a bare number of the currency of the candidates.
func price(text string, r *rig.Rig) (float64, error) {
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return v, nil
	}
	m, err := q.ParseMoney(text)
	if err != nil {
		return 0, err
	}
	if has := currencies(r); len(has) > 0 && !slices.Contains(has, m.Currency) {
		return 0, errors.New("the prices in the file are in " + strings.Join(has, ", ") + ", not in " + m.Currency)
	}
	return m.Amount, nil
}

func currencies(r *rig.Rig) []string {
	var list []string
	for i := range r.Candidates {
		if p := r.Candidates[i].Price; p != nil && !slices.Contains(list, p.Currency) {
			list = append(list, p.Currency)
		}
	}
	return list
}

// measure reads a quantity, or a bare number in a unit.
func measure(text string, d *q.Dimension, unit string) (float64, error) {
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		text = strings.TrimSpace(text + " " + unit)
	}
	return d.Parse(text)
}

// withoutYears takes away the word after a number of years.
func withoutYears(text string) string {
	text = strings.TrimSpace(text)
	for _, word := range []string{"years", "year", "yr", "y"} {
		if rest, ok := strings.CutSuffix(text, word); ok {
			return strings.TrimSpace(rest)
		}
	}
	return text
}
