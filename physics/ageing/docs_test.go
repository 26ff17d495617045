package ageing

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ampstead/internal/golden"
	"ampstead/source"
)

const docsHead = `# Ageing

What the ageing models are, where they come from, and how far they are off. This
page is written by ` + "`go test ./physics/ageing -run Docs -update`" + `; do not edit it.

Each model is a fit to one kind of cell over months. Ampstead carries it on to
years and to other cells, so no number of years is better than the tables below.
The first model for a cell is the one used; the others are second opinions.
` + "`ampstead figure ageing`" + ` answers by any of them, ` + "`ampstead figure cycle-count`" + `
counts cycles by the standard's rule.

Full equivalents are Ah discharged over rated Ah. "Spread" is a multiplier on the
loss: what the cells below lost over what the model says. For a model used on
the chemistry it was fitted to it runs from the tenth to the ninetieth percentile
of the conditions below, for one used by likeness from the lowest to the highest.
A test holds the program's numbers to it. Two capacity tests of your own, a
few percent of loss apart, beat any of it: the multiplier is then fitted to them.

`

const docsCompare = `## Against open data

None of these cells was used for a model. The publications mostly do not say how
long the cycling took: days are reckoned from the rates, without rests, so that
little of the loss is the calendar's. No set of nickel-manganese-cobalt cells at
rest was at hand, none of manganese cells at all, and none near a house battery's
use: ten years, a third of the charge a day, a tenth of the capacity per hour.

"Error" is predicted minus measured capacity in percentage points: above zero the
cells were worse than the model. "Loss" is measured over predicted loss, "life"
the predicted time (or throughput) to the measured loss over the measured one.
Lines in brackets do not count for the spread: the same cells are in a later line.

`

// TestDocs keeps docs/ageing.md true.
func TestDocs(t *testing.T) {
	d := docs{data: openData(t)}
	d.WriteString(docsHead)
	d.overview(t)
	for _, name := range Names() {
		d.model(model(t, name))
	}
	d.WriteString(docsCompare)
	d.summary(t)
	for _, chemistry := range []string{ofNMC, ofNCA, ofLFP, ofLCO, notStated} {
		d.chemistry(t, chemistry)
	}
	d.growth(t)
	d.WriteString(docsMeaning)
	d.sources()
	golden.Check(t, "../../../docs/ageing.md", d.Bytes())
}

type docs struct {
	bytes.Buffer
	data []measured
}

func (d *docs) line(format string, a ...any) { fmt.Fprintf(d, format+"\n", a...) }

func (d *docs) overview(t *testing.T) {
	d.line("| model | what for | counts | spread of the loss | from |\n|---|---|---|---|---|")
	for _, name := range Names() {
		m := model(t, name)
		d.line("| [`%s`](#%s) | %s | %s | ×%.2f to %.2f, middle %.2f | %s |", name, name, m.Title, m.Covers, m.Band.Low, m.Band.High, m.Band.Middle, m.BandFrom.Standing)
	}
	d.line("")
}

func (d *docs) model(m *Model) {
	d.line("## %s\n\n%s. Fitted to %s. Source: %s (*%s*).\n", m.Name, upper(m.Title), m.FittedTo, m.Source.Text, m.Source.Standing)
	d.line("    %s\n", strings.ReplaceAll(m.Equation, "; ", "\n    "))
	for _, l := range m.Limits {
		d.line("- Range: %s.", l)
	}
	for _, c := range m.Choices {
		d.line("- %s", c)
	}
	d.line("- Says nothing about: %s\n", lower(m.Silent))
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// judgedFor are the conditions that count for a model's spread.
func (d *docs) judgedFor(m *Model) (list []judged) {
	for _, p := range d.data {
		if m.against(p) && !p.early {
			list = append(list, judge(m, p))
		}
	}
	return list
}

func pick(list []judged, of func(judged) float64) (values []float64) {
	for _, j := range list {
		values = append(values, of(j))
	}
	return values
}

// summary has a line for each model and chemistry.
func (d *docs) summary(t *testing.T) {
	d.line("| model | held against | conditions | error, r.m.s. | loss, lowest to highest (median) | life, lowest to highest (median) |\n|---|---|---|---|---|---|")
	for _, name := range Names() {
		m := model(t, name)
		for _, chemistry := range compared[name] {
			for _, kind := range []string{"cycling", "storage"} {
				list := slices.DeleteFunc(d.judgedFor(m), func(j judged) bool {
					return j.chemistry != chemistry || j.storage() != (kind == "storage")
				})
				if len(list) == 0 {
					continue
				}
				loss, life := pick(list, func(j judged) float64 { return j.loss }), pick(list, func(j judged) float64 { return j.life })
				d.line("| %s | %s, %s | %d | %.1f points | ×%.2f to %.2f (%.2f) | ×%.2f to %.2f (%.2f) |", name, chemistry, kind, len(list), rms(list),
					slices.Min(loss), slices.Max(loss), median(loss), slices.Min(life), slices.Max(life), median(life))
			}
		}
	}
	d.line("")
}

// shown are the models printed for a chemistry: those held against it, and for
// the cell of unknown chemistry all that might be meant.
func shown(chemistry string) (names []string) {
	for _, name := range Names() {
		if slices.Contains(compared[name], chemistry) || chemistry == notStated && (name == "schmalstieg" || name == "schmalstieg-nca" || name == "xu") {
			names = append(names, name)
		}
	}
	return names
}

func (d *docs) chemistry(t *testing.T, chemistry string) {
	d.line("### %s\n", upper(chemistry))
	d.line("| data | condition | cells | lived | left | model | predicted | error | loss | life |\n|---|---|---|---|---|---|---|---|---|---|")
	for _, p := range d.data {
		if p.chemistry != chemistry {
			continue
		}
		for _, name := range shown(chemistry) {
			m := model(t, name)
			if chemistry != notStated && !m.against(p) {
				continue
			}
			d.judgedLine(name, judge(m, p))
		}
	}
	d.line("")
}

func (d *docs) judgedLine(name string, j judged) {
	lived := fmt.Sprintf("%.0f full equivalents", j.whole.Throughput)
	if j.storage() {
		lived = fmt.Sprintf("%.0f days", j.whole.Days)
	}
	open, shut := "", ""
	if j.early {
		open, shut = "(", ")"
	}
	cells := fmt.Sprint(j.cells)
	if j.cells == 0 {
		cells = "few"
	}
	d.line("| %s | %s%s%s | %s | %s | %.1f %% | %s | %.1f %% | %s | ×%.2f | ×%.2f |", j.source.Key, open, j.what, shut, cells, lived,
		100*(1-j.lost), name, 100*j.predicted, points(j), j.loss, j.life)
}

// growth compares resistances, where both sides have one.
func (d *docs) growth(t *testing.T) {
	d.line("### Resistance\n\n| data | condition | measured | model | predicted |\n|---|---|---|---|---|")
	for _, p := range d.data {
		for _, name := range Names() {
			j := judge(model(t, name), p)
			if p.resistance > 0 && j.growth > 0 && slices.Contains(compared[name], p.chemistry) {
				d.line("| %s | %s, %.0f %% left | ×%.2f | %s | ×%.2f |", p.source.Key, p.what, 100*(1-p.lost), p.resistance, name, j.growth)
			}
		}
	}
	d.line("")
}

func (d *docs) sources() {
	used := map[string]source.Source{}
	for _, p := range d.data {
		used[p.source.Key] = p.source
	}
	d.line("## Data\n\n| key | standing | source |\n|---|---|---|")
	for _, s := range source.All() {
		if _, ok := used[s.Key]; ok {
			d.line("| %s | %s | %s |", s.Key, s.Standing, s.Text)
		}
	}
}

const docsMeaning = `### What it means

- **Nickel-manganese-cobalt.** Within a factor of two of the measured loss in every
  condition, and mostly on the cautious side: in the middle a third too much loss
  and little more than half the life. Too hopeful in two cases that matter. In the cold (15 °C,
  charged at half its capacity per hour) the cells lasted less than half as long as
  predicted: plating is not in the model. And past the knee: the 24 equal cells
  stood above the prediction at 90 % and below it at 80 %. Loss goes about with the
  root of throughput, so 1.5 times the loss is less than half the life.
- **Nickel-cobalt-aluminium.** Another chemistry's equations do no worse here than
  on their own: storage at 24 °C for three years within about 3 points, cycling 1.7
  times the loss at worst. Charged at 25 °C the cells aged faster than at 45 °C; the
  model knows no such thing.
- **Iron-phosphate.** Two different models agree with small cells to 8 points
  and mostly to 4, but those lives are themselves extrapolated by the authors
  (allow 30 %). In storage at 24 °C the model takes a third to more than a half too
  much, at 60 °C a sixth to a third too little. The large cell, cycled hard and hot, lost nearly four
  times what either model says and lasted a tenth as long or less. It lies outside the
  spread, which holds eight conditions of ten: large cells used hard are not
  covered by any of this.
- **Stress factors (xu).** Off by factors on every chemistry: half to six times the
  loss in cycling. It tells cycles of different depth apart and is good for
  comparing uses, not for years.
- **The blend's storage term (wang2014)** takes two to four times too much from
  the nearest cells there were. Multiplied by its middle it is a rough opinion.
- **Equal cells are not equal.** The 24 cells of one batch under one regime reached
  80 % after 540 to 721 full equivalents. A bank goes by its weakest group; none of
  the spreads holds that.
- **The small cell of unknown chemistry** lost more than twice the prediction and
  lasted a fifth as long. It counts for no spread.
- **Resistance** grew a third to two thirds as much as predicted.
- **Lead-acid** was compared with nothing: no open data was at hand. Its spread of
  a factor of two is a guess.

`

// points is the error of a prediction, without a sign on nothing.
func points(j judged) string {
	text := fmt.Sprintf("%+.1f", 100*(j.predicted-1+j.lost))
	if text == "+0.0" || text == "-0.0" {
		return "0.0"
	}
	return text
}
