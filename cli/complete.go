package cli

import (
	"io"

	"github.com/alecthomas/kong"

	"ampstead/handbook"
	"ampstead/internal/completion"
	cells "ampstead/physics/cell"
)

// completionCommand prints what a shell reads.
type completionCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"bash, zsh or fish. The script says in its first lines where it goes."`
}

// Run prints the script.
func (c *completionCommand) Run(r *run) error {
	text, err := completion.Script(c.Shell)
	if err != nil {
		return badInput(err)
	}
	_, err = io.WriteString(r.Stdout, text)
	return err
}

// completeCommand answers the scripts.
type completeCommand struct {
	Words []string `arg:"" optional:"" passthrough:"" help:"The words after ampstead, up to the one that is typed."`
}

// Run prints how the last word may go on.
func (c *completeCommand) Run(r *run) error {
	parser, err := r.parser()
	if err != nil {
		return err
	}
	words := c.Words
	if len(words) > 0 && words[0] == "--" {
		words = words[1:]
	}
	_, err = io.WriteString(r.Stdout, completion.Next(parser.Model, words, sources(parser.Model)).String())
	return err
}

// sources are the words of our own kinds, as the tag complete names them.
func sources(app *kong.Application) map[string]completion.Source {
	return map[string]completion.Source{
		"cell":         cellNames,
		"figure":       figureNames,
		"figure-input": figureInputs,
		"command":      func([]string) []completion.Candidate { return completion.Commands(app.Node) },
	}
}

func cellNames([]string) []completion.Candidate {
	var list []completion.Candidate
	for _, name := range cells.Names() {
		if c, err := cells.Lookup(name); err == nil {
			list = append(list, completion.Candidate{Word: name, About: c.Title})
		}
	}
	return list
}

func figureNames([]string) []completion.Candidate {
	var list []completion.Candidate
	for _, f := range handbook.All() {
		list = append(list, completion.Candidate{Word: f.Name, About: f.Answers})
	}
	return list
}

// figureInputs are those of the figure that stands first.
func figureInputs(given []string) []completion.Candidate {
	if len(given) == 0 {
		return nil
	}
	f, err := handbook.Find(given[0])
	if err != nil {
		return nil
	}
	var list []completion.Candidate
	for _, in := range f.Inputs {
		list = append(list, completion.Candidate{Word: in.Name + "=", About: in.Doc})
	}
	return list
}
