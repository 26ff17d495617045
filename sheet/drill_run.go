package sheet

import (
	"ampstead/finding"
	"context"
	"math"
	"strconv"

	"ampstead/drill"
)

// Played is one run in words and, on the page, with its strip.
type Played struct {
	Title   string
	Fault   string
	Second  string
	Scene   string
	Set     []string // what was set up: the scene and the faults
	Acts    []string // what each layer did, in order
	End     []string // how it ended
	Outcome drill.Verdict
	strip   *drill.Strip
}

// WithRun returns the model with one run to show. There must be a drill.
func (m *Model) WithRun(s *drill.Strip) *Model {
	with := *m
	d := *m.Drill
	d.Run = d.played(s)
	with.Drill = &d
	return &with
}

func (d *Drill) played(s *drill.Strip) *Played {
	p := &Played{Fault: s.Fault, Second: s.Second, Scene: s.Scene, Title: runTitle(s), Outcome: s.Out.Outcome, strip: s, Acts: RunActs(&s.Out), End: RunEnd(&s.Out)}
	for _, scene := range d.res.Scenes {
		if scene.Name == s.Scene {
			p.Set = append(p.Set, finding.Sentence(scene.About))
		}
	}
	for _, f := range d.res.Faults {
		if f.Name == s.Fault || f.Name == s.Second {
			p.Set = append(p.Set, finding.Sentence(f.Name+": "+f.How))
		}
	}
	return p
}

func runTitle(s *drill.Strip) string {
	switch {
	case s.Fault == "":
		return "Nothing wrong: " + s.Scene
	case s.Second != "":
		return capital(s.Fault) + ", with " + s.Second + ": " + s.Scene
	}
	return capital(s.Fault) + ": " + s.Scene
}

// mostActs is how many acts are told one by one.
const mostActs = 12

// RunActs says what each layer did and when.
func RunActs(o *drill.Outcome) []string {
	var list []string
	for i, a := range o.Acts {
		if i == mostActs {
			return append(list, "And "+strconv.Itoa(len(o.Acts)-i)+" acts more.")
		}
		when := "In vain: "
		if a.At >= 0 {
			when = "After " + drill.Lapse(a.At) + ": "
		}
		list = append(list, when+a.Device+" "+a.Did+" ("+a.Layer+").")
	}
	if len(list) == 0 {
		list = append(list, "No layer acted.")
	}
	return list
}

// RunEnd says how a run ended: how near to harm, what a person could have noticed,
// and what it cost.
func RunEnd(o *drill.Outcome) []string {
	list := []string{endSentence(o)}
	switch {
	case o.Outcome == drill.Harm && o.ReactS >= 0:
		list = append(list, "From the first sign to harm a person had "+drill.Lapse(o.ReactS)+".")
	case o.Outcome == drill.Harm && o.Silent:
		list = append(list, "Silent: nothing told anybody in time.")
	case o.Silent:
		list = append(list, "Silent: nothing told anybody of the fault.")
	case o.AlarmAt >= 0:
		list = append(list, "The first sign a person would notice came after "+drill.Lapse(o.AlarmAt)+".")
	}
	if o.FrostAh >= 0.05 {
		list = append(list, text3(math.Round(o.FrostAh*10)/10)+" Ah were charged at or below the frost limit.")
	}
	if o.PeakShare >= 1.2 {
		list = append(list, "The hardest-driven cell carried "+text3(math.Round(o.PeakShare*10)/10)+" times an equal share of the current.")
	}
	if o.LostPower {
		list = append(list, "Loads went without power although no cell was in danger.")
	}
	return list
}

func endSentence(o *drill.Outcome) string {
	worst := "the cell nearest to harm came to " + strconv.FormatFloat(o.WorstV, 'f', 3, 64) + " V, "
	switch {
	case o.Outcome == drill.Harm && !o.InVolts():
		return "Harm after " + drill.Lapse(max(0, o.HarmAt)) + ": " + drill.HarmWords(o.Harm) + "."
	case o.Outcome == drill.Harm:
		return "Harm after " + drill.Lapse(max(0, o.HarmAt)) + ": " + worst + o.Nearness() + " its limit."
	}
	if !o.InVolts() {
		return capital(o.Outcome.Words()) + ": " + o.Nearness() + "."
	}
	return capital(o.Outcome.Words()) + ": " + worst + o.Nearness() + " to its limit."
}

// mostStrips bounds the pages that strips take in the book.
const (
	mostStrips   = 12
	mostGlimpses = 80
)

// Strips plays the runs that paper shows: the scenes that reach harm by themselves,
// then every fault that changes how a scene ends, in the scene in which it went
// worst; those that reach harm or come near it first.
func Strips(ctx context.Context, res *drill.Result, play func(scene string, faults ...string) (*drill.Strip, error)) ([]drill.Strip, error) {
	var grave, other []drill.Strip
	for _, o := range paperRuns(res) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		faults := []string{o.Fault}
		if o.Fault == "" {
			faults = nil
		}
		s, err := play(o.Scene, faults...)
		if err != nil {
			return nil, err
		}
		if isGrave(s) {
			grave = append(grave, *s)
		} else {
			other = append(other, *s)
		}
	}
	return append(grave, other...), nil
}

func paperRuns(res *drill.Result) []*drill.Outcome {
	var list []*drill.Outcome
	plain := res.Plain()
	for _, o := range plain.Cells {
		if o != nil && o.Outcome == drill.Harm {
			list = append(list, o)
		}
	}
	for _, row := range res.Rows() {
		if o := row.Telling(&plain); o != nil {
			list = append(list, o)
		}
	}
	return list[:min(len(list), mostStrips+mostGlimpses)]
}

// unchanging names the faults that change how no scene ends, by device.
func unchanging(res *drill.Result) []string {
	plain := res.Plain()
	return byDevice(res, func(r *drill.Row) bool { return r.Worst != nil && r.Telling(&plain) == nil })
}

// WorstRun is the run that ended worst for the fault's sake, or the scene that
// did with nothing wrong; nil when none was played.
func WorstRun(res *drill.Result) *drill.Outcome {
	plain := res.Plain()
	worst := plain.Worst
	for _, row := range res.Rows() {
		if o := row.Telling(&plain); o != nil && (worst == nil || o.Worse(worst)) {
			worst = o
		}
	}
	return worst
}

func isGrave(s *drill.Strip) bool { return s.Out.Outcome == drill.Harm || s.Out.Outcome == drill.Near }
