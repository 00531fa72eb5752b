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
	Without []advice.RuleName `json:"without,omitempty"`
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
	Firsts []FirstChange `json:"firsts"`
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
	Informed Mean `json:"good_told"`

	// Worse is the share whose last setup has a true share of good breaks lower
	// than the first one's by more than the report's Margin.
	Worse         Share `json:"worse"`
	WorseInchwise Share `json:"worse_inchwise"`

	// LeftAlone is the share told at least once that their setup is good enough
	// to be left alone, when it gives less than three quarters of their best true
	// share of good breaks.
	LeftAlone Share `json:"left_alone"`
}

// FirstChange is how many students were first told to change a variable.
type FirstChange struct {
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

func (p Options) buildReport(outcomes [][]studentOutcome, margin float64) Report {
	r := Report{Seed: p.Seed, Students: p.Students, Sets: p.Sets, Breaks: drill.UsualBreaks, Rules: advice.RulesVersion,
		Model: p.Model, Without: p.Without, Margin: margin}
	for i, f := range p.Faults {
		r.Rows = append(r.Rows, buildRow(f, "", outcomes[i], margin))
	}
	for i, f := range p.Faults {
		for _, part := range listParts(outcomes[i]) {
			r.Rows = append(r.Rows, buildRow(f, part, slices.DeleteFunc(slices.Clone(outcomes[i]), func(o studentOutcome) bool {
				return !slices.Contains(o.student.listReportParts(), part)
			}), margin))
		}
	}
	return r
}

// listParts lists the parts of a fault's students that have rows of their own.
func listParts(students []studentOutcome) []string {
	var list []string
	for _, o := range students {
		list = append(list, o.student.listReportParts()...)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// parts names what the student belongs to: the sort of the fault and, where it
// tells of the fault, what they took the trouble to note.
func (s Student) listReportParts() []string {
	list := slices.Clone(s.reportParts)
	if s.Variant != "" {
		list = append(list, s.Variant)
	}
	switch s.Fault {
	case Place, Contact:
		list = append(list, chooseText(s.NotesMisses, "misses noted", "misses not noted"))
	case Speed:
		list = append(list, chooseText(s.CountsRails, "rails counted", "rails not counted"))
	}
	return list
}

func chooseText(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}

func buildRow(f Fault, part string, students []studentOutcome, margin float64) Row {
	r := Row{Fault: f, Part: part, Students: len(students)}
	if len(students) == 0 {
		return r
	}
	share := func(is func(studentOutcome) bool) Share { return shareOf(students, is) }
	ten := func(of func(studentOutcome) trainingRun) Mean {
		return meanOf(students, func(o studentOutcome) float64 { return drill.UsualBreaks * of(o).meanGoodRate() })
	}
	r.Start, r.Best = meanRates(students, func(o studentOutcome) Rates { return o.start }), meanRates(students, func(o studentOutcome) Rates { return o.best })
	r.End = meanRates(students, func(o studentOutcome) Rates { return o.advised.finalRates() })
	r.Gain = meanOf(students, func(o studentOutcome) float64 { return drill.UsualBreaks * o.advised.goodRateGain() })
	r.Right = share(func(o studentOutcome) bool { return o.isFirstChangeRight(false) })
	r.RightOrInstead = share(func(o studentOutcome) bool { return o.isFirstChangeRight(true) })
	r.Firsts, r.FirstAfter = countFirstChanges(students)
	r.Early = share(func(o studentOutcome) bool { return o.advised.changedAfter >= 1 && o.advised.changedAfter <= 3 })
	r.Close = share(func(o studentOutcome) bool { return o.advised.endsClose(o.best.Good) })
	r.CloseAfter = setsUntilHalfClose(students)
	r.Good = ten(func(o studentOutcome) trainingRun { return o.advised })
	r.Never = ten(func(o studentOutcome) trainingRun { return o.unchanged })
	r.Inchwise = ten(func(o studentOutcome) trainingRun { return o.inchwise })
	r.Informed = ten(func(o studentOutcome) trainingRun { return o.informed })
	r.Worse = share(func(o studentOutcome) bool { return o.advised.goodRateGain() < -margin })
	r.WorseInchwise = share(func(o studentOutcome) bool { return o.inchwise.goodRateGain() < -margin })
	r.LeftAlone = share(func(o studentOutcome) bool { return o.advised.wronglyCalledGood(o.best.Good) })
	return r
}

// isFirstChangeRight reports whether the first change was right. For a faultless student that
// is none at all.
func (o studentOutcome) isFirstChangeRight(instead bool) bool {
	if o.student.Fault == NoFault {
		return o.advised.changedAfter == 0
	}
	return o.advised.changedAfter > 0 && o.student.hasRemedy(o.advised.change, instead)
}
