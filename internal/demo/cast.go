package demo

import (
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// part is one student and what is to have become of them.
type part struct {
	name  string
	side  table.Side
	table string
	fault fault
	// later is a fault that comes on top after so many sets as turns says.
	later fault
	turns int
	// coach is how the coach answers proposals until one is decided; later ones
	// are approved as they stand.
	coach manner
	story story
	// least and most are how many sets the lesson has; none for a newcomer.
	least, most int
	// ago is how many days ago the latest set was.
	ago int
	// half leaves another set open today, half recorded.
	half bool
	// quiet says that the second drill was done too.
	quiet bool
	// asks and answer are said about the latest set; pin is for a login that
	// is shown.
	asks, answer, pin string
}

// cast is the class, in the order in which it was entered.
func cast() []part {
	return []part{
		{name: "Ilse Varnholm", side: table.Left, table: north1, fault: hitsFarSide,
			coach: approves, story: firstIs(store.Helped), least: 4, most: 6, ago: 2, quiet: true, pin: "5283",
			asks: "It feels odd to break like this. Should I stay with it?", answer: "Stay. Look at the counts, not at the feeling: give it ten more."},
		{name: "Rafael Ostrada", side: table.Right, table: north1, fault: hitsFarSide,
			coach: approves, story: firstIs(store.Approved), least: 2, most: 4, ago: 3, half: true, pin: "7394"},
		{name: "Amina Belkarri", side: table.Left, table: north2, fault: hitsFarSide,
			coach: leaves, story: waits, least: 2, most: 5, ago: 1, quiet: true},
		{name: "Tomasz Kieldra", side: table.Left, table: north1, fault: strikesHigh,
			coach: leaves, story: waits, least: 2, most: 5, ago: 1, quiet: true,
			asks: "The cue ball keeps running away from me. Is it my stance?"},
		{name: "Yuki Moritane", side: table.Right, table: north1, fault: hitsBreakSide,
			coach: leaves, story: waits, least: 2, most: 5, ago: 2, quiet: true},
		{name: "Freya Sundquell", side: table.Left, table: south, fault: noFault, later: forces, turns: 2,
			coach: approves, story: ballsFly, least: 3, most: 5, ago: 4, quiet: true},
		{name: "Mateo Larrinza", side: table.Left, table: north1, fault: hitsFarSide,
			coach: halves, story: firstIs(store.Changed), least: 2, most: 5, ago: 3, quiet: true},
		{name: "Siobhán Devarrow", side: table.Right, table: north2, fault: noFault, later: racksLoosely, turns: 10,
			coach: declines, story: declinedInSlump, least: 13, most: 17, ago: 5, quiet: true},
		{name: "Farid Golvand", side: table.Left, table: north1, fault: holdsBack,
			coach: approves, story: stuck, least: 5, most: 12, ago: 2, quiet: true},
		{name: "Nkechi Obiwara", side: table.Left, table: north1, fault: hitsFarSide,
			coach: reverses, story: firstIs(store.Hurt), least: 3, most: 6, ago: 3, quiet: true},
		{name: "Lan Trinhvo", side: table.Right, table: north1, fault: noFault,
			coach: approves, story: bestFound, least: 3, most: 8, ago: 6, quiet: true},
		{name: "Zuzana Hradelka", side: table.Left, table: north1, fault: noFault, story: newcomer},
	}
}

// demoStudents are the places in the cast of those whose logins are shown.
var demoStudents = []int{0, 1}
