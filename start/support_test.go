package start

import "maps"

// heron is a full set of answers.
func heron() Answers {
	return Answers{"name": "Heron", "units": "metric", "winter": "LEAM", "summer": "far-north", "coldest": "cold",
		"battery": "module-flat", "groups": "44 V", "capacity": "94 Ah", "modules": "2", "charge": "solar, alternator, mains",
		"panels": "4 x 330 W", "chargers": "lead-acid", "inverter": "3000 W", "loads": "lights, fridge, pump, kettle, workshop, sewing machine 90 W 2 h",
		"guards": "meter, relay, frost", "fuse": "150 A"}
}

// with changes some answers; an empty one is taken out.
func with(a Answers, changes Answers) Answers {
	out := maps.Clone(a)
	for key, answer := range changes {
		out[key] = answer
		if answer == "" {
			delete(out, key)
		}
	}
	return out
}

// unknown answers every question with "I do not know".
func unknown() Answers {
	a := Answers{}
	for _, key := range Keys() {
		a[key] = Unknown
	}
	return a
}
