// Package live takes readings from an MQTT broker, stores them, and tells of what
// goes beyond the limits of the rig. It watches and tells, and protects nothing.
//
// Reading order: plan.go and payload.go (a message becomes values, pure),
// limits.go, watch.go and alarm.go (values become alarms, pure), monitor.go (one
// loop that owns all state), client.go (the broker), batch.go (the logbook),
// outlet.go, command.go and webhook.go (who is told).
//
// What is assumed:
//   - A value holds from when its message arrived. Messages that a broker kept for
//     later are left out: nobody knows when their values were true.
//   - The limits are those of the rig's cell meter.
//   - A value that cannot be, such as a cell of 65 V, is not a value; a source that
//     sends nothing else falls silent, which is an alarm.
//
// May import: rig, fit, quantity, store (for its types) and the MQTT client.
package live

// Warning stands wherever live readings are shown.
const Warning = "Live readings watch and tell. They switch nothing and protect nothing: protection must be hardware that acts without this program."
