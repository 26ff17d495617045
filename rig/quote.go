package rig

import (
	"fmt"
	"strings"
	"unicode"
)

// written returns value as YAML text: in the old quotes when there were some,
// else plain where YAML allows it.
func written(value string, old quoting, flow bool) string {
	switch {
	case strings.IndexFunc(value, needsEscape) >= 0 || old == double:
		return doubleQuoted(value)
	case old == single || !canBePlain(value, flow):
		return "'" + strings.ReplaceAll(value, "'", "''") + "'"
	}
	return value
}

func needsEscape(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == '\ufeff'
}

// canBePlain reports whether YAML reads the bare text as that text.
func canBePlain(s string, flow bool) bool {
	switch {
	case s != strings.TrimSpace(s), s == "", s == "~", s == "-", s == "?", s == ":", s == "=",
		strings.EqualFold(s, "null"):
		return false
	case strings.ContainsRune("?:,[]{}#&*!|>'\"%@`<", rune(s[0])):
		return false
	case strings.HasPrefix(s, "- "), strings.HasPrefix(s, "---"), strings.HasPrefix(s, "..."):
		return false
	case strings.Contains(s, ": "), strings.Contains(s, " #"), strings.HasSuffix(s, ":"), strings.Contains(s, "\t"):
		return false
	}
	return !flow || !strings.ContainsAny(s, ",[]{}:#")
}

func doubleQuoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case needsEscape(r):
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// Scalar returns text as a value of a rig file, in quotes where YAML would read
// it as something else.
func Scalar(text string) string { return written(text, plain, false) }

// InlineScalar is Scalar for a value inside braces or brackets.
func InlineScalar(text string) string { return written(text, plain, true) }
