// Package rules holds the coach's pages about the adviser's rules: what each
// looks at and proposes, the club's own numbers for it, and what other numbers
// would have said of the last month.
//
// It words the rules and counts what they say; it makes no judgement of its
// own. Shares and certainties are typed in percent and kept as fractions; days
// are those of the club's zone.
package rules

import (
	"errors"
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are the rules' pages.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	now      func() time.Time
}

// New makes them; now is the clock that the last month ends at.
func New(s *store.Store, sessions *session.Manager, now func() time.Time) *Pages {
	return &Pages{store: s, sessions: sessions, now: now}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/rules", route.Coach, p.listRules),
		route.Post("/rules", route.Coach, p.saveRuleForm),
		route.Get("/rules/change", route.Coach, p.showRuleForm),
		route.Post("/rules/try", route.Coach, p.tryRuleNumbers),
	}
}

var ruleStyles = []string{"css/rules.css"}

// ruleNamed finds a rule that can be changed.
func ruleNamed(name string) (advice.Rule, error) {
	for _, rule := range advice.EverySetting() {
		if string(rule.Name) == name && setreview.ListSettable(rule).HasAny() {
			return rule, nil
		}
	}
	return advice.Rule{}, fmt.Errorf("%w: no rule %.60q that can be set", store.ErrNotFound, name)
}

// judgedPeriod is how far back the past is judged again, maxJudgedSets how much of it: a
// set takes up to a few milliseconds for each way of judging.
const (
	judgedPeriod  = 30 * 24 * time.Hour
	maxJudgedSets = 300
)

// listLastMonth returns the club's sets of the last thirty days.
func (p *Pages) listLastMonth(r *http.Request) (store.PastCases, error) {
	return p.store.ListPastCases(r.Context(), session.MustUser(r).Actor, p.now().Add(-judgedPeriod), maxJudgedSets)
}

// formStatus is 422 for a form with problems.
func formStatus(form *page.Form) int {
	if form.IsValid() {
		return http.StatusOK
	}
	return http.StatusUnprocessableEntity
}

func isStaleRevision(err error) bool { return errors.Is(err, store.ErrStale) }
