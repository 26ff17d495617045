package picture

import (
	"math"
	"slices"
	"strconv"

	"ampstead/drill"
)

// event is something worth a flag on the time axis of a run.
type event struct {
	at   float64 // s
	what string
	hint string // the layer
	harm bool
}

// eventsOf lists what the layers did, each once with how often, and when harm
// began, in order of time.
func eventsOf(s *drill.Strip) []event {
	var list []event
	times := map[string]int{}
	for _, a := range s.Out.Acts {
		if a.At < 0 {
			continue // it judged in vain: nothing came of it at any time
		}
		what := a.Device + " " + a.Did
		if times[what]++; times[what] == 1 {
			list = append(list, event{at: a.At, what: what, hint: a.Layer})
		}
	}
	for i, e := range list {
		if n := times[e.what]; n > 1 {
			list[i].what += ", " + strconv.Itoa(n) + " times"
		}
	}
	if s.Out.HarmAt >= 0 && s.Out.Outcome == drill.Harm {
		list = append(list, event{at: s.Out.HarmAt, what: "harm: " + drill.HarmWords(s.Out.Harm), harm: true})
	}
	slices.SortStableFunc(list, func(a, b event) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	return list
}

// mostFlags is how many flags stand over a strip; what comes after is counted.
const mostFlags = 7

// events are those that get a flag: harm always does.
func (r *playback) events() []event {
	list := eventsOf(r.s)
	if len(list) <= mostFlags {
		return list
	}
	kept, left := list[:mostFlags-1:mostFlags-1], list[mostFlags-1:]
	for i, e := range left {
		if e.harm {
			return append(kept, event{at: e.at, what: e.what + "; " + more(i) + " before", harm: true})
		}
	}
	return append(kept, event{at: left[0].at, what: left[0].what + "; " + more(len(left)-1) + " later", hint: left[0].hint})
}

func more(n int) string { return counted(n, "other act") }

// pole joins a flag to the panels.
type pole struct {
	x, top float64
	class  string
}

// flags sets the labels of events over the panels, each to the right of its time.
// A label stands lower than those before it that reach over its pole, so that no
// pole runs through a label. It returns the foot of the labels.
func (r *playback) flags(list []event, y float64) float64 {
	var flags []flagAt
	for _, e := range list {
		x := r.x.at(math.Max(0, math.Min(e.at, r.end)))
		if k := len(flags) - 1; k >= 0 && x-flags[k].x < 4 {
			flags[k].text = append(flags[k].text, e.words()...)
			flags[k].harm = flags[k].harm || e.harm
			continue
		}
		flags = append(flags, flagAt{x: x, text: e.words(), harm: e.harm})
	}
	var tall []float64
	for i := range flags {
		f := &flags[i]
		f.label = newLabel(words{}, 0, math.Min(r.flagWide(), r.c.width-f.x-7), f.text...)
		for _, before := range flags[:i] {
			if before.x+6+before.label.width > f.x-4 {
				f.row = max(f.row, before.row+1)
			}
		}
		for len(tall) <= f.row {
			tall = append(tall, 0)
		}
		tall[f.row] = math.Max(tall[f.row], f.label.height)
	}
	tops := []float64{y}
	for _, h := range tall {
		y += h + 5
		tops = append(tops, y)
	}
	for _, f := range flags {
		f.label.draw(r.c, f.x+6, tops[f.row])
		r.flown = append(r.flown, pole{f.x, tops[f.row] + 1, marked("dash", f.harm)})
	}
	return y
}

type flagAt struct {
	x     float64
	row   int
	text  []words
	label label
	harm  bool
}

func (e event) words() []words {
	if e.harm {
		return []words{{hot, e.what}, {small, "after " + drill.Lapse(e.at)}}
	}
	said := "after " + drill.Lapse(e.at)
	if e.hint != "" {
		said += ", " + e.hint
	}
	return []words{{strong, e.what}, {small, said}}
}

func (r *playback) flagWide() float64 {
	if r.narrow {
		return 170
	}
	return 230
}

// poles draws the poles, and goes on with them in the panels; they leave out the
// lines of text between. labels is the foot of the flags.
func (r *playback) poles(labels float64, panels []box) {
	for _, p := range r.flown {
		t := (&trace{}).move(p.x, p.top).to(p.x, labels)
		for _, b := range panels {
			t.move(p.x, b.y).to(p.x, b.y+b.h)
		}
		r.c.path(p.class, t)
	}
}
