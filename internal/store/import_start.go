package store

import (
	"time"

	"breakwright/internal/drill"
)

// startTimes gives each set the time of its first break that has one. A break log
// has no time for a set typed from paper on which none was written, but such a set
// is named by its day: so named, it begins then. Others without times get a place
// right after the set before them. The order stays that of the sets.
func startTimes(sets []drill.Set, zone *time.Location, now time.Time) []time.Time {
	last := now.Add(-time.Duration(len(sets)) * time.Second)
	for _, set := range sets {
		if at := estimateStart(set, zone, now); !at.IsZero() {
			last = at.Add(-time.Duration(len(sets)) * time.Second) // earlier than all with a time
			break
		}
	}
	starts := make([]time.Time, len(sets))
	for n, set := range sets {
		if at := estimateStart(set, zone, now); at.After(last) {
			last = at
		} else {
			last = last.Add(time.Microsecond)
		}
		starts[n] = last.UTC().Truncate(time.Microsecond)
	}
	return starts
}

// estimateStart is when a set was begun, as far as its breaks or its name say; zero when
// neither does.
func estimateStart(set drill.Set, zone *time.Location, now time.Time) time.Time {
	if at := set.FirstBreakTime(); !at.IsZero() {
		return at
	}
	if len(set.Name) < len(nameLayout) || len(set.Name) > len(nameLayout) && set.Name[len(nameLayout)] != ' ' {
		return time.Time{}
	}
	at, err := time.ParseInLocation(nameLayout, set.Name[:len(nameLayout)], zone)
	if err != nil || at.After(now) {
		return time.Time{}
	}
	return at
}
