package rules

import (
	"net/http"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// changeView is the page on which one rule is changed.
type changeView struct {
	Frame page.Frame
	Rule  advice.Rule
	// Row is the rule by its present numbers.
	Row    ruleRow
	May    closing.May
	Form   *page.Form
	Fields []page.Field
	// Safety says that the rule has a floor.
	Safety bool
	// Stale says what another coach did meanwhile, "" for nothing.
	Stale string
	// Tried is what the typed numbers would have said; nil before they were
	// tried.
	Tried   *triedView
	Changes []changeLine
}

func (p *Pages) showRule(w http.ResponseWriter, r *http.Request) error {
	rule, err := ruleNamed(r.URL.Query().Get(fieldRule))
	if err != nil {
		return err
	}
	club, err := p.store.GetRules(r.Context(), session.From(r).Viewer)
	if err != nil {
		return err
	}
	present := closing.Numbers(rule, club.Of(string(rule.Name)))
	v, err := p.changeView(r, rule, club, formOf(rule, present, club.Revision))
	if err != nil {
		return err
	}
	v.Frame = p.sessions.Frame(w, r)
	return page.Render(w, r, http.StatusOK, changePage(v))
}

// changeView is the page with a form; its frame says nothing yet.
func (p *Pages) changeView(r *http.Request, rule advice.Rule, club store.ClubRules, form *page.Form) (changeView, error) {
	visitor := session.From(r)
	all, err := p.store.ListRuleChanges(r.Context(), visitor.Viewer)
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
		Frame: page.Frame{Person: session.Person(r)}, Rule: rule, May: closing.Settable(rule),
		Row:  rowOf(rule, closing.Numbers(rule, club.Of(string(rule.Name)))),
		Form: form, Fields: fieldsOf(rule), Safety: rule.Name == advice.RuleDanger,
		Changes: changeLines(own, visitor.Zone),
	}, nil
}
