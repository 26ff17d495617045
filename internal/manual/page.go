package manual

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
)

// Book is what the pages have in common.
type Book struct {
	Version  string    // of the program
	Date     string    // of the version, 2006-01-02
	About    string    // of the program, one paragraph
	Sections []Section // the last of every page
}

// Section is a part of a page with its own head.
type Section struct {
	Head       string
	Paragraphs []string
}

// Commands are the names of the commands that have a page, in the order of the help.
func Commands(app *kong.Application) []string {
	var names []string
	for _, n := range app.Children {
		if !n.Hidden {
			names = append(names, n.Name)
		}
	}
	return names
}

// File is the name of a command's page; an empty command is the program itself.
func File(app *kong.Application, command string) string {
	if command == "" {
		return app.Name + ".1"
	}
	return app.Name + "-" + command + ".1"
}

// Write writes the page of a command, or the program's own where command is empty.
// A command without a page is an error that names those that have one.
func (b Book) Write(w io.Writer, app *kong.Application, command string) error {
	node, about := app.Node, b.About
	if command != "" {
		if node = find(app, command); node == nil {
			return fmt.Errorf("no manual page for %q; there is one for %s", command, strings.Join(Commands(app), ", "))
		}
		about = node.Help
	}
	p := &page{}
	p.head(b, app, command, about)
	p.synopsis(node)
	p.section("DESCRIPTION")
	p.text(about)
	p.commands(app, node)
	p.arguments(node)
	p.options("OPTIONS", append(node.Flags, defaultFlags(node)...))
	p.children(node)
	for _, s := range b.Sections {
		p.section(s.Head)
		for _, text := range s.Paragraphs {
			p.text(text)
		}
	}
	p.seeAlso(app, command)
	_, err := io.WriteString(w, p.b.String())
	return err
}

func find(app *kong.Application, command string) *kong.Node {
	for _, n := range app.Children {
		if n.Name == command && !n.Hidden {
			return n
		}
	}
	return nil
}

// defaultFlags are those of what a command means where no further word is given.
func defaultFlags(n *kong.Node) []*kong.Flag {
	if n.DefaultCmd == nil {
		return nil
	}
	return n.DefaultCmd.Flags
}

func (p *page) head(b Book, app *kong.Application, command, about string) {
	title := strings.TrimSuffix(File(app, command), ".1")
	p.line(`.TH %s 1 "%s" %s %s`, quoted(strings.ToUpper(title)), b.Date, quoted(app.Name+" "+b.Version), quoted("Ampstead"))
	p.section("NAME")
	p.line(`%s \- %s`, escape(title), escape(firstSentence(about)))
}

// synopsis is the way a command is called.
func (p *page) synopsis(n *kong.Node) {
	p.section("SYNOPSIS")
	p.line(".B %s", escape(path(n)))
	words := []string{"[options]"}
	if len(n.Children) > 0 {
		words = append([]string{"[command]"}, words...)
	}
	for _, v := range positionals(n) {
		words = append(words, strings.ReplaceAll(v.Summary(), " ...", "..."))
	}
	p.line(`%s`, escape(strings.Join(words, " ")))
}

// path is a command with the program before it.
func path(n *kong.Node) string {
	if n.Parent == nil {
		return n.Name
	}
	return path(n.Parent) + " " + n.Name
}

func positionals(n *kong.Node) []*kong.Positional {
	if n.DefaultCmd != nil {
		return positionals(n.DefaultCmd)
	}
	return n.Positional
}

// commands lists what the program can do, each with its own page.
func (p *page) commands(app *kong.Application, n *kong.Node) {
	if n != app.Node {
		return
	}
	p.section("COMMANDS")
	for _, child := range n.Children {
		if !child.Hidden {
			p.item(bold(child.Name), child.Help+" See "+app.Name+"-"+child.Name+"(1).")
		}
	}
}

func (p *page) arguments(n *kong.Node) {
	if len(positionals(n)) == 0 {
		return
	}
	p.section("ARGUMENTS")
	for _, v := range positionals(n) {
		p.item(italic(v.Name), v.Help)
	}
}

func (p *page) options(head string, flags []*kong.Flag) {
	p.section(head)
	for _, f := range flags {
		if !f.Hidden {
			p.item(flagName(f), f.Help+defaultOf(f))
		}
	}
}

// flagName is a flag as it is typed.
func flagName(f *kong.Flag) string {
	text := bold("--" + f.Name)
	if f.Tag.Negatable != "" {
		text = bold("--[no-]" + f.Name)
	}
	if !f.IsBool() && !f.IsCounter() {
		text += "=" + italic(valueOf(f))
	}
	if f.Short != 0 {
		text = bold("-"+string(f.Short)) + ", " + text
	}
	return text
}

// valueOf is what a flag takes.
func valueOf(f *kong.Flag) string {
	if f.Enum == "" {
		return strings.Trim(f.FormatPlaceHolder(), `"`)
	}
	words := slices.DeleteFunc(f.EnumSlice(), func(word string) bool { return word == "" })
	return strings.Join(words, "|")
}

// defaultOf says what holds where a flag is not given.
func defaultOf(f *kong.Flag) string {
	if f.Default == "" || f.IsBool() || f.PlaceHolder == "" && f.Enum == "" {
		return ""
	}
	return fmt.Sprintf(" (%s unless given)", f.Default)
}

// children are the words under a command, described on its own page.
func (p *page) children(n *kong.Node) {
	if n.Parent == nil || len(n.Children) == 0 {
		return
	}
	p.section("COMMANDS")
	for _, child := range n.Children {
		if child.Hidden {
			continue
		}
		p.subsection(child.Name)
		p.text(child.Help)
		if child == n.DefaultCmd {
			p.text("This is what " + path(n) + " does without a further word; its options are above.")
			continue
		}
		for _, v := range child.Positional {
			p.item(italic(v.Name), v.Help)
		}
		for _, f := range child.Flags {
			if !f.Hidden {
				p.item(flagName(f), f.Help+defaultOf(f))
			}
		}
	}
}

// seeAlso names the program's page and those of the other commands.
func (p *page) seeAlso(app *kong.Application, command string) {
	p.section("SEE ALSO")
	var names []string
	if command != "" {
		names = append(names, app.Name)
	}
	for _, name := range Commands(app) {
		if name != command {
			names = append(names, app.Name+"-"+name)
		}
	}
	for i, name := range names {
		end := ","
		if i == len(names)-1 {
			end = ""
		}
		p.line(".BR %s (1)%s", escape(name), end)
	}
}
