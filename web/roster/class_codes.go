package roster

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// joinCodesView is the sheet of join codes to print and cut.
type joinCodesView struct {
	Frame page.Frame
	// Path and Class are empty for students ticked in the list of all.
	Path, Class string
	Cards       []joinCodeCard
	// All says that those who have joined are on the sheet too; Joined counts
	// the ones left out.
	All    bool
	Joined int
	// Codeless have no code to print, Expired one that was not used in time.
	Codeless, Expired []studentLine
	// Way is how phones get to the address on the cards.
	Way phoneWay
}

type joinCodeCard struct {
	Name, Club string
	// Address and End are the printed address, cut where a line may break.
	Address, End string
	Code         string
	QR           component.QRCode
}

func (v joinCodesView) headline() string {
	switch n := len(v.Cards); {
	case n > 0:
		return say.Capitalize(say.CountOrNo(n, "card", "cards")) + " to print and cut."
	case v.Joined > 0:
		return "Nothing to print: all have joined."
	default:
		return "Nothing to print yet: add students first."
	}
}

func (ro *Pages) showJoinCodes(w http.ResponseWriter, r *http.Request) error {
	class, members, err := ro.findClass(r)
	if err != nil {
		return err
	}
	v := joinCodesView{Path: route.ClassPath(class.ID), Class: class.Name, All: r.URL.Query().Get("all") == "1"}
	return ro.renderJoinCodes(w, r, v, members)
}

// showStudentCodes prints the cards of the students who were ticked.
func (ro *Pages) showStudentCodes(w http.ResponseWriter, r *http.Request) error {
	form := &page.Form{Values: r.URL.Query()}
	chosen, err := ro.chosenStudents(r, form)
	if err != nil {
		return err
	}
	if rejectUnchosen(form, len(chosen)); !form.IsValid() {
		return ro.renderStudents(w, r, http.StatusUnprocessableEntity, form)
	}
	all, err := ro.Store.ListRoster(r.Context(), session.MustUser(r).Actor)
	if err != nil {
		return err
	}
	var members []store.Person
	for _, s := range all {
		if slices.Contains(chosen, s.ID) {
			members = append(members, s.Person)
		}
	}
	return ro.renderJoinCodes(w, r, joinCodesView{All: true}, members)
}

func (ro *Pages) renderJoinCodes(w http.ResponseWriter, r *http.Request, v joinCodesView, members []store.Person) error {
	v.Frame, v.Way = ro.Sessions.TakeFrame(w, r), newPhoneWay(ro.URL, ro.PhoneURLs)
	for _, m := range members {
		switch line := newStudentLine(m, store.ClassID{}); {
		case m.Code == "":
			v.Codeless = append(v.Codeless, line)
		case !line.Joined && time.Since(m.CodeMade) > account.CodeLife:
			v.Expired = append(v.Expired, line)
		case line.Joined && !v.All:
			v.Joined++
		default:
			card, err := ro.newCodeCard(m, line.Code, session.MustUser(r).Club)
			if err != nil {
				return err
			}
			v.Cards = append(v.Cards, card)
		}
	}
	return page.Render(w, r, http.StatusOK, joinCodesPage(v))
}

// newCodeCard makes a student's card. The address that is read by a camera is the one
// that is printed, so that both can be checked against each other.
func (ro *Pages) newCodeCard(m store.Person, shown, club string) (joinCodeCard, error) {
	join := ro.URL + "/join/"
	code, err := component.EncodeQRCode(join+m.Code, "QR code that opens "+join+m.Code)
	_, plain, found := strings.Cut(join, "://")
	if !found {
		plain = join
	}
	return joinCodeCard{Name: m.Name, Club: club, Address: plain, End: m.Code, Code: shown, QR: code}, err
}

func (v joinCodesView) title() string {
	if v.Class == "" {
		return "Join codes"
	}
	return "Join codes, " + v.Class
}

// navPath is where in the navigation the sheet belongs.
func (v joinCodesView) navPath() string {
	if v.Path == "" {
		return "/students"
	}
	return "/classes"
}
