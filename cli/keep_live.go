package cli

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"sync"
	"time"

	"ampstead/live"
	"ampstead/logbook"
	"ampstead/store"
)

// keepLive reads live values in the foreground.
type keepLive struct {
	Rig   string `arg:"" optional:"" default:"." help:"Folder that holds rig.yaml, or the file."`
	Store string `placeholder:"URL" help:"A logbook on a PostgreSQL server, postgres://..., instead of the one in the rig's folder."`
}

// Run reads until interrupted and prints what changes.
func (c *keepLive) Run(r *run) error {
	w, err := openLive(r, c.Rig, c.Store, r.Stdout)
	if err != nil {
		return err
	}
	defer w.close()
	fmt.Fprintln(r.Stdout, "Stop it with Ctrl-C.")
	w.start(r)
	<-r.ctx.Done()
	return nil
}

// watching is a monitor with its logbook. The zero watching watches nothing.
type watching struct {
	monitor *live.Monitor
	book    *store.Book
	stop    context.CancelFunc
	over    chan error
}

// openLive prepares the monitor of a rig; say gets a line for each change.
func openLive(r *run, path, server string, say io.Writer) (*watching, error) {
	if err := logbook.CheckServer(server); err != nil {
		return nil, badInput(err)
	}
	file, fitted, err := stageFlags{Rig: path}.compute()
	if err != nil {
		return nil, err
	}
	if err := live.Ready(file.Rig); err != nil {
		return nil, badInput(err) // before a logbook is begun
	}
	book, err := logbook.Open(r.ctx, file, server, false)
	if err != nil {
		return nil, bookError(err)
	}
	w := &watching{book: book}
	w.monitor, err = live.New(live.Options{Rig: file.Rig, Fitted: fitted, Folder: filepath.Dir(file.Path), Book: book, Say: stamped(say)})
	if err != nil {
		w.close()
		return nil, badInput(err)
	}
	fmt.Fprintf(say, "Live readings of %s from %s.\n%s\n", file.Rig.About.Name, file.Rig.Live.Broker, live.Warning)
	return w, nil
}

// stamped writes lines with the time in front.
func stamped(to io.Writer) func(string) {
	var one sync.Mutex
	return func(line string) {
		one.Lock()
		defer one.Unlock()
		fmt.Fprintf(to, "%s %s\n", time.Now().Format(time.DateTime), line)
	}
}

func (w *watching) start(r *run) {
	if w.monitor == nil {
		return
	}
	var ctx context.Context
	ctx, w.stop = context.WithCancel(r.ctx)
	w.over = make(chan error, 1)
	go func() { w.over <- w.monitor.Run(ctx) }()
}

// close ends the reading, with everything stored, and closes the logbook.
func (w *watching) close() {
	if w.stop != nil {
		w.stop()
		<-w.over // nothing more can be done about its error: it has been said
	}
	if w.book != nil {
		_ = w.book.Close() // what was stored is on the disk already
	}
}
