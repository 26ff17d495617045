// Package unexplained finds the numbers of a page that do not open to how they
// came about. It is a ratchet for page and book.
//
// What needs no explanation: what a person types or typed (forms, the rig file's
// own words), cautions, sources, and what stands in a link's or button's name.
// What counts as opening: a number inside a details element, a row with one in
// it, a finding with its workings, and a table, picture or section that leads to
// how its numbers are reckoned.
//
// May import: the standard library only. For tests.
package unexplained

import (
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strings"
)

// number is a number with a unit that is reckoned in.
var number = regexp.MustCompile(`[+−-]?\d+(?:[.,]\d+)?(?: to [+−-]?\d+(?:\.\d+)?)? ?(?:mV/K|mV|V|kA|mA|Ah|A|kWh|Wh|kW|W|mΩ|Ω|%|°C|°F|K|mm²|cm²|AWG|ms|min|mF|kg|J)(?:[^\p{L}\p{N}/²]|$)`)

// Number is one number that does not open.
type Number struct {
	Place string // section of the page it stands in
	Text  string // the number with the words around it
}

type node struct {
	tag, class, id, href string
	text                 string
	up                   *node
	kids                 []*node
}

// Numbers lists the numbers of a page that do not open. Names that a person gave
// things may hold numbers: "12 V converter".
func Numbers(page string, names ...string) ([]Number, error) {
	for _, name := range names {
		page = strings.ReplaceAll(page, name, "it")
	}
	root, err := parse(page)
	if err != nil {
		return nil, err
	}
	var list []Number
	root.walk(func(n *node) {
		if n.tag == "" && number.MatchString(n.text) && !n.opens() {
			for _, m := range number.FindAllStringIndex(n.text, -1) {
				list = append(list, Number{n.place(), around(n.text, m)})
			}
		}
	})
	return list, nil
}

func around(text string, at []int) string {
	from, to := max(0, at[0]-30), min(len(text), at[1]+20)
	return strings.Join(strings.Fields(strings.ToValidUTF8(text[from:to], "")), " ")
}

// parse reads the page as loosely as a browser would.
func parse(page string) (*node, error) {
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	root := &node{}
	at := root
	for {
		t, err := d.Token()
		if err == io.EOF {
			return root, nil
		}
		if err != nil {
			return nil, err
		}
		switch t := t.(type) {
		case xml.StartElement:
			n := &node{tag: t.Name.Local, up: at}
			for _, a := range t.Attr {
				switch a.Name.Local {
				case "class":
					n.class = a.Value
				case "id":
					n.id = a.Value
				case "href":
					n.href = a.Value
				}
			}
			at.kids = append(at.kids, n)
			at = n
		case xml.EndElement:
			if at.up != nil {
				at = at.up
			}
		case xml.CharData:
			at.kids = append(at.kids, &node{text: string(t), up: at})
		}
	}
}

func (n *node) walk(visit func(*node)) {
	visit(n)
	for _, k := range n.kids {
		k.walk(visit)
	}
}

func (n *node) has(is func(*node) bool) bool {
	found := false
	n.walk(func(k *node) { found = found || is(k) })
	return found
}

func (n *node) classed(names ...string) bool {
	return slices.ContainsFunc(strings.Fields(n.class), func(c string) bool { return slices.Contains(names, c) })
}

// typed are elements that hold what a person types, or no text of the page.
var typed = []string{"form", "label", "option", "select", "button", "textarea", "pre", "code", "footer", "nav", "title", "style", "script", "head", "desc"}

// leads reports whether an element leads to how numbers are reckoned.
func leads(n *node) bool {
	return n.classed("why-link", "how-reckoned", "how-found") || n.tag == "a" && strings.Contains(n.href, "#how-")
}

func isDetails(n *node) bool {
	return n.tag == "details" && n.classed("how", "how-found", "how-reckoned")
}

// opens reports whether a text opens, by itself or by what it stands in.
func (n *node) opens() bool {
	for at := n.up; at != nil; at = at.up {
		switch {
		case slices.Contains(typed, at.tag), at.tag == "details",
			at.classed("formula", "sourced", "was", "caution", "cautions", "cautions-short", "sources", "rests-on", "hint", "standing", "behind", "from-file", "figure-name"):
			return true
		case at.tag == "tr" && at.has(isDetails),
			at.tag == "table" && at.has(leads), at.tag == "figure" && at.has(leads), at.tag == "article" && at.has(leads),
			at.tag == "header" && at.has(leads), at.classed("answer", "told", "run-words", "glimpses", "rehearsal") && at.has(leads),
			at.tag == "section" && at.has(func(k *node) bool { return k.classed("how-reckoned") }):
			return true
		}
	}
	return false
}

// place is the nearest section, table or heading with a name.
func (n *node) place() string {
	for at := n.up; at != nil; at = at.up {
		if at.id != "" && (at.tag == "section" || at.tag == "article" || at.tag == "div") {
			return at.id
		}
		if at.tag == "table" && at.class != "" {
			return "table " + at.class
		}
	}
	return "page"
}
