package benchlog

import "bytes"

// splitter cuts a line into fields without allocating once it has warmed up.
type splitter struct {
	separator byte // ' ' stands for runs of blanks
	fields    [][]byte
	quoted    []byte // room for fields in which doubled quotes were undone
}

// maxFields bounds the columns of a file; what lies beyond is one last field.
const maxFields = 1024

// split returns the fields of a line, trimmed and unquoted, valid until the
// next call.
func (s *splitter) split(line []byte) [][]byte {
	s.fields = s.fields[:0]
	switch {
	case s.separator == ' ':
		s.splitBlanks(line)
	case bytes.IndexByte(line, '"') >= 0:
		s.splitQuoted(line)
	default:
		s.splitPlain(line)
	}
	return s.fields
}

func (s *splitter) splitPlain(line []byte) {
	start := 0
	for i, c := range line {
		if c == s.separator && len(s.fields) < maxFields {
			s.fields = append(s.fields, trim(line[start:i]))
			start = i + 1
		}
	}
	s.fields = append(s.fields, trim(line[start:]))
}

func (s *splitter) splitBlanks(line []byte) {
	for i := 0; i < len(line) && len(s.fields) < maxFields; {
		if isBlank(line[i]) {
			i++
			continue
		}
		start, end := i, i
		if line[i] == '"' && bytes.IndexByte(line[i+1:], '"') >= 0 {
			start = i + 1
			end = start + bytes.IndexByte(line[start:], '"')
			i = end + 1
		} else {
			for i < len(line) && !isBlank(line[i]) {
				i++
			}
			end = i
		}
		s.fields = append(s.fields, line[start:end])
	}
}

func (s *splitter) splitQuoted(line []byte) {
	s.quoted = s.quoted[:0]
	if cap(s.quoted) < len(line) {
		s.quoted = make([]byte, 0, 2*len(line)) // never grown below, so fields stay where they are
	}
	for i := 0; len(s.fields) < maxFields; {
		for i < len(line) && isBlank(line[i]) && line[i] != s.separator {
			i++
		}
		if i < len(line) && line[i] == '"' {
			i = s.quotedField(line, i+1)
		} else {
			end := bytes.IndexByte(line[i:], s.separator)
			if end < 0 {
				end = len(line) - i
			}
			s.fields = append(s.fields, trim(line[i:i+end]))
			i += end
		}
		if i >= len(line) {
			return
		}
		i++ // the separator
	}
}

// quotedField reads a field from behind its opening quote and returns where
// the separator behind it stands. A missing closing quote ends with the line;
// what follows a closing quote belongs to the field.
func (s *splitter) quotedField(line []byte, i int) int {
	from := len(s.quoted)
	for i < len(line) {
		if line[i] == '"' {
			if i+1 >= len(line) || line[i+1] != '"' {
				break
			}
			i++
		}
		s.quoted = append(s.quoted, line[i])
		i++
	}
	for i++; i < len(line) && line[i] != s.separator; i++ {
		s.quoted = append(s.quoted, line[i])
	}
	s.fields = append(s.fields, trim(s.quoted[from:]))
	return i
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' }

func trim(b []byte) []byte {
	for len(b) > 0 && (b[0] == ' ' || b[0] == '\t') {
		b = b[1:]
	}
	for len(b) > 0 && (b[len(b)-1] == ' ' || b[len(b)-1] == '\t') {
		b = b[:len(b)-1]
	}
	return b
}
