package completion

import (
	"slices"
	"strings"

	"github.com/alecthomas/kong"
)

// place is where a command line stands after the words so far.
type place struct {
	node    *kong.Node
	given   []string   // arguments so far
	flag    *kong.Flag // its value comes next
	plain   bool       // after --: no more flags
	sources map[string]Source
}

// pass takes one whole word.
func (p *place) pass(word string) {
	switch {
	case p.flag != nil:
		p.flag = nil
	case p.plain || !strings.HasPrefix(word, "-") || word == "-":
		p.argument(word)
	case word == "--":
		p.plain = true
	case !strings.Contains(word, "="):
		if f := p.find(word); f != nil && takesValue(f) {
			p.flag = f
		}
	}
}

// argument is the name of a command or something for one.
func (p *place) argument(word string) {
	if len(p.given) == 0 && !p.plain {
		for _, child := range p.node.Children {
			if child.Name == word || slices.Contains(child.Aliases, word) {
				p.node = child
				return
			}
		}
	}
	p.given = append(p.given, word)
}

// nodes are the command with what it stands under and what it means by default.
func (p *place) nodes() []*kong.Node {
	var list []*kong.Node
	for n := p.node; n != nil; n = n.Parent {
		list = append(list, n)
	}
	for n := p.node.DefaultCmd; n != nil; n = n.DefaultCmd {
		list = append(list, n)
	}
	return list
}

// flags are all that may stand here.
func (p *place) flags() []*kong.Flag {
	var list []*kong.Flag
	for _, n := range p.nodes() {
		for _, f := range n.Flags {
			if !f.Hidden {
				list = append(list, f)
			}
		}
	}
	return list
}

// find returns the flag that a word such as --units or -o names.
func (p *place) find(word string) *kong.Flag {
	for _, f := range p.flags() {
		if word == "--"+f.Name || f.Short != 0 && word == "-"+string(f.Short) || slices.ContainsFunc(f.Aliases, func(a string) bool { return word == "--"+a }) {
			return f
		}
	}
	return nil
}

func takesValue(f *kong.Flag) bool { return !f.IsBool() && !f.IsCounter() }

// offer lists what may stand in place of a word that begins like typed.
func (p *place) offer(typed string) Answer {
	if p.flag != nil {
		return p.values(p.flag.Value, typed)
	}
	if strings.HasPrefix(typed, "-") && !p.plain {
		name, value, ok := strings.Cut(typed, "=")
		if !ok {
			return Answer{Candidates: p.flagNames()}
		}
		f := p.find(name)
		if f == nil || !takesValue(f) {
			return Answer{}
		}
		return p.values(f.Value, value).after(name + "=")
	}
	if commands := p.commands(typed); len(commands) > 0 {
		return Answer{Candidates: commands}
	}
	if v := p.positional(); v != nil {
		return p.values(v, typed)
	}
	return Answer{}
}

// after puts text before every candidate.
func (a Answer) after(text string) Answer {
	for i := range a.Candidates {
		a.Candidates[i].Word = text + a.Candidates[i].Word
	}
	return a
}

func (p *place) flagNames() []Candidate {
	var list []Candidate
	for _, f := range p.flags() {
		list = append(list, Candidate{"--" + f.Name, f.Help})
		if f.Tag.Negatable != "" {
			list = append(list, Candidate{"--no-" + f.Name, f.Help})
		}
	}
	slices.SortFunc(list, func(a, b Candidate) int { return strings.Compare(a.Word, b.Word) })
	return list
}

// commands are the words that lead further down.
func (p *place) commands(typed string) []Candidate {
	if len(p.given) > 0 || p.plain {
		return nil
	}
	return slices.DeleteFunc(Commands(p.node), func(c Candidate) bool { return !strings.HasPrefix(c.Word, typed) })
}

// Commands are the words that may follow a command.
func Commands(n *kong.Node) []Candidate {
	var list []Candidate
	for _, child := range n.Children {
		if !child.Hidden {
			list = append(list, Candidate{child.Name, child.Help})
		}
	}
	return list
}

// positional is the argument that comes next, nil when none does.
func (p *place) positional() *kong.Positional {
	n := p.node
	for n.DefaultCmd != nil {
		n = n.DefaultCmd
	}
	i := len(p.given)
	if last := len(n.Positional) - 1; last >= 0 && i > last && n.Positional[last].IsCumulative() {
		i = last
	}
	if i >= len(n.Positional) {
		return nil
	}
	return n.Positional[i]
}
