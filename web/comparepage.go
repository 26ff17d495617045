package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"ampstead/compare"
	"ampstead/history"
	"ampstead/quantity"
	"ampstead/rig"
)

type comparePage struct {
	waiting
	Frame  frame
	Was    comparedSide
	Is     comparedSide
	Query  url.Values // which two, without how far
	Result *compare.Result
	Stages []comparedStage
	Travel bool // the year is reckoned, or being reckoned
	Drill  bool
	Other  bool // two rigs
	Others []link
	None   bool // there is nothing to compare with
	Wrong  string
}

// comparedSide is one of the two.
type comparedSide struct {
	Called string // "version 3", "now", or the rig's name
	Stop   int
	Care   int
	Note   int
}

// comparedStage is what became of the results of one stage.
type comparedStage struct {
	Key   string
	Title string
	Rows  beside // those that differ
	Same  beside
}

// beside is a table of results side by side.
type beside struct {
	Was, Is string // heads
	Rows    []comparedRow
}

// comparedRow is one result in the visitor's units.
type comparedRow struct {
	What, Was, Is, Change string
	Turn                  compare.Turn
}

// Verdict says what the numbers do not say by themselves.
func (r comparedRow) Verdict() string {
	if r.Turn == compare.Gained || r.Turn == compare.Lost {
		return string(r.Turn)
	}
	return ""
}

var comparedTitles = map[string]string{compare.Fit: "Settings", compare.Wire: "Wiring", compare.Travel: "The year on the road", compare.Drill: "When something fails"}

// twoFiles are the rigs to compare.
type twoFiles struct {
	was, is             *rig.File
	wasCalled, isCalled string
	other               bool
}

// errNone says that there is nothing to compare with.
var errNone = errors.New("no other version of this rig is kept yet")

// twoOf opens the two that an address or a form names: was and is are numbers of
// versions, with is another rig of the workshop.
func (s *site) twoOf(now *reading, query url.Values) (two twoFiles, err error) {
	two = twoFiles{is: now.file, isCalled: "now"}
	if slug := query.Get("with"); slug != "" {
		return s.withOther(now, slug)
	}
	if two.is, two.isCalled, err = s.version(query.Get("is"), two.is, two.isCalled); err != nil {
		return two, err
	}
	number := query.Get("was")
	if number == "" {
		n, err := rig.Before(s.desk.path, two.is.Text)
		if err != nil {
			return two, err
		}
		if n == 0 {
			return two, errNone
		}
		number = strconv.Itoa(n)
	}
	two.was, two.wasCalled, err = s.version(number, now.file, "now")
	return two, err
}

// version opens a kept version; without a number it is what stands there instead.
func (s *site) version(number string, other *rig.File, called string) (*rig.File, string, error) {
	if number == "" {
		return other, called, nil
	}
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 {
		return nil, "", fmt.Errorf("version %.20q: %w", number, history.ErrUnknown)
	}
	file, err := rig.Kept(s.desk.path, n)
	return file, fmt.Sprintf("version %d", n), err
}

func (s *site) withOther(now *reading, slug string) (twoFiles, error) {
	if s.workshop == nil {
		return twoFiles{}, errors.New("one rig is served alone here: there is no other to compare with")
	}
	other, ok := s.workshop.site(slug)
	if !ok {
		return twoFiles{}, fmt.Errorf("there is no rig %.60q in this workshop", slug)
	}
	is := other.desk.read()
	if is.file == nil {
		return twoFiles{}, fmt.Errorf("the file of the rig %.60q cannot be read at the moment", slug)
	}
	two := twoFiles{was: now.file, is: is.file, wasCalled: now.name(), isCalled: is.name(), other: true}
	if two.wasCalled == two.isCalled {
		two.wasCalled, two.isCalled = "this one", slug
	}
	return two, nil
}

// compare shows two versions of the rig side by side, or two rigs.
func (s *site) compare(w http.ResponseWriter, r *http.Request) {
	now := s.look(r)
	if now.file == nil {
		s.trouble(w, r, now)
		return
	}
	query := r.URL.Query()
	p := comparePage{Frame: s.frame(r, "rig", "Compare", now), Query: whichTwo(query), Others: s.others()}
	p.Frame.Back = s.at("/rig/compare?" + p.Query.Encode())
	two, err := s.twoOf(now, query)
	if err != nil {
		p.None = errors.Is(err, errNone)
		p.Wrong = sentences(versionTrouble(err))
		status := http.StatusNotFound
		if p.None {
			status = http.StatusOK
		}
		s.render(w, status, "compare", p)
		return
	}
	p.Was.Called, p.Is.Called, p.Other = two.wasCalled, two.isCalled, two.other
	units := s.units(r, now)
	res, err := s.compared(r, &p, two, wishOf(two, units, query))
	if err != nil {
		p.Wrong = sentences(plainReason(err))
		s.render(w, http.StatusInternalServerError, "compare", p)
		return
	}
	p.fill(res, units)
	s.render(w, http.StatusOK, "compare", p)
}

// versionTrouble leaves the place out of what is wrong with a version's text.
func versionTrouble(err error) string {
	var problems rig.Errors
	if errors.As(err, &problems) {
		return problems[0].File + " is no rig as it stands: " + problems[0].Message
	}
	return plainReason(err)
}

// whichTwo keeps of an address what says which two are compared.
func whichTwo(query url.Values) url.Values {
	kept := url.Values{}
	for _, key := range []string{"was", "is", "with"} {
		if v := query.Get(key); v != "" {
			kept.Set(key, v)
		}
	}
	return kept
}

func wishOf(two twoFiles, units quantity.System, query url.Values) wish {
	return wish{was: stampOf(two.was.Text), is: stampOf(two.is.Text), units: units.String(), travel: query.Has("travel"), drill: query.Has("drill")}
}

// compared is the comparison as far as it was asked for, or, while that is being
// reckoned, what needs no time.
func (s *site) compared(r *http.Request, p *comparePage, two twoFiles, w wish) (*compare.Result, error) {
	p.Travel, p.Drill = w.travel, w.drill
	if w.travel || w.drill {
		j := s.compares.of(w, two.was, two.is)
		j.wait(r.Context(), patience)
		if p.ready(&j.task, &p.Frame, "") {
			return j.result, nil
		}
		if p.Running != nil {
			p.Running.Say = howFar(*p.Running)
		}
	}
	return s.compares.run(r.Context(), two.was, two.is, compare.Options{Units: w.units})
}

// howFar says how far a long comparison is.
func howFar(now running) string {
	if now.Total == 0 {
		return now.Say
	}
	return fmt.Sprintf("%d %% of both rigs reckoned.", 100*now.Done/now.Total)
}

func (p *comparePage) fill(res *compare.Result, units quantity.System) {
	p.Result = res
	p.Was.Stop, p.Was.Care, p.Was.Note = res.Was.Stop, res.Was.Care, res.Was.Note
	p.Is.Stop, p.Is.Care, p.Is.Note = res.Is.Stop, res.Is.Care, res.Is.Note
	for _, key := range res.Stages {
		heads := beside{Was: p.Was.Called, Is: p.Is.Called}
		stage := comparedStage{Key: key, Title: comparedTitles[key], Rows: heads, Same: heads}
		for _, row := range res.Rows {
			if row.Stage != key {
				continue
			}
			text := comparedRow{row.What, row.WasText(units), row.IsText(units), row.ChangeText(units), row.Turn}
			if row.Differs() {
				stage.Rows.Rows = append(stage.Rows.Rows, text)
			} else {
				stage.Same.Rows = append(stage.Same.Rows, text)
			}
		}
		p.Stages = append(p.Stages, stage)
	}
}

// others are the other rigs of the workshop.
func (s *site) others() []link {
	if s.workshop == nil {
		return nil
	}
	slugs, err := s.workshop.slugs()
	if err != nil {
		return nil
	}
	var list []link
	for _, slug := range slugs {
		other, ok := s.workshop.site(slug)
		if !ok || other == s {
			continue
		}
		name := other.desk.read().name()
		if name == "" {
			continue
		}
		list = append(list, link{Key: slug, Text: name})
	}
	return list
}

// compareProgress answers the page's question how far the run is.
func (s *site) compareProgress(w http.ResponseWriter, r *http.Request) {
	answer := running{Over: true}
	if now := s.look(r); now.file != nil {
		if two, err := s.twoOf(now, r.URL.Query()); err == nil {
			if j := s.compares.jobs.known(wishOf(two, s.units(r, now), r.URL.Query())); j != nil {
				answer = j.running("")
				answer.Say = howFar(answer)
			}
		}
	}
	answer.send(w)
}

// compareStop ends a comparison that takes long.
func (s *site) compareStop(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	if now := s.look(r); now.file != nil {
		if two, err := s.twoOf(now, r.PostForm); err == nil {
			s.compares.stop(wishOf(two, s.units(r, now), r.PostForm))
		}
	}
	http.Redirect(w, r, s.at("/rig/compare?"+whichTwo(r.PostForm).Encode()), http.StatusSeeOther)
}
