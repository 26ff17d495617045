package web

import (
	"context"
	"sync"
)

// held are the newest jobs of a kind, one for each key.
type held[K comparable, T any] struct {
	queue *queue
	most  int

	mu   sync.Mutex
	keys []K // oldest first
	jobs map[K]*job[T]
}

func newHeld[K comparable, T any](q *queue, most int) *held[K, T] {
	return &held[K, T]{queue: q, most: most, jobs: map[K]*job[T]{}}
}

// of returns the job of a key, started when there is none; the oldest one goes
// when there are too many.
func (h *held[K, T]) of(key K, work func(context.Context, *job[T]) (T, error)) *job[T] {
	j := h.take(key, false, work)
	j.hurry()
	return j
}

// unasked is the same for a job that nobody waits for.
func (h *held[K, T]) unasked(key K, work func(context.Context, *job[T]) (T, error)) *job[T] {
	return h.take(key, true, work)
}

func (h *held[K, T]) take(key K, unasked bool, work func(context.Context, *job[T]) (T, error)) *job[T] {
	h.mu.Lock()
	defer h.mu.Unlock()
	if j := h.jobs[key]; j != nil {
		return j
	}
	if len(h.keys) >= h.most {
		h.jobs[h.keys[0]].cancel()
		delete(h.jobs, h.keys[0])
		h.keys = h.keys[1:]
	}
	h.keys, h.jobs[key] = append(h.keys, key), begin(h.queue, unasked, work)
	return h.jobs[key]
}

// known returns the job of a key if there is one.
func (h *held[K, T]) known(key K) *job[T] {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.jobs[key]
}

// end cancels all of them.
func (h *held[K, T]) end() {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, j := range h.jobs {
		j.cancel()
	}
	h.keys = nil
	clear(h.jobs)
}
