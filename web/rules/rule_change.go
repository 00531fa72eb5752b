package rules

import (
	"net/http"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// changeView is the page on which one rule is changed.
type changeView struct {
	Frame page.Frame
	Rule  advice.Rule
	// Row is the rule by its present numbers.
	Row      ruleRow
	Settable setreview.SettableNumbers
	Form     *page.Form
	Fields   []page.Field
	// Safety says that the rule has a floor.
	Safety bool
	// Stale says what another coach did meanwhile, "" for nothing.
	Stale string
	// Tried is what the typed numbers would have said; nil before they were
	// tried.
	Tried   *triedView
	Changes []changeLine
}

func (p *Pages) showRuleForm(w http.ResponseWriter, r *http.Request) error {
	rule, err := ruleNamed(r.URL.Query().Get(fieldRule))
	if err != nil {
		return err
	}
	club, err := p.store.GetRules(r.Context(), session.MustUser(r).Actor)
	if err != nil {
		return err
	}
	present := setreview.RuleNumbers(rule, club.SettingOf(string(rule.Name)))
	v, err := p.loadChangeView(r, rule, club, newRuleForm(rule, present, club.Revision))
	if err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, ruleChangePage(v))
}

// loadChangeView is the page with a form; its frame says nothing yet.
func (p *Pages) loadChangeView(r *http.Request, rule advice.Rule, club drill.ClubRules, form *page.Form) (changeView, error) {
	user := session.MustUser(r)
	all, err := p.store.ListRuleChanges(r.Context(), user.Actor)
	if err != nil {
		return changeView{}, err
	}
	var own []store.RuleChange
	for _, c := range all {
		if c.Rule == string(rule.Name) {
			own = append(own, c)
		}
	}
	return changeView{
		Frame: page.Frame{Person: session.PagePerson(r)}, Rule: rule, Settable: setreview.ListSettable(rule),
		Row:  newRuleRow(rule, setreview.RuleNumbers(rule, club.SettingOf(string(rule.Name)))),
		Form: form, Fields: ruleFields(rule), Safety: rule.Name == advice.RuleDanger,
		Changes: changeLines(own, user.Zone),
	}, nil
}
