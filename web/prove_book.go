package web

import (
	"context"

	"ampstead/prove"
	"ampstead/sheet"
	"ampstead/shelf"
)

// newest is the job of reading the newest log that is kept; nil without one.
func (s *site) newest(now *reading) (log string, j *job[*prove.Result]) {
	logs, err := s.shelf().Logs()
	if err != nil || len(logs) == 0 {
		return "", nil
	}
	t, err := s.chosen(now, "", logs[0].Name, nil)
	if err != nil {
		return "", nil
	}
	return logs[0].Name, s.proofs.of(t)
}

// proven adds to the model of the book what the newest log told, as soon as it is
// read, and the test plan.
func (s *site) proven(now *reading, m *sheet.Model) *sheet.Model {
	if plan, err := shelf.Plan(shelf.Known(now.file.Rig, now.result), shelf.Gear{}); err == nil {
		m = m.WithPlan(plan)
	}
	log, j := s.newest(now)
	if j != nil {
		j.wait(context.Background(), patience)
	}
	return m.WithProof(log, resultOf(j))
}

// logOf is the log whose proof a model has.
func logOf(m *sheet.Model) string {
	if m.Proof == nil {
		return ""
	}
	return m.Proof.Log
}

// proofWords says what the book has of a test of the module.
func (s *site) proofWords(now *reading) string {
	log, j := s.newest(now)
	switch {
	case j == nil:
		return "It has no test of the module, because no log is kept with the rig: see Prove."
	case !j.over():
		return "The newest log is being read; until then the book is without it. " + j.running(logRead).Say
	case j.err != nil:
		return "It has no test of the module, because the newest log could not be read: Prove says why."
	}
	return "It has what the log " + log + " told of the module."
}
