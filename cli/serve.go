package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"

	"ampstead/handbook"
	"ampstead/internal/lan"
	"ampstead/logbook"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/web"
)

type serveCommand struct {
	Rig        string `arg:"" optional:"" default:"." help:"Folder that holds rig.yaml, or the file; or a workshop: a folder whose sub-folders hold rigs."`
	serveFlags `embed:""`
}

type serveFlags struct {
	Port       int      `default:"4680" help:"Port; 0 takes any free one."`
	LAN        bool     `name:"lan" help:"Let other devices on this network in, behind a passphrase."`
	Live       bool     `help:"Also read live values from the MQTT broker of the rig file. It protects nothing."`
	Store      string   `placeholder:"URL" help:"A logbook on a PostgreSQL server, postgres://..., instead of the one in the rig's folder."`
	Passphrase string   `placeholder:"FILE" help:"File that holds the passphrase for --lan, or the AMPSTEAD_PASSPHRASE environment variable; without either the one set with ampstead passphrase, or it is asked for."`
	Name       []string `placeholder:"NAME" help:"With --lan, a name of this machine that people type, beside its own. Repeatable."`
}

// Run serves until interrupted.
func (c *serveCommand) Run(r *run) error {
	if workshop(c.Rig) {
		return c.serve(r, served{workshop: c.Rig})
	}
	if _, err := rig.Open(c.Rig); err != nil {
		var broken rig.Errors // a file with mistakes is served with them, to be mended there
		if !errors.As(err, &broken) {
			return badInput(err)
		}
	}
	return c.serve(r, served{rig: c.Rig})
}

// served is what the pages show: one rig, a workshop, or a workshop with one of its
// rigs in front.
type served struct{ rig, workshop string }

func (s served) String() string {
	if s.rig == "" {
		return "the rigs in " + s.workshop
	}
	return s.rig
}

// workshop reports whether path is a folder without a rig file of its own.
func workshop(path string) bool {
	info, err := os.Stat(path)
	if err != nil || !info.IsDir() {
		return false
	}
	_, err = os.Lstat(filepath.Join(path, rig.FileName))
	return errors.Is(err, fs.ErrNotExist)
}

func (f serveFlags) serve(r *run, what served) error {
	if err := logbook.CheckServer(f.Store); err != nil {
		return badInput(err)
	}
	passphrase, err := f.passphrase(r)
	if err != nil {
		return err
	}
	watching := &watching{}
	if f.Live && what.rig == "" {
		return badInput(errors.New("--live reads the broker of one rig; name its folder"))
	}
	if f.Live {
		if watching, err = openLive(r, what.rig, f.Store, r.Stderr); err != nil {
			return err
		}
	}
	defer watching.close()
	handler, err := web.New(web.Config{Path: what.rig, Workshop: what.workshop, Units: quantity.Metric, Passphrase: passphrase, Names: f.Name, Version: thisBuild().short(), Store: f.Store, Live: watching.monitor, Figures: handbook.All()})
	if err != nil {
		return badInput(err)
	}
	listener, err := f.listen(r)
	if err != nil {
		return badInput(err)
	}
	watching.start(r)
	f.say(r, what, listener)
	return web.Serve(r.ctx, listener, handler)
}

// passphrase returns the hash that lets people in; "" when only this machine is.
func (f serveFlags) passphrase(r *run) (string, error) {
	if !f.LAN && len(f.Name) > 0 {
		return "", badInput(errors.New("--name is for --lan: without it only this machine itself is answered"))
	}
	if !f.LAN {
		return "", nil
	}
	return lanPassphrase(r, f.Passphrase)
}

// listen takes the wanted port, or any free one when it is taken.
func (f serveFlags) listen(r *run) (net.Listener, error) {
	host := "127.0.0.1"
	if f.LAN {
		host = ""
	}
	listener, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(f.Port)))
	if errors.Is(err, syscall.EADDRINUSE) {
		fmt.Fprintf(r.Stderr, "ampstead: port %d is taken; using another\n", f.Port)
		return net.Listen("tcp", net.JoinHostPort(host, "0"))
	}
	return listener, err
}

// say tells where the pages are, to a phone's camera too.
func (f serveFlags) say(r *run, what served, l net.Listener) {
	list := f.addresses(l)
	fmt.Fprintf(r.Stdout, "Ampstead shows %s at %s\n", what, strings.Join(list, " and "))
	if len(list) > 1 {
		showCode(r.Stdout, list[1])
	}
	fmt.Fprintln(r.Stdout, "Stop it with Ctrl-C.")
}

// addresses are this machine's own, and with --lan those that other devices use.
func (f serveFlags) addresses(l net.Listener) []string {
	port := strconv.Itoa(l.Addr().(*net.TCPAddr).Port)
	list := []string{"http://" + net.JoinHostPort("127.0.0.1", port) + "/"}
	if f.LAN {
		for _, a := range lan.Addresses() {
			list = append(list, "http://"+net.JoinHostPort(a.IP.String(), port)+"/")
		}
	}
	return list
}
