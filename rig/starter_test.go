package rig

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/golden"
)

func TestStarterIsAsExpected(t *testing.T) {
	for name, a := range map[string]Answers{
		"starter-plain.yaml": nil,
		"starter-full.yaml": {"name": "Dipper: van #2", "units": "us", "cell": "nca", "series": "7", "cells-per-group": "74", "strings": "2",
			"cell-capacity": "3.2 Ah", "sources": "alternator, mains solar", "inverter": "yes", "coldest": "14 °F"},
	} {
		text, err := Starter(a)
		if err != nil {
			t.Fatal(err)
		}
		golden.Check(t, name, text)
	}
}

func TestStarterSaysWhatWasAnswered(t *testing.T) {
	text, err := Starter(Answers{"cell": "nca", "series": "7", "sources": "none", "inverter": "yes", "coldest": "14 °F"})
	if err != nil {
		t.Fatal(err)
	}
	r := mustParse(t, string(text)).Rig
	if r.Bank.Cell != "nca" || r.Bank.Series != 7 || len(r.Charge) != 0 || len(r.Inverters) != 1 {
		t.Errorf("rig = %+v", r)
	}
	if coldest := float64(*r.Route[0].Coldest); coldest < -10.01 || coldest > -9.99 {
		t.Errorf("coldest = %v °C", coldest)
	}
}

// TestStarterAlwaysParses also takes the # from every key without a value: the
// file must then still have its shape, with only values missing.
func TestStarterAlwaysParses(t *testing.T) {
	hidden := regexp.MustCompile(`(?m)^( *)# ( *(- )?[a-z_]+: )`)
	rapid.Check(t, func(t *rapid.T) {
		sources := rapid.SampledFrom([]string{"none", "solar", "mains", "alternator", "solar mains", "solar, mains, alternator"}).Draw(t, "sources")
		text, err := Starter(Answers{
			"name":    rapid.StringMatching(`[a-z:#'"é -]{0,12}[a-z]`).Draw(t, "name"),
			"series":  rapid.SampledFrom([]string{"1", "7", "200"}).Draw(t, "series"),
			"cell":    rapid.SampledFrom([]string{"lfp", "nca", "lead-acid-agm"}).Draw(t, "cell"),
			"sources": sources, "inverter": rapid.SampledFrom([]string{"yes", "no"}).Draw(t, "inverter"),
		})
		if err != nil {
			t.Fatal(err)
		}
		_, err = Parse("rig.yaml", []byte(hidden.ReplaceAllString(string(text), "$1$2")))
		for _, line := range strings.Split(err.Error(), "\n") {
			if !strings.Contains(line, "has no value") && !strings.Contains(line, "is missing") && !strings.Contains(line, "own block") {
				t.Fatalf("%s in\n%s", line, text)
			}
		}
	})
}

func TestStarterRefuses(t *testing.T) {
	for want, a := range map[string]Answers{
		`series: "x" is not a whole number; expected a whole number from 1 to 200; example: 12`:                     {"series": "x"},
		`cell-capacity: "94" has no unit; expected a charge; example: 94 Ah`:                                        {"cell-capacity": "94"},
		`coldest: "cold" does not start with a number; expected a temperature; example: 1 °C`:                       {"coldest": "cold"},
		`sources: "wind" is not a word known here; expected any of solar, mains, alternator; example: solar, mains`: {"sources": "wind"},
		`inverter: "perhaps" is neither yes nor no; expected yes or no; example: yes`:                               {"inverter": "perhaps"},
		"colour is not a question": {"colour": "red"},
		"cell: describe a cell of your own in the file afterwards; expected a name from the library": {"cell": "own"},
	} {
		if _, err := Starter(a); err == nil || err.Error() != want {
			t.Errorf("%v: got %v, want %s", a, err, want)
		}
	}
}

func TestQuestionsHaveAllTheyNeed(t *testing.T) {
	for _, q := range Questions() {
		if q.Question == "" || q.Default == "" || q.check(q.Example) != nil || q.check(q.Default) != nil {
			t.Errorf("%+v", q)
		}
	}
}
