package choose

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/rig"
)

// bill is what a battery costs, weighs and takes up; 0 is not known.
type bill struct {
	price, fetch float64
	currency     string
	massKg       float64
	litres       float64
	assumed      []string
}

// cost is price and fetching.
func (b *bill) cost() float64 { return b.price + b.fetch }

func billOf(r *rig.Rig, c *rig.Candidate) bill {
	if c == nil {
		return ownBill(r)
	}
	var b bill
	b.assumed = append(b.assumed, b.pay(c)...)
	if c.Mass != nil {
		b.massKg = float64(*c.Mass)
	}
	if c.Length != nil && c.Width != nil && c.Height != nil {
		b.litres = 1000 * float64(*c.Length) * float64(*c.Width) * float64(*c.Height)
	}
	return b
}

// pay takes price and what fetching costs.
func (b *bill) pay(c *rig.Candidate) (assumed []string) {
	if c.Price == nil {
		return []string{c.Name + ": no price is given"}
	}
	b.price, b.currency = c.Price.Amount, c.Price.Currency
	switch {
	case c.FetchCost != nil && c.FetchCost.Currency == b.currency:
		b.fetch = c.FetchCost.Amount
	case c.FetchCost != nil:
		assumed = append(assumed, fmt.Sprintf("%s: fetching it is in %s, its price in %s; fetching is not counted", c.Name, c.FetchCost.Currency, b.currency))
	case c.Fetch != nil && *c.Fetch > 0:
		assumed = append(assumed, c.Name+": what fetching it costs is not given and not counted")
	}
	return assumed
}

// bankWords end the name of a price of the bank: "salvaged module", not "module
// fuse".
var bankWords = []string{"module", "modules", "battery", "batteries", "pack", "packs", "cells"}

// ownBill adds up what the price list says of the bank; its volume is the box's.
func ownBill(r *rig.Rig) bill {
	var b bill
	for _, p := range r.Prices {
		if !aboutBank(p.Item) || b.currency != "" && p.Price.Currency != b.currency {
			continue
		}
		b.currency = p.Price.Currency
		b.price += p.Price.Amount * float64(max(1, p.Quantity))
		b.assumed = append(b.assumed, fmt.Sprintf("%s: its price is that of %d × %q in the price list", Own, max(1, p.Quantity), p.Item))
	}
	if r.Bank.Mass != nil {
		b.massKg = float64(*r.Bank.Mass)
	}
	if x := r.Bank.Box; x != nil {
		b.litres = 1000 * float64(*x.Length) * float64(*x.Width) * float64(*x.Height)
		b.assumed = append(b.assumed, Own+": its volume is that of the inside of its box")
	}
	return b
}

func aboutBank(item string) bool {
	words := strings.Fields(strings.ToLower(item))
	return len(words) > 0 && slices.Contains(bankWords, words[len(words)-1])
}
