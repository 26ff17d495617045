package rig

import (
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	q "ampstead/quantity"
)

// read decodes one scalar. The problem has no place yet.
func (f *field) read(text string, into reflect.Value) *Problem {
	if into.Kind() == reflect.Pointer {
		fresh := reflect.New(into.Type().Elem())
		if p := f.read(text, fresh.Elem()); p != nil {
			return p
		}
		into.Set(fresh)
		return nil
	}
	switch f.kind {
	case whole:
		return f.readWhole(text, into)
	case yesNo:
		return f.readYesNo(text, into)
	case amount, setting:
		return f.readAmount(text, into)
	case size:
		return readWith(f, q.ParseSize, text, into)
	case money:
		return readWith(f, q.ParseMoney, text, into)
	case day:
		return f.readDay(text, into)
	}
	return f.readWord(text, into)
}

func (f *field) problem(message string) *Problem {
	return &Problem{Message: message, Expected: f.expected(), Example: f.example()}
}

func readWith[T any](f *field, parse func(string) (T, error), text string, into reflect.Value) *Problem {
	v, err := parse(text)
	if err != nil {
		return f.wrong(text, err)
	}
	into.Set(reflect.ValueOf(v))
	return nil
}

// wrong keeps what the quantity package found and says it in this file's way.
func (f *field) wrong(text string, err error) *Problem {
	var e *q.Error
	if errors.As(err, &e) {
		return f.problem(fmt.Sprintf("%q %s", text, e.Why))
	}
	return f.problem(err.Error())
}

func (f *field) readDay(text string, into reflect.Value) *Problem {
	d, err := ParseDate(text)
	if err != nil {
		return f.problem(fmt.Sprintf("%q is not a date", text))
	}
	into.Set(reflect.ValueOf(d))
	return nil
}

func (f *field) readWhole(text string, into reflect.Value) *Problem {
	v, err := strconv.Atoi(text)
	if err != nil {
		return &Problem{Message: fmt.Sprintf("%q is not a whole number", text), Expected: f.within(), Example: f.example()}
	}
	if p := f.outside(text, float64(v)); p != nil {
		return p
	}
	into.SetInt(int64(v))
	return nil
}

func (f *field) readYesNo(text string, into reflect.Value) *Problem {
	switch strings.ToLower(text) {
	case "yes", "true":
		into.SetBool(true)
	case "no", "false":
		into.SetBool(false)
	default:
		return f.problem(fmt.Sprintf("%q is neither yes nor no", text))
	}
	return nil
}

func (f *field) readAmount(text string, into reflect.Value) *Problem {
	s, switchable := into.Addr().Interface().(switchable)
	if switchable && isOff(text) {
		s.switchOff()
		return nil
	}
	v, err := f.dim.Parse(text)
	if err != nil {
		return f.wrong(text, err)
	}
	if p := f.outside(text, v); p != nil {
		return p
	}
	if switchable {
		s.set(v)
	} else {
		into.SetFloat(v)
	}
	return nil
}

// outside reports a value beyond its bounds. A hair of tolerance lets a bound
// be written in another unit.
func (f *field) outside(text string, v float64) *Problem {
	const hair = 1e-9
	switch {
	case f.low != nil && v < *f.low-hair:
		return f.beyond(text, "less", *f.low)
	case f.high != nil && v > *f.high+hair:
		return f.beyond(text, "more", *f.high)
	}
	return nil
}

func (f *field) beyond(text, more string, bound float64) *Problem {
	p := f.problem(fmt.Sprintf("%q is %s than %s", text, more, f.bound(bound)))
	p.Expected = f.within()
	return p
}

func isOff(text string) bool {
	return strings.EqualFold(text, "off") || strings.EqualFold(text, "none")
}

func (f *field) readWord(text string, into reflect.Value) *Problem {
	if strings.TrimSpace(text) == "" {
		return f.problem("is empty")
	}
	if f.oneof != nil && !contains(f.oneof, text) {
		message := fmt.Sprintf("%q is not a word known here", text)
		if near := nearest(text, f.oneof); near != "" {
			message += fmt.Sprintf(", did you mean %q?", near)
		}
		return f.problem(message)
	}
	into.SetString(text)
	return nil
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}
