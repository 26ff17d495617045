package web

import (
	"context"
	"io"
	"net"
	"net/http"
	"testing"
)

func TestServeLetsARunningRequestFinish(t *testing.T) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	started, finish := make(chan struct{}), make(chan struct{})
	handler := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		close(started)
		<-finish
		_, _ = io.WriteString(w, "whole")
	})
	ctx, cancel := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- Serve(ctx, ln, handler) }()
	got := make(chan string, 1)
	go func() {
		res, err := http.Get("http://" + ln.Addr().String())
		if err != nil {
			got <- err.Error()
			return
		}
		defer res.Body.Close()
		body, _ := io.ReadAll(res.Body)
		got <- string(body)
	}()
	<-started
	cancel()
	close(finish)
	if body := <-got; body != "whole" {
		t.Errorf("the running request got %q", body)
	}
	if err := <-served; err != nil {
		t.Errorf("Serve: %v", err)
	}
	if _, err := net.Dial("tcp", ln.Addr().String()); err == nil {
		t.Error("still listening")
	}
}

func TestServeReportsABrokenListener(t *testing.T) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ln.Close()
	if err := Serve(context.Background(), ln, http.NotFoundHandler()); err == nil {
		t.Error("no error")
	}
}
