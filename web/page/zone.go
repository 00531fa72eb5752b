package page

import (
	_ "embed"
	"strings"
)

//go:embed zones.txt
var zoneList string

// ZoneOptions are the time zones a club may choose from, as a list shows them;
// current stands among them even when it is none of the usual ones.
func ZoneOptions(current string) []Option {
	options := []Option{}
	found := current == ""
	for line := range strings.Lines(zoneList) {
		name := strings.TrimSpace(line)
		if name == "" || strings.HasPrefix(name, "#") {
			continue
		}
		found = found || name == current
		options = append(options, Option{Value: name, Words: strings.ReplaceAll(name, "_", " ")})
	}
	if !found {
		options = append(options, Option{Value: current, Words: current})
	}
	return options
}
