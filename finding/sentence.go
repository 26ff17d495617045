package finding

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Sentence makes a sentence of a phrase, such as Found or Mend: a capital first, a
// stop last. Nothing stays nothing.
func Sentence(text string) string {
	text = strings.TrimSpace(text)
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	text = string(unicode.ToUpper(first)) + text[size:]
	if strings.ContainsRune(".!?:", rune(text[len(text)-1])) {
		return text
	}
	return text + "."
}
