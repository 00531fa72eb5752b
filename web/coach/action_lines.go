package coach

import (
	"cmp"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/progress"
	"breakwright/web/route"
	"breakwright/web/session"
)

// actionGroup is what was done of one kind.
type actionGroup struct {
	Heading string
	Lines   []actionLine
}

// actionLine is one thing that was done, with the way back.
type actionLine struct {
	Who, Path, When, Says string
	Undo                  page.UndoForm
}

// listActions lists what was done on the desk and in classes.
func listActions(done store.Actions, user session.User) []actionGroup {
	var groups []actionGroup
	for _, group := range []actionGroup{
		{"Noted on the desk", notedLines(done.Noted, user.Zone)},
		{"Messages not read yet", answerLines(done.Answers, user.Zone)},
		{"Break cards issued", cardLines(done.Cards, user.Zone)},
		{"Drills assigned and ended", drillLines(done.Assignments, user.Zone)},
		{"Students and classes", append(rosterLines(done.Roster, user.Zone), classLines(done, user.Zone)...)},
	} {
		if len(group.Lines) > 0 {
			groups = append(groups, group)
		}
	}
	return groups
}

// notedLines are the lines of the desk that were noted, one for all of its students.
func notedLines(noted []store.NotedLine, zone *time.Location) (lines []actionLine) {
	for i := 0; i < len(noted); {
		first := noted[i]
		undo := restoreForm(first.DismissedLine, "")
		var people []store.NamedStudent
		for ; i < len(noted) && noted[i].Reason == first.Reason && noted[i].About == first.About; i++ {
			people = append(people, store.NamedStudent{ID: noted[i].Student, Name: noted[i].StudentName})
			undo.Fields = append(undo.Fields, page.HiddenField{Name: "student", Value: noted[i].Student.String()})
		}
		who, path := namePeople(people)
		undo.Words, undo.About = "Show it again", deskHeadings[first.Reason]+", "+who
		lines = append(lines, actionLine{
			Who: who, Path: path, When: formatTime(first.At, zone) + ", " + first.CoachName,
			Says: "“" + deskHeadings[first.Reason] + "” was noted and is off the desk.", Undo: *undo,
		})
	}
	return lines
}

func answerLines(answers []store.UnreadAnswer, zone *time.Location) (lines []actionLine) {
	for _, m := range answers {
		line := actionLine{Who: m.StudentName, When: formatTime(m.At, zone), Says: "“" + m.Body + "”"}
		if store.IsZero(m.Set) {
			line.Path, line.Undo = route.StudentPath(m.Student), besideNoSetUndo(m)
		} else {
			line.Path, line.Undo = route.SetPath(m.Set), *messageUndo(m.Set, m.ID, m.StudentName)
		}
		line.Path += "#talk"
		lines = append(lines, line)
	}
	return lines
}

// besideNoSetUndo takes a message back that was written on the student's page.
func besideNoSetUndo(m store.UnreadAnswer) page.UndoForm {
	return page.UndoForm{
		Path: route.StudentPath(m.Student) + "/message", About: "the message to " + m.StudentName,
		Fields: []page.HiddenField{{Name: "undo", Value: m.ID.String()}},
	}
}

func cardLines(cards []store.IssuedCard, zone *time.Location) (lines []actionLine) {
	for _, c := range cards {
		lines = append(lines, actionLine{
			Who: c.StudentName, Path: route.StudentPath(c.Student) + "#cards", When: formatTime(c.At, zone) + ", " + c.CoachName,
			Says: "The break card for " + c.TableLabel + " was issued.", Undo: progress.WithdrawForm(c.ID, c.Set, c.Student, c.StudentName),
		})
	}
	return lines
}

func drillLines(assignments []store.DatedAssignment, zone *time.Location) (lines []actionLine) {
	for _, a := range assignments {
		path := route.AssignmentPath(a.ID)
		line := actionLine{Who: a.DrillName, Path: path, When: formatTime(a.Created, zone)}
		whom := cmp.Or(a.ClassName, say.Count(a.For, "student", "students"))
		if a.Ended.IsZero() {
			line.Says = "Assigned to " + whom + "."
			line.Undo = page.UndoForm{Path: path + "/end", Words: "End", About: a.DrillName}
		} else {
			line.When, line.Says = formatTime(a.Ended, zone), "Ended for "+whom+". It is off the students’ pages."
			line.Undo = page.UndoForm{Path: path + "/resume", Words: "Assign again", About: a.DrillName}
		}
		lines = append(lines, line)
	}
	return lines
}

func rosterLines(changes []store.DatedRosterChange, zone *time.Location) (lines []actionLine) {
	for _, c := range changes {
		who, path := namePeople(c.People)
		line := actionLine{
			Who: who, Path: path, When: formatTime(c.Made, zone) + ", " + c.CoachName, Says: component.RosterChangeWords(c.RosterChange),
			Undo: page.UndoForm{Path: "/students/changes/" + c.ID.String() + "/undo", About: who},
		}
		if len(c.People) == 1 {
			line.Undo.Fields = []page.HiddenField{{Name: "student", Value: c.People[0].ID.String()}}
		}
		lines = append(lines, line)
	}
	return lines
}

// classLines are students who were added, and classes that were archived.
func classLines(done store.Actions, zone *time.Location) (lines []actionLine) {
	for _, c := range done.Classes {
		lines = append(lines, actionLine{
			Who: c.Name, Path: route.ClassPath(c.ID), When: formatTime(c.At, zone), Says: "The class was archived.",
			Undo: page.UndoForm{Path: route.ClassPath(c.ID) + "/restore", Words: "Restore", About: c.Name},
		})
	}
	for _, added := range done.Added {
		who, path := namePeople(added.People)
		line := actionLine{
			Who: who, Path: path, When: formatTime(added.At, zone),
			Says: say.Capitalize(say.Count(len(added.People), "student", "students")) + " added.",
			Undo: page.UndoForm{Path: "/students/change", Words: "Archive", About: who, Fields: []page.HiddenField{{Name: "do", Value: "archive"}}},
		}
		for _, p := range added.People {
			line.Undo.Fields = append(line.Undo.Fields, page.HiddenField{Name: "students", Value: p.ID.String()})
		}
		lines = append(lines, line)
	}
	return lines
}

// mostNamed is how many students a line names.
const mostNamed = 3

// namePeople names students, and the page of one or the list of all.
func namePeople(people []store.NamedStudent) (names, path string) {
	var named []string
	for _, p := range people[:min(len(people), mostNamed)] {
		named = append(named, p.Name)
	}
	switch more := len(people) - len(named); {
	case len(people) == 1:
		return named[0], route.StudentPath(people[0].ID)
	case more > 0:
		named = append(named, say.Count(more, "other", "others"))
	}
	return say.Join(named), "/students"
}
