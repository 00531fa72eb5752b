package rehearsal

import (
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// Report says what became of the students of a run.
type Report struct {
	Seed     uint64 `json:"seed"`
	Students int    `json:"students_a_fault"`
	Sets     int    `json:"sets"`
	Breaks   int    `json:"breaks_a_set"`
	Rules    string `json:"rules"` // the version of the rules that advised
	Model    Model  `json:"model"`
	Rack     string `json:"rack"`
	// Table is the one at which all stood, as a class; 0 for students judged alone.
	Table int `json:"table,omitempty"`
	// Without names the rules that were switched off, Forget the fact that was kept
	// from the adviser.
	Without []advice.RuleName `json:"without,omitempty"`
	Forget  Fact              `json:"forget,omitempty"`
	// Margin is the difference between two true values of a break that counting
	// them can tell from none; who can gain Worthwhile by one change can be helped.
	Margin     float64 `json:"margin"`
	Worthwhile float64 `json:"worthwhile"`
	// All is every student, Rows those of each fault and then parts of them.
	All  Row   `json:"all"`
	Rows []Row `json:"rows"`
}

// Row is the students of one fault, or a part of them. The value of a break is its
// worth for computed students, and 1 for a good break of a curve student.
type Row struct {
	Fault Fault `json:"fault"`
	// Part says which part, in words; empty for all.
	Part     string `json:"part,omitempty"`
	Students int    `json:"students"`

	// Start, Best and End are the mean true values of a break under the first setup,
	// under the best single change, and under the setup after the last set.
	Start float64 `json:"start"`
	Best  float64 `json:"best"`
	End   float64 `json:"end"`
	// StartRates and EndRates are the shares behind them.
	StartRates Rates `json:"start_rates"`
	EndRates   Rates `json:"end_rates"`

	// Helpable is the share for whom one change is worthwhile; Changed that of those
	// told to change anything.
	Helpable Share `json:"helpable"`
	Changed  Share `json:"changed"`
	// RightOfChanged is the share of those told whose first change was right: the
	// fault's own part the right way without harm, or a change that brings at least
	// goodAsBest of what the best single one does. RightOfHelpable is that of all
	// who can be helped.
	RightOfChanged  Share `json:"right_of_changed"`
	RightOfHelpable Share `json:"right_of_helpable"`
	// Useless is the share of all students whose first change does not help.
	Useless Share `json:"useless"`
	// Firsts counts the students by the variable of their first change, "none"
	// for those who were never told to change, the commonest first.
	Firsts []FirstChange `json:"firsts"`
	// FirstAfter is the median number of sets before the first change, of those
	// who were told to change; 0 when nobody was.
	FirstAfter float64 `json:"first_after"`
	// Early is the share told to change within the first three sets.
	Early Share `json:"early"`

	// GainShare is the gain of all by the end beside what the best single change
	// would gain them.
	GainShare float64 `json:"gain_share"`
	// Gain is how much more ten breaks are worth under the last setup than under
	// the first.
	Gain Mean `json:"gain"`
	// Close is the share whose last setup has brought nine tenths of the best;
	// CloseAfter is after how many sets half of all students first had such a
	// setup, 0 when fewer than half ever did.
	Close      Share `json:"close"`
	CloseAfter int   `json:"close_after"`

	// The value of ten breaks, on average over the sets, under each adviser.
	Advised  Mean `json:"advised"`
	Never    Mean `json:"never"`
	Inchwise Mean `json:"inchwise"`
	Informed Mean `json:"informed"`

	// Worse is the share whose last setup is worth less than the first one by more
	// than the report's Margin.
	Worse         Share `json:"worse"`
	WorseInchwise Share `json:"worse_inchwise"`
	// SeeSaws is the share with one part moved to and fro twice.
	SeeSaws Share `json:"see_saws"`
	// LeftAlone is the share told at least once that their setup is good enough
	// to be left alone, when one change would still be worthwhile.
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

func (p Options) buildReport(outcomes [][]studentOutcome, from studentSource) Report {
	r := Report{Seed: p.Seed, Students: p.Students, Sets: p.Sets, Breaks: drill.UsualBreaks, Rules: advice.RulesVersion,
		Model: p.Model, Rack: p.Rack.String(), Table: p.Table, Without: p.Without, Forget: p.Forget,
		Margin: from.margin, Worthwhile: from.worthwhile}
	all := slices.Concat(outcomes...)
	r.All = from.buildRow("all", "", all)
	for i, f := range p.Faults {
		r.Rows = append(r.Rows, from.buildRow(f, "", outcomes[i]))
	}
	if p.Model == PhysicsModel {
		r.addParts("all", all, from)
		return r
	}
	for i, f := range p.Faults {
		r.addParts(f, outcomes[i], from)
	}
	return r
}

// addParts adds a row for each part that some of the students belong to.
func (r *Report) addParts(f Fault, students []studentOutcome, from studentSource) {
	for _, part := range listParts(students) {
		r.Rows = append(r.Rows, from.buildRow(f, part, slices.DeleteFunc(slices.Clone(students), func(o studentOutcome) bool {
			return !slices.Contains(o.student.listReportParts(), part)
		})))
	}
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

// listReportParts names what the student belongs to: the variant of the fault and,
// where it tells of the fault, what they took the trouble to note; of a computed
// student their traits.
func (s Student) listReportParts() []string {
	if s.byWorth {
		return s.reportParts
	}
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

func (from studentSource) buildRow(f Fault, part string, students []studentOutcome) Row {
	r := Row{Fault: f, Part: part, Students: len(students)}
	if len(students) == 0 {
		return r
	}
	share := func(is func(studentOutcome) bool) Share { return shareOf(students, is) }
	ten := func(of func(studentOutcome) trainingRun) Mean {
		return meanOf(students, func(o studentOutcome) float64 { return drill.UsualBreaks * of(o).meanValue() })
	}
	mean := func(of func(studentOutcome) float64) float64 { return meanOf(students, of).Mean }
	helpable := slices.DeleteFunc(slices.Clone(students), func(o studentOutcome) bool { return !from.canBeHelped(o) })
	changed := slices.DeleteFunc(slices.Clone(students), func(o studentOutcome) bool { return o.advised.changedAfter == 0 })
	r.Start, r.Best = mean(studentOutcome.startValue), mean(func(o studentOutcome) float64 { return o.best.value })
	r.End = r.Start + mean(func(o studentOutcome) float64 { return o.advised.gain() })
	r.StartRates = meanRates(students, func(o studentOutcome) Rates { return o.start })
	r.EndRates = meanRates(students, func(o studentOutcome) Rates { return o.advised.finalRates() })
	r.Helpable = share(from.canBeHelped)
	r.Changed = share(func(o studentOutcome) bool { return o.advised.changedAfter > 0 })
	r.RightOfChanged, r.RightOfHelpable = shareOf(changed, from.isFirstChangeRight), shareOf(helpable, from.isFirstChangeRight)
	r.Useless = share(studentOutcome.isFirstChangeUseless)
	r.Firsts, r.FirstAfter = countFirstChanges(students)
	r.Early = share(func(o studentOutcome) bool { return o.advised.changedAfter >= 1 && o.advised.changedAfter <= 3 })
	if could := r.Best - r.Start; could > 0 {
		r.GainShare = (r.End - r.Start) / could
	}
	r.Gain = meanOf(students, func(o studentOutcome) float64 { return drill.UsualBreaks * o.advised.gain() })
	r.Close = share(func(o studentOutcome) bool { return o.advised.isClose(o.advised.finalRates(), o.best.value) })
	r.CloseAfter = setsUntilHalfClose(students)
	r.Advised = ten(func(o studentOutcome) trainingRun { return o.advised })
	r.Never = ten(func(o studentOutcome) trainingRun { return o.unchanged })
	r.Inchwise = ten(func(o studentOutcome) trainingRun { return o.inchwise })
	r.Informed = ten(func(o studentOutcome) trainingRun { return o.informed })
	r.Worse = share(func(o studentOutcome) bool { return o.advised.gain() < -from.margin })
	r.WorseInchwise = share(func(o studentOutcome) bool { return o.inchwise.gain() < -from.margin })
	r.SeeSaws = share(func(o studentOutcome) bool { return o.advised.countReversals() >= 2 })
	r.LeftAlone = share(func(o studentOutcome) bool { return o.advised.wronglyCalledGood(o.best.value, from.worthwhile) })
	return r
}

func (o studentOutcome) startValue() float64 { return o.student.valueOf(o.start) }

// bestGain is what the best single change would gain, a break.
func (o studentOutcome) bestGain() float64 { return o.best.value - o.startValue() }

// firstGain is what the first change that was told gains, a break.
func (o studentOutcome) firstGain() float64 {
	return o.student.valueOf(o.advised.changedTo) - o.startValue()
}

// canBeHelped reports whether one change is worthwhile.
func (from studentSource) canBeHelped(o studentOutcome) bool { return o.bestGain() >= from.worthwhile }

// goodAsBest is the share of the best single change's gain from which another
// change is as good.
const goodAsBest = 0.8

// isFirstChangeRight reports whether the first change was right.
func (from studentSource) isFirstChangeRight(o studentOutcome) bool {
	if o.advised.changedAfter == 0 {
		return false
	}
	if !from.canBeHelped(o) {
		return !o.isFirstChangeUseless()
	}
	cause := o.student.hasRemedy(o.advised.change) && o.firstGain() > -from.margin
	return cause || o.firstGain() >= goodAsBest*o.bestGain()
}

// isFirstChangeUseless reports whether the first change that was told does not
// help. To check the rack costs nothing and is never useless.
func (o studentOutcome) isFirstChangeUseless() bool {
	return o.advised.changedAfter > 0 && o.advised.change.Variable != checkOfRack && o.firstGain() < leastGain
}
