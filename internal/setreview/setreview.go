// Package setreview joins the store and the adviser at the moment a set is
// closed: it turns what the store knows of a student into what the adviser
// asks for, and the advice into what the store keeps. It decides nothing
// itself.
package setreview

import (
	"breakwright/internal/advice"
	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
)

// judge returns the adviser's word on a student's history, with what the room's rules
// say beside it.
func judge(c store.Case) advice.Advice {
	a := advice.Judge(c.Sets, NewBrief(c))
	if p := a.Prescription; p != nil && p.Variable != advice.VaryNone {
		last := c.Sets[len(c.Sets)-1].Setup
		addHouseCaution(p, last, proposedSetup(last, a.Next, p.Variable), c.House)
	}
	return a
}

// JudgeCase is the store's judge: the adviser's word on a student's history, beside what
// the breaks of others show of the tables now.
func JudgeCase(c store.Case) (store.Judgement, error) {
	last := c.Sets[len(c.Sets)-1].Setup
	c.TablesPlay = showOthers(c.Others).TablesPlay(last)
	a := judge(c)
	text, err := writeAdvice(a)
	if err != nil {
		return store.Judgement{}, err
	}
	judgement := store.Judgement{Verdict: string(a.Verdict), JSON: text, RulesVersion: a.Rules, TablesPlay: c.TablesPlay}
	if a.FollowUp != nil {
		judgement.Outcome, judgement.Counts = followUpState(a.FollowUp.Outcome), followUpCounts(*a.FollowUp)
	}
	if p := a.Prescription; p != nil && p.Variable != advice.VaryNone {
		judgement.Proposal = &store.Proposal{
			Rule: string(p.Rule), Variable: string(p.Variable),
			From: p.From.String(), To: p.To.String(), Unit: p.Unit,
			Reason: p.Reason, Expect: p.Expect, Caution: p.Caution,
			Wording: say.Proposal{Reason: p.ReasonStatement, Expect: p.ExpectStatement, Caution: p.CautionStatement},
			Setup:   proposedSetup(last, a.Next, p.Variable),
		}
		judgement.Proposal.Count, judgement.Proposal.Of = countBehind(a)
	}
	return judgement, nil
}

// showOthers returns what the breaks of other students showed.
func showOthers(others [][]drill.Set) advice.ShownByRack {
	shown := advice.ShownByRack{}
	for _, sets := range others {
		shown.Add(advice.Show(sets))
	}
	return shown
}

// countBehind returns the count that a prescription rests on; 0 of 0 when it rests
// on none.
func countBehind(a advice.Advice) (count, of int) {
	for _, f := range a.Findings {
		if f.Rule == a.Prescription.Rule && f.Count <= f.Of {
			return f.Count, f.Of
		}
	}
	return 0, 0
}

func followUpCounts(f advice.FollowUp) coaching.Counts {
	return coaching.Counts{
		Measure: f.Measure, Before: f.CountBefore, OfBefore: f.OfBefore, Since: f.CountAfter, OfSince: f.OfAfter,
	}
}

// NewBrief is what the adviser is told beside the breaks.
func NewBrief(c store.Case) advice.Brief {
	b := advice.Brief{Window: c.Window, Targets: c.Targets, House: c.House, Rules: AdviserRules(c.Rules), TablesPlay: c.TablesPlay}
	for _, o := range c.Overruled {
		b.Overrides = append(b.Overrides, advice.Override{
			Rule: advice.RuleName(o.Rule), Table: o.Table, Under: o.Under, Breaks: o.Breaks, Instead: o.Instead,
		})
	}
	return b
}

// proposedSetup is the setup after the change. The adviser always names a speed;
// where the coach left the speed to the student, it stays theirs unless speed
// is what changes, so that only one thing does.
func proposedSetup(before, next drill.Setup, v advice.Variable) drill.Setup {
	if before.Speed == 0 && v != advice.VarySpeed {
		next.Speed = 0
	}
	return next
}

func followUpState(o advice.Outcome) store.State {
	switch o {
	case advice.Helped:
		return store.Helped
	case advice.NoDifference:
		return store.NoDifference
	case advice.Hurt:
		return store.Hurt
	}
	return ""
}
