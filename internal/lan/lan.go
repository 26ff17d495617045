package lan

import (
	"cmp"
	"net"
	"net/netip"
	"slices"
	"strings"
)

// Address is one of this machine's on one of its networks.
type Address struct {
	Interface string // "wlan0"
	IP        netip.Addr
}

// Addresses lists the IPv4 addresses of the networks that are up, without the
// machine's own 127.0.0.1. It is empty when there are none, or when the system does
// not tell them.
func Addresses() []Address {
	interfaces, err := net.Interfaces()
	if err != nil {
		return nil
	}
	var list []Address
	for _, i := range interfaces {
		if i.Flags&net.FlagUp == 0 || i.Flags&net.FlagLoopback != 0 {
			continue
		}
		given, err := i.Addrs()
		if err != nil {
			continue
		}
		list = append(list, of(i.Name, given)...)
	}
	slices.SortStableFunc(list, func(a, b Address) int { return cmp.Compare(a.rank(), b.rank()) })
	return list
}

func of(name string, given []net.Addr) []Address {
	var list []Address
	for _, a := range given {
		prefix, err := netip.ParsePrefix(a.String())
		if err != nil {
			continue
		}
		if ip := prefix.Addr().Unmap(); ip.Is4() && !ip.IsLoopback() {
			list = append(list, Address{name, ip})
		}
	}
	return list
}

// apart are what networks inside one machine are called, for programs in containers
// and virtual machines. Common practice, no source.
var apart = []string{"docker", "br-", "veth", "virbr", "vmnet", "vboxnet", "tun", "tap", "utun", "wg"}

// rank is smaller for what a phone in the same vehicle more likely reaches.
func (a Address) rank() int {
	switch {
	case a.IP.IsLinkLocalUnicast(): // given by nobody: RFC 3927
		return 3
	case slices.ContainsFunc(apart, func(name string) bool { return strings.HasPrefix(strings.ToLower(a.Interface), name) }):
		return 2
	case !a.IP.IsPrivate():
		return 1
	}
	return 0
}
