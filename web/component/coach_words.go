package component

import "strings"

// The adviser speaks to the student: "your own breaks send that slot's ball to the
// head end". A coach reads the same of somebody else. What to do stays as it is
// said, since that is what the student will be told.

// coachWording turns what the adviser says to the student; a test looks for
// sentences that are missing here.
var coachWording = strings.NewReplacer(
	"Your coach chose the next setup.", "A coach chose the next setup.",
	"so your coach should look.", "so it is for you to look.",
	"your coach should look.", "it is for you to look.",
	"speak with your coach.", "speak with the student.",
	"Your break on this table:", "The student’s break on this table:",
	"your own speed", "the student’s own speed",
	"your own breaks", "the student’s own breaks",
	"more of your good breaks", "more of the good breaks",
	"a break you control", "a break under control",
	"what you had before", "what there was before",
)

// RewordForCoach gives a sentence of the adviser as a coach reads it, about the student.
func RewordForCoach(says string) string {
	return coachWording.Replace(says)
}
