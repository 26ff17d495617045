package rig

import "fmt"

// checks are the contradictions looked for. Those that need every name are left
// out when a part of the file could not be read.
var checks = []struct {
	about  string
	run    func(*checker)
	isName bool
}{
	{"two things with one name", (*checker).twins, false},
	{"names that a path cannot hold", (*checker).plainNames, false},
	{"names with a meaning of their own", (*checker).reserved, false},
	{"names of things that are not there", (*checker).references, true},
	{"a stay that ends before it starts", (*checker).stayDates, false},
	{"stays that overlap", (*checker).overlaps, false},
	{"coldest above hottest", (*checker).coldest, false},
	{"latitude without longitude", (*checker).latitudes, false},
	{"own cell without its block, and the reverse", (*checker).ownCell, true},
	{"own curve that does not rise from 0 % to 100 %", (*checker).ownCurve, false},
	{"limits the wrong way round", (*checker).cellLimits, false},
	{"readings of more or fewer groups than there are", (*checker).groups, false},
	{"parts on a source that cannot have them", (*checker).sourceParts, false},
	{"settings a source cannot be set to", (*checker).sourceRange, false},
	{"peak voltage above open-circuit voltage", (*checker).panels, false},
	{"input ranges the wrong way round", (*checker).inputs, false},
	{"restart not above the low cut", (*checker).restarts, false},
	{"relay thresholds the wrong way round", (*checker).relays, false},
	{"alarms and cut-outs the wrong way round", (*checker).alarms, false},
	{"heater that starts above where it stops", (*checker).heater, false},
	{"cable from a thing to itself", (*checker).cables, false},
	{"hours and duty of one load", (*checker).habits, false},
	{"what live readings come from", (*checker).live, false},
}

// contradictions reports what each value alone does not show.
func (f *File) contradictions(torn bool) Errors {
	c := &checker{file: f, rig: f.Rig}
	for _, check := range checks {
		if !torn || !check.isName {
			check.run(c)
		}
	}
	return c.problems
}

type checker struct {
	file     *File
	rig      *Rig
	problems Errors
}

func (c *checker) add(path, message, expected, example string) {
	if len(c.problems) >= maxProblems {
		return
	}
	c.problems = append(c.problems, c.file.Problem(path, message, expected, example))
}

// item is the path of item i of a list.
func (c *checker) item(listPath string, i int) string {
	n := c.file.tree.at(listPath)
	if n == nil || n.kind != list || i >= len(n.items) {
		return join(listPath, fmt.Sprint(i))
	}
	return join(listPath, n.steps[i])
}

// above reports path unless high is above low. Both are as written, through
// got, and the message names the other key.
func (c *checker) above(path, highKey, lowKey string, ok bool) {
	if ok {
		return
	}
	high, low := c.written(join(path, highKey)), c.written(join(path, lowKey))
	c.add(join(path, highKey), fmt.Sprintf("%s is not above %s, which is %s", high, lowKey, low),
		"more than "+low, "")
}

// written is the text of the value at path.
func (c *checker) written(path string) string {
	if n := c.file.tree.at(path); n != nil {
		return n.text
	}
	return ""
}
