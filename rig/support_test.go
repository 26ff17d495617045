package rig

import (
	"strings"
	"testing"

	"ampstead/examples"
)

// small is the least a rig file may say.
const small = "about: {name: Test}\nbank: {cell: nmc532, series: 12, cell_capacity: 94 Ah}\n"

// sketch has one of each device, in both styles, with comments.
const sketch = `# head comment
about:
  name: 'Sketch'
bank:
  cell: "nmc532"   # quoted
  series: 12
  cell_capacity: 94 Ah
charge:
  - name: roof solar
    kind: solar
    limit: 45 A   # its plate

    # before settings
    settings:
      float: 54.0 V          # held
      # equalise: off
  - {name: mains charger, kind: mains, limit: 35 A, settings: {float: none}}
converters:
- name: 12 V converter
  power: 360 W
  input_low: 32 V
  input_high: 60 V
protection:
  contactors:
    - {name: main contactor, opens: bank}
heater:
`

func mustParse(t testing.TB, text string) *File {
	t.Helper()
	f, err := Parse("rig.yaml", []byte(text))
	if err != nil {
		t.Fatalf("%v\nin:\n%s", err, text)
	}
	return f
}

func example(t testing.TB, name string) []byte {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// edited returns a with the first occurrence of old replaced.
func edited(t testing.TB, text, old, new string) string {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("the text has no %q", old)
	}
	return strings.Replace(text, old, new, 1)
}
