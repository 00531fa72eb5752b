package roster

import (
	"net/http"

	"breakwright/internal/account"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

func (ro *Pages) confirmNewCode(w http.ResponseWriter, r *http.Request) error {
	student, err := ro.findStudent(r)
	if err != nil {
		return err
	}
	says := []string{"The code on the printed sheet stops working. Hand over the new one."}
	switch {
	case student.HasSecret:
		says = []string{
			student.Name + "’s PIN is forgotten and they are signed out everywhere at once; the old code stops working.",
			"With the new code they join again and choose a new PIN. Everything they recorded stays theirs. Breaks that are still on their phone are kept there and sent after they have signed in again.",
		}
	case student.Code == "":
		says = []string{"With the code " + student.Name + " joins and chooses a PIN."}
	}
	return ro.renderConfirm(w, r, confirmView{
		Here: "/students", Title: "A new code for " + student.Name + "?", Says: says,
		Do: "Make a new code", Back: route.StudentPath(student.ID), Seen: student.Code,
	})
}

// replaceCode replaces the code that the coach saw on the page before. When it has
// been replaced since, by a double click or in another tab, it stays: a second
// new code would only make the first one worthless.
func (ro *Pages) replaceCode(w http.ResponseWriter, r *http.Request) error {
	student, form, err := ro.readStudentForm(w, r)
	if err != nil {
		return err
	}
	code := student.Code
	if form.Text("seen") == code {
		if code, err = ro.Store.ReplaceCode(r.Context(), session.MustUser(r).Actor, student.ID); err != nil {
			return err
		}
	}
	ro.Sessions.SetFlash(w, r, student.Name+"’s new code is "+account.FormatCode(code)+".")
	return page.Redirect(w, r, route.StudentPath(student.ID))
}
