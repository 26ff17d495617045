package benchlog

import (
	"bytes"
	"errors"
	"io"
)

const (
	headBytes = 1 << 20 // what is looked at before the first row is read
	maxLine   = 1 << 16 // a longer line is no row of a log
)

// lines cuts a stream into lines. Its buffer holds the head of the file, so
// that the file can be recognised first and then read from its start.
type lines struct {
	src       io.Reader
	buf       []byte
	from, end int
	number    int   // of the line last returned, from 1
	err       error // what ended the stream; io.EOF when it was whole
	cr        bool  // lines end in a carriage return alone
}

func newLines(src io.Reader) *lines {
	return &lines{src: src, buf: make([]byte, headBytes)}
}

// head fills the buffer and returns it; nothing is consumed.
func (l *lines) head() []byte {
	l.fill()
	h := l.buf[l.from:l.end]
	l.cr = bytes.IndexByte(h, '\n') < 0 && bytes.IndexByte(h, '\r') >= 0
	return h
}

func (l *lines) fill() {
	if l.from > 0 {
		copy(l.buf, l.buf[l.from:l.end])
		l.end -= l.from
		l.from = 0
	}
	for empty := 0; l.end < len(l.buf) && l.err == nil; {
		n, err := l.src.Read(l.buf[l.end:])
		l.end += n
		l.err = err
		if n > 0 {
			empty = 0
		} else if empty++; empty > 100 && err == nil {
			l.err = io.ErrNoProgress
		}
	}
}

// next returns the next line without its ending, valid until the next call.
// long is true for a line of which only the beginning is given. ok is false at
// the end of the stream.
func (l *lines) next() (line []byte, long, ok bool) {
	mark := byte('\n')
	if l.cr {
		mark = '\r'
	}
	at := bytes.IndexByte(l.buf[l.from:l.end], mark)
	if at < 0 && l.err == nil {
		l.fill()
		at = bytes.IndexByte(l.buf[l.from:l.end], mark)
	}
	if at < 0 && l.from == l.end {
		return nil, false, false
	}
	l.number++
	if at < 0 {
		return l.last(mark)
	}
	line = l.buf[l.from : l.from+at]
	l.from += at + 1
	return endOf(line), len(line) > maxLine, true
}

// last returns what no line ending follows: the end of the file, or a line
// longer than the whole buffer, the rest of which is thrown away.
func (l *lines) last(mark byte) (line []byte, long, ok bool) {
	line = l.buf[l.from:l.end]
	l.from = l.end
	if l.err != nil {
		return endOf(line), len(line) > maxLine, true
	}
	line = append([]byte(nil), line[:200]...)
	for l.err == nil {
		l.fill()
		if at := bytes.IndexByte(l.buf[:l.end], mark); at >= 0 {
			l.from = at + 1
			break
		}
		l.from = l.end
	}
	return line, true, true
}

func endOf(line []byte) []byte {
	if n := len(line); n > 0 && line[n-1] == '\r' {
		return line[:n-1]
	}
	return line
}

// broken returns why the stream ended before its end, or nil.
func (l *lines) broken() error {
	if l.err == nil || errors.Is(l.err, io.EOF) && !errors.Is(l.err, io.ErrUnexpectedEOF) {
		return nil
	}
	return l.err
}
