package rig

import (
	"fmt"
	"strings"

	q "ampstead/quantity"
)

// Live is where live readings come from and who is told of an alarm.
type Live struct {
	Broker           string      `yaml:"broker" need:"yes" doc:"MQTT 5 broker on this machine or the local network" eg:"mqtt://127.0.0.1:1883"`
	User             string      `yaml:"user" doc:"name the broker knows it by, if it asks for one" eg:"ampstead"`
	PasswordFile     string      `yaml:"password_file" doc:"file that holds the broker's password; a relative name starts from the rig's folder" eg:"broker.password"`
	PasswordVariable string      `yaml:"password_variable" doc:"environment variable that holds the broker's password, instead of a file" eg:"BROKER_PASSWORD"`
	Topics           []LiveTopic `yaml:"topics" one:"topic" doc:"which message gives which value"`
	Silent           *q.Duration `yaml:"silent" min:"2" max:"86400" doc:"a source that says nothing for so long is an alarm; 5 min without it" eg:"5 min"`
	Delay            *q.Duration `yaml:"delay" min:"0" max:"3600" doc:"a value beyond a limit for so long is an alarm; 10 s without it" eg:"10 s"`
	Command          string      `yaml:"command" doc:"program run when an alarm comes or goes, with its arguments; no shell, double quotes hold words together" eg:"/usr/local/bin/ring --loud"`
	Webhook          string      `yaml:"webhook" doc:"address on the local network that is told when an alarm comes or goes" eg:"http://192.168.4.20:8080/alarm"`
}

// LiveTopic maps the messages of one topic to values.
type LiveTopic struct {
	Topic  string      `yaml:"topic" need:"yes" doc:"MQTT topic; + stands for any one level, # at the end for all that follow" eg:"bms/cell/+/voltage"`
	Gives  string      `yaml:"gives" need:"yes" oneof:"bank voltage|current|group voltage|temperature|charge counter|state of charge" doc:"what its messages tell" eg:"group voltage"`
	Number int         `yaml:"number" min:"1" max:"200" doc:"which group, 1 at the negative end, or which sensor; without it, it is read from the message or the topic" eg:"3"`
	First  *int        `yaml:"first" min:"0" max:"200" doc:"what the first one is called where the topic or the keys of the message are numbered; 1 without it" eg:"0"`
	Unit   string      `yaml:"unit" doc:"what a 1 in the message stands for; V, A, °C, Ah or % without it" eg:"mV"`
	Path   string      `yaml:"path" doc:"where the value is in a JSON message: keys with dots between them, * for each of several, or a JSON Pointer that starts with /; without it the message is a plain number or a list" eg:"cells.*.voltage"`
	Sign   string      `yaml:"sign" oneof:"charge|discharge" doc:"which direction of current counts up; charge without it" eg:"charge"`
	Silent *q.Duration `yaml:"silent" min:"2" max:"86400" doc:"silence that is an alarm, where this one speaks less often than the others" eg:"20 min"`
}

// What a topic gives.
const (
	GivesBankVoltage  = "bank voltage"
	GivesCurrent      = "current"
	GivesGroupVoltage = "group voltage"
	GivesTemperature  = "temperature"
	GivesCounter      = "charge counter"
	GivesSoC          = "state of charge"
)

// Numbered reports whether there are several of what it gives.
func (t *LiveTopic) Numbered() bool {
	return t.Gives == GivesGroupVoltage || t.Gives == GivesTemperature
}

// Dimension is that of the value, nil when gives is no known word.
func (t *LiveTopic) Dimension() *q.Dimension {
	switch t.Gives {
	case GivesBankVoltage, GivesGroupVoltage:
		return q.Volts
	case GivesCurrent:
		return q.Amperes
	case GivesTemperature:
		return q.Celsius
	case GivesCounter:
		return q.AmpereHours
	case GivesSoC:
		return q.Fraction
	}
	return nil
}

// Unit in which a number stands that comes without one.
func (t *LiveTopic) unit() string {
	switch {
	case t.Unit != "":
		return t.Unit
	case t.Gives == GivesSoC:
		return "%"
	}
	return t.Dimension().Base
}

// ToSI tells how a number in a message becomes V, A, °C, Ah or a fraction: times
// the first, plus the second. Errors: a unit of something else.
func (t *LiveTopic) ToSI() (times, plus float64, err error) {
	dim := t.Dimension()
	if dim == nil {
		return 0, 0, fmt.Errorf("%q is nothing that a topic gives", t.Gives)
	}
	one := t.unit()
	if !strings.ContainsAny(one[:1], "0123456789.") {
		one = "1 " + one
	}
	if times, err = dim.Parse(one); err != nil {
		return 0, 0, err
	}
	if dim == q.Celsius { // some of its scales start elsewhere
		if plus, err = dim.Parse("0 " + strings.TrimLeft(one, "0123456789. ")); err != nil {
			return 0, 0, err
		}
		times -= plus
	}
	if t.Sign == "discharge" {
		times = -times
	}
	return times, plus, nil
}
