package calendar

import (
	_ "embed"
	"strings"
)

//go:embed zones.txt
var zoneNames string

// Zones returns the names of the time zones that a club may choose from, UTC
// first and the others by name: those of the tz database that differ since 1970.
func Zones() []string {
	var names []string
	for name := range strings.Lines(zoneNames) {
		if !strings.HasPrefix(name, "#") {
			names = append(names, strings.TrimSpace(name))
		}
	}
	return names
}
