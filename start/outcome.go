package start

import (
	"fmt"
	"strings"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/rig"
	"ampstead/wire"
)

// Outcome is what the answers come to.
type Outcome struct {
	Text     []byte
	File     *rig.File
	Findings []finding.Finding // of fit and wire, each once, most urgent first
	Open     []Question        // answered "I do not know"
	Next     []Step
}

// Step is one thing to do next.
type Step struct {
	Do    string
	Why   string
	Stage string // the stage whose page or command it is done with, or FileStage
}

// FileStage marks a step that is done in the rig file itself.
const FileStage = "file"

// Finish writes the file and finds out what is wrong with the rig it describes.
// name is what the file's messages call it. Errors: *Problem for an answer, or
// the program's own failure.
func Finish(a Answers, name string, year int) (*Outcome, error) {
	text, err := Text(a, year)
	if err != nil {
		return nil, err
	}
	file, err := rig.Parse(name, text)
	if err != nil {
		return nil, fmt.Errorf("the file written from these answers does not parse: %w", err)
	}
	out := &Outcome{Text: text, File: file, Open: Unanswered(a)}
	if out.Findings, err = Findings(file.Rig); err != nil {
		return nil, err
	}
	out.Next = out.next()
	return out, nil
}

// Findings lists what fit and wire find of a rig, each finding once.
func Findings(r *rig.Rig) ([]finding.Finding, error) {
	fitted, err := fit.Run(r)
	if err != nil {
		return nil, err
	}
	wired, err := wire.Run(r, fitted, wire.Options{})
	if err != nil {
		return nil, err
	}
	return finding.Merge(fitted.Findings, wired.Findings), nil
}

// Unanswered lists the questions that stand answered with "I do not know".
func Unanswered(a Answers) []Question {
	p, list := follow(a)
	var open []Question
	for _, q := range list {
		if !p.known[q.Key] {
			open = append(open, q)
		}
	}
	return open
}

// next is what to do, most urgent first.
func (o *Outcome) next() []Step {
	var steps []Step
	add := func(yes bool, do, why, stage string) {
		if yes {
			steps = append(steps, Step{do, why, stage})
		}
	}
	stops := finding.Count(o.Findings, finding.Stop)
	add(stops > 0, "Connect nothing yet: mend "+many(stops, "stop finding", "stop findings")+".",
		"Each says what is wrong and how to mend it. Where a setting is wrong, one press writes the advised one.", "fit")
	open := o.basics()
	add(len(open) > 0, "Find out: "+strings.Join(open, ", ")+".",
		"Every setting hangs on these. In the file they are marked "+MarkUnknown+".", FileStage)
	add(true, "Read what is marked "+MarkCheck+" off the devices and write it in.",
		"These are usual values that nobody has looked at: input ranges, charger limits, panel voltages.", FileStage)
	bank := &o.File.Rig.Bank
	add(bank.Measured != nil && bank.Measured.Estimated, "Test the module before trusting it.",
		"Capacity, resistance and spread between groups are estimates until then. prove writes a plan for the gear at hand.", "prove")
	add(true, "See which cables and fuses it takes.", "Lengths are guesses until you measure them.", "wire")
	add(len(o.File.Rig.Loads) > 0 && len(o.File.Rig.Charge) > 0, "See whether it carries you through the year.", "Sun, frost and habits at your places, minute by minute.", "travel")
	add(true, "When nothing says stop any more, rehearse what can fail.", "Every fault, and what acts first.", "drill")
	return steps
}

// basics are the unanswered questions that every setting hangs on.
func (o *Outcome) basics() []string {
	var list []string
	for _, q := range o.Open {
		switch q.Key {
		case "battery", "groups", "capacity", "chargers":
			list = append(list, map[string]string{"battery": "what the cells are made of", "groups": "how many groups are in series",
				"capacity": "what a module holds", "chargers": "what the chargers are set for"}[q.Key])
		}
	}
	return list
}

// Line is one answer as it stands.
type Line struct {
	Question
	Answer  string // as given; empty when it has not been yet
	Meaning string // how it was understood, or what was taken instead
	Open    bool   // "I do not know"
}

// Review lists every question that applies with its answer.
func Review(a Answers) []Line {
	p, list := follow(a)
	lines := make([]Line, len(list))
	for i, q := range list {
		lines[i] = Line{Question: q, Answer: a[q.Key], Open: !p.known[q.Key] && a[q.Key] != "", Meaning: q.meaning(p)}
	}
	return lines
}

// meaning is how the plan took a question's answer, once it did.
func (q *Question) meaning(p *plan) string {
	if q.Taken == "" && !p.known[q.Key] {
		return "not known"
	}
	return q.means(p)
}
