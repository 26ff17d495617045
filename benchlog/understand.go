package benchlog

import (
	"bytes"
	"fmt"
	"math"
)

// understood is a file whose head has been recognised.
type understood struct {
	plan    *plan
	columns []column
	given   given
	names   []byte  // the line of names, to know it when it comes again
	maxA    float64 // A, in the head
}

// recognise works out the layout from the head of a file.
func recognise(name string, head []byte, cr, whole bool, o Options) (*understood, *Error) {
	g, bad := give(name, o)
	if bad != nil {
		return nil, bad
	}
	list := headLines(head, cr, whole)
	sh, ok := findShape(list, g)
	if !ok {
		return nil, noTable(name, list)
	}
	p := cut(list, sh)
	if len(p.rows) == 0 {
		return nil, noTable(name, list)
	}
	u := &understood{columns: columnsOf(&p), given: g}
	if p.shape.header > 0 {
		u.names = bytes.Clone(list[p.shape.header-1])
	}
	if bad := fix(name, u.columns, o, p.shape.header); bad != nil {
		return nil, bad
	}
	assign(u.columns)
	time := settleTime(u.columns, p.rows)
	if bad := u.settleGiven(name, &time, p.shape); bad != nil {
		return nil, bad
	}
	if bad := u.check(name, o, p.shape); bad != nil {
		return nil, bad
	}
	u.plan = newPlan(p.shape, u.columns, time)
	u.maxA = u.largest()
	return u, nil
}

func noTable(name string, list [][]byte) *Error {
	if lastLine(list, len(list)) < 0 {
		return &Error{File: name, Message: "the file is empty", Expected: "a line of names and rows of numbers", Example: "time_s,voltage_v,current_a"}
	}
	line := 1
	for line < len(list) && len(trim(list[line-1])) == 0 {
		line++
	}
	return &Error{File: name, Line: line, Message: fmt.Sprintf("no rows of numbers were found; the file begins %q", beginning(list[line-1])),
		Expected: "rows of numbers, separated by commas, semicolons, tabs or blanks, with time, voltage and current", Example: "0.0,3.701,-2.00"}
}

// settleGiven puts what the options say of time over what was recognised.
func (u *understood) settleGiven(name string, t *timeForm, sh shape) *Error {
	g := u.given
	if g.perRow > 0 {
		for _, c := range with(u.columns, Time) {
			c.role = Ignored
		}
		*t = timeForm{perRow: g.perRow, date: -1, clock: -1}
		return nil
	}
	if len(with(u.columns, Time)) == 0 {
		return &Error{File: name, Line: sh.header, Message: "no column of time was found among " + namesOf(u.columns),
			Expected: "a column of time, or the step from row to row as the option for time", Example: "10 s"}
	}
	if g.time.symbol != "" && t.numeric {
		c := with(u.columns, Time)[0]
		c.unit = g.time
		t.scale, t.words = g.time.scale, g.time.symbol
	}
	if g.order != anyOrder && t.dated {
		t.order, t.unsure = g.order, false
		t.words = "date and clock, " + orderWords[g.order]
	}
	if g.minutes || g.clock {
		t.minutes = g.minutes
	}
	return nil
}

// check refuses a file without any voltage, and one whose groups are not as
// many as the options say.
func (u *understood) check(name string, o Options, sh shape) *Error {
	groups := len(with(u.columns, GroupV))
	if groups == 0 && len(with(u.columns, Voltage)) == 0 {
		return &Error{File: name, Line: sh.header, Message: "no column of voltage was found among " + namesOf(u.columns),
			Expected: "which column is the voltage, as the option for columns", Example: fmt.Sprintf("%q as \"voltage V\"", u.columns[len(u.columns)-1].m.name)}
	}
	if o.Groups > 0 && groups > 0 && groups != o.Groups {
		return &Error{File: name, Line: sh.header, Message: fmt.Sprintf("%s of voltage found, %d expected, among %s", counted(groups, "group"), o.Groups, namesOf(u.columns)),
			Expected: "the right number of groups, or each group's column as the option for columns", Example: fmt.Sprintf("%q as \"group 1 V\"", u.columns[0].m.name)}
	}
	return nil
}

// largest is the largest current of the head in A, without the few highest
// values, which may be faults.
func (u *understood) largest() float64 {
	var sizes []float64
	for _, c := range with(u.columns, Current) {
		for _, v := range c.s.values {
			if v == v {
				sizes = append(sizes, math.Abs(v)*c.unit.scale)
			}
		}
	}
	if len(sizes) == 0 {
		return 0
	}
	medianOf(sizes) // sorts
	return sizes[len(sizes)-1-len(sizes)/200]
}

// signer returns what gives the currents of the file their sign.
func (u *understood) signer(emit func([]float64, float64) error) *signer {
	s := &signer{evidence: newEvidence(u.maxA), emit: emit, held: held{width: u.plan.width()}}
	s.evidence.counter = u.plan.counts
	if u.given.sign != 0 {
		s.fixed = u.given.sign
		return s
	}
	found := with(u.columns, Current)
	if u.plan.pair || len(found) == 0 && !u.plan.powers {
		s.fixed = 1
		return s
	}
	if len(found) == 1 {
		s.fixed, s.evidence.plus[byHeader], s.evidence.minus[byHeader] = headerSign(found[0].m.tags)
	}
	return s
}

// headerSign reads the sign from words of the header: certain where it says
// what is positive, else a hint that the measured values may outweigh.
func headerSign(t tag) (fixed, plus, minus float64) {
	const hint = 0.9 * enough
	way := 0.0
	switch {
	case t&charging != 0 && t&discharging == 0:
		way = 1
	case t&discharging != 0 && t&charging == 0:
		way = -1
	default:
		return 0, 0, 0
	}
	switch {
	case t&positive != 0:
		return way, 0, 0
	case t&negative != 0:
		return -way, 0, 0
	case way > 0:
		return 0, hint, 0
	}
	return 0, 0, hint
}
