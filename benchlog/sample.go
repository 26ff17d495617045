package benchlog

import (
	"bytes"
	"math"
)

// sample is the head of a file cut into fields.
type sample struct {
	shape shape
	names []string // empty when the file has no header
	units []string
	rows  [][][]byte // of the head, only those of the right width
	lines []int      // their line numbers
}

// headLines cuts the head into lines, leaving off a last one that may be cut.
func headLines(head []byte, cr, whole bool) [][]byte {
	mark := byte('\n')
	if cr {
		mark = '\r'
	}
	var list [][]byte
	for len(head) > 0 && len(list) < sampleLines {
		at := bytes.IndexByte(head, mark)
		if at < 0 {
			if whole || len(list) == 0 {
				list = append(list, endOf(head))
			}
			break
		}
		list = append(list, endOf(head[:at]))
		head = head[at+1:]
	}
	joinQuoted(list[:min(len(list), 60)])
	return list
}

// joinQuoted puts a header together whose quoted names run over lines; the
// lines it takes from are left empty, so that the others keep their numbers.
func joinQuoted(list [][]byte) {
	for i, line := range list {
		for k := i + 1; k < len(list) && k < i+9 && bytes.Count(line, []byte{'"'})%2 == 1; k++ {
			joined := bytes.Join([][]byte{line, list[k]}, []byte{' '})
			if bytes.Count(joined, []byte{'"'})%2 == 0 {
				list[i] = joined
				for e := i + 1; e <= k; e++ {
					list[e] = nil
				}
				break
			}
			line = joined
		}
	}
}

func isComment(line []byte) bool {
	t := trim(line)
	return len(t) > 0 && (t[0] == '#' || bytes.HasPrefix(t, []byte("//")) || t[0] == '%' && len(t) > 1 && !isDigit(t[1]))
}

// cut finds where the rows begin, and the lines of names and units above them.
func cut(list [][]byte, sh shape) sample {
	s := splitter{separator: sh.separator}
	first := -1
	for i, line := range list {
		if len(trim(line)) > 0 && !isComment(line) && isRow(s.split(line), sh) {
			first = i
			break
		}
	}
	out := sample{shape: sh}
	if first < 0 {
		return out
	}
	for first > 0 && bare(s.split(list[first-1]), sh) {
		first--
	}
	out.shape.first = first + 1
	out.takeHeader(list[:first], sh)
	for i := first; i < len(list) && len(out.rows) < sampleRows; i++ {
		if len(trim(list[i])) == 0 || isComment(list[i]) {
			continue
		}
		fields := s.split(list[i])
		if isRow(fields, sh) || bare(fields, sh) {
			out.rows = append(out.rows, cloneFields(fields))
			out.lines = append(out.lines, i+1)
		}
	}
	return out
}

func cloneFields(fields [][]byte) [][]byte {
	n := 0
	for _, f := range fields {
		n += len(f)
	}
	room := make([]byte, 0, n)
	list := make([][]byte, len(fields))
	for i, f := range fields {
		from := len(room)
		room = append(room, f...)
		list[i] = room[from:]
	}
	return list
}

// usualValues is the median number of values in the lines of the usual width.
func usualValues(list [][]byte, sh shape) int {
	s := splitter{separator: sh.separator}
	var counts []float64
	for _, line := range sensible(list[len(list)/4:]) {
		if fields := s.split(line); len(fields) >= sh.width && len(counts) < fitLines {
			values, _ := countKinds(fields, sh.mark)
			counts = append(counts, float64(values))
		}
	}
	if len(counts) == 0 {
		return 1
	}
	return int(medianOf(counts))
}

func countKinds(fields [][]byte, mark byte) (values, words int) {
	for _, f := range fields {
		switch kindOf(f, mark) {
		case isWord:
			words++
		case isAbsent:
		default:
			values++
		}
	}
	return values, words
}

// isRow reports whether fields are a row of values: about as many as most rows
// have, at least half of the usual values among them.
func isRow(fields [][]byte, sh shape) bool {
	values, words := countKinds(fields, sh.mark)
	return values > 0 && 2*values >= sh.values && words <= max(values, sh.width-sh.values) &&
		math.Abs(float64(len(fields)-sh.width)) <= max(1, float64(sh.width)/4)
}

// bare reports whether fields have values and no words: a row with gaps.
func bare(fields [][]byte, sh shape) bool {
	values, words := countKinds(fields, sh.mark)
	return values > 0 && words == 0 && len(fields) == sh.width
}
