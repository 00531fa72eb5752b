package demo

import (
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// castPart is one student and what is to have become of them.
type castPart struct {
	name  string
	side  table.Side
	table string
	fault handsFault
	// later is a fault that comes on top after so many sets as turns says.
	later           handsFault
	faultTurnsAfter int
	// coach is how the coach answers proposals until one is decided; later ones
	// are approved as they stand.
	coachAnswers coachAnswer
	storyCheck   storyFunc
	// least and most are how many sets the student breaks; none for a newcomer.
	leastSets, mostSets int
	// ago is how many days ago the latest set was.
	lastDaysAgo int
	// half leaves another set open today, half recorded.
	leavesHalfSet bool
	// quiet says that the second drill was done too.
	playsQuietDrill bool
	// asks and answer are said about the latest set; pin is for a login that
	// is shown.
	question, answer, pin string
}

// listParts is the class, in the order in which it was entered.
func listParts() []castPart {
	return []castPart{
		{name: "Ilse Varnholm", side: table.Left, table: north1, fault: hitsFarSide,
			coachAnswers: approveChange, storyCheck: firstChangeIs(store.Helped), leastSets: 4, mostSets: 6, lastDaysAgo: 2, playsQuietDrill: true, pin: "5283",
			question: "It feels odd to break like this. Should I stay with it?", answer: "Stay. Look at the counts, not at the feeling: give it ten more."},
		{name: "Rafael Ostrada", side: table.Right, table: north1, fault: hitsFarSide,
			coachAnswers: approveChange, storyCheck: firstChangeIs(store.Approved), leastSets: 2, mostSets: 4, lastDaysAgo: 3, leavesHalfSet: true, pin: "7394"},
		{name: "Amina Belkarri", side: table.Left, table: north2, fault: hitsFarSide,
			coachAnswers: leaveOpen, storyCheck: waitsForCoach, leastSets: 2, mostSets: 5, lastDaysAgo: 1, playsQuietDrill: true},
		{name: "Tomasz Kieldra", side: table.Left, table: north1, fault: strikesHigh,
			coachAnswers: leaveOpen, storyCheck: waitsForCoach, leastSets: 2, mostSets: 5, lastDaysAgo: 1, playsQuietDrill: true,
			question: "The cue ball keeps running away from me. Is it my stance?"},
		{name: "Yuki Moritane", side: table.Right, table: north1, fault: hitsBreakSide,
			coachAnswers: leaveOpen, storyCheck: waitsForCoach, leastSets: 2, mostSets: 5, lastDaysAgo: 2, playsQuietDrill: true},
		{name: "Freya Sundquell", side: table.Left, table: south, fault: noFault, later: forcesStroke, faultTurnsAfter: 2,
			coachAnswers: approveChange, storyCheck: ballsFly, leastSets: 3, mostSets: 5, lastDaysAgo: 4, playsQuietDrill: true},
		{name: "Mateo Larrinza", side: table.Left, table: north1, fault: hitsFarSide,
			coachAnswers: halveChange, storyCheck: firstChangeIs(store.Changed), leastSets: 1, mostSets: 5, lastDaysAgo: 3, playsQuietDrill: true},
		{name: "Siobhán Devarrow", side: table.Right, table: north2, fault: noFault, later: hitsFarSide, faultTurnsAfter: 10,
			coachAnswers: declineChange, storyCheck: declinedInSlump, leastSets: 13, mostSets: 17, lastDaysAgo: 5, playsQuietDrill: true},
		{name: "Farid Golvand", side: table.Left, table: north1, fault: hitsBreakSide, later: racksLoosely, faultTurnsAfter: 1,
			coachAnswers: approveChange, storyCheck: lastTwoDidNotHelp, leastSets: 5, mostSets: 14, lastDaysAgo: 2, playsQuietDrill: true},
		{name: "Nkechi Obiwara", side: table.Left, table: north1, fault: hitsFarSide,
			coachAnswers: reverseChange, storyCheck: firstChangeIs(store.Hurt), leastSets: 3, mostSets: 6, lastDaysAgo: 3, playsQuietDrill: true},
		{name: "Lan Trinhvo", side: table.Right, table: north1, fault: noFault,
			coachAnswers: approveChange, storyCheck: hasBreakCard, leastSets: 3, mostSets: 8, lastDaysAgo: 6, playsQuietDrill: true},
		{name: "Zuzana Hradelka", side: table.Left, table: north1, fault: noFault, storyCheck: hasNoStory},
	}
}

// demoStudents are the places in the cast of those whose logins are shown.
var demoStudents = []int{0, 1}
