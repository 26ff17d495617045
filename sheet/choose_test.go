package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/choose"
	"ampstead/internal/choosesample"
	q "ampstead/quantity"
	"ampstead/sheet"
)

func compared(t testing.TB, sys q.System, paper bool) *sheet.Model {
	m := model(t, sys)
	m.Paper = paper
	return m.WithChoice(choosesample.Result())
}

func TestChooseAnswer(t *testing.T) {
	said := strings.Join(append(sheet.ChooseAnswer(choosesample.Result(), q.Metric), sheet.SearchedWords(choosesample.Result())...), " ")
	for _, want := range []string{"One large module: longest life (14 years, band 6.3 to 17), cheapest for what it delivers (0.13 EUR a kWh) and lightest for its energy (7.6 kg a kWh).",
		"Glass mat blocks: fewest hours short (78 h a year).", "New iron pack: most energy to use (7.58 kWh).", "cheapest to buy (590 EUR)",
		"Best at none of these: the bank as it stands", "Does not suit the devices there are: glass mat blocks (what must go: mains inverter).", "overlap, so that which of them lasts longer is not certain",
		"Of the daily windows tried 3.40 to 3.95 V a cell serves best: 17 (7.3 to 20) years", "Searched: 1000 whole rigs", "Asked for: at most 3500 EUR, at most 150 kg. 412 of them keep to it."} {
		if !strings.Contains(said, want) {
			t.Errorf("the answer does not say %q:\n%s", want, said)
		}
	}
	if verdict.MatchString(said) {
		t.Errorf("a verdict was given: %q", said)
	}
	alone := choosesample.Unsearched()
	alone.Candidates = alone.Candidates[:1]
	if said := strings.Join(sheet.ChooseAnswer(alone, q.Metric), " "); !strings.Contains(said, "give batteries you could buy under candidates") || !strings.Contains(said, "first in December of year 12") {
		t.Errorf("the own bank alone: %q", said)
	}
	if said := sheet.ChooseAnswer(&choose.Result{}, q.Metric); len(said) != 1 {
		t.Errorf("nothing compared: %q", said)
	}
	none := choosesample.Result()
	none.Front, none.Search.Kept = nil, 0
	if said := strings.Join(sheet.SearchedWords(none), " "); !strings.Contains(said, "No rig that was tried keeps to what was asked for") {
		t.Errorf("nothing within the constraints: %q", said)
	}
}

// What is not known is no bargain, and of numbers that are alike none is best.
func TestCompareTable(t *testing.T) {
	res := choosesample.Result()
	rows := map[string]sheet.CompareRow{}
	for _, g := range sheet.CompareTable(res, q.US) {
		for _, r := range g.Rows {
			rows[g.Title+"/"+strings.TrimSpace(r.What)] = r
		}
	}
	best := func(name string) (list []string) {
		for _, c := range rows[name].Cells {
			if c.Best {
				list = append(list, c.Name+" "+c.Text)
			}
		}
		return list
	}
	for name, want := range map[string]string{
		"What it takes/volume":                             "[two pouch modules <from the coast> 1.79 ft³]",
		"What it takes/mass":                               "[one large module 73 lb]",
		"On this route, a year now/hours short":            "[glass mat blocks 78 h]",
		"Over its life/years by capacity":                  "[new iron pack over 30]",
		"Over its life/price of a kWh of it":               "[one large module 0.13 EUR]",
		"What it is/devices":                               "[]",
		"On this route, a year now/charge locked by frost": "[as it stands 0 h two pouch modules <from the coast> 0 h new iron pack 0 h glass mat blocks 0 h]",
	} {
		if got := fmt.Sprint(best(name)); got != want {
			t.Errorf("%s: best is %s, want %s", name, got, want)
		}
	}
	if c := rows["What it takes/usable energy"].Cells[1]; c.Range != "2.67 to 4.89 kWh" {
		t.Errorf("range %q", c.Range)
	}
	if c := rows["Over its life/years by function"].Cells[2]; c.Text != "over 30" || c.Range != "over 16 to over 30" {
		t.Errorf("years %q, %q", c.Text, c.Range)
	}
	if c := rows["What it is/devices"].Cells[4]; c.Text != "1 must go, 5 to change" {
		t.Errorf("devices %q", c.Text)
	}
}

func TestChooseParts(t *testing.T) {
	for _, paper := range []bool{false, true} {
		m := compared(t, q.US, paper).PickedDesign("/choose", choosesample.Longest, sheet.DesignAxes{})
		text := all(t, m)
		if err := wellFormed(text); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"one large module", "two pouch modules &lt;from the coast&gt;", "must go", "seller:", "walk away at", "Best at", "serves best", "front-", "lives-", "windows-", "compare-", "Searched: 1000"} {
			if !strings.Contains(text, want) {
				t.Errorf("paper %v: the parts do not say %q", paper, want)
			}
		}
		if verdict.MatchString(text) {
			t.Error("a verdict was given")
		}
	}
	text := all(t, model(t, q.Metric).WithChoice(choosesample.Unsearched()))
	if strings.Contains(text, "front-1040") {
		t.Error("a front without a search")
	}
	if m := model(t, q.Metric).WithChoice(nil); m.Compared != nil {
		t.Error("a comparison of nothing")
	}
}

func TestPickedDesign(t *testing.T) {
	m := compared(t, q.Metric, false)
	for _, c := range []struct{ name, across, up, want string }{
		{choosesample.Longest, "mass", "years", "mass years"}, {"no such", "<", "short", "price short"}, {"", "short", "short", "short price"}, {"", "", "", "price short"},
	} {
		got := m.PickedDesign("/choose", c.name, sheet.DesignAxes{Across: c.across, Up: c.up}).Compared
		if axes := got.Axes.Across + " " + got.Axes.Up; axes != c.want {
			t.Errorf("axes %q, want %q", axes, c.want)
		}
		if (got.Picked != nil) != (c.name == choosesample.Longest) {
			t.Errorf("%q: picked %v", c.name, got.Picked)
		}
	}
	if m.Compared.Pick != "" {
		t.Error("the model it came from was changed")
	}
}
