package rig

import (
	"errors"
	"fmt"
	"net/netip"
	"net/url"
	"strings"
)

// live checks what the live section says of brokers, topics and hooks.
func (c *checker) live() {
	l := c.rig.Live
	if l == nil {
		return
	}
	c.broker(l.Broker)
	if l.PasswordFile != "" && l.PasswordVariable != "" {
		c.add("live.password_variable", "the password stands in a file and in a variable", "one of them", "")
	}
	if _, err := Words(l.Command); err != nil {
		c.add("live.command", err.Error(), "a program and its arguments", `/usr/local/bin/ring "in the van"`)
	}
	c.webhook(l.Webhook)
	for i := range l.Topics {
		c.liveTopic(c.item("live.topics", i), &l.Topics[i])
	}
}

func (c *checker) broker(text string) {
	if text == "" {
		return // reported as missing
	}
	u, err := url.Parse(text)
	switch {
	case err != nil || u.Hostname() == "" || u.Scheme != "mqtt" && u.Scheme != "mqtts":
		c.add("live.broker", "this is no address of a broker", "mqtt:// or mqtts:// with a host and a port", "mqtt://127.0.0.1:1883")
	case u.User != nil:
		c.add("live.broker", "the address holds a user or password", "the address alone; user and password_file beside it", "mqtt://"+u.Host)
	default:
		c.local("live.broker", u)
	}
}

func (c *checker) webhook(text string) {
	if text == "" {
		return
	}
	u, err := url.Parse(text)
	if err != nil || u.Hostname() == "" || u.Scheme != "http" && u.Scheme != "https" {
		c.add("live.webhook", "this is no address of a web server", "http:// with a host on the local network", "http://192.168.4.20:8080/alarm")
		return
	}
	c.local("live.webhook", u)
}

// local refuses an address that is plainly not on the local network; what a name
// leads to is looked at when it is called.
func (c *checker) local(path string, u *url.URL) {
	if ip, err := netip.ParseAddr(u.Hostname()); err == nil && !LocalAddress(ip) {
		c.add(path, fmt.Sprintf("%s is not on the local network", ip), "an address of this machine or the local network", "192.168.4.20")
	}
}

// LocalAddress reports whether an address belongs to this machine or to a private
// network (RFC 1918, RFC 4193, link-local).
func LocalAddress(ip netip.Addr) bool {
	ip = ip.Unmap()
	return ip.IsLoopback() || ip.IsPrivate() || ip.IsLinkLocalUnicast()
}

func (c *checker) liveTopic(at string, t *LiveTopic) {
	dim := t.Dimension()
	if t.Topic == "" || dim == nil {
		return // reported already
	}
	if why := badFilter(t.Topic); why != "" {
		c.add(at+".topic", why, "levels with / between them, + for a whole level, # only as the last", "bms/cell/+/voltage")
	}
	if _, _, err := t.ToSI(); err != nil {
		c.add(at+".unit", fmt.Sprintf("%q is no unit of %s", t.Unit, t.Gives), "a unit such as "+dim.Base, "0.1 "+dim.Base)
	}
	c.liveNumber(at, t)
	if t.Sign != "" && t.Gives != GivesCurrent && t.Gives != GivesCounter {
		c.add(at+".sign", fmt.Sprintf("a %s has no direction", t.Gives), "no sign here", "")
	}
}

func (c *checker) liveNumber(at string, t *LiveTopic) {
	series := c.rig.Bank.Series
	switch {
	case t.Number != 0 && !t.Numbered():
		c.add(at+".number", fmt.Sprintf("there is only one %s", t.Gives), "no number here", "")
	case t.Number > series && t.Gives == GivesGroupVoltage && series > 0:
		c.add(at+".number", fmt.Sprintf("there is no group %d, the bank has %d", t.Number, series), "a group of the bank", fmt.Sprint(series))
	}
}

// badFilter says what is wrong with a topic filter (MQTT 5.0, 4.7.1).
func badFilter(filter string) string {
	levels := strings.Split(filter, "/")
	for i, level := range levels {
		switch {
		case strings.Contains(level, "#") && (level != "#" || i < len(levels)-1):
			return "# does not stand alone at the end"
		case strings.Contains(level, "+") && level != "+":
			return "+ does not stand alone in its level"
		case strings.HasPrefix(filter, "$share/"):
			return "a shared subscription would see only some of the messages"
		}
	}
	return ""
}

// Words splits a command at spaces; double quotes hold words together and
// backslashes mean nothing special.
func Words(command string) ([]string, error) {
	var list []string
	var word strings.Builder
	open, quoted := false, false
	for _, r := range command {
		switch {
		case r == '"':
			open, quoted = !open, true
		case (r == ' ' || r == '\t' || r == '\n') && !open:
			if word.Len() > 0 || quoted {
				list = append(list, word.String())
			}
			word.Reset()
			quoted = false
		default:
			word.WriteRune(r)
		}
	}
	if open {
		return nil, errors.New("a double quote is not closed")
	}
	if word.Len() > 0 || quoted {
		list = append(list, word.String())
	}
	return list, nil
}
