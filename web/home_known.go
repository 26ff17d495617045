package web

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"ampstead/fit"
	"ampstead/home"
	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/prove"
	"ampstead/store"
)

// known gathers what is known of the rig, without beginning or awaiting a run.
func (s *site) known(ctx context.Context, now *reading) home.Known {
	k := home.Known{File: now.file, Mistakes: now.problems, Fit: now.result, Wire: now.wired, Now: s.config.Now(), Units: now.units, Runs: map[string]home.Run{}}
	if now.missing != nil || now.result == nil {
		return k
	}
	if now.unwired != nil {
		k.Runs["wire"] = home.Run{Path: now.unwired.Path, Why: now.unwired.Message}
	}
	year, played := s.trips.known(now), s.drills.known(now)
	k.Travel, k.Runs["travel"] = resultOf(year), runOf(year, yearsReckoned)
	if d := resultOf(played); d != nil {
		k.Drill = d.result
	}
	k.Runs["drill"] = runOf(played, faultsPlayed)
	k.Choice, k.Runs["choose"] = s.choices.result(now), runOf(s.choices.both.known(now), batteriesCompared)
	s.knownProof(&k, now)
	s.knownLog(ctx, &k, now)
	return k
}

// runOf says how a run went, or goes; nothing of one that was never begun, or was
// stopped.
func runOf[T any](j *job[T], what string) home.Run {
	var in *fit.InputError
	switch {
	case j == nil || j.stopped():
		return home.Run{}
	case !j.over():
		return home.Run{Say: strings.TrimSuffix(j.running(what).Say, ".")}
	case errors.As(j.err, &in):
		return home.Run{Path: in.Path, Why: in.Message}
	case j.err != nil:
		return home.Run{Why: plainReason(j.err)}
	}
	return home.Run{At: j.ended}
}

// newestTask is the task of reading the newest log that is kept; false without one.
func (s *site) newestTask(now *reading) (logTask, bool) {
	logs, err := s.shelf().Logs()
	if err != nil || len(logs) == 0 {
		return logTask{}, false
	}
	t, err := s.chosen(now, "", logs[0].Name, nil)
	return t, err == nil
}

func (s *site) knownProof(k *home.Known, now *reading) {
	t, ok := s.newestTask(now)
	if !ok {
		return
	}
	j := s.proofs.known(t)
	k.Log, k.Proof, k.Runs["prove"] = t.name, resultOf(j), runOf(j, logRead)
}

// known is the job of a log if there is one.
func (p *proofs) known(t logTask) *job[*prove.Result] { return p.jobs.known(t.key()) }

func (s *site) knownLog(ctx context.Context, k *home.Known, now *reading) {
	res, err := s.heard.of(ctx, s, now)
	if err != nil {
		k.Runs["keep"] = home.Run{Why: plainReason(err)}
		return
	}
	k.Kept = res
}

// heard keeps what the logbook told, so that the first pages need not ask it again
// while nothing was entered.
type heard struct {
	mu  sync.Mutex
	key string
	res *keep.Result
}

// of is what the logbook tells, without the years ahead.
func (h *heard) of(ctx context.Context, s *site, now *reading) (*keep.Result, error) {
	key := s.logKey(now)
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.res != nil && key != "" && key == h.key {
		return h.res, nil
	}
	log, err := s.logOf(ctx, now)
	if err != nil {
		return nil, err
	}
	res, err := log.Keep(ctx, now.file, now.result, s.config.Now(), false)
	if err != nil {
		return nil, err
	}
	h.key, h.res = key, res
	return h.res, nil
}

// logKey tells one state of rig, logbook and hour from another; "" where only
// asking tells it.
func (s *site) logKey(now *reading) string {
	if s.config.Store != "" {
		return ""
	}
	key := fmt.Sprint(now.stamp, s.config.Now().Truncate(time.Hour).Unix())
	for _, end := range []string{"", "-wal"} {
		info, err := os.Stat(filepath.Join(filepath.Dir(now.file.Path), store.FileName+end))
		if err == nil {
			key += fmt.Sprint(end, info.ModTime().UnixNano(), info.Size())
		}
	}
	return key
}

// logOf reads all of the logbook: by the one that is open, or by one that is opened
// for it alone, so that a workshop's list keeps none open.
func (s *site) logOf(ctx context.Context, now *reading) (logbook.Log, error) {
	if s.ledger.isOpen() || s.config.Store != "" {
		return s.ledger.read(ctx, now.file)
	}
	if !logbook.There(now.file, "") {
		return logbook.Log{}, nil
	}
	book, err := logbook.Open(ctx, now.file, "", true)
	if err != nil {
		return logbook.Log{}, err
	}
	log, err := logbook.Read(ctx, book)
	return log, errors.Join(err, book.Close())
}

func (l *ledger) isOpen() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.book != nil
}
