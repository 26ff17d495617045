package cli

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"ampstead/book"
	"ampstead/drill"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/travel"
	"ampstead/wire"
)

type bookCommand struct {
	stageFlags `embed:""`
	Out        string `short:"o" placeholder:"FILE" help:"Where to write it; the default is book.html in the rig's folder, - is standard output."`
	PDF        bool   `name:"pdf" help:"Also write a PDF beside it, through an installed Chromium."`
	Prove      bool   `default:"true" negatable:"" help:"Read the newest log of the folder bench too; --no-prove leaves the test out."`
	Drill      bool   `default:"true" negatable:"" help:"Play the faults too; --no-drill leaves them out."`
	Choose     bool   `help:"Compare the batteries under candidates too, with a list for each seller."`
	Keep       bool   `default:"true" negatable:"" help:"Read the logbook too; --no-keep leaves it out."`
	Store      string `placeholder:"URL" help:"A logbook on a PostgreSQL server, postgres://..., instead of the one in the rig's folder."`
	Travel     bool   `default:"true" negatable:"" help:"Reckon the year on the road too, where the rig has a route; --no-travel leaves it out."`
}

// bookYears is how many weather years the book's chapter rests on.
const bookYears = 5

// Run writes the book.
func (c *bookCommand) Run(r *run) error {
	file, res, err := c.compute()
	if err != nil {
		return err
	}
	year, err := c.year(r, file)
	if err != nil {
		return err
	}
	faults, strips, err := c.faults(r, file)
	if err != nil {
		return err
	}
	bought, err := c.batteries(r, file)
	if err != nil {
		return err
	}
	wired, err := wire.Run(file.Rig, res, wire.Options{})
	if err != nil {
		return placed(file, err)
	}
	found := finding.Merge(res.Findings, wired.Findings)
	if year != nil {
		found = finding.Merge(found, year.Findings)
	}
	log, told, plan, err := c.proof(r, file, res)
	if err != nil {
		return err
	}
	if told != nil {
		found = finding.Merge(found, told.Findings)
	}
	if faults != nil {
		found = finding.Merge(found, faults.Findings)
	}
	model := sheet.New(file, res, system(file.Rig)).WithWire(wired).WithTravel(year).WithProof(log, told).WithPlan(plan).WithDrill(faults, strips...).WithChoice(bought)
	model, kept, err := c.keptLog(r, file, res, model)
	if err != nil {
		return err
	}
	if kept != nil {
		found = finding.Merge(found, kept.Findings)
	}
	model.Date, model.Version = time.Now().Format(time.DateOnly), Version
	var html bytes.Buffer
	if err := book.Write(&html, model); err != nil {
		return err
	}
	if c.Out == "-" {
		if _, err := r.Stdout.Write(html.Bytes()); err != nil {
			return err
		}
		return stopIfAny(found)
	}
	written, err := c.write(r, file.Path, html.Bytes())
	if err != nil {
		return err
	}
	if c.JSON {
		out := newReport("book", file, found, res.Uses)
		out.Book = written
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
	} else {
		fmt.Fprintln(r.Stdout, strings.TrimSpace(written.HTML+"\n"+written.PDF))
	}
	return stopIfAny(found)
}

// year reckons the year on the road with its hardest week; nil when it is not
// wanted, or when the file does not say enough for it, which is said on stderr.
func (c *bookCommand) year(r *run, file *rig.File) (*travel.Result, error) {
	if !c.Travel {
		return nil, nil
	}
	bar := newProgress(r.Stderr, "years")
	year, err := travel.Run(r.ctx, file.Rig, travel.Options{Years: bookYears, Limits: true, Progress: bar.tell})
	bar.end()
	var lacking *fit.InputError
	if errors.As(err, &lacking) {
		fmt.Fprintf(r.Stderr, "ampstead: the book is without the year on the road: %s: %s\n", lacking.Path, lacking.Message)
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	week, err := travel.Run(r.ctx, file.Rig, travel.Options{Years: 1, Span: sheet.HardWeek(year)})
	if err != nil {
		return nil, err
	}
	year.Span = week.Span
	return year, nil
}

// faults plays the faults, and the runs that the book shows; nil when they are not
// wanted.
func (c *bookCommand) faults(r *run, file *rig.File) (*drill.Result, []drill.Strip, error) {
	if !c.Drill {
		return nil, nil, nil
	}
	bar := newProgress(r.Stderr, "runs")
	res, err := drill.Run(r.ctx, file.Rig, drill.Options{Progress: bar.tell})
	bar.end()
	if err != nil {
		return nil, nil, placed(file, err)
	}
	strips, err := bookStrips(r, file, res)
	return res, strips, err
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
