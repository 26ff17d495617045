package picture

import "strings"

// style is a way of setting text: a class of the style sheet, a size in px and
// how much wider than the plain face it runs.
type style struct {
	class string
	size  float64
	wide  float64
}

const bold, serif = 1.16, 1.24 // widths against the plain face, on the wide side

var (
	plain  = style{"", 13, 1}
	strong = style{"bold", 13, bold}
	hot    = style{"bold accent", 13, bold}
	small  = style{"faint", 12, 1}
	alert  = style{"accent", 12, 1}
	tick   = style{"faint", 12, 1}
	head   = style{"head", 16, serif}
	big    = style{"head", 20, serif}
)

// leading is the distance between baselines.
func (s style) leading() float64 { return s.size + 4 }

// advance holds widths of the printable ASCII characters in hundredths of the
// size. They are those of a wide sans face, so that text set in a narrower one
// stays inside the box kept free for it.
var advance = [...]uint8{
	32, 41, 46, 84, 64, 96, 78, 28, 40, 40, 50, 84, 32, 37, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84, 84, 84, 54,
	100, 69, 69, 70, 78, 64, 63, 78, 76, 30, 50, 66, 56, 87, 75, 79, 67, 79, 70, 70, 62, 74, 69, 99, 69, 67, 69, 40, 34, 40, 84, 56, 50,
	62, 64, 55, 64, 62, 36, 64, 64, 28, 28, 58, 28, 98, 64, 62, 64, 64, 42, 53, 40, 64, 60, 82, 60, 60, 53, 64, 34, 64, 84,
}

// measure estimates the width of text in px, never too small for the faces of
// the style sheet.
func (s style) measure(text string) float64 {
	sum := 0.0
	for _, r := range text {
		switch {
		case r >= ' ' && int(r-' ') < len(advance):
			sum += float64(advance[r-' '])
		case r < 0x250: // accented Latin
			sum += 84
		default:
			sum += 105
		}
	}
	return sum / 100 * s.size * s.wide
}

// longest picks the first wording that fits, or the last.
func (s style) longest(width float64, wordings ...string) string {
	for _, text := range wordings {
		if s.measure(text) <= width {
			return text
		}
	}
	return wordings[len(wordings)-1]
}

// wrap breaks text into lines no wider than width; a word that is too long for
// a line of its own is cut.
func (s style) wrap(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range tokens(text) {
		joined := word
		if line != "" {
			joined = line + " " + word
		}
		if s.measure(joined) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		var cut []string
		cut, line = s.cut(word, width)
		lines = append(lines, cut...)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// tokens splits text at its spaces, but leaves a unit with its number and an
// opened bracket with its next word.
func tokens(text string) []string {
	words := strings.Fields(text)
	list := words[:0]
	for _, word := range words {
		if n := len(list); n > 0 && (isUnit(word) || strings.HasPrefix(list[n-1], "(") && !strings.Contains(list[n-1], ")")) {
			list[n-1] += " " + word
			continue
		}
		list = append(list, word)
	}
	return list
}

func isUnit(word string) bool {
	switch strings.TrimRight(word, ".,;)") {
	case "V", "mV", "%", "°C", "°F", "Wh", "kWh", "Ah", "A", "mA", "kA", "Ω", "mm²", "AWG", "m", "ft", "W":
		return true
	}
	return false
}

// cut takes pieces that fill a line from a word; what remains fits.
func (s style) cut(word string, width float64) (pieces []string, rest string) {
	for s.measure(word) > width {
		n := s.fitting(word, width)
		if n >= len(word) {
			break
		}
		pieces = append(pieces, word[:n])
		word = word[n:]
	}
	return pieces, word
}

// fitting is the number of bytes of word that fit, at least one character.
func (s style) fitting(word string, width float64) int {
	n := 0
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && s.measure(word[:end]) > width {
			break
		}
		n = end
	}
	return n
}
