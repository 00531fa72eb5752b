package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Judge says what one student's history asks for. The sets are the student's
// own, oldest first, possibly on several tables; the latest set with a break
// decides which table and side the advice is for. A history without breaks
// gives the verdict More and the zero Next, since nothing says where to begin:
// see Start.
func Judge(history []drill.Set, b Brief) Advice {
	used, leftOut := onGround(history)
	if len(used) == 0 {
		needed := drill.UsualBreaks
		return Advice{
			Verdict: More, BreaksNeeded: &needed, Findings: []Finding{},
			Stint: Summary{LeftOut: leftOut}, Rules: b.Rules.version(), Says: nothingYet,
		}
	}
	last := used[len(used)-1]
	l := newLesson(used, b)
	d := l.decide()
	return l.advise(d, last, leftOut)
}

// onGround picks the sets that may be learned from together with the latest
// one: the same table, side, game and way of racking.
func onGround(history []drill.Set) (used []drill.Set, leftOut []LeftOut) {
	last := -1
	for i, set := range history {
		if len(set.Breaks) > 0 {
			last = i
		}
	}
	if last < 0 {
		return nil, nil
	}
	here := groundOf(history[last])
	for _, set := range history {
		switch {
		case len(set.Breaks) == 0:
		case groundOf(set) == here:
			used = append(used, set)
		default:
			leftOut = append(leftOut, LeftOut{set.Name, len(set.Breaks), whyLeftOut(groundOf(set), here)})
		}
	}
	return used, leftOut
}

// decision is what the rules came to, in the left frame.
type decision struct {
	findings []Finding
	// spoke is the rule that asks for the change; change is what it asks for.
	spoke  *rule
	saw    sight
	change *change
	// back is the move that is undone, when the follow-up speaks.
	back *move
	// instead is the coach's own setup, when one is waiting to be played.
	instead *drill.Setup
	// stuck is a rule that is sure but has nothing left to change.
	stuck *rule
	// good says that the setup is good with certainty; level that many breaks
	// have left it near the target; short that a target is surely missed and no
	// pattern says why.
	good, level, short bool
	needed             int
	likely             bool
	sights             map[Name]sight
}

// decide hears the rules in order. The first that is sure enough and has
// something left to change speaks; the others are only findings.
func (l *lesson) decide() decision {
	d := decision{sights: make(map[Name]sight, len(rules))}
	d.instead = l.coachSetup()
	for i := range rules {
		l.hear(&rules[i], &d)
		if rules[i].Name == RuleDanger {
			l.hearFollowUp(&d)
		}
	}
	l.addFacts(&d)
	if d.change == nil {
		l.settle(&d)
	}
	return d
}

// hear asks one rule.
func (l *lesson) hear(r *rule, d *decision) {
	n := l.rules.of(r.Rule)
	if !n.On || l.seen().breaks < n.MinBreaks {
		return
	}
	s := r.look(l, n)
	d.sights[r.Name] = s
	f := s.finding(r.Name)
	f.Says = findingSays(r.Name, s, l)
	f.Fired = s.certainty >= n.Certainty
	if r.answer != nil && s.certainty >= min(n.Certainty, n.Onward) && !l.silenced(r.Name) {
		c, ok := l.pick(r, n, s)
		f.Fired = f.Fired || ok
		switch {
		case ok && d.change == nil:
			d.spoke, d.saw, d.change = r, s, &c
		case !ok && f.Fired && d.stuck == nil && !r.patient:
			d.stuck = r
		}
	}
	if f.Fired || f.Certainty >= 0.5 && f.Count > 0 {
		d.findings = append(d.findings, f)
	}
}

// pick takes the first answer that moves something, is sure enough for where
// it goes, and has not been tried and found worse.
func (l *lesson) pick(r *rule, n Numbers, s sight) (change, bool) {
	for _, c := range r.answer(l, n, s) {
		if c.to == l.setup() {
			continue
		}
		need := n.Certainty
		switch {
		case l.goesOn(c):
			need = min(n.Onward, n.Certainty)
		case l.turnsBack(c):
			// Going back must never take less than going on did.
			need = max(n.Certainty, n.Onward)
		}
		if s.certainty >= need && !l.wentWrong(c, l.undoCertainty()) {
			return c, true
		}
	}
	return change{}, false
}

// addFacts puts the two plain counts in front.
func (l *lesson) addFacts(d *decision) {
	t := l.seen()
	wing := share(t.wingMade, t.breaks, l.targets.Wing)
	window := share(t.cue.inWindow, t.breaks, l.targets.Window)
	d.sights[FactWing], d.sights[FactWindow] = wing, window
	facts := []Finding{wing.finding(FactWing), window.finding(FactWindow)}
	facts[0].Says = findingSays(FactWing, wing, l)
	facts[1].Says = findingSays(FactWindow, window, l)
	d.findings = append(facts, d.findings...)
}

// advise puts the decision into words, turned to the student's own side.
func (l *lesson) advise(d decision, last drill.Set, leftOut []LeftOut) Advice {
	mirror := last.Setup.Side == table.Right
	a := Advice{
		Student: last.Student, Table: last.Table,
		Stint: l.summary(leftOut), Findings: d.findings,
		Rules: l.rules.version(), Cautions: standingCautions,
	}
	next := l.setup()
	w := wordsFor(l, d, mirror)
	switch {
	case d.instead != nil:
		next, a.Verdict = *d.instead, Keep
	case d.change != nil:
		next, a.Verdict = d.change.to, Change
		a.Prescription = w.prescription()
	case d.good || d.level:
		a.Verdict = Keep
		a.Prescription = w.progress()
	default:
		needed := d.needed
		a.Verdict, a.BreaksNeeded = More, &needed
	}
	next = within(next, l.kind)
	a.CueBall, a.FollowUp = w.cueBall(), w.followUp()
	a.Places = w.places()
	if d.change == nil && d.instead == nil {
		a.Card = w.card(last.Table)
	}
	a.Says, a.Ask = w.says(a.Verdict), w.ask()
	a.TellCoach = d.change == nil && (d.stuck != nil || d.short) || l.dangerTimes() >= 3
	if mirror {
		next = next.Mirror()
	}
	a.Next = next
	return a
}

// summary names the sets that were used.
func (l *lesson) summary(leftOut []LeftOut) Summary {
	now := l.now()
	s := Summary{Sets: len(now.sets), Breaks: now.seen.breaks, Used: now.sets, LeftOut: leftOut}
	for _, t := range l.trials {
		if t != now {
			s.Earlier = append(s.Earlier, t.sets...)
		}
	}
	return s
}
