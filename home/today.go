package home

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"ampstead/finding"
	"ampstead/keep"
)

// urgency orders what to do today over all stages; ours.
type urgency int

const (
	atOnce   urgency = iota // a cell is out of its limits now
	unjoined                // do not connect
	mendStop
	thisWeek
	visitDue
	missing // a stage cannot be reckoned
	unproven
	mendCare
	toSet
	firstReading
	print
	nextVisit
	later
)

// mostActs is how many things a day is asked for.
const mostActs = 5

// today lists what to do, most urgent first.
func (k *Known) today(r *Result) []Act {
	var list []Act
	rules := []func(*Result) []Act{k.kept, k.stops, k.lacks, k.untested, k.cares, k.settings, k.readFirst, k.printed, k.visits}
	for _, rule := range rules {
		list = append(list, rule(r)...)
	}
	slices.SortStableFunc(list, func(a, b Act) int { return int(a.urgency - b.urgency) })
	if len(list) > mostActs {
		list = list[:mostActs]
	}
	return list
}

// kept is what the logbook asks for.
func (k *Known) kept(*Result) []Act {
	if k.Kept == nil || k.Kept.Readings == 0 {
		return nil // that it is empty, readFirst says
	}
	var list []Act
	for _, t := range k.Kept.Today {
		a := Act{Do: finding.Sentence(t.Do), Why: finding.Sentence(t.Why), Stage: "keep", urgency: later}
		switch t.Urgency {
		case "now":
			a.urgency = atOnce
		case "this week":
			a.urgency = thisWeek
		case "next visit":
			a.urgency = nextVisit
		}
		if t.ID == "read" {
			a.Part = "enter"
		}
		list = append(list, a)
	}
	return list
}

// stops are the findings that forbid connecting: one act to stand by, and the
// first to mend.
func (k *Known) stops(r *Result) []Act {
	n := r.Count(finding.Stop)
	if n == 0 {
		return nil
	}
	do := "Leave the bank disconnected until what there is to stop for is mended."
	if k.Kept != nil && k.Kept.Readings > 0 {
		do = "Disconnect the bank until what there is to stop for is mended."
	}
	first := r.Findings[0]
	a := first.Act()
	a.Do, a.Why, a.urgency = "Mend the first: "+small(a.Do), finding.Sentence(first.Head), mendStop
	return []Act{{Do: do, Why: counted(n, "finding") + " " + verb(n, "forbids", "forbid") + " connecting it.", Stage: "home", Part: "findings-heading", urgency: unjoined}, a}
}

// lacks are the stages that cannot be reckoned, each missing place once.
func (k *Known) lacks(r *Result) []Act {
	var list []Act
	for _, s := range r.Stages {
		run := k.Runs[s.Name]
		if s.Standing != Lacking || run.Path == "" {
			continue
		}
		same := func(a Act) bool { return a.Path == run.Path }
		if i := slices.IndexFunc(list, same); i >= 0 {
			list[i].Do = strings.Replace(list[i].Do, " cannot be", " and "+s.Name+" cannot be", 1)
			continue
		}
		list = append(list, Act{Do: "Give “" + run.Path + "” in the rig: without it " + s.Name + " cannot be reckoned.", Why: finding.Sentence(run.Why), Path: run.Path, Stage: "rig", urgency: missing})
	}
	return list
}

// untested is a bank whose health nobody measured.
func (k *Known) untested(r *Result) []Act {
	if s := r.Stage("prove"); s.Standing != Open {
		return nil
	}
	if k.Log != "" && k.Proof == nil {
		return nil
	}
	why := "No log of a test is kept with this rig, and its file says of no test."
	if k.Proof != nil {
		why = "The log that is kept does not decide."
	}
	return []Act{{Do: "Test the module before it is built in: make a test plan.", Why: why, Stage: "prove", Part: "plan", urgency: unproven}}
}

// cares is the first of what is worth mending.
func (k *Known) cares(r *Result) []Act {
	n := r.Count(finding.Care)
	if n == 0 {
		return nil
	}
	for _, f := range r.Findings {
		if f.Severity == finding.Care && !pressed(k.Kept, f.By) {
			a := f.Act()
			a.Do, a.Why, a.urgency = finding.Sentence("Worth mending: "+small(f.Head)), a.Do, mendCare
			if n > 1 {
				a.Do = finding.Sentence("Of " + strconv.Itoa(n) + " things worth mending, the first: " + small(f.Head))
			}
			return []Act{a}
		}
	}
	return nil
}

// pressed reports whether only the logbook found it and asks for it already.
func pressed(res *keep.Result, by []string) bool {
	return res != nil && pressing(res) != nil && len(by) == 1 && by[0] == "keep"
}

// settings are to be dialled in.
func (k *Known) settings(*Result) []Act {
	n, _, devices := differing(k.Fit)
	if n == 0 {
		return nil
	}
	do := "Set " + devices[0] + " by its sheet, then write what you set into the rig."
	if len(devices) > 1 {
		do = "Set " + strconv.Itoa(len(devices)) + " devices by their sheets, then write what you set into the rig."
	}
	return []Act{{Do: do, Why: counted(n, "setting") + " " + verb(n, "differs", "differ") + " from what is advised.", Stage: "fit", Part: "settings", urgency: toSet}}
}

// readFirst asks for the first reading.
func (k *Known) readFirst(*Result) []Act {
	if k.Kept == nil || k.Kept.Readings > 0 {
		return nil
	}
	return []Act{{Do: "Read every group with the cell meter after a night without current, and enter it.", Why: "The logbook is empty: drift can be told only from readings.", Stage: "keep", Part: "enter", urgency: firstReading}}
}

// printed is the book, once nothing forbids connecting.
func (k *Known) printed(r *Result) []Act {
	if r.Count(finding.Stop) > 0 {
		return nil
	}
	return []Act{{Do: "Print the book and go through it with the licensed electrician who checks the installation.", Stage: "book", urgency: print}}
}

// visits is the next one, or the one that is due.
func (k *Known) visits(*Result) []Act {
	at, ok := k.nextVisit()
	if !ok || k.Kept.Readings == 0 || pressing(k.Kept) != nil {
		return nil
	}
	a := Act{Do: "Come back on " + dayName(at, k.Now) + " and read every group.", Why: finding.Sentence(k.Kept.Next.Why), Stage: "keep", Part: "enter", urgency: later}
	switch left := days(k.Now, at); {
	case left < 0:
		a.Do, a.urgency = "Read every group: the visit of "+dayName(at, k.Now)+" is overdue.", visitDue
	case left == 0:
		a.Do, a.urgency = "Read every group: the next visit is today.", visitDue
	}
	return []Act{a}
}

func (k *Known) nextVisit() (time.Time, bool) {
	if k.Kept == nil {
		return time.Time{}, false
	}
	return instant(k.Kept.Next.Date, k.zone())
}

func (k *Known) zone() *time.Location { return k.Now.Location() }

// before is what remains to be done by hand before the bank is connected, whatever
// was found.
func (k *Known) before() []Act {
	var list []Act
	if n, all, _ := differing(k.Fit); all > 0 {
		do := "Compare the " + counted(all, "setting") + " with what the devices show."
		if n > 0 {
			do = "Dial in " + strconv.Itoa(n) + " of " + counted(all, "setting") + "."
		}
		list = append(list, Act{Do: do, Stage: "fit", Part: "settings"})
	}
	if k.Wire != nil && len(k.Wire.Steps) > 0 {
		list = append(list, Act{Do: "Measure at " + counted(len(k.Wire.Steps), "step") + " of commissioning, each with its value to expect.", Stage: "wire", Part: "commissioning"})
	}
	if k.Drill != nil && len(k.Drill.Rehearsal) > 0 {
		list = append(list, Act{Do: "Rehearse " + counted(len(k.Drill.Rehearsal), "trip") + " of the protection that can be tried without harm.", Stage: "drill", Part: "rehearsal"})
	}
	return append(list, Act{Do: "Have it checked by licensed practice, with the book in hand.", Stage: "book"})
}
