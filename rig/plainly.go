package rig

import "strings"

// saidPlainly turns what the YAML parser says, by a part of it, into words for
// someone who has never heard of YAML.
var saidPlainly = []struct{ part, message, expected string }{
	{"end character of single-quoted text", "a text that starts with ' has no ' at its end", "'text', with '' for a ' inside it"},
	{"end character of double-quoted text", "a text that starts with \" has no \" at its end", "\"text\", with \\\" for a \" inside it"},
	{"',' or ']' must be specified", "a list that starts with [ has no comma or ] here", "[a, b, c]"},
	{"end token ']' not found", "a list that starts with [ has no ] at its end", "[a, b, c]"},
	{"mapping end token '}'", "keys that start with { have no } at their end", "{key: value, key: value}"},
	{"',' or '}' must be specified", "keys that start with { have no comma or } here", "{key: value, key: value}"},
	{"could not find '['", "there is a ] without its [", ""},
	{"could not find '{'", "there is a } without its {", ""},
	{"mapping value is not allowed", "a second colon stands here, or the line is indented wrongly", "quotes around a value with a colon in it, and keys that line up"},
	{"is a reserved character", "a value cannot start with this sign", "quotes around the value"},
	{"block sequence entries are not allowed", "a dash stands behind a key", "each item on a line of its own, behind a dash"},
	{"invalid key", "this is not a key", "a word, a colon, and a value"},
	{"implicit line break", "a line here has no colon", "a key, a colon, and a value"},
	{"non-map value is specified", "a line here has no colon", "a key, a colon, and a value"},
	{"map key-value is pre-defined", "a line here does not line up with the keys above", "keys that line up"},
	{"unexpected key name", "a line here has no colon", "a key, a colon, and a value"},
	{"value is not allowed in this context", "this does not line up with what stands above", "keys that line up"},
	{"escape", "a \\ in double quotes is not followed by a sign known there", "single quotes, in which \\ is only itself"},
}

// plainly returns the parser's own words when there are no better ones.
func plainly(message string) Problem {
	for _, s := range saidPlainly {
		if strings.Contains(message, s.part) {
			return Problem{Message: s.message, Expected: s.expected}
		}
	}
	return Problem{Message: message}
}
