package cli

import (
	"bufio"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"ampstead/start"
)

// asking is a conversation on the terminal.
type asking struct {
	*run
	lines   *bufio.Scanner
	answers start.Answers
}

// ask puts the questions one by one. Errors: the input ended, or the run did.
func ask(r *run) (start.Answers, error) {
	a := &asking{r, bufio.NewScanner(r.Stdin), start.Answers{}}
	fmt.Fprintln(r.Stdout, "A few plain questions; \"I do not know\" is an answer to each. Nothing is written before the last.\n"+
		"  ?      I do not know\n  Enter  the answer in square brackets\n  b      back to the question before")
	for at := 0; ; {
		list := start.Questions(a.answers)
		if at >= len(list) {
			return start.Keep(a.answers), r.ctx.Err()
		}
		back, err := a.put(&list[at], at, len(list))
		switch {
		case err != nil:
			return nil, err
		case back:
			at = max(0, at-1)
		default:
			at++
		}
	}
}

// put asks one question until it has an answer, or the person wants to go back.
func (a *asking) put(q *start.Question, at, of int) (back bool, err error) {
	a.print(q, at, of)
	choices := q.Choices
	for {
		fmt.Fprintf(a.Stdout, "[%s] > ", offered(q))
		if !a.lines.Scan() {
			fmt.Fprintln(a.Stdout)
			return false, errors.Join(fmt.Errorf("no answer to %q; nothing was written. Give the answers as flags or answer each question", q.Ask), a.lines.Err(), a.ctx.Err())
		}
		text := strings.TrimSpace(a.lines.Text())
		switch {
		case strings.EqualFold(text, "b"):
			return true, nil
		case text == "":
			text = q.Sensible
		default:
			text = numbered(choices, q.Many, text)
		}
		answer, err := start.Check(a.answers, q.Key, text)
		if err == nil {
			a.answers[q.Key] = answer
			a.echo(q, answer)
			return false, nil
		}
		if choices, err = a.refuse(q, err); err != nil {
			return false, err
		}
	}
}

// print writes the question with its choices.
func (a *asking) print(q *start.Question, at, of int) {
	w := a.Stdout
	fmt.Fprintln(w)
	trade := ""
	if q.Trade != "" {
		trade = " (" + q.Trade + ")"
	}
	printWrapped(w, fmt.Sprintf("%d of %d  ", at+1, of), "    ", q.Ask+trade)
	printWrapped(w, "    ", "    ", q.Why)
	if q.How != "" {
		printWrapped(w, "    ", "    ", q.How)
	}
	a.list(q.Choices)
	switch {
	case q.Many && q.Typed != "":
		printWrapped(w, "    ", "    ", "several with commas between; also "+q.Typed+", such as "+q.Example)
	case q.Many:
		fmt.Fprintf(w, "    several with commas between, such as 1, 2\n")
	case q.Typed != "" && len(q.Choices) > 0:
		printWrapped(w, "    ", "    ", "or "+q.Typed+", such as "+q.Example)
	case q.Typed != "":
		fmt.Fprintf(w, "    %s, such as %s\n", q.Typed, q.Example)
	}
}

func (a *asking) list(choices []start.Choice) {
	for i, c := range choices {
		note := ""
		if c.Note != "" {
			note = "; " + c.Note
		}
		printWrapped(a.Stdout, fmt.Sprintf("  %4s  ", typedAs(choices, i)), "        ", c.Label+note)
	}
}

// typedAs is what to type for a choice: its number in the list, or the choice
// itself where that is a number.
func typedAs(choices []start.Choice, i int) string {
	if counts(choices) {
		return choices[i].Value
	}
	return strconv.Itoa(i + 1)
}

// counts reports whether the choices are numbers themselves.
func counts(choices []start.Choice) bool {
	for _, c := range choices {
		if _, err := strconv.Atoi(c.Value); err != nil {
			return false
		}
	}
	return true
}

// numbered turns numbers of choices into the choices.
func numbered(choices []start.Choice, many bool, text string) string {
	if counts(choices) {
		return text
	}
	parts := []string{text}
	if many {
		parts = strings.Split(text, ",")
	}
	for i, part := range parts {
		if n, err := strconv.Atoi(strings.TrimSpace(part)); err == nil && n >= 1 && n <= len(choices) {
			parts[i] = choices[n-1].Value
		}
	}
	return strings.Join(parts, ",")
}

// offered is the sensible answer as it is typed.
func offered(q *start.Question) string {
	if q.Sensible == start.Unknown {
		return "?"
	}
	for i, c := range q.Choices {
		if c.Value == q.Sensible && !q.Many {
			return typedAs(q.Choices, i)
		}
	}
	return q.Sensible
}

// echo says how an answer was understood, or what not knowing leads to.
func (a *asking) echo(q *start.Question, answer string) {
	if answer == start.Unknown {
		printWrapped(a.Stdout, "    = ", "      ", "I do not know. "+q.Unknown)
		return
	}
	for _, line := range start.Review(a.answers) {
		if line.Key == q.Key {
			printWrapped(a.Stdout, "    = ", "      ", line.Meaning)
		}
	}
}

// refuse says what is wrong with an answer and returns the choices that stand
// now.
func (a *asking) refuse(q *start.Question, err error) ([]start.Choice, error) {
	var p *start.Problem
	if !errors.As(err, &p) {
		return nil, err
	}
	text := p.Message
	if p.Expected != "" {
		text += "; expected " + p.Expected
	}
	if p.Example != "" {
		text += "; example: " + p.Example
	}
	printWrapped(a.Stdout, "    ! ", "      ", text)
	if len(p.Perhaps) == 0 {
		return q.Choices, nil
	}
	a.list(p.Perhaps)
	return p.Perhaps, nil
}
