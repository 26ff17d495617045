package web

import (
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"time"
)

// Limits of one connection. Pages answer within milliseconds; the limits only
// keep a stalled phone from holding a connection for ever.
const (
	headerTimeout   = 5 * time.Second
	readTimeout     = 20 * time.Second
	writeTimeout    = 30 * time.Second
	idleTimeout     = 2 * time.Minute
	shutdownTimeout = 5 * time.Second
	maxHeaderBytes  = 32 << 10
)

// Serve answers requests on ln until ctx is done, then lets running requests
// finish for up to five seconds. It closes ln, and handler if it is an io.Closer.
// A stop through ctx is no error.
func Serve(ctx context.Context, ln net.Listener, handler http.Handler) error {
	if c, ok := handler.(io.Closer); ok {
		defer c.Close()
	}
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: headerTimeout,
		ReadTimeout:       readTimeout,
		WriteTimeout:      writeTimeout,
		IdleTimeout:       idleTimeout,
		MaxHeaderBytes:    maxHeaderBytes,
	}
	stopped := make(chan error, 1)
	go func() { stopped <- server.Serve(ln) }()
	select {
	case err := <-stopped:
		return err
	case <-ctx.Done():
	}
	// The caller's context is over: the last requests get a fresh one.
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownTimeout)
	defer cancel()
	err := server.Shutdown(last)
	if err != nil {
		err = errors.Join(err, server.Close())
	}
	if served := <-stopped; !errors.Is(served, http.ErrServerClosed) {
		err = errors.Join(err, served)
	}
	return err
}
