package rig

import "testing"

const (
	about = "about: {name: Test}\n"
	least = about + "bank: {cell: nmc532, series: 12, cell_capacity: 94 Ah}\n"
)

// message is a file and exactly what is said about it.
type message struct{ about, text, want string }

func checkMessages(t *testing.T, table []message) {
	t.Helper()
	for _, m := range table {
		_, err := Parse("rig.yaml", []byte(m.text))
		if err == nil {
			t.Errorf("%s: nothing was found", m.about)
		} else if err.Error() != m.want {
			t.Errorf("%s:\n got %s\nwant %s", m.about, err, m.want)
		}
	}
}

func TestMessages(t *testing.T) {
	checkMessages(t, []message{
		{"empty", ``,
			`rig.yaml:1:1: the file is empty; expected at least about and bank; example: about: {name: Curlew}`},
		{"only comments", `# nothing yet`,
			`rig.yaml:1:1: the file is empty; expected at least about and bank; example: about: {name: Curlew}`},
		{"a word", `hello`,
			`rig.yaml:1:1: the file is a single value; expected keys such as about, bank and charge`},
		{"a list", `- a`,
			`rig.yaml:1:1: the file is a list; expected keys such as about, bank and charge`},
		{"control character", "about: {name: \"a\x01b\"}\n",
			`rig.yaml:1:17: a control character (U+0001) stands here; expected plain text`},
		{"not UTF-8", "about: {name: a\xffb}\n",
			`rig.yaml:1:16: a byte here is not UTF-8 text; expected a file saved as UTF-8`},
		{"tab", "about:\n\tname: x\n",
			`rig.yaml:2:1: the line is indented with a tab; expected spaces, two for each step`},
		{"carriage return", "about: {name: x}\rbank: {}\n",
			`rig.yaml:1:17: a carriage return stands alone; expected lines that end with a line feed`},
		{"open quote", about + `bank: {cell: 'nca}`,
			`rig.yaml:2:14: a text that starts with ' has no ' at its end; expected 'text', with '' for a ' inside it`},
		{"open list", about + `bank: [1, 2
charge: 3`,
			`rig.yaml:3:1: a list that starts with [ has no comma or ] here; expected [a, b, c]`},
		{"open list at the end", about + `bank: [1, 2`,
			`rig.yaml:2:7: a list that starts with [ has no ] at its end; expected [a, b, c]`},
		{"open braces", about + `bank: {cell: nca
charge: 3`,
			`rig.yaml:3:1: keys that start with { have no comma or } here; expected {key: value, key: value}`},
		{"open braces at the end", about + `bank: {cell: nca`,
			`rig.yaml:2:7: keys that start with { have no } at their end; expected {key: value, key: value}`},
		{"closed twice", about + `bank: 3]`,
			`rig.yaml:2:7: bank: is a single value; expected keys below it: cell, own, series, cells_per_group, strings, cell_capacity, measured, limits, daily, links, short_resistance, mass, box, cooling, balancer`},
		{"closing brace alone", about + `bank: {cell: nca}}`,
			`rig.yaml:2:18: this does not line up with what stands above; expected keys that line up`},
		{"open double quote", about + `bank: {cell: "nca}`,
			"rig.yaml:2:14: a text that starts with \" has no \" at its end; expected \"text\", with \\\" for a \" inside it"},
		{"bad escape", about + "bank: {cell: \"\\q\"}\n",
			"rig.yaml:2:16: a \\ in double quotes is not followed by a sign known there; expected single quotes, in which \\ is only itself"},
		{"dash behind a key", `about: - x`,
			`rig.yaml:1:8: a dash stands behind a key; expected each item on a line of its own, behind a dash`},
		{"lines that do not line up", `about:
  name: x
 note: y`,
			`rig.yaml:3:2: this does not line up with what stands above; expected keys that line up`},
		{"lines that do not line up, deeper", `about:
  name: x
    note: y`,
			`rig.yaml:2:9: a second colon stands here, or the line is indented wrongly; expected quotes around a value with a colon in it, and keys that line up`},
		{"line without colon", `about:
  name: x
  note`,
			`rig.yaml:3:3: a line here has no colon; expected a key, a colon, and a value`},
		{"line without colon at the top", `about: {name: x}
bank
charge: []`,
			`rig.yaml:2:1: a line here has no colon; expected a key, a colon, and a value`},
		{"directive", `%YAML 1.2
---
about: {name: x}`,
			`rig.yaml:1:1: a line or value that starts with % needs quotes; expected the value written out, in quotes if it starts with a sign`},
		{"blank lines", `


























































`,
			`rig.yaml:51:1: the file has too many blank lines in a row; expected at most 50`},
		{"two colons", `about: name: x`,
			`rig.yaml:1:8: a second colon stands here, or the line is indented wrongly; expected quotes around a value with a colon in it, and keys that line up`},
		{"reserved sign", `about: {name: @x}`,
			`rig.yaml:1:15: a value cannot start with this sign; expected quotes around the value`},
		{"anchor", `about: &a {name: x}`,
			`rig.yaml:1:8: an anchor (&) is not used in a rig file; expected the value written out, in quotes if it starts with a sign`},
		{"alias", `about: *a`,
			`rig.yaml:1:8: an alias (*) is not used in a rig file; expected the value written out, in quotes if it starts with a sign`},
		{"tag", `about: {name: !!str x}`,
			`rig.yaml:1:15: a tag (!) is not used in a rig file; expected the value written out, in quotes if it starts with a sign`},
		{"merge", `<<: {about: 1}`,
			`rig.yaml:1:1: a merge key (<<) is not used in a rig file; expected the value written out, in quotes if it starts with a sign`},
		{"question mark", `? about
: x`,
			`rig.yaml:1:1: a key that starts with ? is not used in a rig file; expected the value written out, in quotes if it starts with a sign`},
		{"key that is a block", `{a: b}: c`,
			`rig.yaml:1:7: this is not a key; expected a word, a colon, and a value`},
		{"second document", least + `---
about: {name: x}`,
			`rig.yaml:4:6: a second document starts here; expected one rig in one file, without ---`},
		{"deep", `about: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[`,
			`rig.yaml:1:32: this is nested too deeply`},
		{"unknown key", about + `bank: {cell: nca, series: 7, cell_capacity: 2 Ah, sries: 7}`,
			`rig.yaml:2:51: bank.sries: there is no key "sries" here, did you mean "series"?; expected one of cell, own, series, cells_per_group, strings, cell_capacity, measured, limits, daily, links, short_resistance, mass, box, cooling, balancer`},
		{"unknown key, none near", least + `sauna: yes`,
			`rig.yaml:3:1: sauna: there is no key "sauna" here; expected one of about, route, bank, charge, converters, inverters, loads, protection, heater, cables, prices, candidates, live`},
		{"twice", least + about + ``,
			`rig.yaml:3:1: about: this key stands here twice; expected one about`},
		{"missing", `about: {note: x}
bank:
  cell: nca
  series: 7`,
			`rig.yaml:1:1: about.name: is missing; expected name of the rig; example: name: Curlew
rig.yaml:2:1: bank.cell_capacity: is missing; expected a charge; example: cell_capacity: 94 Ah`},
		{"missing blocks", `prices: []`,
			`rig.yaml:1:1: about: is missing; expected keys below it: name, note, units
rig.yaml:1:1: bank: is missing; expected keys below it: cell, own, series, cells_per_group, strings, cell_capacity, measured, limits, daily, links, short_resistance, mass, box, cooling, balancer`},
		{"block missing its value", `about:
bank:`,
			`rig.yaml:1:1: about.name: is missing; expected name of the rig; example: name: Curlew
rig.yaml:2:1: bank.cell: is missing; expected cell by name from the library, or own; example: cell: nmc532
rig.yaml:2:1: bank.series: is missing; expected a whole number; example: series: 12
rig.yaml:2:1: bank.cell_capacity: is missing; expected a charge; example: cell_capacity: 94 Ah`},
		{"no value", about + `bank:
  cell:
  series: 12
  cell_capacity: 94 Ah`,
			`rig.yaml:3:8: bank.cell: has no value; expected cell by name from the library, or own, or no such key; example: nmc532`},
		{"block expected", about + `bank: 12`,
			`rig.yaml:2:7: bank: is a single value; expected keys below it: cell, own, series, cells_per_group, strings, cell_capacity, measured, limits, daily, links, short_resistance, mass, box, cooling, balancer`},
		{"list expected", least + `charge: {name: a}`,
			`rig.yaml:3:9: charge: is a block of keys; expected a list, each item behind a dash; example: - name: roof solar`},
		{"keys expected in a list", least + `charge: [solar]`,
			`rig.yaml:3:10: charge.0: is a single value; expected keys: name, kind, limit, panels, input, tolerance, step, lowest, highest, senses, thermometer, stop_input, starter_battery, settings; example: - name: roof solar`},
		{"value expected", about + `bank: {cell: [nca], series: {a: 1}, cell_capacity: 94 Ah}`,
			`rig.yaml:2:14: bank.cell: is a list; expected cell by name from the library, or own; example: nmc532
rig.yaml:2:29: bank.series: is a block of keys; expected a whole number; example: 12`},
		{"no unit", about + `bank: {cell: nca, series: 7, cell_capacity: 94}`,
			`rig.yaml:2:45: bank.cell_capacity: "94" has no unit; expected a charge; example: 94 Ah`},
		{"wrong dimension", about + `bank: {cell: nca, series: 7, cell_capacity: 94 V}`,
			`rig.yaml:2:45: bank.cell_capacity: "94 V" is a voltage; expected a charge; example: 94 Ah`},
		{"unknown unit", about + `bank: {cell: nca, series: 7, cell_capacity: 94 furlongs}`,
			`rig.yaml:2:45: bank.cell_capacity: "94 furlongs" has a unit "furlongs" that is not known here; expected a charge; example: 94 Ah`},
		{"not a number", about + `bank: {cell: nca, series: 7, cell_capacity: many}`,
			`rig.yaml:2:45: bank.cell_capacity: "many" does not start with a number; expected a charge; example: 94 Ah`},
		{"comma", about + `bank: {cell: nca, series: 7, cell_capacity: '2,5 Ah'}`,
			`rig.yaml:2:45: bank.cell_capacity: "2,5 Ah" has a comma in its number; write a point for decimals and no mark for thousands; expected a charge; example: 94 Ah`},
		{"too small", about + `bank: {cell: nca, series: 7, cell_capacity: 1 mAh}`,
			`rig.yaml:2:45: bank.cell_capacity: "1 mAh" is less than 0.1 Ah; expected a charge from 0.1 Ah to 2000 Ah; example: 94 Ah`},
		{"too large", about + `bank: {cell: nca, series: 7, cell_capacity: 2500 Ah}`,
			`rig.yaml:2:45: bank.cell_capacity: "2500 Ah" is more than 2000 Ah; expected a charge from 0.1 Ah to 2000 Ah; example: 94 Ah`},
		{"not whole", about + `bank: {cell: nca, series: 7.5, cell_capacity: 2 Ah}`,
			`rig.yaml:2:27: bank.series: "7.5" is not a whole number; expected a whole number from 1 to 200; example: 12`},
		{"whole too large", about + `bank: {cell: nca, series: 700, cell_capacity: 2 Ah}`,
			`rig.yaml:2:27: bank.series: "700" is more than 200; expected a whole number from 1 to 200; example: 12`},
		{"empty text", about + `bank: {cell: '', series: 7, cell_capacity: 2 Ah}`,
			`rig.yaml:2:14: bank.cell: is empty; expected cell by name from the library, or own; example: nmc532`},
		{"word not known", `about: {name: x, units: metrik}
bank: {cell: nmc532, series: 12, cell_capacity: 94 Ah}`,
			`rig.yaml:1:25: about.units: "metrik" is not a word known here, did you mean "metric"?; expected metric or us; example: metric`},
		{"word not near", `about: {name: x, units: nautical}
bank: {cell: nmc532, series: 12, cell_capacity: 94 Ah}`,
			`rig.yaml:1:25: about.units: "nautical" is not a word known here; expected metric or us; example: metric`},
		{"yes or no", least + `charge: [{name: a, kind: mains, limit: 9 A, stop_input: maybe}]`,
			`rig.yaml:3:57: charge.a.stop_input: "maybe" is neither yes nor no; expected yes or no; example: yes`},
		{"setting", least + `charge: [{name: a, kind: mains, limit: 9 A, settings: {float: 54}}]`,
			`rig.yaml:3:63: charge.a.settings.float: "54" has no unit; expected a voltage or off; example: none`},
		{"setting too high", least + `charge: [{name: a, kind: mains, limit: 9 A, settings: {compensation: 5 V/K}}]`,
			`rig.yaml:3:70: charge.a.settings.compensation: "5 V/K" is more than 2000 mV/K; expected a voltage per kelvin from -2000 mV/K to 2000 mV/K, or off; example: off`},
		{"size", least + `cables: [{name: a, from: bank, to: bus, length: 1 m, size: 50}]`,
			`rig.yaml:3:60: cables.a.size: "50" has no gauge system; expected a conductor size; example: 50 mm2`},
		{"money", least + `prices: [{item: a, price: 10}]`,
			`rig.yaml:3:27: prices.a.price: "10" has no currency; expected an amount with its currency; example: 480 EUR`},
		{"date", least + `route: [{name: a, from: 1 May, to: 2026-05-02}]`,
			`rig.yaml:3:25: route.a.from: "1 May" is not a date; expected a date as year-month-day; example: 2026-11-01`},
	})
}
