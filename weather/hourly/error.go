package hourly

import "fmt"

// Error is a mistake in a weather file.
type Error struct {
	File     string
	Line     int // counting from 1; 0 is the file as a whole
	Message  string
	Expected string // what would be right; may be empty
}

func (e *Error) Error() string {
	text := e.File
	if e.Line > 0 {
		text = fmt.Sprintf("%s:%d", e.File, e.Line)
	}
	text += ": " + e.Message
	if e.Expected != "" {
		text += "; expected " + e.Expected
	}
	return text
}

// fault makes an error of a line; the file's name is added by Read.
func fault(line int, expected, format string, a ...any) *Error {
	return &Error{Line: line, Message: fmt.Sprintf(format, a...), Expected: expected}
}
