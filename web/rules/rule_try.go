package rules

import (
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
	"breakwright/web/page"
	"breakwright/web/session"
)

// triedView is what other numbers would have said of the last month.
type triedView struct {
	// Answer is the first line, Counts what follows from it, Left what was left
	// out of the trial.
	Answer, Left string
	Counts       []string
	Differences  []difference
	// More counts the differences that are not listed.
	More int
}

// difference is a set of which the typed numbers say something else.
type difference struct{ Path, Student, Day, Would, Instead string }

// mostDifferences is how many are listed.
const mostDifferences = 50

// tryRule judges the last month again by the typed numbers. It saves nothing.
func (p *Pages) tryRule(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	rule, err := ruleNamed(form.Text(fieldRule))
	if err != nil {
		return err
	}
	visitor := session.From(r)
	club, err := p.store.GetRules(r.Context(), visitor.Viewer)
	if err != nil {
		return err
	}
	v, err := p.changeView(r, rule, club, form)
	if err != nil {
		return err
	}
	if n := readNumbers(form, rule); form.OK() {
		past, err := p.lastMonth(r)
		if err != nil {
			return err
		}
		typed := club.With(closing.Setting(rule, n))
		tried := compare(rule, closing.Again(past.Cases, club), closing.Again(past.Cases, typed), visitor.Zone)
		tried.Left = left(past)
		v.Tried = &tried
	}
	return page.Render(w, r, statusOf(form), changePage(v))
}

// compare lists the sets of which the typed numbers say something else; both
// lists are of the same sets in the same order.
func compare(rule advice.Rule, now, typed []closing.Said, zone *time.Location) triedView {
	var v triedView
	tally := map[string]int{}
	for i := range now {
		if now[i].Says == typed[i].Says {
			continue
		}
		tally[turn(now[i].Verdict, typed[i].Verdict)]++
		v.Differences = append(v.Differences, difference{
			Path: "/sets/" + now[i].Set.String(), Student: now[i].Student, Day: now[i].Closed.In(zone).Format("2 January"),
			Would: typed[i].Says, Instead: now[i].Says,
		})
	}
	v.Answer = triedAnswer(len(v.Differences), len(now))
	before, after := count(now), count(typed)
	if len(now) > 0 {
		v.Counts = append(v.Counts, spokeWords(rule, before, after))
	}
	for _, way := range turns {
		if n := tally[way.key]; n > 0 {
			v.Counts = append(v.Counts, fmt.Sprintf("%s %s", sentenceCount(n), way.says))
		}
	}
	if len(v.Differences) > mostDifferences {
		v.More = len(v.Differences) - mostDifferences
		v.Differences = v.Differences[:mostDifferences]
	}
	return v
}

func triedAnswer(differ, of int) string {
	switch {
	case of == 0:
		return "There is nothing to try these numbers on: no set was closed in the last 30 days."
	case differ == 0:
		return fmt.Sprintf("Nothing would have been said differently in the %s of the last 30 days.", setCount(of))
	}
	return fmt.Sprintf("Another answer in %s of the last 30 days.", setsOf(differ, of))
}

// spokeWords compares how often the rule had the word, or was sure.
func spokeWords(rule advice.Rule, before, after heard) string {
	if rule.Name == advice.RuleDry {
		return fmt.Sprintf("Its checklist would have come with %s, instead of %d.", setsOf(after.mute[rule.Name], after.sets), before.mute[rule.Name])
	}
	return fmt.Sprintf("This rule would have spoken in %s, instead of %d.", setsOf(after.spoke[rule.Name], after.sets), before.spoke[rule.Name])
}

// turns are the ways an answer can differ.
var turns = []struct{ key, says string }{
	{"speaks", "would have got a change where none was asked for."},
	{"silent", "would have got no change where one was asked for."},
	{"another", "would have got another change."},
	{"wait", "would have been told something else about waiting or keeping."},
}

func turn(now, typed advice.Verdict) string {
	switch {
	case now != advice.Change && typed == advice.Change:
		return "speaks"
	case now == advice.Change && typed != advice.Change:
		return "silent"
	case typed == advice.Change:
		return "another"
	}
	return "wait"
}

func sentenceCount(n int) string {
	if n == 1 {
		return "One set"
	}
	return setCount(n)
}
