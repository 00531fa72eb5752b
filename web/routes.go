package web

import (
	"context"

	"breakwright/internal/account"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/club"
	"breakwright/web/coach"
	"breakwright/web/drills"
	"breakwright/web/exchange"
	"breakwright/web/leave"
	"breakwright/web/live"
	"breakwright/web/paper"
	"breakwright/web/privacy"
	"breakwright/web/progress"
	"breakwright/web/record"
	"breakwright/web/report"
	"breakwright/web/roster"
	"breakwright/web/route"
	"breakwright/web/rules"
	"breakwright/web/session"
	"breakwright/web/signin"
	"breakwright/web/student"
	"breakwright/web/sync"
	"breakwright/web/whatif"
	"breakwright/web/words"
)

// routeTable is the one table of routes: every page, and who may call it. What goes on
// beyond its request ends when draining does.
func routeTable(draining context.Context, config Config, s *store.Store, sessions *session.Manager, secrets *account.Hasher) []route.Route {
	secret := session.SecretCheck{Store: s, Secrets: secrets, TooMany: errTooManyAttempts, Now: config.Now}
	var routes []route.Route
	for _, rows := range [][]route.Route{
		signin.New(s, sessions, secrets, errTooManyAttempts, config.Secret, config.Now).Routes(),
		club.New(s, sessions, secret, config.URL, config.Now).Routes(),
		privacy.New(s, sessions, secret, config.Now).Routes(),
		words.New(sessions).Routes(),
		coach.New(s, sessions, config.Now).Routes(),
		roster.New(s, sessions, config.URL, config.PhoneURLs).Routes(),
		drills.New(s, sessions).Routes(),
		progress.New(s, sessions).Routes(),
		paper.New(s, sessions, setreview.JudgeCase, config.Now).Routes(),
		leave.New(s, sessions).Routes(),
		report.New(s, sessions, config.Now).Routes(),
		exchange.New(draining, s, sessions, config.Now, config.Log).Routes(),
		rules.New(s, sessions, config.Now).Routes(),
		live.New(s, sessions, config.Now).Routes(),
		whatif.New(s, sessions).Routes(),
		student.New(s, sessions, config.Now).Routes(),
		record.New(s, sessions, config.Now).Routes(),
		sync.New(s, setreview.JudgeCase, config.Now).Routes(),
	} {
		routes = append(routes, rows...)
	}
	return routes
}
