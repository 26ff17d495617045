package web

import (
	"bytes"
	"html/template"
	"net/http"

	"ampstead/finding"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/wire"
)

type wirePage struct {
	Frame   frame
	Body    template.HTML
	Problem *rig.Problem // why the wiring could not be reckoned
}

func (s *site) wire(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	page := wirePage{Frame: s.frame(r, "wire", "Wire", now)}
	if now.wired == nil {
		page.Problem = now.unwired
		s.render(w, http.StatusOK, "wire", page)
		return
	}
	body, err := s.wireBody(now)
	if err != nil {
		http.Error(w, "This page could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	page.Body = body
	s.render(w, http.StatusOK, "wire", page)
}

// wireBody renders the body once for each reading: it has the drawings.
func (s *site) wireBody(now *reading) (template.HTML, error) {
	model := now.whole()
	now.mu.Lock()
	defer now.mu.Unlock()
	if now.wiring == "" {
		var out bytes.Buffer
		if err := s.views.execute(&out, "wire", "wire-body", model); err != nil {
			return "", err
		}
		now.wiring = template.HTML(out.String()) // written by the escaping template above
	}
	return now.wiring, nil
}

// partsTable sends the parts list as a table for a spreadsheet.
func (s *site) partsTable(w http.ResponseWriter, r *http.Request) {
	s.table(w, r, "parts", wire.PartsCSV)
}

// scheduleTable sends the schedule of conductors as a table for a spreadsheet.
func (s *site) scheduleTable(w http.ResponseWriter, r *http.Request) {
	s.table(w, r, "schedule", wire.ScheduleCSV)
}

func (s *site) table(w http.ResponseWriter, r *http.Request, name string, write func(*wire.Result) []byte) {
	now := s.look(r)
	if now.wired == nil {
		s.missing(w, r)
		return
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+slugOf(now.name())+"-"+name+`.csv"`)
	_, _ = w.Write(write(now.wired)) // a visitor who left is no failure of ours
}

// reckonWire works out the wiring; what stands in its way is kept for its page.
func (now *reading) reckonWire(r *rig.Rig) {
	wired, err := wire.Run(r, now.result, wire.Options{})
	if err != nil {
		now.unwired = fitProblem(now.file, err)
		return
	}
	now.wired = wired
}

// whole returns the parts of fit and wiring. There must be a result.
func (now *reading) whole() *sheet.Model {
	fit := now.sheet()
	now.mu.Lock()
	defer now.mu.Unlock()
	if now.all == nil {
		now.all = fit.WithWire(now.wired)
	}
	return now.all
}

// found are the findings of fit and wiring, those found twice once.
func (now *reading) found() []finding.Finding {
	if now.wired == nil {
		return now.result.Findings
	}
	return finding.Merge(now.result.Findings, now.wired.Findings)
}
