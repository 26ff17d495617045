package live

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// message is one message; its JSON is read once, whoever asks.
type message struct {
	topic   string
	payload []byte
	read    bool
	doc     any
	err     error
}

// item is a part of a message: what was found, and what it is called there.
type item struct {
	key   string // of the last wildcard, when it stood for a key
	index int    // its place in a list from 1; 0 is none
	what  any
}

// find follows a path; without one, the whole message is the value.
func (m *message) find(steps []string) ([]item, error) {
	if len(m.payload) > mostPayload {
		return nil, fmt.Errorf("the message has %d bytes, more than %d", len(m.payload), mostPayload)
	}
	if err := m.decode(); err != nil {
		return nil, err
	}
	found := []item{{what: m.doc}}
	for _, step := range steps {
		found = walk(found, step)
	}
	if len(found) == 0 {
		return nil, errors.New("there is nothing at its path")
	}
	return spreadOut(found), nil
}

// decode reads a plain number, or else JSON.
func (m *message) decode() error {
	if m.read {
		return m.err
	}
	m.read = true
	text := strings.TrimSpace(string(m.payload))
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		m.doc = v
		return nil
	}
	if err := json.Unmarshal([]byte(text), &m.doc); err != nil {
		m.err = fmt.Errorf("%q is neither a number nor JSON", clip(text))
	}
	return m.err
}

// pathSteps splits keys with dots between them, or a JSON Pointer (RFC 6901).
func pathSteps(path string) []string {
	if path == "" {
		return nil
	}
	pointer, ok := strings.CutPrefix(path, "/")
	if !ok {
		return strings.Split(path, ".")
	}
	steps := strings.Split(pointer, "/")
	for i, s := range steps {
		steps[i] = strings.NewReplacer("~1", "/", "~0", "~").Replace(s)
	}
	return steps
}

func walk(from []item, step string) []item {
	var to []item
	for _, it := range from {
		switch at := it.what.(type) {
		case map[string]any:
			to = inObject(to, it, at, step)
		case []any:
			to = inList(to, it, at, step)
		}
	}
	return to
}

func inObject(to []item, it item, at map[string]any, step string) []item {
	if what, ok := at[step]; ok {
		return append(to, item{it.key, it.index, what})
	}
	if step == "*" {
		for _, key := range slices.Sorted(maps.Keys(at)) {
			to = append(to, item{key, 0, at[key]})
		}
	}
	return to
}

func inList(to []item, it item, at []any, step string) []item {
	if step == "*" {
		for i, what := range at {
			to = append(to, item{"", i + 1, what})
		}
		return to
	}
	if i, err := strconv.Atoi(step); err == nil && i >= 0 && i < len(at) {
		to = append(to, item{it.key, it.index, at[i]})
	}
	return to
}

// spreadOut takes lists at the end of a path apart.
func spreadOut(found []item) []item {
	var list []item
	for _, it := range found {
		if at, ok := it.what.([]any); ok {
			list = inList(list, it, at, "*")
			continue
		}
		list = append(list, it)
	}
	return list
}

// number reads a number, or a text that holds one; there is false for null.
func (it item) number() (v float64, there bool, err error) {
	switch what := it.what.(type) {
	case nil:
		return 0, false, nil
	case float64:
		return what, true, nil
	case string:
		if v, err := strconv.ParseFloat(strings.TrimSpace(what), 64); err == nil {
			return v, true, nil
		}
		return 0, false, fmt.Errorf("%q is no number", clip(what))
	case map[string]any:
		return 0, false, errors.New("it has keys of its own; path must say which")
	}
	return 0, false, fmt.Errorf("%v is no number", clip(fmt.Sprint(it.what)))
}
