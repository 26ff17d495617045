package rig

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"

	q "ampstead/quantity"
)

// Schema is the JSON Schema (draft 2020-12) of the rig file, for editors. It is
// made from the types; an editor that follows it offers the keys and marks
// what Parse would refuse for its form alone.
func Schema() []byte {
	defs := &properties{}
	top := objectSchema(rigShape, defs)
	top.Schema = "https://json-schema.org/draft/2020-12/schema"
	top.Title = "Ampstead rig file"
	top.Defs = defs
	var b bytes.Buffer
	out := json.NewEncoder(&b)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	if err := out.Encode(top); err != nil {
		panic(err) // of our own types only: cannot fail
	}
	return b.Bytes()
}

type schema struct {
	Schema      string      `json:"$schema,omitempty"`
	Title       string      `json:"title,omitempty"`
	Description string      `json:"description,omitempty"`
	Ref         string      `json:"$ref,omitempty"`
	Type        any         `json:"type,omitempty"`
	Enum        []any       `json:"enum,omitempty"`
	Pattern     string      `json:"pattern,omitempty"`
	AnyOf       []*schema   `json:"anyOf,omitempty"`
	Minimum     *float64    `json:"minimum,omitempty"`
	Maximum     *float64    `json:"maximum,omitempty"`
	MinLength   int         `json:"minLength,omitempty"`
	Properties  *properties `json:"properties,omitempty"`
	Required    []string    `json:"required,omitempty"`
	Closed      *bool       `json:"additionalProperties,omitempty"`
	Items       *schema     `json:"items,omitempty"`
	Examples    []any       `json:"examples,omitempty"`
	Defs        *properties `json:"$defs,omitempty"`
}

// properties keeps the order in which they were added.
type properties struct {
	keys    []string
	schemas map[string]*schema
}

func (p *properties) add(key string, s *schema) {
	if p.schemas == nil {
		p.schemas = map[string]*schema{}
	}
	if _, there := p.schemas[key]; !there {
		p.keys = append(p.keys, key)
	}
	p.schemas[key] = s
}

// MarshalJSON writes an object in the order of adding.
func (p *properties) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	out := json.NewEncoder(&b)
	out.SetEscapeHTML(false)
	for i, key := range p.keys {
		b.WriteString(map[bool]string{true: "{", false: ","}[i == 0])
		if err := out.Encode(key); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := out.Encode(p.schemas[key]); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func objectSchema(s *shape, defs *properties) *schema {
	closed := false
	one := &schema{Type: "object", Properties: &properties{}, Closed: &closed}
	for i := range s.fields {
		f := &s.fields[i]
		one.Properties.add(f.key, f.schema(defs))
		if f.need {
			one.Required = append(one.Required, f.key)
		}
	}
	return one
}

// schema of one key: a reference to its kind, with what is its own.
func (f *field) schema(defs *properties) *schema {
	s := f.kindSchema(defs)
	s.Description = f.manual()
	if f.eg != "" {
		s.Examples = []any{f.jsonExample()}
	}
	return s
}

func (f *field) jsonExample() any {
	if f.kind == whole {
		return json.Number(f.eg)
	}
	return f.eg
}

func (f *field) kindSchema(defs *properties) *schema {
	switch f.kind {
	case block:
		return f.inside("object", objectSchema(f.inner, defs), defs, false)
	case blocks:
		return f.inside("array", objectSchema(f.inner, defs), defs, true)
	case whole:
		return &schema{Type: "integer", Minimum: f.low, Maximum: f.high}
	case yesNo:
		return &schema{Enum: []any{"yes", "no", true, false}}
	case word:
		if f.oneof != nil {
			return &schema{Enum: anyOf(f.oneof)}
		}
		return &schema{Type: "string", MinLength: 1}
	}
	return f.textSchema(defs)
}

// inside refers to the keys of a block or of a list's items. What need not be
// there may also be left empty.
func (f *field) inside(kind string, keys *schema, defs *properties, isList bool) *schema {
	name := strings.ToLower(f.inner.title[:1]) + f.inner.title[1:]
	defs.add(name, keys)
	s := ref(name)
	if isList {
		s = &schema{Type: kind, Items: s}
	}
	if f.need {
		return s
	}
	return &schema{AnyOf: []*schema{s, {Type: "null"}}}
}

func ref(name string) *schema { return &schema{Ref: "#/$defs/" + name} }

// textSchema is that of a value with a form of its own.
func (f *field) textSchema(defs *properties) *schema {
	name, pattern := f.what(), ""
	switch f.kind {
	case size:
		pattern = `^\s*([1-4]/0|[0-9.]+)\s*([aA][wW][gG]|[sS][aA][eE]|mm2|mm²|mm\^2)\s*$`
	case money:
		pattern = `^\s*[0-9.]+\s*[A-Za-z]{3}\s*$`
	case day:
		pattern = `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`
	default:
		pattern = unitPattern(f.dim)
	}
	name = strings.ReplaceAll(name, " ", "-")
	defs.add(name, &schema{Type: "string", Pattern: pattern})
	if f.kind == setting {
		return &schema{AnyOf: []*schema{ref(name), {Enum: []any{"off", "none"}}}}
	}
	return ref(name)
}

// unitPattern matches a number and any unit of the dimension.
func unitPattern(d *q.Dimension) string {
	var units []string
	for _, u := range d.Units {
		for _, name := range u.Names {
			units = append(units, regexp.QuoteMeta(name))
		}
	}
	return `^\s*[-+−]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?\s*(` + strings.Join(units, "|") + `)\s*$`
}

func anyOf(words []string) []any {
	all := make([]any, len(words))
	for i, w := range words {
		all[i] = w
	}
	return all
}
