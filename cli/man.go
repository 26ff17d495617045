package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"

	"ampstead/internal/manual"
)

type manCommand struct {
	Command string `arg:"" optional:"" complete:"command" help:"Command to print the page of; without one, the program's own."`
	All     string `placeholder:"FOLDER" help:"Write every page into this folder instead."`
}

// Run prints one page or writes all.
func (c *manCommand) Run(r *run) error {
	parser, err := r.parser()
	if err != nil {
		return err
	}
	book := manualBook()
	if c.All == "" {
		return badInput(book.Write(r.Stdout, parser.Model, c.Command))
	}
	if err := os.MkdirAll(c.All, 0o755); err != nil {
		return badInput(err)
	}
	for _, command := range append(manual.Commands(parser.Model), "") {
		var page bytes.Buffer
		if err := book.Write(&page, parser.Model, command); err != nil {
			return err
		}
		if err := writeWhole(filepath.Join(c.All, manual.File(parser.Model, command)), page.Bytes()); err != nil {
			return badInput(err)
		}
	}
	return nil
}

// manualBook is what all pages share.
func manualBook() manual.Book {
	b := thisBuild()
	about, _, _ := strings.Cut(about, "\nExit status") // has its own section
	return manual.Book{Version: b.Version, Date: b.Date, About: about, Sections: []manual.Section{
		{Head: "EXIT STATUS", Paragraphs: []string{"0: nothing worse than care. 1: a stop finding. 2: bad usage or input. 3: a failure or interruption."}},
		{Head: "FILES", Paragraphs: []string{"A rig is a folder: rig.yaml is the design, written by a person; beside it lie the logbook, the bench logs and what else belongs to it. Copy the folder and everything is copied."}},
		{Head: "CAUTIONS", Paragraphs: []string{
			"A salvaged module can drive thousands of amperes into a fault and can burn. It may be damaged in ways no test here shows. What protects it must be hardware that acts without Ampstead. Follow your local code and have licensed practice check the installation.",
			"Ampstead says what it checked and what it found; it never says that anything is safe.",
		}},
	}}
}
