package rules

import (
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// triedView is what other numbers would have said of the last month.
type triedView struct {
	// Answer is the first line, Counts what follows from it, Left what was left
	// out of the trial.
	Answer, LeftOut string
	Counts          []string
	Differences     []adviceDifference
	// More counts the differences that are not listed.
	More int
}

// adviceDifference is a set of which the typed numbers say something else.
type adviceDifference struct{ Path, Student, Day, TriedAdvice, PresentAdvice string }

// maxDifferences is how many are listed.
const maxDifferences = 50

// tryRuleNumbers judges the last month again by the typed numbers. It saves nothing.
func (p *Pages) tryRuleNumbers(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	rule, err := ruleNamed(form.Text(fieldRule))
	if err != nil {
		return err
	}
	user := session.MustUser(r)
	club, err := p.store.GetRules(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	v, err := p.loadChangeView(r, rule, club, form)
	if err != nil {
		return err
	}
	if n := readNumbers(form, rule); form.IsValid() {
		past, err := p.listLastMonth(r)
		if err != nil {
			return err
		}
		typed := club.WithSetting(setreview.NewSetting(rule, n))
		tried := compareJudgements(rule, setreview.ReplayCases(past.Cases, club), setreview.ReplayCases(past.Cases, typed), user.Zone)
		tried.LeftOut = leftOutWords(past)
		v.Tried = &tried
	}
	return page.Render(w, r, formStatus(form), ruleChangePage(v))
}

// compareJudgements lists the sets of which the typed numbers say something else; both
// lists are of the same sets in the same order.
func compareJudgements(rule advice.Rule, now, typed []setreview.ReplayedSet, zone *time.Location) triedView {
	var v triedView
	tally := map[string]int{}
	for i := range now {
		if now[i].Sentence == typed[i].Sentence {
			continue
		}
		tally[verdictShift(now[i].Verdict, typed[i].Verdict)]++
		v.Differences = append(v.Differences, adviceDifference{
			Path: route.SetPath(now[i].Set), Student: now[i].Student, Day: say.DayOfYear(now[i].Closed.In(zone)),
			TriedAdvice: typed[i].Sentence, PresentAdvice: now[i].Sentence,
		})
	}
	v.Answer = triedAnswer(len(v.Differences), len(now))
	before, after := tallyRules(now), tallyRules(typed)
	if len(now) > 0 {
		v.Counts = append(v.Counts, spokeWords(rule, before, after))
	}
	for _, way := range verdictShifts {
		if n := tally[way.key]; n > 0 {
			v.Counts = append(v.Counts, fmt.Sprintf("%s %s", say.Capitalize(say.CountFromOne(n, "set", "sets")), way.says))
		}
	}
	if len(v.Differences) > maxDifferences {
		v.More = len(v.Differences) - maxDifferences
		v.Differences = v.Differences[:maxDifferences]
	}
	return v
}

func triedAnswer(differ, of int) string {
	switch {
	case of == 0:
		return "There is nothing to try these numbers on: no set was closed in the last 30 days."
	case differ == 0:
		return fmt.Sprintf("Nothing would have been said differently in the %s of the last 30 days.", say.CountFromOne(of, "set", "sets"))
	}
	return fmt.Sprintf("Another answer in %s of the last 30 days.", say.CountOf(differ, of, "set", "sets"))
}

// spokeWords compares how often the rule had the word, or was sure.
func spokeWords(rule advice.Rule, before, after ruleTally) string {
	if rule.Name == advice.RuleDry {
		return fmt.Sprintf("Its checklist would have come with %s, instead of %d.", say.CountOf(after.sureSilentCount[rule.Name], after.sets, "set", "sets"), before.sureSilentCount[rule.Name])
	}
	return fmt.Sprintf("This rule would have spoken in %s, instead of %d.", say.CountOf(after.spokeCount[rule.Name], after.sets, "set", "sets"), before.spokeCount[rule.Name])
}

// verdictShifts are the ways an answer can differ.
var verdictShifts = []struct{ key, says string }{
	{"speaks", "would have got a change where none was asked for."},
	{"silent", "would have got no change where one was asked for."},
	{"another", "would have got another change."},
	{"wait", "would have got another answer about waiting or keeping."},
}

func verdictShift(now, typed advice.Verdict) string {
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
