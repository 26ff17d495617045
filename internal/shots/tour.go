package main

import (
	"bufio"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"

	"ampstead/cli"
)

// tour is the example rigs, served from a folder of their own.
type tour struct {
	at    string
	close func()
}

var addressLine = regexp.MustCompile(`http://\S+`)

func openTour(ctx context.Context) (*tour, error) {
	folder, err := os.MkdirTemp("", "shots")
	if err != nil {
		return nil, err
	}
	ctx, cancel := context.WithCancel(ctx)
	out, in := io.Pipe()
	over := make(chan int, 1)
	go func() {
		p := cli.Program{Args: []string{"tour", "--port", "0", "--folder", filepath.Join(folder, "rigs")}, Stdin: os.Stdin, Stdout: in, Stderr: os.Stderr}
		over <- p.Run(ctx)
		_ = in.Close() // a pipe in memory: closing it cannot fail
	}()
	t := &tour{close: func() { cancel(); <-over; _ = os.RemoveAll(folder) }}
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if t.at = addressLine.FindString(lines.Text()); t.at != "" {
			go func() { _, _ = io.Copy(io.Discard, out) }()
			return t, nil
		}
	}
	t.close()
	return nil, errors.New("the tour ended before it told its address")
}
