package rehearsal

import (
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// Report says what became of the students of a plan.
type Report struct {
	Seed     uint64 `json:"seed"`
	Students int    `json:"students_a_fault"`
	Sets     int    `json:"sets"`
	Breaks   int    `json:"breaks_a_set"`
	Rules    string `json:"rules"` // the version of the rules that advised
	Model    Model  `json:"model"`
	// Without names the rules that were switched off.
	Without []advice.Name `json:"without,omitempty"`
	// Margin is the difference between two true rates that counting them can tell
	// from none.
	Margin float64 `json:"margin"`
	Rows   []Row   `json:"rows"`
}

// Row is the students of one fault, or a part of them.
type Row struct {
	Fault Fault `json:"fault"`
	// Part says which part, in words; empty for all.
	Part     string `json:"part,omitempty"`
	Students int    `json:"students"`

	// Start and Best are the mean true rates under the first setup and under the
	// one that somebody would give who knew the secret.
	// End is that under the setup that would come after the last set.
	Start Rates `json:"start"`
	Best  Rates `json:"best"`
	End   Rates `json:"end"`
	// Gain is how many more good breaks of ten the last setup gives than the first.
	Gain Mean `json:"gain"`

	// Right is the share whose first change was of the fault's own variable and
	// direction; RightOrInstead counts the change that is as good, too (place
	// for contact and contact for place).
	Right          Share `json:"right"`
	RightOrInstead Share `json:"right_or_instead"`
	// Firsts counts the students by the variable of their first change, "none"
	// for those who were never told to change, the commonest first.
	Firsts []First `json:"firsts"`
	// FirstAfter is the median number of sets before the first change, of those
	// who were told to change; 0 when nobody was.
	FirstAfter float64 `json:"first_after"`

	// Early is the share told to change within the first three sets.
	Early Share `json:"early"`

	// Close is the share whose last setup gives at least nine tenths of their
	// best true share of good breaks; CloseAfter is after how many sets half of
	// all students first had such a setup, 0 when fewer than half ever did.
	Close      Share `json:"close"`
	CloseAfter int   `json:"close_after"`

	// Good breaks of ten, on average over the sets, under each adviser.
	Good     Mean `json:"good"`
	Never    Mean `json:"good_never"`
	Inchwise Mean `json:"good_inchwise"`
	Told     Mean `json:"good_told"`

	// Worse is the share whose last setup has a true share of good breaks lower
	// than the first one's by more than the report's Margin.
	Worse         Share `json:"worse"`
	WorseInchwise Share `json:"worse_inchwise"`

	// LeftAlone is the share told at least once that their setup is good enough
	// to be left alone, when it gives less than three quarters of their best true
	// share of good breaks.
	LeftAlone Share `json:"left_alone"`
}

// First is how many students were first told to change a variable.
type First struct {
	Variable advice.Variable `json:"variable"`
	Students int             `json:"students"`
}

// Share is a count of students with its 95 % Wilson interval.
type Share struct {
	Count int     `json:"count"`
	Of    int     `json:"of"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// Mean is a mean over students with its 95 % normal interval.
type Mean struct {
	Mean float64 `json:"mean"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

func (p Plan) report(outcomes [][]outcome, margin float64) Report {
	r := Report{Seed: p.Seed, Students: p.Students, Sets: p.Sets, Breaks: drill.UsualBreaks, Rules: advice.RulesVersion,
		Model: p.Model, Without: p.Without, Margin: margin}
	for i, f := range p.Faults {
		r.Rows = append(r.Rows, row(f, "", outcomes[i], margin))
	}
	for i, f := range p.Faults {
		for _, part := range parts(outcomes[i]) {
			r.Rows = append(r.Rows, row(f, part, slices.DeleteFunc(slices.Clone(outcomes[i]), func(o outcome) bool {
				return !slices.Contains(o.student.partsOf(), part)
			}), margin))
		}
	}
	return r
}

// parts lists the parts of a fault's students that have rows of their own.
func parts(students []outcome) []string {
	var list []string
	for _, o := range students {
		list = append(list, o.student.partsOf()...)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// parts names what the student belongs to: the sort of the fault and, where it
// tells of the fault, what they took the trouble to note.
func (s Student) partsOf() []string {
	list := slices.Clone(s.parts)
	if s.Sort != "" {
		list = append(list, s.Sort)
	}
	switch s.Fault {
	case Place, Contact:
		list = append(list, either(s.NotesMisses, "misses noted", "misses not noted"))
	case Speed:
		list = append(list, either(s.CountsRails, "rails counted", "rails not counted"))
	}
	return list
}

func either(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}

func row(f Fault, part string, students []outcome, margin float64) Row {
	r := Row{Fault: f, Part: part, Students: len(students)}
	if len(students) == 0 {
		return r
	}
	share := func(is func(outcome) bool) Share { return shareOf(students, is) }
	ten := func(of func(outcome) lesson) Mean {
		return meanOf(students, func(o outcome) float64 { return drill.UsualBreaks * of(o).meanGood() })
	}
	r.Start, r.Best = meanRates(students, func(o outcome) Rates { return o.start }), meanRates(students, func(o outcome) Rates { return o.best })
	r.End = meanRates(students, func(o outcome) Rates { return o.advised.end() })
	r.Gain = meanOf(students, func(o outcome) float64 { return drill.UsualBreaks * o.advised.gain() })
	r.Right = share(func(o outcome) bool { return o.right(false) })
	r.RightOrInstead = share(func(o outcome) bool { return o.right(true) })
	r.Firsts, r.FirstAfter = firsts(students)
	r.Early = share(func(o outcome) bool { return o.advised.changedAfter >= 1 && o.advised.changedAfter <= 3 })
	r.Close = share(func(o outcome) bool { return o.advised.settledClose(o.best.Good) })
	r.CloseAfter = closeAfter(students)
	r.Good = ten(func(o outcome) lesson { return o.advised })
	r.Never = ten(func(o outcome) lesson { return o.left })
	r.Inchwise = ten(func(o outcome) lesson { return o.inched })
	r.Told = ten(func(o outcome) lesson { return o.known })
	r.Worse = share(func(o outcome) bool { return o.advised.gain() < -margin })
	r.WorseInchwise = share(func(o outcome) bool { return o.inched.gain() < -margin })
	r.LeftAlone = share(func(o outcome) bool { return o.advised.calledGood(o.best.Good) })
	return r
}

// right says whether the first change was right. For a faultless student that
// is none at all.
func (o outcome) right(instead bool) bool {
	if o.student.Fault == NoFault {
		return o.advised.changedAfter == 0
	}
	return o.advised.changedAfter > 0 && o.student.has(o.advised.change, instead)
}
