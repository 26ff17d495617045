package web

import (
	"html/template"
	"net"
	"net/http"
	"strings"

	"ampstead/internal/lan"
	"ampstead/internal/qr"
)

type phonePage struct {
	Frame frame
	Page  string // what the phone will open, "/" for the rig's first page
	Ways  []way
}

// way is one address that a phone may reach this machine by.
type way struct {
	Interface string
	Address   string
	Code      template.HTML // its QR code; the passphrase is never in it
}

// longestPage is how long a page's address may be to stand in a QR code.
const longestPage = 120

// phone shows how a phone opens these pages. ?page= says which; what stands behind a
// question mark there is left out.
func (h *hall) phone(w http.ResponseWriter, r *http.Request) {
	page, _, _ := strings.Cut(localPath(r.URL.Query().Get("page")), "?")
	if page == "" || len(page) > longestPage {
		page = "/"
	}
	p := phonePage{Frame: h.frame(r, "phone", "On your phone"), Page: page}
	p.Frame.Back = "/phone"
	if h.config.Passphrase != "" {
		p.Ways = waysTo(h.config.reach(), portOf(r), page)
	}
	h.render(w, http.StatusOK, "phone", p)
}

// waysTo are the addresses of a page at a port of this machine.
func waysTo(addresses []lan.Address, port, page string) []way {
	var list []way
	for _, a := range addresses {
		host := a.IP.String()
		if port != "" {
			host = net.JoinHostPort(host, port)
		}
		one := way{Interface: a.Interface, Address: "http://" + host + page}
		if code, err := qr.New(one.Address); err == nil {
			one.Code = template.HTML(code.SVG("QR code of " + one.Address))
		}
		list = append(list, one)
	}
	return list
}

// portOf is the port that the request came in at; empty for the usual one.
func portOf(r *http.Request) string {
	if at, ok := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr); ok {
		if _, port, err := net.SplitHostPort(at.String()); err == nil && port != "80" {
			return port
		}
		return ""
	}
	_, port, err := net.SplitHostPort(r.Host)
	if err != nil {
		return ""
	}
	return port
}
