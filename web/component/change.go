package component

import (
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// ChangeView is one record of a change as a reader meets it.
type ChangeView struct {
	coaching.Change
	// Wording is what the adviser says of it; nothing for the coach's own.
	Wording say.Proposal
	// Reader is who reads it.
	Reader say.Reader
}

// NewChangeView makes the view of a change, with what the adviser says of it, for
// a reader.
func NewChangeView(c coaching.Change, proposal say.Proposal, to say.Reader) ChangeView {
	to.Side = c.Before.Side
	return ChangeView{Change: c, Wording: proposal, Reader: to}
}

// forCoach reports whether it is read about the student, not by them.
func (v ChangeView) forCoach() bool { return v.Reader.Who != say.Student }

// CautionWords is the line of safety; "" for none.
func (v ChangeView) CautionWords() string { return v.Wording.Caution.Text(v.Reader) }

func (v ChangeView) instead() string {
	return InsteadWords(v.Before, v.After(), v.Kind, v.Reader.Units)
}

// isDanger reports whether somebody may be hurt until it is decided.
func (v ChangeView) isDanger() bool { return v.Rule == "balls-off-table" }

// ToDo reports whether the setup after the change is what the student is to
// break, or broke: an undecided or declined proposal never is.
func (v ChangeView) ToDo() bool { return v.Decision != "" && v.Decision != coaching.Declined }

// IsToBePlayed reports whether it was decided and no set has begun under it.
func (v ChangeView) IsToBePlayed() bool {
	return v.State == coaching.Approved || v.State == coaching.Changed || v.State == coaching.Own
}

// AskCoachFirst asks a student not to break, without a full stop.
const AskCoachFirst = "Speak with your coach before you break again"

// ForbidsBreaks reports whether a student is not to break until it is decided.
func (v ChangeView) ForbidsBreaks() bool { return v.State == coaching.Proposed && v.isDanger() }

// HeadingWords says in a line what the change asks of the reader in its state.
func (v ChangeView) HeadingWords() string {
	switch v.State {
	case coaching.Proposed:
		switch {
		case v.forCoach():
			return "Proposed: " + v.instead()
		case v.isDanger():
			return AskCoachFirst
		}
		return "The same setup for now"
	case coaching.Approved:
		if v.forCoach() {
			return "Approved: " + v.instead()
		}
		return "Change one thing: " + v.instead()
	case coaching.Changed, coaching.Own:
		if v.forCoach() {
			return "The coach’s change: " + v.instead()
		}
		return "Your coach’s change: " + v.instead()
	case coaching.Superseded:
		switch {
		case v.ToDo():
			return say.Capitalize(v.instead()) + ": " + SupersededWords(v.Because)
		case v.Because == coaching.CoachWaits:
			return v.comesFirstWords()
		}
	case coaching.InTrial:
		return "Being tried: " + v.instead()
	case coaching.Helped, coaching.NoDifference, coaching.Hurt:
		return v.verdict()
	}
	return "The same setup again"
}

// comesFirstWords head what is said beside a decision that was made before.
func (v ChangeView) comesFirstWords() string {
	return say.Capitalize(v.coach()) + "’s decision comes first"
}

// decidedWords say what that decision asks for.
func (v ChangeView) decidedWords() string { return say.Capitalize(v.instead()) + "." }

// verdict is what came of it, first.
func (v ChangeView) verdict() string {
	return say.Capitalize(OutcomeWords(v.State)) + ": " + v.instead()
}

// Lines explain the heading, a sentence or two each.
func (v ChangeView) Lines() []string {
	var lines []string
	add := func(words string) {
		if words != "" {
			lines = append(lines, words)
		}
	}
	switch v.State {
	case coaching.Proposed:
		if v.forCoach() {
			add(v.Wording.Reason.Text(v.Reader))
			add(v.Wording.Expect.Text(v.Reader))
			return lines
		}
		add(v.waitingWords())
		return lines
	case coaching.Declined:
		add(ProposalWords(v.Change, v.coach(), v.Reader.Units))
		return lines
	case coaching.Superseded:
		if !v.ToDo() {
			add("Proposed then: " + v.proposedWords() + ". " + say.Capitalize(SupersededWords(v.Because)) + ".")
			return lines
		}
	}
	if v.Decision == coaching.Approved {
		add(v.reasonWords())
	} else {
		add(ProposalWords(v.Change, v.coach(), v.Reader.Units))
	}
	if v.State == coaching.Approved {
		add(v.Wording.Expect.Text(v.Reader))
	}
	add(CountsWords(v.Counts))
	return lines
}

// reasonWords are the adviser's, which begin with what to do: once the change has come
// to an end they are a quotation, and ask for nothing any more.
func (v ChangeView) reasonWords() string {
	reason := v.Wording.Reason.Text(v.Reader)
	if reason == "" || v.State.IsOpen() {
		return reason
	}
	return "Said then: “" + reason + "”"
}

func (v ChangeView) proposedWords() string {
	return WithBecause(InsteadWords(v.Before, v.Proposed, v.Kind, v.Reader.Units), v.Change)
}

// waitingWords tells a student of a proposal that nobody has decided.
func (v ChangeView) waitingWords() string {
	until := " Until your coach has decided, the drill stays as it is."
	if v.isDanger() {
		until = " Your coach has not decided yet: until then no power breaks."
	}
	return "Proposed to your coach: " + v.proposedWords() + "." + until
}

func (v ChangeView) coach() string {
	if v.forCoach() {
		return "the coach"
	}
	return "your coach"
}

// NoteWords is the coach's note as it is read; "" for none.
func (v ChangeView) NoteWords() string {
	switch {
	case v.Note == "" || v.Decision == "":
		return ""
	case v.forCoach():
		return "The coach’s note: “" + v.Note + "”"
	}
	return "Your coach: “" + v.Note + "”"
}

// StudentWords tells the student where the change stands, before they break: on
// the first page and at the head of the drill.
func (v ChangeView) StudentWords() string {
	switch v.State {
	case coaching.Proposed:
		return v.waitingWords()
	case coaching.Approved:
		return WithBecause(say.Capitalize(v.instead()), v.Change) + "."
	case coaching.Changed:
		return say.Capitalize(v.instead()) + ", as your coach set it. The rules had proposed " + ArrowWords(v.Before, v.Proposed, v.Kind, v.Reader.Units) + "."
	case coaching.Own:
		return say.Capitalize(v.instead()) + ", as your coach set it."
	case coaching.Declined:
		return "The setup stays as it was: your coach looked at " + InsteadWords(v.Before, v.Proposed, v.Kind, v.Reader.Units) + " and left it."
	case coaching.InTrial:
		return joinSentences("You are trying "+v.instead()+".", CountsWords(v.Counts))
	case coaching.Helped, coaching.NoDifference, coaching.Hurt:
		return joinSentences("Last change: "+v.instead()+": "+OutcomeWords(v.State)+".", CountsWords(v.Counts))
	case coaching.Superseded:
		if v.ToDo() {
			return say.Capitalize(v.instead()) + ": " + SupersededWords(v.Because) + "."
		}
	}
	return ""
}

// IsNews reports whether the student has not met the decision yet: it was made
// after they last began a set.
func (v ChangeView) IsNews(lastStart time.Time) bool {
	switch v.State {
	case coaching.Approved, coaching.Changed, coaching.Own, coaching.Declined:
		return v.DecidedAt.After(lastStart)
	}
	return false
}

func joinSentences(first, second string) string {
	if second == "" {
		return first
	}
	return first + " " + second
}

// TryingWords says in a line what is being tried, at the table; "" when nothing is.
func (v ChangeView) TryingWords() string {
	switch v.State {
	case coaching.Approved, coaching.Changed, coaching.Own, coaching.InTrial:
		return "Trying " + v.instead() + "."
	}
	return ""
}

// NextHereWords tells the student of a change that was left and is next again.
func (v ChangeView) NextHereWords() string {
	if v.State != coaching.Superseded || !v.ToDo() {
		return v.StudentWords()
	}
	return say.Capitalize(v.instead()) + ": it was " + SupersededWords(v.Because) + ", and is next here again."
}

// SetupBefore is the setup to draw as a ghost behind the one that is to be
// broken; nil when the change leads to no other.
func (v ChangeView) SetupBefore() *drill.Setup {
	if !v.ToDo() {
		return nil
	}
	return &v.Before
}
