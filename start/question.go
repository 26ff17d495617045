package start

import (
	"fmt"
	"slices"
	"unicode/utf8"
)

// Unknown is the answer "I do not know".
const Unknown = "?"

// None is the answer that there is nothing of what was asked for.
const None = "none"

// Answers holds the answer to each question by its key. What is missing counts
// as Unknown.
type Answers map[string]string

// Choice is one answer to pick.
type Choice struct {
	Value string // the answer, in one plain word
	Label string // what a person reads
	Note  string // how to recognise it, or what it means; may be empty
}

// Question is one thing to ask. What it says may depend on the answers before it.
type Question struct {
	Key     string // "winter"; also the name of the command line's flag
	Short   string // for lists: "Groups in series"
	Ask     string // in plain words
	Trade   string // the trade's word for it; may be empty
	Why     string // why it is asked
	How     string // where to find the answer; may be empty
	Example string // an answer as one would type it

	Choices []Choice
	Many    bool   // several choices may be picked, with commas between
	Typed   string // what may be typed, or typed instead of a choice; empty for nothing

	Sensible string // the answer that is offered; Unknown where a guess would be worse
	Taken    string // the answer that stands for "I do not know"; empty when there is none to name
	Unknown  string // what "I do not know" leads to, in a sentence or two

	applies func(*plan) bool
	read    func(*plan, string) (string, error) // checks an answer, takes it into the plan, returns it tidied
	means   func(*plan) string                  // how the answer was understood
}

// Choice returns the choice with that value.
func (q *Question) Choice(value string) (Choice, bool) {
	i := slices.IndexFunc(q.Choices, func(c Choice) bool { return c.Value == value })
	if i < 0 {
		return Choice{}, false
	}
	return q.Choices[i], true
}

// Questions lists, in order, what is to be asked after the answers so far; an
// answer that is not valid counts as Unknown.
func Questions(a Answers) []Question {
	_, list := follow(a)
	return list
}

// Find returns the question with that key, when it is asked after the answers
// so far, and its number, counting from 0.
func Find(list []Question, key string) (q *Question, number int, ok bool) {
	i := slices.IndexFunc(list, func(q Question) bool { return q.Key == key })
	if i < 0 {
		return nil, 0, false
	}
	return &list[i], i, true
}

// follow goes through the questions as a conversation does: each is put after
// the answers before it were taken in. What is not valid counts as Unknown.
func follow(a Answers) (*plan, []Question) {
	var list []Question
	p := newPlan()
	p.converse(func(q *Question) {
		list = append(list, *q)
		if _, err := p.answer(q, a[q.Key]); err != nil {
			p.leave(q)
		}
	})
	return p, list
}

// converse puts every question that applies; hear has to take an answer in, or
// to leave the question open.
func (p *plan) converse(hear func(*Question)) {
	for _, c := range conversation {
		q := c.put(p)
		q.Key = c.key
		if q.applies == nil || q.applies(p) {
			hear(&q)
		}
	}
}

// leave takes in what stands for "I do not know".
func (p *plan) leave(q *Question) {
	p.known[q.Key] = false
	if q.Taken != "" {
		q.read(p, q.Taken)
	}
}

// answer takes an answer in and returns it tidied. Errors: *Problem; nothing is
// taken in then.
func (p *plan) answer(q *Question, text string) (string, error) {
	text = tidy(text)
	var err error
	switch {
	case text == Unknown:
		p.leave(q)
		return Unknown, nil
	case text == "":
		err = &Problem{Message: "there is no answer", Expected: "an answer, or ? for I do not know"}
	case utf8.RuneCountInString(text) > longest:
		err = &Problem{Message: "the answer is very long", Expected: fmt.Sprintf("at most %d characters", longest)}
	default:
		text, err = q.read(p, text)
	}
	if bad, ok := err.(*Problem); ok {
		bad.Key = q.Key
		if bad.Example == "" {
			bad.Example = q.Example
		}
	}
	if err != nil {
		return "", err
	}
	p.known[q.Key] = true
	return text, nil
}
