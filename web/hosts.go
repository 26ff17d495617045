package web

import (
	"net"
	"net/netip"
	"os"
	"strings"
)

// hosts are the names this server answers to. A site elsewhere that points its own
// name at this machine sends its own name, and so is told apart; an address cannot
// be pointed anywhere.
type hosts struct {
	network bool            // answers to every address, not only to this machine's own
	names   map[string]bool // in small letters
}

// newHosts: without a passphrase only this machine itself is answered; with one,
// every address, the machine's own names and those given.
func newHosts(network bool, given []string) *hosts {
	h := &hosts{network: network, names: map[string]bool{"localhost": true}}
	if !network {
		return h
	}
	if name, err := os.Hostname(); err == nil {
		first, _, _ := strings.Cut(name, ".")
		given = append([]string{name, first, first + ".local"}, given...)
	}
	for _, name := range given {
		if name = bareName(name); name != "" && name != ".local" {
			h.names[name] = true
		}
	}
	return h
}

// answers reports whether a Host header names this server.
func (h *hosts) answers(host string) bool {
	name := host
	if only, _, err := net.SplitHostPort(host); err == nil {
		name = only
	}
	if addr, err := netip.ParseAddr(strings.TrimSuffix(strings.TrimPrefix(name, "["), "]")); err == nil {
		return h.network || addr.Unmap().IsLoopback()
	}
	return h.names[bareName(name)]
}

// bareName writes a name the one way it is compared in.
func bareName(name string) string { return strings.ToLower(strings.TrimSuffix(name, ".")) }

// notHere is what someone is told who came by another name.
func (h *hosts) notHere() string {
	if h.network {
		return "This page does not answer to that name. Ask for it by the machine's address or its own name, or serve it with --name and the name you use."
	}
	return "Ask for this page by the name localhost or the address 127.0.0.1."
}
