package live

import (
	"context"
	"errors"
	"time"

	"ampstead/store"
)

// mostBatch is how many values go into one transaction, writeTime how long it may
// take.
const (
	mostBatch = 20000
	writeTime = 30 * time.Second
)

// batch collects values and has them stored, one transaction at a time, without
// the loop waiting for the disk.
type batch struct {
	book    Book
	pending []store.Sample
	flying  []store.Sample // being written
	orders  chan []store.Sample
	done    chan written
}

// written is the logbook's answer.
type written struct{ err error }

func newBatch(book Book) batch {
	return batch{book: book, orders: make(chan []store.Sample, 1), done: make(chan written, 1)}
}

// add returns how many values were lost: one when there is no more room.
func (b *batch) add(s store.Sample) (lost int) {
	if b.book == nil {
		return 0
	}
	if len(b.pending) >= mostPending {
		return 1
	}
	b.pending = append(b.pending, s)
	return 0
}

func (b *batch) busy() bool { return b.flying != nil }

// send gives the writer what has come together, unless it is still busy.
func (b *batch) send() {
	if b.busy() || len(b.pending) == 0 {
		return
	}
	n := min(len(b.pending), mostBatch)
	b.flying = b.pending[:n:n]
	b.pending = append([]store.Sample(nil), b.pending[n:]...)
	b.orders <- b.flying
}

// settle takes a batch off the list, or puts it back to be tried again. What the
// logbook calls invalid would never be taken.
func (b *batch) settle(done written) (kept, lost int) {
	n := len(b.flying)
	defer func() { b.flying = nil }()
	var invalid *store.Invalid
	switch {
	case done.err == nil:
		return n, 0
	case errors.As(done.err, &invalid):
		return 0, n
	}
	b.pending = append(b.flying, b.pending...)
	if over := len(b.pending) - mostPending; over > 0 {
		b.pending = b.pending[over:]
		return 0, over
	}
	return 0, 0
}

// run writes what is ordered until there are no more orders.
func (b *batch) run(ctx context.Context) {
	for samples := range b.orders {
		b.done <- written{b.write(ctx, samples)}
	}
}

func (b *batch) write(ctx context.Context, samples []store.Sample) error {
	ctx, cancel := context.WithTimeout(ctx, writeTime)
	defer cancel()
	return b.book.AddSamples(ctx, samples)
}
