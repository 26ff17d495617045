package start

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ampstead/quantity"
)

// Problem is an answer that is not one.
type Problem struct {
	Key      string
	Message  string // what is wrong with it
	Expected string
	Example  string
	Perhaps  []Choice // what may have been meant
}

func (p *Problem) Error() string {
	text := p.Key + ": " + p.Message
	if p.Expected != "" {
		text += "; expected " + p.Expected
	}
	before := ": "
	for _, c := range p.Perhaps {
		text += before + c.Value + " " + c.Label
		before = ", "
	}
	if p.Example != "" && len(p.Perhaps) == 0 {
		text += "; example: " + p.Example
	}
	return text
}

// longest is how much may be typed as one answer.
const longest = 200

// Check reads an answer to the question with that key, after the answers so far,
// and returns it tidied. Errors: *Problem.
func Check(a Answers, key, text string) (answer string, err error) {
	if !slices.Contains(Keys(), key) {
		return "", noQuestion(key)
	}
	err = &Problem{Key: key, Message: "after the other answers this is not asked", Expected: "no answer to it"}
	p := newPlan()
	p.converse(func(q *Question) {
		given := a[q.Key]
		if q.Key == key {
			given = text
		}
		tidied, wrong := p.answer(q, given)
		if q.Key == key {
			answer, err = tidied, wrong
		}
		if wrong != nil {
			p.leave(q)
		}
	})
	return answer, err
}

func noQuestion(key string) error {
	return &Problem{Key: key, Message: "this is not a question", Expected: "one of " + strings.Join(Keys(), ", ")}
}

// CheckAll reads every answer and returns them tidied. Errors: *Problem of the
// first that is not valid, or that no question asks for.
func CheckAll(a Answers) (Answers, error) {
	for _, key := range sorted(a) {
		if !slices.Contains(Keys(), key) {
			return nil, noQuestion(key)
		}
	}
	all, wrong, asked := sift(a)
	for _, key := range Keys() {
		switch {
		case wrong[key] != nil:
			return nil, wrong[key]
		case a[key] != "" && !asked[key]:
			return nil, &Problem{Key: key, Message: "after the other answers this is not asked", Expected: "no answer to it"}
		}
	}
	return all, nil
}

// Keep returns the answers that are valid and asked for, tidied; the rest is
// left out.
func Keep(a Answers) Answers {
	kept, _, _ := sift(a)
	return kept
}

// sift parts the answers that are valid from those that are not.
func sift(a Answers) (kept Answers, wrong map[string]error, asked map[string]bool) {
	kept, wrong, asked = Answers{}, map[string]error{}, map[string]bool{}
	p := newPlan()
	p.converse(func(q *Question) {
		asked[q.Key] = true
		if a[q.Key] == "" {
			p.leave(q)
			return
		}
		answer, err := p.answer(q, a[q.Key])
		if err != nil {
			wrong[q.Key] = err
			p.leave(q)
			return
		}
		kept[q.Key] = answer
	})
	return kept, wrong, asked
}

func sorted(a Answers) []string {
	keys := make([]string, 0, len(a))
	for key := range a {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// Keys lists the keys of all questions, whether they are asked of everyone or
// not.
func Keys() []string {
	keys := make([]string, len(conversation))
	for i, c := range conversation {
		keys[i] = c.key
	}
	return keys
}

// tidy makes one line of what was typed, with nothing in it that cannot be seen.
func tidy(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == utf8.RuneError || !unicode.IsPrint(r):
			return -1
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// pick reads an answer that must be one of the choices, by value or label.
func pick(choices []Choice, text string) (string, error) {
	for _, c := range choices {
		if strings.EqualFold(text, c.Value) || strings.EqualFold(text, c.Label) {
			return c.Value, nil
		}
	}
	return "", &Problem{Message: fmt.Sprintf("%q is none of the choices", text), Expected: "one of " + strings.Join(values(choices), ", ")}
}

func values(choices []Choice) []string {
	list := make([]string, len(choices))
	for i, c := range choices {
		list[i] = c.Value
	}
	return list
}

// several reads choices with commas between; what is none of them goes to other,
// which may be nil. None stands alone.
func several(choices []Choice, text string, other func(string) error) ([]string, error) {
	var list []string
	for _, part := range strings.Split(text, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		value, err := pick(choices, part)
		if err != nil && other != nil {
			value, err = part, other(part)
		}
		if err != nil {
			return nil, err
		}
		if !slices.Contains(list, value) {
			list = append(list, value)
		}
	}
	if len(list) == 0 {
		return nil, &Problem{Message: "there is no answer", Expected: "some of " + strings.Join(values(choices), ", ")}
	}
	if len(list) > 1 {
		list = slices.DeleteFunc(list, func(v string) bool { return v == None })
	}
	return list, nil
}

// amount reads a quantity within bounds, both in the dimension's base unit.
func amount(d *quantity.Dimension, text string, low, high float64) (float64, error) {
	v, err := d.Parse(text)
	var bad *quantity.Error
	if errors.As(err, &bad) {
		return 0, &Problem{Message: fmt.Sprintf("%.60q %s", bad.Text, bad.Why), Expected: d.Article}
	}
	if err != nil {
		return 0, &Problem{Message: err.Error(), Expected: d.Article}
	}
	if v < low || v > high {
		return 0, &Problem{Message: fmt.Sprintf("%s is out of reach", text),
			Expected: fmt.Sprintf("%s from %s to %s", d.Article, d.Text(low, quantity.Metric), d.Text(high, quantity.Metric))}
	}
	return v, nil
}
