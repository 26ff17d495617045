package rig

import (
	"strings"
	"unicode/utf8"
)

// places turns lines and columns of a text into bytes.
type places struct {
	text  []byte
	lines []int // byte where each line starts
}

func newPlaces(text []byte) *places {
	p := &places{text: text, lines: []int{len(mark(text))}}
	for i, b := range text {
		if b == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	return p
}

// mark returns the byte order mark at the start of the text, if any.
func mark(text []byte) []byte {
	if strings.HasPrefix(string(text[:min(3, len(text))]), "\ufeff") {
		return text[:3]
	}
	return nil
}

// offset returns the byte at a line and column; blanks there are skipped
// because the YAML reader counts some of them differently.
func (p *places) offset(line, column int) int {
	if line < 1 || line > len(p.lines) {
		return len(p.text)
	}
	at := p.lines[line-1]
	for i := 1; i < column && at < len(p.text) && p.text[at] != '\n'; i++ {
		_, size := utf8.DecodeRune(p.text[at:])
		at += size
	}
	for at < len(p.text) && (p.text[at] == ' ' || p.text[at] == '\t') {
		at++
	}
	return at
}

// at returns the line and column of a byte.
func (p *places) at(offset int) (line, column int) {
	offset = min(offset, len(p.text))
	line = 1
	low, high := 0, len(p.lines)
	for low < high {
		mid := (low + high) / 2
		if p.lines[mid] <= offset {
			line, low = mid+1, mid+1
		} else {
			high = mid
		}
	}
	start := min(p.lines[line-1], offset)
	return line, utf8.RuneCount(p.text[start:offset]) + 1
}

// lineEnd returns the byte just after the line that holds offset, its line
// break included.
func (p *places) lineEnd(offset int) int {
	line, _ := p.at(offset)
	if line < len(p.lines) {
		return p.lines[line]
	}
	return len(p.text)
}

// lineStart returns the first byte of the line that holds offset.
func (p *places) lineStart(offset int) int {
	line, _ := p.at(offset)
	return p.lines[line-1]
}
