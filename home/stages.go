package home

import (
	"strconv"

	"ampstead/finding"
	"ampstead/fit"
)

// stages are the seven in the order of the job, each with its question and how to
// tell its state. of leaves name, question and time to its caller.
var stages = []struct {
	name, question string
	of             func(*Known) Stage
}{
	{"choose", "Which battery should I buy?", (*Known).choose},
	{"prove", "Is this used module healthy?", (*Known).prove},
	{"fit", "What do I set on each device?", (*Known).fit},
	{"wire", "Which cable, fuse, relay, resistor?", (*Known).wire},
	{"drill", "What happens when something fails?", (*Known).drill},
	{"travel", "Does it carry me through the year?", (*Known).travel},
	{"keep", "How is it doing, and what do I do now?", (*Known).keep},
}

// absent is a stage without a result: being reckoned, not to be reckoned, or not
// asked for yet.
func (k *Known) absent(name, state string, next Act) Stage {
	run := k.Runs[name]
	switch {
	case run.Say != "":
		return Stage{State: small(run.Say), Standing: Running, Next: Act{Do: "Watch it.", Stage: name}}
	case run.Why != "" && run.Path != "":
		return Stage{State: "cannot be reckoned yet: " + run.Why, Standing: Lacking, Next: Act{Do: "Give what is missing.", Path: run.Path, Stage: name}}
	case run.Why != "":
		return Stage{State: "could not be reckoned: " + run.Why, Standing: Lacking, Next: Act{Do: "See why, or try again.", Stage: name}}
	}
	return Stage{State: state, Standing: Open, Next: next}
}

// judged is a stage by what it found; state stands where nothing is to stop for.
func judged(list []finding.Finding, state string, next Act) Stage {
	s := Stage{State: state, Standing: Done, Next: next}
	if n := finding.Count(list, finding.Stop); n > 0 {
		first := firstOf(list, finding.Stop)
		s.State = strconv.Itoa(n) + " to stop for: " + small(headline(first.Found))
		s.Standing, s.Next = Stop, mending(first)
	} else if finding.Count(list, finding.Care) > 0 {
		s.Standing, s.Next = Mend, mending(firstOf(list, finding.Care))
	}
	return s
}

// mending is the act that mends a finding.
func mending(f finding.Finding) Act {
	do := f.Mend
	if do == "" {
		do = "mend " + f.Where
	}
	return Act{Do: finding.Sentence(do), Why: finding.Sentence(f.Found), Path: f.Where, Stage: "rig"}
}

// Act is how a finding is mended and where: in the rig file, but for what only a
// stage beside the design found.
func (f Found) Act() Act {
	a := mending(f.Finding)
	if len(f.By) == 1 && (f.By[0] == "keep" || f.By[0] == "prove" || f.By[0] == "choose") {
		a.Path, a.Stage = "", f.By[0]
	}
	return a
}

func firstOf(list []finding.Finding, s finding.Severity) finding.Finding {
	for _, f := range list {
		if f.Severity == s {
			return f
		}
	}
	return finding.Finding{}
}

// mendWords counts what is worth mending, to follow a state; "" for none.
func mendWords(list []finding.Finding) string {
	if n := finding.Count(list, finding.Care); n > 0 {
		return "; " + strconv.Itoa(n) + " worth mending"
	}
	return ""
}

// differing counts the settings of the devices, and those that are not as advised.
func differing(res *fit.Result) (n, all int, devices []string) {
	seen := map[string]bool{}
	for _, s := range res.Settings {
		all++
		if !s.Differs {
			continue
		}
		n++
		if !seen[s.Device] {
			seen[s.Device] = true
			devices = append(devices, s.Device)
		}
	}
	return n, all, devices
}

func (k *Known) fit() Stage {
	n, all, _ := differing(k.Fit)
	state := "all " + counted(all, "setting") + " on the devices " + verb(all, "is", "are") + " as advised"
	if all == 0 {
		state = "no device has a setting to advise on"
	}
	if n > 0 {
		state = strconv.Itoa(n) + " of " + counted(all, "setting") + " on the devices " + verb(n, "differs", "differ") + " from what is advised"
	}
	s := judged(k.Fit.Findings, state+mendWords(k.Fit.Findings), Act{Do: "See the settings of each device.", Stage: "fit", Part: "settings"})
	if s.Standing == Stop && n > 0 {
		s.State += "; " + strconv.Itoa(n) + " of " + counted(all, "setting") + " " + verb(n, "differs", "differ")
	}
	if s.Standing == Done && n > 0 {
		s.Standing, s.Next = Mend, Act{Do: "Set each device by its sheet.", Stage: "fit", Part: "settings"}
	}
	return s
}

func (k *Known) wire() Stage {
	if k.Wire == nil {
		return k.absent("wire", "the wiring was not reckoned", Act{Do: "See why.", Stage: "wire"})
	}
	w := k.Wire
	state := counted(len(w.Circuits), "run") + " of cable and " + counted(len(w.Fuses), "fuse") + " looked at, against a short of " + kiloAmps(w.ShortA)
	return judged(w.Findings, state+mendWords(w.Findings), Act{Do: "See the diagram and the schedule.", Stage: "wire"})
}

func kiloAmps(a float64) string { return strconv.FormatFloat(a/1000, 'f', 1, 64) + " kA" }

func (k *Known) drill() Stage {
	if k.Drill == nil {
		return k.absent("drill", "not played yet", Act{Do: "Play every fault through.", Stage: "drill"})
	}
	d := k.Drill
	harmed, silent := 0, 0
	plain := d.Plain()
	for _, row := range d.Rows() {
		if worst := row.Telling(&plain); worst != nil && worst.Outcome == "harm" {
			harmed++
		}
		if row.Silent {
			silent++
		}
	}
	state := counted(len(d.Faults), "fault") + " in " + counted(len(d.Scenes), "scene") + ": "
	switch {
	case harmed > 0:
		state += strconv.Itoa(harmed) + " " + verb(harmed, "reaches", "reach") + " harm"
	case d.Tolerant:
		state += "none reaches harm"
	default:
		state += "harm comes without any"
	}
	if silent > 0 {
		state += ", " + strconv.Itoa(silent) + " " + verb(silent, "is", "are") + " silent"
	}
	s := judged(d.Findings, state+mendWords(d.Findings), Act{Do: "See what acts first in each.", Stage: "drill"})
	s.State = state
	if s.Standing == Stop {
		s.State = strconv.Itoa(finding.Count(d.Findings, finding.Stop)) + " to stop for; " + state
	} else {
		s.State += mendWords(d.Findings)
	}
	return s
}
