package benchlog

import (
	"bytes"
	"context"
	"fmt"
	"hash/maphash"
	"io"
	"math"
)

const keptUnread = 20

// Read streams the rows of a log, which may be packed, in bounded memory. name
// stands in errors only. visit may keep nothing of the row it is shown. The
// error is an *Error when the file or the options cannot be understood, else
// what visit, the context or the stream returned; a stream that breaks off in
// its middle is no error but counted among the rows that cannot be read.
func Read(ctx context.Context, name string, r io.Reader, o Options, visit func(*Row) error) (*Summary, error) {
	src, packing, err := unpack(name, r)
	if err != nil {
		return nil, err
	}
	in := newLines(decode(src))
	head := in.head()
	u, bad := recognise(name, head, in.cr, in.err != nil, o)
	if bad != nil {
		return nil, bad
	}
	rd := newReader(u, in, visit)
	rd.sum.Layout = u.plan.describe(u.columns, packing)
	err = rd.run(ctx)
	rd.describe()
	if err == nil && rd.sum.Rows == 0 {
		err = &Error{File: name, Line: u.plan.shape.first, Message: "no row could be read: " + rd.firstWhy(), Expected: "rows as in the first lines", Example: "0.0,3.701,-2.00"}
	}
	return rd.sum, err
}

// Recognise tells the layout from the head of a file, a megabyte or so. The
// head may be cut anywhere, also in the middle of a packed stream.
func Recognise(name string, head []byte, o Options) (Layout, error) {
	sum, err := Read(context.Background(), name, bytes.NewReader(head), o, func(*Row) error { return nil })
	if sum == nil {
		return Layout{}, err
	}
	return sum.Layout, err
}

// reader is one pass through a file.
type reader struct {
	u      *understood
	in     *lines
	sum    *Summary
	time   timeline
	signer *signer
	cut    splitter
	rec    []float64
	last   []byte // the line before
	rows   int    // read or not
	recent recent
	before [2]float64 // V and A of the row before
	row    Row
	visit  func(*Row) error
}

func newReader(u *understood, in *lines, visit func(*Row) error) *reader {
	sum := &Summary{}
	r := &reader{u: u, in: in, sum: sum, visit: visit, cut: splitter{separator: u.plan.shape.separator}, rec: make([]float64, u.plan.width())}
	r.time = timeline{sum: sum, ofDay: u.plan.time.ofDay, dated: u.plan.time.dated}
	r.signer = u.signer(r.emit)
	r.recent.seed = maphash.MakeSeed()
	return r
}

func (r *reader) run(ctx context.Context) error {
	for {
		line, long, ok := r.in.next()
		if !ok {
			break
		}
		if r.in.number%4096 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		if r.in.number < r.u.plan.shape.first {
			continue
		}
		if err := r.line(line, long); err != nil {
			return err
		}
	}
	if err := r.in.broken(); err != nil {
		r.unread(r.in.number+1, nil, fmt.Sprintf("the file breaks off here (%v)", err))
	}
	r.time.settleGap(0)
	return r.signer.finish()
}

func (r *reader) line(line []byte, long bool) error {
	switch {
	case long:
		r.unread(r.in.number, line, "the line is longer than 64 kB")
		return nil
	case len(trim(line)) == 0 || isComment(line):
		return nil
	case r.u.plan.time.perRow == 0 && bytes.Equal(line, r.last):
		r.sum.Repeated++
		return nil
	case r.u.names != nil && bytes.Equal(line, r.u.names):
		r.unread(r.in.number, line, "the line of names again")
		return nil
	}
	r.rows++
	r.last = append(r.last[:0], line...)
	if why := r.u.plan.read(r.cut.split(line), r.rec); why != "" {
		r.unread(r.in.number, line, why)
		return nil
	}
	return r.take(line)
}

// take puts a row on the time line and on its way to its sign.
func (r *reader) take(line []byte) error {
	v := r.rec[recordHead:]
	raw := v[slotTime]
	if p := r.u.plan.time.perRow; p > 0 {
		raw = float64(r.rows-1) * p
	}
	if r.recent.seen(line, raw <= r.time.raw) {
		r.sum.Repeated++
		return nil
	}
	at, cut := r.time.at(raw, r.in.number, r.steady)
	r.before = [2]float64{v[slotVolts], v[slotAmps]}
	r.rec[recordTime], r.rec[recordLine] = at, float64(r.in.number)
	r.rec[recordCycle] = float64(r.sum.Restarts)
	if c := v[slotCycle]; c == c {
		r.rec[recordCycle] = c
	}
	return r.signer.take(r.rec, cut)
}

// steady reports whether a load runs on through a jump of the clock as if
// nothing had been.
func (r *reader) steady() bool {
	v, a := r.rec[recordHead+slotVolts], r.rec[recordHead+slotAmps]
	return math.Abs(a) > 0 && math.Abs(a-r.before[1]) < 0.05*math.Abs(a) && math.Abs(v-r.before[0]) < 0.001*math.Abs(v)
}

// emit shows a record to the caller.
func (r *reader) emit(rec []float64, sign float64) error {
	v := rec[recordHead:]
	groups := slotGroups + r.u.plan.groups
	r.row = Row{Line: int(rec[recordLine]), Time: rec[recordTime], Volts: v[slotVolts], Amps: v[slotAmps] * sign, Groups: v[slotGroups:groups:groups],
		TempsC: v[groups:], ChargeAh: v[slotAh], EnergyWh: v[slotWh], Cycle: int(rec[recordCycle])}
	r.sum.Rows++
	return r.visit(&r.row)
}

func (r *reader) unread(line int, text []byte, why string) {
	r.sum.UnreadAll++
	if len(r.sum.Unread) < keptUnread {
		r.sum.Unread = append(r.sum.Unread, Unread{Line: line, Text: beginning(text), Why: why})
	}
}

func (r *reader) firstWhy() string {
	if len(r.sum.Unread) == 0 {
		return "there is none"
	}
	return r.sum.Unread[0].Why
}

// describe completes the layout with the sign.
func (r *reader) describe() {
	l := &r.sum.Layout
	l.Sign, l.SignHow = r.signer.describe()
	switch {
	case r.u.given.sign != 0:
		l.SignHow = "given"
	case r.u.plan.pair:
		l.SignHow = "a column for each direction"
	case r.signer.fixed != 0 && len(with(r.u.columns, Current)) == 0 && !r.u.plan.powers:
		l.Sign, l.SignHow = "", ""
	}
	l.Line = r.u.plan.say(r.u.columns, l)
}

// recent remembers the last lines by their hashes, so that a stretch which a
// logger wrote twice is known when the clock seems to step back.
type recent struct {
	seed   maphash.Seed
	hashes [4096]uint64
	rows   int
}

// seen notes a line and reports whether it was there before; asked is false
// where that cannot be.
func (m *recent) seen(line []byte, asked bool) bool {
	h := maphash.Bytes(m.seed, line)
	if asked {
		for _, old := range m.hashes[:min(m.rows, len(m.hashes))] {
			if old == h {
				return true
			}
		}
	}
	m.hashes[m.rows%len(m.hashes)] = h
	m.rows++
	return false
}
