package roster

import (
	"net/http"
	"strings"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// joinCodesView is the sheet of join codes to print and cut.
type joinCodesView struct {
	Frame       page.Frame
	Path, Class string
	Cards       []joinCodeCard
	// All says that those who have joined are on the sheet too; Joined counts
	// the ones left out.
	All    bool
	Joined int
	// Codeless have no code to print.
	Codeless []studentLine
}

type joinCodeCard struct {
	Name, Club string
	// Address and End are the printed address, cut where a line may break.
	Address, End string
	Code         string
	QR           qrCodeView
}

func (v joinCodesView) headline() string {
	switch n := len(v.Cards); {
	case n > 0:
		return capitalize(countWords(n, "card", "cards")) + " to print and cut."
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
	v := joinCodesView{Frame: ro.Sessions.TakeFrame(w, r), Path: classPath(class.ID), Class: class.Name, All: r.URL.Query().Get("all") == "1"}
	for _, m := range members {
		switch line := newStudentLine(m, class.ID); {
		case m.Code == "":
			v.Codeless = append(v.Codeless, line)
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
	code, err := encodeQRCode(join+m.Code, "QR code that opens "+join+m.Code)
	_, plain, found := strings.Cut(join, "://")
	if !found {
		plain = join
	}
	return joinCodeCard{Name: m.Name, Club: club, Address: plain, End: m.Code, Code: shown, QR: code}, err
}
