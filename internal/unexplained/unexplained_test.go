package unexplained_test

import (
	"testing"

	"ampstead/internal/unexplained"
)

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		page string
		want int
	}{
		{`<p>the bank holds 3.2 kWh</p>`, 1},
		{`<p>3 groups on 2026-05-01</p>`, 0},
		{`<details class="how"><summary>3.2 kWh</summary></details>`, 0},
		{`<table><tr><td>4.1 V</td><td><details class="how"><summary>3.2 kWh</summary></details></td></tr><tr><td>5.2 V</td></tr></table>`, 1},
		{`<table><caption>Months <a class="why-link" href="#how-year">how</a></caption><tr><td>5.2 V and 7 A</td></tr></table>`, 0},
		{`<article class="finding"><p>12 V</p></article>`, 1},
		{`<article class="finding"><p>12 V</p><details class="how-found"><summary>how</summary></details></article>`, 0},
		{`<form><label>in 12 V</label></form><br><p class="caution">60 V</p>`, 0},
		{`<section id="a"><p>12 V to 14 V, 30 %</p></section>`, 3},
	} {
		got, err := unexplained.Numbers("<html><body>" + c.page + "</body></html>")
		if err != nil || len(got) != c.want {
			t.Errorf("%s: %v, %v; want %d", c.page, got, err, c.want)
		}
	}
}
