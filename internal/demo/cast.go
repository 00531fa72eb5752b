package demo

import (
	"breakwright/internal/rehearsal"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// part is one student and what is to have become of them.
type part struct {
	name  string
	side  table.Side
	table string
	fault rehearsal.Fault
	// coach is how the coach answers the first proposal; later ones are
	// approved as they stand.
	coach manner
	// end is what became of the first proposal when the lesson ends; "" asks
	// for a lesson that ends with a setup called good, and no proposal.
	end store.State
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
		{name: "Ilse Varnholm", side: table.Left, table: north1, fault: rehearsal.Place,
			coach: approves, end: store.Helped, least: 4, most: 6, ago: 2, quiet: true, pin: "5283",
			asks: "It feels odd to stand so much closer. Should I stay there?", answer: "Stay. Look at the counts, not at the feeling: give it ten more."},
		{name: "Rafael Ostrada", side: table.Right, table: north1, fault: rehearsal.Place,
			coach: approves, end: store.Approved, least: 2, most: 4, ago: 3, half: true, pin: "7394"},
		{name: "Amina Belkarri", side: table.Left, table: north2, fault: rehearsal.Place,
			coach: leaves, end: store.Proposed, least: 2, most: 5, ago: 1, quiet: true},
		{name: "Tomasz Kieldra", side: table.Left, table: north1, fault: rehearsal.Tip,
			coach: leaves, end: store.Proposed, least: 2, most: 5, ago: 1, quiet: true,
			asks: "The cue ball keeps running away from me. Is it my stance?"},
		{name: "Yuki Moritane", side: table.Right, table: north1, fault: rehearsal.Contact,
			coach: leaves, end: store.Proposed, least: 2, most: 5, ago: 2, quiet: true},
		{name: "Freya Sundquell", side: table.Left, table: south, fault: rehearsal.Speed,
			coach: approves, end: store.Approved, least: 2, most: 5, ago: 4, quiet: true},
		{name: "Mateo Larrinza", side: table.Left, table: north1, fault: rehearsal.Place,
			coach: halves, end: store.Changed, least: 2, most: 5, ago: 3},
		{name: "Siobhán Devarrow", side: table.Right, table: north2, fault: rehearsal.Place,
			coach: declines, end: store.Declined, least: 2, most: 5, ago: 5, quiet: true},
		{name: "Farid Golvand", side: table.Left, table: north1, fault: rehearsal.Place,
			coach: halves, end: store.NoDifference, least: 3, most: 6, ago: 2, quiet: true},
		{name: "Nkechi Obiwara", side: table.Left, table: north1, fault: rehearsal.Place,
			coach: reverses, end: store.Hurt, least: 3, most: 6, ago: 3},
		{name: "Lan Trinhvo", side: table.Right, table: north1, fault: rehearsal.NoFault,
			least: 3, most: 6, ago: 6, quiet: true},
		{name: "Zuzana Hradelka", side: table.Left, table: north1, fault: rehearsal.NoFault},
	}
}

// demoStudents are the places in the cast of those whose logins are shown.
var demoStudents = []int{0, 1}
