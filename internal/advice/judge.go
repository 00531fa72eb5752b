package advice

import (
	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// Judge says what one student's history asks for. The sets are the student's
// own, oldest first, possibly on several tables; the latest set with a break
// decides which table and side the advice is for. A history without breaks
// gives the verdict More and the zero Next, since nothing says where to begin:
// see Start.
func Judge(history []drill.Set, b Brief) Advice { return judge(history, b, true) }

// judge weighs everything that was seen, or, for those who ask what the patterns
// alone say, not.
func judge(history []drill.Set, b Brief, weigh bool) Advice {
	used, leftOut := selectPool(history)
	if len(used) == 0 {
		needed, statement := drill.UsualBreaks, say.Statement{Kind: say.NothingYet}
		return Advice{
			Verdict: More, BreaksNeeded: &needed, Findings: []Finding{},
			Stint: Summary{LeftOut: leftOut}, Rules: b.Rules.versionOrDefault(), Statement: statement, Says: plainText(statement),
		}
	}
	last := used[len(used)-1]
	l := newAnalysis(used, b)
	if weigh {
		l.believe()
	}
	d := l.applyRules()
	return l.composeAdvice(d, last, leftOut)
}

// selectPool picks the sets that may be learned from together with the latest
// one: the same table, side, game and way of racking.
func selectPool(history []drill.Set) (used []drill.Set, leftOut []LeftOut) {
	last := -1
	for i, set := range history {
		if len(set.Breaks) > 0 {
			last = i
		}
	}
	if last < 0 {
		return nil, nil
	}
	here := poolKeyOf(history[last])
	for _, set := range history {
		switch {
		case len(set.Breaks) == 0:
		case poolKeyOf(set) == here:
			used = append(used, set)
		default:
			leftOut = append(leftOut, LeftOut{set.Name, len(set.Breaks), leftOutReason(poolKeyOf(set), here)})
		}
	}
	return used, leftOut
}

// decision is what the rules came to, in the left frame.
type decision struct {
	findings []Finding
	// chosenRule is the one that asks for the change, by chosenObservation; change is
	// what it asks for.
	chosenRule        *patternRule
	chosenObservation observation
	change            *proposedChange
	// helps is the chance that the change helps, when everything seen was weighed.
	helps float64
	// undoneChange is the step that is undone, when the follow-up speaks, and
	// undoneMeasure what was found to be worse.
	undoneChange  *pastChange
	undoneMeasure measure
	// coachSetup is the coach's own setup, when one is waiting to be played.
	coachSetup *drill.Setup
	// exhaustedRule is a rule that is sure but has nothing left to change.
	exhaustedRule *patternRule
	// setupIsGood says that the setup is good with certainty; setupIsLevel that many
	// breaks have left it near the target; missesTarget that a target is surely missed
	// and no pattern says why.
	setupIsGood, setupIsLevel, missesTarget bool
	breaksNeeded                            int
	settleIsLikely                          bool
	// weighed is every single change with what it would bring.
	weighed []weighedChange
	// cause is what the change answers, when the belief chose it; causes are all
	// of them with how likely they are. checkRack says that the rack is to be
	// checked before anything is changed.
	cause        belief.Cause
	causes       []belief.CauseShare
	checkRack    bool
	observations map[RuleName]observation
}

// applyRules asks the rules in order. The first that is sure enough and has
// something left to change speaks; the others are only findings.
func (l *analysis) applyRules() decision {
	d := decision{observations: make(map[RuleName]observation, len(patternRules))}
	d.coachSetup = l.pendingCoachSetup()
	for i := range patternRules {
		l.applyRule(&patternRules[i], &d)
		switch patternRules[i].Name {
		case RuleDanger:
			l.applyFollowUp(&d)
		case RuleLimits:
			l.applyBelief(&d)
		}
	}
	l.addFactFindings(&d)
	if d.change == nil {
		l.settleWithoutChange(&d)
	}
	return d
}

// holdsFor reports whether a pattern has an answer for the rack that was broken:
// those that speak of the wing ball's line and of the side pockets were learned
// with the head ball of nine-ball on the spot, and move nobody on another.
func (l *analysis) holdsFor(name RuleName) bool {
	switch name {
	case RuleWeak, RuleSideScratch, RuleMissBalance, RuleWingUnseen, RuleHeadBall:
		s := l.currentSetup()
		return s.Game == rack.NineBall && s.Spot == rack.HeadOnSpot
	}
	return true
}

// isBeforeBelief reports whether a rule is a hard one, asked before everything is
// weighed.
func isBeforeBelief(name RuleName) bool { return name == RuleDanger || name == RuleLimits }

// applyRule asks one rule.
func (l *analysis) applyRule(r *patternRule, d *decision) {
	n := l.rules.numbersOf(r.Rule)
	if !n.On || l.currentTally().breaks < n.MinBreaks {
		return
	}
	s := r.observe(l, n)
	d.observations[r.Name] = s
	f := l.newFinding(r.Name, s)
	f.Fired = s.certainty >= n.Certainty
	if r.proposeChanges != nil && s.certainty >= min(n.Certainty, n.Onward) && !l.isOverruled(r.Name) && l.holdsFor(r.Name) {
		c, ok := l.chooseChange(r, n, s)
		f.Fired = f.Fired || ok
		switch {
		case ok && d.change == nil && (d.checkRack || !isBeforeBelief(r.Name) && l.beliefForbids(d, r.Name, c)):
			// Everything seen together says otherwise.
		case ok && d.change == nil:
			d.chosenRule, d.chosenObservation, d.change = r, s, &c
			if sized, found := l.bestSize(d, c); found {
				d.choose(sized, r.Name)
			}
		case !ok && f.Fired && d.exhaustedRule == nil && !r.mayWait:
			d.exhaustedRule = r
		}
	}
	if f.Fired || f.Certainty >= 0.5 && f.Count > 0 && f.Of >= fewestOfSome {
		d.findings = append(d.findings, f)
	}
}

// fewestOfSome is how many breaks of a kind, the good ones or the misses, a pattern is
// shown on at least: one of one good breaks is none.
const fewestOfSome = 3

// chooseChange takes the first answer that moves something, is sure enough for where
// it goes, and has not been tried and found worse.
func (l *analysis) chooseChange(r *patternRule, n Numbers, s observation) (proposedChange, bool) {
	for _, c := range r.proposeChanges(l, n, s) {
		if c.to == l.currentSetup() {
			continue
		}
		need := n.Certainty
		switch {
		case l.continuesLastChange(c):
			need = min(n.Onward, n.Certainty)
		case l.reversesLastChange(c):
			// Going back must never take less than going on did.
			need = max(n.Certainty, n.Onward)
		}
		if s.certainty >= need && !l.hurtBefore(c, l.undoCertainty()) {
			return c, true
		}
	}
	return proposedChange{}, false
}

// addFactFindings puts the plain counts of the drill's goals in front.
func (l *analysis) addFactFindings(d *decision) {
	t := l.currentTally()
	var facts []Finding
	add := func(name RuleName, count, of int, target float64) {
		d.observations[name] = observeShare(count, of, target)
		if of > 0 { // what nobody noted is nothing to show
			facts = append(facts, l.newFinding(name, d.observations[name]))
		}
	}
	add(FactWing, t.wingMade, t.watched, l.targets.Wing)
	add(FactWindow, t.cue.inWindow, t.breaks, l.targets.Window)
	if l.targets.Shot > 0 {
		open, of := t.countOpenShots()
		add(FactShot, open, of, l.targets.Shot)
	}
	if l.targets.RanOut > 0 {
		add(FactRanOut, t.ranOut, t.runsSeen, l.targets.RanOut)
	}
	d.findings = append(facts, d.findings...)
}

// composeAdvice puts the decision into words, turned to the student's own side.
func (l *analysis) composeAdvice(d decision, last drill.Set, leftOut []LeftOut) Advice {
	mirror := last.Setup.Side == table.Right
	a := Advice{
		Student: last.Student, Table: last.Table,
		Stint: l.summarizeSets(leftOut), Findings: d.findings,
		Rules: l.rules.versionOrDefault(), Cautions: standingCautions,
	}
	next := l.currentSetup()
	w := newAdviceWriter(l, d, mirror)
	switch {
	case d.coachSetup != nil:
		next, a.Verdict = *d.coachSetup, Keep
	case d.change != nil:
		next, a.Verdict = d.change.to, Change
		a.Prescription = w.writePrescription()
	case d.setupIsGood || d.setupIsLevel:
		a.Verdict = Keep
		a.Prescription = w.writeProgress()
	default:
		needed := d.breaksNeeded
		a.Verdict, a.BreaksNeeded = More, &needed
	}
	next = withinLimits(next, l.kind)
	a.CueBall, a.FollowUp = w.summarizeCueBall(), w.writeFollowUp()
	a.Places = w.writePlaces()
	if d.change == nil && d.coachSetup == nil {
		a.Card = w.writeBreakCard(last.Table)
	}
	a.Statement, a.CheckStatements = w.writeAnswer(), w.listChecks()
	a.Says = w.plainText(a.Statement)
	for _, check := range a.CheckStatements {
		a.Checks = append(a.Checks, w.plainText(check))
	}
	isStuck := d.change == nil && d.coachSetup == nil && (d.exhaustedRule != nil || d.missesTarget)
	a.NeedsCoach = isStuck || l.countDangerSetups() >= 3
	if l.speedUnknown && next.Speed == l.currentSetup().Speed {
		next.Speed = 0 // the student's own controlled speed: nobody knows the number
	}
	if mirror {
		next = next.Mirror()
	}
	a.Next, a.Causes, a.CheckRack = next, causesOf(d), d.checkRack && d.change == nil
	if len(a.Causes) > 0 {
		a.OthersBreaks = l.hands.OthersBreaks()
	}
	return a
}

// causesOf lists what may be amiss with how likely it is.
func causesOf(d decision) []Cause {
	list := make([]Cause, len(d.causes))
	for i, c := range d.causes {
		list[i] = Cause{string(c.Cause), c.Share}
	}
	return list
}

// summarizeSets names the sets that were used.
func (l *analysis) summarizeSets(leftOut []LeftOut) Summary {
	now := l.currentRecord()
	s := Summary{Sets: len(now.played), Breaks: now.tally.breaks, Used: now.setNames(), LeftOut: leftOut}
	for _, t := range l.records {
		if t != now {
			s.Earlier = append(s.Earlier, t.setNames()...)
		}
	}
	return s
}
