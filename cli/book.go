package cli

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"ampstead/book"
	"ampstead/choose"
	"ampstead/drill"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/keep"
	"ampstead/prove"
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
	more, err := c.chapters(r, file, res)
	if err != nil {
		return err
	}
	model, kept, err := c.keptLog(r, file, res, more.in(sheet.New(file, res, system(file.Rig))))
	if err != nil {
		return err
	}
	found := more.findings(res, kept)
	model.Date, model.Version = time.Now().Format(time.DateOnly), thisBuild().short()
	var html bytes.Buffer
	if err := book.Write(&html, model); err != nil {
		return err
	}
	if c.Out == "-" {
		_, err = r.Stdout.Write(html.Bytes())
	} else {
		err = c.deliver(r, newReport("book", file, found, res.Uses), html.Bytes())
	}
	if err != nil {
		return err
	}
	return stopIfAny(found)
}

// chapters is what a book has besides the fit and the logbook; nil is left out.
type chapters struct {
	year   *travel.Result
	faults *drill.Result
	strips []drill.Strip
	bought *choose.Result
	wired  *wire.Result
	log    string
	told   *prove.Result // of the log
	plan   *prove.Plan
}

func (c *bookCommand) chapters(r *run, file *rig.File, res *fit.Result) (b chapters, err error) {
	if b.year, err = c.year(r, file); err != nil {
		return b, err
	}
	if b.faults, b.strips, err = c.faults(r, file); err != nil {
		return b, err
	}
	if b.bought, err = c.batteries(r, file); err != nil {
		return b, err
	}
	if b.wired, err = wire.Run(file.Rig, res, wire.Options{}); err != nil {
		return b, placed(file, err)
	}
	b.log, b.told, b.plan, err = c.proof(r, file, res)
	return b, err
}

// in puts the chapters into a model.
func (b *chapters) in(m *sheet.Model) *sheet.Model {
	return m.WithWire(b.wired).WithTravel(b.year).WithProof(b.log, b.told).WithPlan(b.plan).WithDrill(b.faults, b.strips...).WithChoice(b.bought)
}

// findings are those of the rig as it is: none of a battery that could be bought.
func (b *chapters) findings(res *fit.Result, kept *keep.Result) []finding.Finding {
	lists := [][]finding.Finding{res.Findings, b.wired.Findings}
	if b.year != nil {
		lists = append(lists, b.year.Findings)
	}
	if b.told != nil {
		lists = append(lists, b.told.Findings)
	}
	if b.faults != nil {
		lists = append(lists, b.faults.Findings)
	}
	if kept != nil {
		lists = append(lists, kept.Findings)
	}
	return finding.Merge(lists...)
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

// deliver writes the files of the book and says which they are.
func (c *bookCommand) deliver(r *run, out report, html []byte) error {
	written, err := c.write(r, out.Rig.File, html)
	if err != nil {
		return err
	}
	if c.JSON {
		out.Book = written
		return writeJSON(r.Stdout, out)
	}
	fmt.Fprintln(r.Stdout, strings.TrimSpace(written.HTML+"\n"+written.PDF))
	return nil
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
