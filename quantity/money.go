package quantity

import (
	"strconv"
	"strings"
)

// Money is an amount in a named currency: "480 EUR".
type Money struct {
	Amount   float64
	Currency string // three capital letters
}

const (
	moneyWant = `an amount such as "480 EUR"`
	mostMoney = 1e12
)

// ParseMoney reads an amount with its three-letter currency code. Errors:
// *Error when the code is missing, a unit stands in its place or the amount is
// negative.
func ParseMoney(text string) (Money, error) {
	m, why := parseMoney(text)
	if why != "" {
		return Money{}, &Error{Text: text, Why: why, Want: moneyWant}
	}
	return m, nil
}

func parseMoney(text string) (Money, string) {
	amount, unit, why := split(text)
	code := strings.ToUpper(unit)
	switch {
	case why != "":
		return Money{}, why
	case unit == "":
		return Money{}, "has no currency"
	case len(code) != 3 || strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "":
		return Money{}, "has no three-letter currency"
	case amount < 0:
		return Money{}, "is negative"
	case amount > mostMoney:
		return Money{}, "is too large"
	}
	for _, written := range []string{unit, code} {
		if d := dimensionOf(written); d != nil {
			return Money{}, "is " + d.Article
		}
	}
	return Money{amount, code}, ""
}

// String shows the amount with its currency.
func (m Money) String() string {
	return strconv.FormatFloat(m.Amount, 'f', -1, 64) + " " + m.Currency
}
