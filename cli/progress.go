package cli

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"
)

// progress tells on standard error how far a long run has come: on a terminal
// after a second and then often, elsewhere only when it takes long.
type progress struct {
	w        io.Writer
	what     string
	terminal bool
	began    time.Time
	next     time.Duration
	shown    bool
	lock     sync.Mutex
}

// When progress is first shown and how often.
const (
	soon, often   = time.Second, 200 * time.Millisecond
	late, seldom  = 10 * time.Second, 10 * time.Second
	wipeCharacter = "\r\x1b[K"
)

func newProgress(w io.Writer, what string) *progress {
	p := &progress{w: w, what: what, terminal: isTerminal(w), began: time.Now(), next: late}
	if p.terminal {
		p.next = soon
	}
	return p
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// tell may be called from anywhere.
func (p *progress) tell(done, total int) {
	p.lock.Lock()
	defer p.lock.Unlock()
	gone := time.Since(p.began)
	if gone < p.next {
		return
	}
	p.shown = true
	if p.terminal {
		p.next = gone + often
		fmt.Fprintf(p.w, "%s%d of %d %s", wipeCharacter, done, total, p.what)
		return
	}
	p.next = gone + seldom
	fmt.Fprintf(p.w, "%d of %d %s\n", done, total, p.what)
}

// end wipes the line.
func (p *progress) end() {
	if p.shown && p.terminal {
		fmt.Fprint(p.w, wipeCharacter)
	}
}
