package cli

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ampstead/book"
	"ampstead/sheet"
)

type bookCommand struct {
	stageFlags `embed:""`
	Out        string `short:"o" placeholder:"FILE" help:"Where to write it; the default is book.html in the rig's folder, - is standard output."`
	PDF        bool   `name:"pdf" help:"Also write a PDF beside it, through an installed Chromium."`
}

// Run writes the book.
func (c *bookCommand) Run(r *run) error {
	file, res, err := c.compute()
	if err != nil {
		return err
	}
	model := sheet.New(file, res, system(file.Rig))
	model.Date, model.Version = time.Now().Format(time.DateOnly), Version
	var html bytes.Buffer
	if err := book.Write(&html, model); err != nil {
		return err
	}
	if c.Out == "-" {
		if _, err := r.Stdout.Write(html.Bytes()); err != nil {
			return err
		}
		return stopIfAny(res.Findings)
	}
	written, err := c.write(r, file.Path, html.Bytes())
	if err != nil {
		return err
	}
	if c.JSON {
		out := newReport("book", file, res.Findings, res.Uses)
		out.Book = written
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
	} else {
		fmt.Fprintln(r.Stdout, strings.TrimSpace(written.HTML+"\n"+written.PDF))
	}
	return stopIfAny(res.Findings)
}

// writtenBook names the files of a book.
type writtenBook struct {
	HTML string `json:"html_file"`
	PDF  string `json:"pdf_file,omitempty"`
}

func (c *bookCommand) write(r *run, rigPath string, html []byte) (writtenBook, error) {
	w := writtenBook{HTML: c.Out}
	if w.HTML == "" {
		w.HTML = filepath.Join(filepath.Dir(rigPath), "book.html")
	}
	if err := writeWhole(w.HTML, html); err != nil {
		return w, badInput(err)
	}
	if !c.PDF {
		return w, nil
	}
	w.PDF = strings.TrimSuffix(w.HTML, filepath.Ext(w.HTML)) + ".pdf"
	err := book.PDF(r.ctx, w.HTML, w.PDF)
	if errors.Is(err, book.ErrNoBrowser) {
		return w, badInput(fmt.Errorf("%w; %s is written and can be printed from any browser", err, w.HTML))
	}
	return w, err
}

// writeWhole writes a file so that it is either the old one or the new one.
func writeWhole(path string, data []byte) error {
	temp, err := os.CreateTemp(filepath.Dir(path), ".ampstead-*")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name())
	_, err = temp.Write(data)
	if err == nil {
		err = temp.Chmod(0o644)
	}
	if err = errors.Join(err, temp.Sync(), temp.Close()); err != nil {
		return err
	}
	return os.Rename(temp.Name(), path)
}
