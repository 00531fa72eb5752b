package report

import (
	"time"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/progress"
)

// span is the time that a report counts sets in.
type span struct {
	key, label string
	// days are whole days up to today, 0 for all there were.
	days int
}

const fieldSpan = "time"

var spans = []span{
	{"month", "Four weeks", 28}, {"quarter", "Three months", 91}, {"all", "All so far", 0},
}

// spanOf is the span of that key, the first for any other.
func spanOf(key string) span {
	for _, s := range spans {
		if s.key == key {
			return s
		}
	}
	return spans[0]
}

func spanOptions() []page.Option {
	options := make([]page.Option, len(spans))
	for i, s := range spans {
		options[i] = page.Option{Value: s.key, Words: s.label}
	}
	return options
}

// first is the beginning of the first day, by the club's clock.
func (s span) first(now time.Time, zone *time.Location) time.Time {
	today := now.In(zone)
	return time.Date(today.Year(), today.Month(), today.Day()-s.days+1, 0, 0, 0, 0, zone)
}

func (s span) upTo(now time.Time, zone *time.Location) store.TimeSpan {
	if s.days == 0 {
		return store.TimeSpan{Until: now}
	}
	return store.TimeSpan{Since: s.first(now, zone), Until: now}
}

func (s span) words(now time.Time, zone *time.Location) string {
	if s.days == 0 {
		return "From the first set to " + day(now, zone)
	}
	return progress.SpanWords(s.first(now, zone), now, zone)
}
