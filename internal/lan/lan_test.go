package lan

import (
	"net"
	"net/netip"
	"slices"
	"testing"
)

func TestOf(t *testing.T) {
	mask := net.CIDRMask(24, 32)
	got := of("wlan0", []net.Addr{
		&net.IPNet{IP: net.IPv4(127, 0, 0, 1), Mask: mask}, &net.IPNet{IP: net.IPv4(192, 168, 7, 31), Mask: mask},
		&net.IPNet{IP: net.ParseIP("fe80::1"), Mask: net.CIDRMask(64, 128)}, &net.UnixAddr{Name: "x"},
	})
	want := []Address{{"wlan0", netip.MustParseAddr("192.168.7.31")}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestRank(t *testing.T) {
	order := []Address{
		{"wlan0", netip.MustParseAddr("192.168.7.31")},
		{"eth0", netip.MustParseAddr("203.0.113.5")},
		{"docker0", netip.MustParseAddr("172.17.0.1")},
		{"wlan0", netip.MustParseAddr("169.254.3.3")},
	}
	for i := 1; i < len(order); i++ {
		if order[i-1].rank() >= order[i].rank() {
			t.Errorf("%v is not before %v", order[i-1], order[i])
		}
	}
}

// Whatever networks this machine has: no address of its own only, in order.
func TestAddresses(t *testing.T) {
	last := 0
	for _, a := range Addresses() {
		if a.IP.IsLoopback() || !a.IP.Is4() || a.Interface == "" || a.rank() < last {
			t.Errorf("%+v", a)
		}
		last = a.rank()
	}
}
