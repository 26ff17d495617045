package benchlog

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// western maps the bytes 0x80-0x9F of the western code page that loggers use
// in headers; the rest of that page equals Unicode.
var western = map[byte]rune{0x80: '€', 0x91: '‘', 0x92: '’', 0x93: '“', 0x94: '”', 0x96: '–', 0x97: '—'}

// text returns bytes as text: UTF-8 where it is, else the western code page.
func text(b []byte) string {
	if utf8.Valid(b) {
		return string(b)
	}
	var s strings.Builder
	for _, c := range b {
		if r, ok := western[c]; ok {
			s.WriteRune(r)
		} else {
			s.WriteRune(rune(c))
		}
	}
	return s.String()
}

// beginning returns at most eighty characters of a line, to show it.
func beginning(line []byte) string {
	cut := line[:min(len(line), 400)]
	s := []rune(strings.Map(printable, text(cut)))
	if len(s) > 80 {
		return string(s[:80]) + "…"
	}
	return string(s)
}

func printable(r rune) rune {
	if r == '\t' {
		return ' '
	}
	if !unicode.IsPrint(r) {
		return -1
	}
	return r
}

// accents are what fold turns into plain letters.
var accents = strings.NewReplacer("ä", "a", "à", "a", "á", "a", "â", "a", "ö", "o", "ó", "o", "ô", "o", "ü", "u", "ú", "u", "û", "u", "ù", "u",
	"é", "e", "è", "e", "ê", "e", "ë", "e", "í", "i", "î", "i", "ï", "i", "ç", "c", "ñ", "n", "ß", "ss", "µ", "u", "μ", "u")

// fold writes a name in small plain letters.
func fold(s string) string { return accents.Replace(strings.ToLower(s)) }
