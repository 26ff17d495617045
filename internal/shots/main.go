package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
)

// wishes are what the command line asks for.
type wishes struct {
	to, docs, at, rig string
	only              []string
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := run(ctx)
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, "shots:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context) error {
	w, err := read()
	if err != nil {
		return err
	}
	at := w.at
	if at == "" {
		tour, err := openTour(ctx)
		if err != nil {
			return err
		}
		defer tour.close()
		at = tour.at
	}
	c, err := openCamera(ctx, at)
	if err != nil {
		return err
	}
	defer c.close()
	if w.docs != "" {
		return c.shootDocs(w.docs)
	}
	return c.shootAll(w)
}

func read() (wishes, error) {
	var w wishes
	only := flag.String("only", "", "names of pages, with commas between; empty for all")
	flag.StringVar(&w.to, "to", "", "folder for every page at every width in both themes")
	flag.StringVar(&w.docs, "docs", "", "folder for the small choice that the documents show")
	flag.StringVar(&w.at, "at", "", "address of pages that are being served; empty to serve the tour")
	flag.StringVar(&w.rig, "rig", "curlew", "folder name of the rig")
	flag.Parse()
	if *only != "" {
		w.only = strings.Split(*only, ",")
	}
	if (w.to == "") == (w.docs == "") {
		return w, errors.New("name a folder: -to for every page, or -docs for the choice of the documents")
	}
	return w, os.MkdirAll(filepath.Clean(w.to+w.docs), 0o755)
}
