package web

import (
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"sync"

	"ampstead/benchlog"
	"ampstead/prove"
	"ampstead/shelf"
)

// prover reads and judges a log: prove.Run, or what a test puts in its place.
type prover func(ctx context.Context, name string, log io.Reader, layout benchlog.Options, o prove.Options) (*prove.Result, error)

// proofs holds the logs that visitors sent, as files of a temporary folder, and
// what the logs told. One log is read at a time.
type proofs struct {
	run  prover
	jobs *held[string, *prove.Result] // each reads one log in one way

	mu      sync.Mutex
	folder  string // made when the first log comes
	closed  bool
	uploads []*upload
}

// How many logs that were sent, and how many results, are held at a time.
const (
	heldUploads = 4
	heldProofs  = 8
)

// upload is a log that was sent and is not kept yet.
type upload struct {
	id, name, path string
	size           int64
}

func newProofs(run prover) *proofs {
	return &proofs{run: run, jobs: newHeld[string, *prove.Result](newQueue(), heldProofs)}
}

// receive stores a log that is being sent; the oldest one goes when there are
// too many.
func (p *proofs) receive(name string, from io.Reader) (*upload, error) {
	folder, err := p.home()
	if err != nil {
		return nil, err
	}
	file, err := os.CreateTemp(folder, "log-*")
	if err != nil {
		return nil, err
	}
	size, err := io.Copy(file, from)
	if err = errors.Join(err, file.Close()); err != nil {
		os.Remove(file.Name())
		return nil, err
	}
	u := &upload{rand.Text(), shelf.CleanName(name), file.Name(), size}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.uploads = append(p.uploads, u); len(p.uploads) > heldUploads {
		os.Remove(p.uploads[0].path)
		p.uploads = p.uploads[1:]
	}
	return u, nil
}

// home is the temporary folder.
func (p *proofs) home() (string, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.closed {
		return "", os.ErrClosed
	}
	if p.folder == "" {
		folder, err := os.MkdirTemp("", "ampstead-logs-*")
		if err != nil {
			return "", err
		}
		p.folder = folder
	}
	return p.folder, nil
}

// sent returns a log that was sent, or nil.
func (p *proofs) sent(id string) *upload {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, u := range p.uploads {
		if u.id == id {
			return u
		}
	}
	return nil
}

// logTask is a log to be read, in which way, and what is known of it.
type logTask struct {
	source string // tells logs apart
	name   string
	size   int64
	open   func() (*os.File, error)
	layout benchlog.Options
	known  prove.Options
	stamp  string // of the rig
}

func (t logTask) key() string {
	how, _ := json.Marshal(t.layout) // plain texts and numbers: cannot fail
	return fmt.Sprint(t.source, "\n", t.stamp, "\n", string(how), t.known.Groups, t.known.LowV, t.known.HighV)
}

// of returns the job of a log, started when there is none.
func (p *proofs) of(t logTask) *job[*prove.Result] {
	return p.jobs.of(t.key(), func(ctx context.Context, j *job[*prove.Result]) (*prove.Result, error) { return p.read(ctx, j, t) })
}

// unasked is the same for a log that nobody waits for.
func (p *proofs) unasked(t logTask) *job[*prove.Result] {
	return p.jobs.unasked(t.key(), func(ctx context.Context, j *job[*prove.Result]) (*prove.Result, error) { return p.read(ctx, j, t) })
}

func (p *proofs) read(ctx context.Context, j *job[*prove.Result], t logTask) (*prove.Result, error) {
	file, err := t.open()
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return p.run(ctx, t.name, &tellingReader{from: file, of: t.size, tell: j.progress}, t.layout, t.known)
}

// tellingReader tells how much of a log was read through it, in MB.
type tellingReader struct {
	from     io.Reader
	read, of int64
	tell     func(at, of int)
}

func (r *tellingReader) Read(b []byte) (int, error) {
	n, err := r.from.Read(b)
	r.read += int64(n)
	r.tell(int(r.read>>20), int(max(1, r.of>>20)))
	return n, err
}

// end stops all reading and removes what was sent.
func (p *proofs) end() {
	p.mu.Lock()
	p.closed = true
	folder := p.folder
	p.mu.Unlock()
	p.jobs.queue.close(p.jobs.end)
	if folder != "" {
		os.RemoveAll(folder)
	}
}
