package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// A file that cannot be read as a rig is mended as text; that is no way to have the
// machine run something.
func TestADamagedFileIsNoWayAround(t *testing.T) {
	whole := visit(t, "curlew").onDisk() + liveSection + "  command: /usr/local/bin/ring --loud\n  password_file: broker.password\n"
	damaged := strings.Replace(whole, "series: 12", "series: twelve", 1)
	if damaged == whole {
		t.Fatal("nothing was damaged")
	}
	v := visitText(t, damaged)
	send := func(text string) int {
		return v.post("/rig/text", url.Values{"text": {text}, "seen": {stampOf([]byte(v.onDisk()))}}).StatusCode
	}
	for _, change := range [][2]string{
		{"/usr/local/bin/ring --loud", "/bin/sh -c true"},
		{"ring --loud", "ring"},
		{"broker.password", "/etc/shadow"},
		{"mqtt://127.0.0.1:1", "mqtt://192.168.9.9:1883"},
	} {
		if status := send(strings.Replace(whole, change[0], change[1], 1)); status != http.StatusUnprocessableEntity {
			t.Errorf("%s in place of %s: %d", change[1], change[0], status)
		}
	}
	if v.onDisk() != damaged {
		t.Fatal("the file was changed")
	}
	if status := send(whole); status != http.StatusSeeOther || v.onDisk() != whole {
		t.Errorf("mended: %d", status)
	}
}
