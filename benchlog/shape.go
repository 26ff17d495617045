package benchlog

import "bytes"

// kind is what the text of a field looks like.
type kind uint8

const (
	isWord kind = iota
	isAbsent
	isNumber
	isClock // 12:34:56, with or without days before it
	isDate
	isMoment // date and clock in one field
)

// kindOf classifies a field. It is asked about the head of a file only.
func kindOf(b []byte, mark byte) kind {
	if len(b) == 0 || absent(b) {
		return isAbsent
	}
	if _, rest, ok := number(b, mark); ok {
		if len(rest) == 0 {
			return isNumber
		}
		if len(rest) <= longestUnit {
			if _, known := unitOf(text(rest)); known {
				return isNumber
			}
		}
	}
	return momentKind(b)
}

// shape is the outer form of a file: how it is cut into rows and fields.
type shape struct {
	separator byte
	mark      byte // decimal mark
	width     int  // columns: those of the header, or fields of most rows
	usual     int  // fields of most rows; some loggers leave off empty ends
	values    int  // of them, those that are no words and not empty
	header    int  // line that holds the names, from 1; 0 when there is none
	units     int  // line of units under the names, or 0
	first     int  // line of the first row
}

const (
	sampleRows  = 3000
	sampleLines = 5000
	fitLines    = 200 // looked at for each way of cutting
)

var separators = []struct {
	mark byte
	name string
}{{'\t', "tab"}, {';', "semicolon"}, {',', "comma"}, {'|', "pipe"}, {' ', "space"}}

// findShape tells separator, decimal mark and width from the head. ok is false
// when no way of cutting gives rows of numbers.
func findShape(list [][]byte, o given) (best shape, ok bool) {
	top := 0.0
	for _, s := range separators {
		for _, mark := range []byte{'.', ','} {
			if o.separator != 0 && o.separator != s.mark || o.mark != 0 && o.mark != mark {
				continue
			}
			width, score := fitness(list, s.mark, mark)
			if score > top*1.02 {
				top, best = score, shape{separator: s.mark, mark: mark, width: width, usual: width}
			}
		}
	}
	if o.mark == 0 && onlyCommas(list, best) {
		best.mark = ','
	}
	best.values = usualValues(list, best)
	return best, top > 0.3
}

// onlyCommas reports whether numbers hold commas and never a point. 4,150 could
// be thousands, but a log that never writes a point has decimal commas.
func onlyCommas(list [][]byte, sh shape) bool {
	s := splitter{separator: sh.separator}
	commas := 0
	for _, line := range sensible(list[len(list)/4:]) {
		for _, f := range s.split(line) {
			if kindOf(f, sh.mark) != isNumber {
				continue
			}
			if bytes.IndexByte(f, '.') >= 0 {
				return false
			}
			commas += bytes.Count(f, []byte(","))
		}
	}
	return commas > 0
}

// fitness is how well the lines of the second part of the head are cut: the
// share of lines of the commonest width times the share of fields that make
// sense as values.
func fitness(list [][]byte, separator, mark byte) (width int, score float64) {
	lines := sensible(list)
	if len(lines) > 40 {
		lines = lines[len(lines)/4:]
	}
	if len(lines) > fitLines {
		lines = lines[:fitLines]
	}
	s := splitter{separator: separator}
	count := map[int]int{}
	sense := map[int]float64{}
	for _, line := range lines {
		fields := s.split(line)
		count[len(fields)]++
		sense[len(fields)] += makeSense(fields, mark)
	}
	for n, c := range count {
		if c > count[width] || c == count[width] && sense[n] > sense[width] {
			width = n
		}
	}
	if width < 1 {
		return 0, 0
	}
	score = sense[width] / float64(len(lines))
	if width == 1 {
		score /= 2
	}
	return width, score
}

// sensible leaves out empty lines and comments.
func sensible(list [][]byte) [][]byte {
	var keep [][]byte
	for _, line := range list {
		if len(trim(line)) > 0 && !isComment(line) && len(line) <= maxLine {
			keep = append(keep, line)
		}
	}
	return keep
}

// makeSense is the share of fields that are values; words count little.
func makeSense(fields [][]byte, mark byte) float64 {
	sum, values := 0.0, 0
	for _, f := range fields {
		switch k := kindOf(f, mark); {
		case k == isAbsent:
			sum += 0.8
		case k != isWord:
			sum++
			values++
		case len(f) <= 24 && !bytes.ContainsAny(f, ",;\t|"):
			sum += 0.3
		}
	}
	if values == 0 {
		return 0
	}
	return sum / float64(len(fields))
}
