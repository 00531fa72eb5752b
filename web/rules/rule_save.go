package rules

import (
	"net/http"
	"strconv"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/web/page"
	"breakwright/web/session"
)

func (p *Pages) saveRuleForm(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	rule, err := ruleNamed(form.Text(fieldRule))
	if err != nil {
		return err
	}
	n := rule.Numbers
	if !form.Has("standard") {
		n = readNumbers(form, rule)
	}
	if form.IsValid() {
		_, err := p.store.SaveRules(r.Context(), session.MustUser(r).Actor, readRevision(form), []drill.RuleSetting{setreview.NewSetting(rule, n)})
		switch {
		case err == nil:
			p.sessions.SetFlash(w, r, rule.Title+": saved. "+speaksWhen(rule, n))
			return page.Redirect(w, r, "/rules#"+string(rule.Name))
		case isStaleRevision(err):
			return p.showStale(w, r, rule, form)
		}
		addProblems(form, err)
		if form.IsValid() {
			return err
		}
	}
	club, err := p.store.GetRules(r.Context(), session.MustUser(r).Actor)
	if err != nil {
		return err
	}
	v, err := p.loadChangeView(r, rule, club, form)
	if err != nil {
		return err
	}
	return page.Render(w, r, formStatus(form), ruleChangePage(v))
}

// showStale gives the form back beside what another coach has set meanwhile.
// Sending it once more takes the place of theirs, now knowingly.
func (p *Pages) showStale(w http.ResponseWriter, r *http.Request, rule advice.Rule, form *page.Form) error {
	club, err := p.store.GetRules(r.Context(), session.MustUser(r).Actor)
	if err != nil {
		return err
	}
	if form.Has("standard") { // sent from the list, without numbers
		form = newRuleForm(rule, rule.Numbers, club.Revision)
	}
	form.Values.Set(fieldRevision, strconv.Itoa(club.Revision))
	v, err := p.loadChangeView(r, rule, club, form)
	if err != nil {
		return err
	}
	v.Stale = "This rule was set otherwise after you opened the page."
	if len(v.Changes) > 0 {
		last := v.Changes[0]
		v.Stale = last.Who + " set this rule otherwise after you opened the page: " + last.What + "."
	}
	return page.Render(w, r, http.StatusConflict, ruleChangePage(v))
}
