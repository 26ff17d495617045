package hourly

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"strings"

	"ampstead/weather"
)

// Limits of what is read: an unpacked file, lines, one line, and hours (60
// years).
const (
	mostBytes = 64 << 20
	mostLines = 1 << 20
	mostLine  = 64 << 10
	mostHours = 60 * 8784
)

// format is one kind of file: how to know it by its first lines, and how to read
// it.
type format struct {
	name string
	is   func(first []string) bool
	read func(*file) (*weather.Hours, error)
}

var formats = []format{
	{"EPW", isEPW, readEPW},
	{"PVGIS JSON", isJSON, readJSON},
	{"PVGIS CSV", isPVGIS, readPVGIS},
	{"TMY3", isTMY3, readTMY3},
	{"NSRDB", isNSRDB, readNSRDB},
	{"SURFRAD", isSURFRAD, readSURFRAD},
	{"TMY2", isTMY2, readTMY2},
}

// file is the text of a weather file.
type file struct {
	name  string
	text  []byte
	lines []string // without line ends
}

// Read reads an hourly weather file; name is for messages and the Basis.
//
// The whole years of several come as one series: see Hours.Years. Errors: *Error.
func Read(name string, r io.Reader) (*weather.Hours, error) {
	h, err := read(name, r)
	var e *Error
	if errors.As(err, &e) {
		e.File = name
	} else if err != nil {
		err = &Error{File: name, Message: err.Error()}
	}
	if err != nil {
		return nil, err
	}
	h.Basis.Kind, h.Basis.Name = weather.File, name
	return h, nil
}

func read(name string, r io.Reader) (*weather.Hours, error) {
	text, err := load(r)
	if err != nil {
		return nil, err
	}
	f := &file{name: name, text: text}
	if err := f.split(); err != nil {
		return nil, err
	}
	for _, k := range formats {
		if k.is(f.lines) {
			h, err := k.read(f)
			if err != nil {
				return nil, err
			}
			return h, h.Check()
		}
	}
	return nil, fault(0, "EPW, TMY2, TMY3, PVGIS, NSRDB or SURFRAD", "this is none of the weather formats known here")
}

// load reads all of it, unpacked, within the limit.
func load(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err == nil && bytes.HasPrefix(text, []byte{0x1f, 0x8b}) {
		var z *gzip.Reader
		if z, err = gzip.NewReader(bytes.NewReader(text)); err == nil {
			text, err = io.ReadAll(io.LimitReader(z, mostBytes+1))
		}
	}
	if err == nil && len(text) > mostBytes {
		err = fmt.Errorf("the file is larger than %d MB", mostBytes>>20)
	}
	return bytes.TrimPrefix(text, []byte("\ufeff")), err
}

// split cuts the text into lines. JSON stays in one piece.
func (f *file) split() error {
	if isJSON([]string{string(f.text[:min(len(f.text), 64)])}) {
		f.lines = []string{"{"}
		return nil
	}
	for line := range strings.Lines(string(f.text)) {
		if len(line) > mostLine {
			return fault(len(f.lines)+1, "", "the line is longer than %d kB", mostLine>>10)
		}
		if len(f.lines) == mostLines {
			return fault(mostLines, "", "there are more than %d lines", mostLines)
		}
		f.lines = append(f.lines, strings.TrimRight(line, "\r\n"))
	}
	return nil
}

// line returns a line counting from 1, or nothing beyond the end.
func (f *file) line(n int) string {
	if n < 1 || n > len(f.lines) {
		return ""
	}
	return f.lines[n-1]
}
