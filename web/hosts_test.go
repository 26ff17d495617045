package web

import (
	"net/http"
	"os"
	"strings"
	"testing"
)

func TestHostNames(t *testing.T) {
	v := visit(t, "curlew")
	for host, want := range map[string]int{
		"localhost": 200, "localhost:8000": 200, "LOCALHOST:1": 200, "127.0.0.1:8000": 200, "127.1.2.3": 200, "[::1]:8000": 200, "[::1]": 200, "localhost.": 200,
		"example.org": 421, "localhost.example.org": 421, "192.168.1.4:8000": 421, "127.0.0.1.example.org": 421, "": 421, "0.0.0.0": 421, ".": 421, "[": 421, ":8000": 421,
	} {
		v.hears(host, want)
	}
}

// A site that points its own name at this machine (DNS rebinding) is told apart by
// that name, on the network too.
func TestHostNamesOnTheNetwork(t *testing.T) {
	v := visit(t, "curlew", shared, func(c *Config) { c.Names = []string{"Van.Example.net", "heron."} })
	v.cookies = v.try(phrase).Cookies()
	own, err := os.Hostname()
	if err != nil {
		t.Fatal(err)
	}
	first, _, _ := strings.Cut(own, ".")
	for host, want := range map[string]int{
		"localhost:4680": 200, "192.168.1.4:8000": 200, "192.168.1.4": 200, "[fe80::1]:8000": 200, "127.0.0.1": 200,
		own: 200, strings.ToUpper(own) + ":4680": 200, first + ".local": 200, first + ".local.:80": 200, "van.example.net:4680": 200, "heron": 200,
		"example.org": 421, "example.net": 421, "x.van.example.net": 421, "192.168.1.4.example.org": 421, own + ".example.org": 421, "": 421, ".local": 421, "heron.local": 421,
	} {
		v.hears(host, want)
	}
}

func (v *visitor) hears(host string, want int) {
	v.t.Helper()
	v.host = host
	status, body := v.get("/")
	if status != want {
		v.t.Errorf("host %q: status %d, want %d", host, status, want)
	}
	if want == http.StatusMisdirectedRequest && (strings.Contains(body, "Curlew") || host != "" && len(host) > 3 && strings.Contains(body, host)) {
		v.t.Errorf("host %q was told %q", host, body)
	}
}
