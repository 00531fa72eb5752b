package report

import (
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/progress"
)

// timeSpan is the time that a report counts sets in.
type timeSpan struct {
	key, label string
	// days are whole days up to today, 0 for all there were.
	days int
}

const fieldSpan = "time"

var timeSpans = []timeSpan{
	{"month", "Four weeks", 28}, {"quarter", "Three months", 91}, {"all", "All so far", 0},
}

// findTimeSpan is the span of that key, the first for any other.
func findTimeSpan(key string) timeSpan {
	for _, s := range timeSpans {
		if s.key == key {
			return s
		}
	}
	return timeSpans[0]
}

func timeSpanOptions() []page.Option {
	options := make([]page.Option, len(timeSpans))
	for i, s := range timeSpans {
		options[i] = page.Option{Value: s.key, Words: s.label}
	}
	return options
}

// firstDay is the beginning of the first day, by the club's clock.
func (s timeSpan) firstDay(now time.Time, zone *time.Location) time.Time {
	today := now.In(zone)
	return time.Date(today.Year(), today.Month(), today.Day()-s.days+1, 0, 0, 0, 0, zone)
}

func (s timeSpan) storeSpan(now time.Time, zone *time.Location) store.TimeSpan {
	if s.days == 0 {
		return store.TimeSpan{Until: now}
	}
	return store.TimeSpan{Since: s.firstDay(now, zone), Until: now}
}

func (s timeSpan) spanWords(now time.Time, zone *time.Location) string {
	if s.days == 0 {
		return "From the first set to " + say.Day(now.In(zone))
	}
	return progress.SpanWords(s.firstDay(now, zone), now, zone)
}
