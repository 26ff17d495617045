package benchlog

import (
	"bufio"
	"bytes"
	"io"
	"unicode/utf16"
	"unicode/utf8"
)

// decode takes a byte order mark off and turns UTF-16 into UTF-8. Bytes of the
// western code page pass: digits and separators are the same, and names are
// turned when they are shown.
func decode(r io.Reader) io.Reader {
	b := bufio.NewReaderSize(r, 64<<10)
	head, _ := b.Peek(64)
	switch {
	case bytes.HasPrefix(head, []byte{0xEF, 0xBB, 0xBF}):
		b.Discard(3)
	case bytes.HasPrefix(head, []byte{0xFF, 0xFE}):
		b.Discard(2)
		return &wide{src: b}
	case bytes.HasPrefix(head, []byte{0xFE, 0xFF}):
		b.Discard(2)
		return &wide{src: b, big: true}
	case zeros(head, 1) > len(head)/4:
		return &wide{src: b}
	case zeros(head, 0) > len(head)/4:
		return &wide{src: b, big: true}
	}
	return b
}

// zeros counts the zero bytes at even (0) or odd (1) places.
func zeros(b []byte, from int) int {
	n := 0
	for i := from; i < len(b); i += 2 {
		if b[i] == 0 {
			n++
		}
	}
	return n
}

// wide reads UTF-16 as UTF-8.
type wide struct {
	src  *bufio.Reader
	big  bool
	left []byte // encoded and not yet handed out
	room [utf8.UTFMax]byte
}

func (w *wide) Read(p []byte) (int, error) {
	n := copy(p, w.left)
	w.left = w.left[n:]
	for n < len(p) && len(w.left) == 0 {
		r, err := w.rune()
		if err != nil {
			if n > 0 && err == io.EOF {
				return n, nil
			}
			return n, err
		}
		k := utf8.EncodeRune(w.room[:], r)
		m := copy(p[n:], w.room[:k])
		n += m
		w.left = w.room[m:k]
	}
	return n, nil
}

func (w *wide) rune() (rune, error) {
	r, err := w.half()
	if err != nil || !utf16.IsSurrogate(r) {
		return r, err
	}
	low, err := w.half()
	if err != nil {
		return utf8.RuneError, nil
	}
	return utf16.DecodeRune(r, low), nil
}

func (w *wide) half() (rune, error) {
	a, err := w.src.ReadByte()
	if err != nil {
		return 0, err
	}
	b, err := w.src.ReadByte()
	if err != nil {
		return 0, err
	}
	if w.big {
		return rune(a)<<8 | rune(b), nil
	}
	return rune(b)<<8 | rune(a), nil
}
