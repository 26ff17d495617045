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
	Port       int    `default:"4680" help:"Port; 0 takes any free one."`
	LAN        bool   `name:"lan" help:"Let other devices on this network in, behind a passphrase."`
	Live       bool   `help:"Also read live values from the MQTT broker of the rig file. It protects nothing."`
	Store      string `placeholder:"URL" help:"A logbook on a PostgreSQL server, postgres://..., instead of the one in the rig's folder."`
	Passphrase string `placeholder:"FILE" help:"File that holds the passphrase for --lan; without it the AMPSTEAD_PASSPHRASE environment variable."`
}

// shortestPassphrase is the fewest characters --lan accepts.
const shortestPassphrase = 10

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
	passphrase, err := f.passphrase()
	if err != nil {
		return badInput(err)
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
	handler, err := web.New(web.Config{Path: what.rig, Workshop: what.workshop, Units: quantity.Metric, Passphrase: passphrase, Version: Version, Store: f.Store, Live: watching.monitor, Figures: handbook.All()})
	if err != nil {
		return badInput(err)
	}
	listener, err := f.listen(r)
	if err != nil {
		return badInput(err)
	}
	watching.start(r)
	fmt.Fprintf(r.Stdout, "Ampstead shows %s at %s\nStop it with Ctrl-C.\n", what, f.address(listener))
	return web.Serve(r.ctx, listener, handler)
}

func (f serveFlags) passphrase() (string, error) {
	if !f.LAN {
		return "", nil
	}
	text := os.Getenv("AMPSTEAD_PASSPHRASE")
	if f.Passphrase != "" {
		data, err := os.ReadFile(f.Passphrase)
		if err != nil {
			return "", err
		}
		text = strings.TrimSpace(string(data))
	}
	if len([]rune(text)) < shortestPassphrase {
		return "", fmt.Errorf("--lan needs a passphrase of at least %d characters: put it in a file and name it with --passphrase, or in AMPSTEAD_PASSPHRASE", shortestPassphrase)
	}
	return text, nil
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

func (f serveFlags) address(l net.Listener) string {
	port := l.Addr().(*net.TCPAddr).Port
	if !f.LAN {
		return fmt.Sprintf("http://127.0.0.1:%d/", port)
	}
	addresses := []string{}
	for _, ip := range lanAddresses() {
		addresses = append(addresses, fmt.Sprintf("http://%s/", net.JoinHostPort(ip, strconv.Itoa(port))))
	}
	return strings.Join(addresses, " and ")
}

// lanAddresses lists this machine's addresses on its networks.
func lanAddresses() []string {
	list := []string{"127.0.0.1"}
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return list
	}
	for _, a := range addresses {
		if ip, ok := a.(*net.IPNet); ok && !ip.IP.IsLoopback() && ip.IP.To4() != nil {
			list = append(list, ip.IP.String())
		}
	}
	return list
}
