package progress

import (
	"time"

	"breakwright/internal/progress"
	"breakwright/internal/store"
	"breakwright/web/session"
)

// Printed reports say what these pages say, by the same model and in the same
// words. What they need of it is handed out here; a story is [BuildStory]'s.

// ClassRows returns the rows of a class in the order of its students, and the
// kinds of table in them, the one most broke on first.
func ClassRows(all []store.Standing, user session.User) ([]ClassRow, []string, error) {
	return buildClassRows(all, user)
}

// ClassHeadline says how the class stands as one.
func ClassHeadline(rows []ClassRow) string { return headlineOfClass(rows) }

// Stint is the present one; nil before the first closed set.
func (r ClassRow) Stint() *store.Stint { return r.stint }

// Standing is the row's place among those it can be compared with.
func (r ClassRow) Standing() progress.RankedMember { return r.standing }

// SpanWords says from which day to which.
func SpanWords(first, last time.Time, zone *time.Location) string {
	return formatSpan(first, last, zone)
}

// reportPath is the story's report to print, for whoever reads.
func (v Story) reportPath() string {
	if v.You {
		return "/my/report"
	}
	return v.Path + "/report"
}
