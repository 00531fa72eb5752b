package web_test

import (
	"mime"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// oddClub is a club whose every number has a tail: an 8-foot table of 44 by 88 in,
// a place of 45.3 cm, and a change of it carried from another table.
func oddClub(t *testing.T) storetest.Scene {
	t.Helper()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	odd := table.Kind{Feet: 8, CornerMouth: 4.31, SideMouth: 4.93}
	var err error
	if sc.Table, err = s.SaveTable(ctx, sc.Coach, store.Table{Name: "South 1", Kind: odd}); err != nil {
		t.Fatal(err)
	}
	d := storetest.StandardDrill()
	d.Name, d.Kind, d.Window = "By the metre", odd, odd.StandardWindow()
	d.Setup = d.Setup.CarryToKind(table.NineFoot(), odd)
	d.Setup.Cue.X, d.Setup.Cue.Y = -45.3/2.54, odd.HeadString()-3.7/2.54
	d.Setup.Contact, d.Setup.Tip, d.Setup.Speed = 0.13, -0.13, 17.37
	if sc.Drill, err = s.SaveDrill(ctx, sc.Coach, store.DrillID{}, d); err != nil {
		t.Fatal(err)
	}
	if sc.Assignment, err = s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Class: sc.Class}); err != nil {
		t.Fatal(err)
	}
	for range 3 {
		recordOddSet(t, sc, sc.StudentActor(0))
	}
	recordOddSet(t, sc, sc.StudentActor(2))
	return sc
}

// recordOddSet records seven misses at the side rail and three wing balls, closes
// the set with the real adviser, and approves what it proposes.
func recordOddSet(t *testing.T, sc storetest.Scene, student store.Actor) {
	t.Helper()
	ctx, s := t.Context(), sc.Store
	set := sc.StartSet(t, student)
	for n := 1; n <= 10; n++ {
		b := drill.Break{
			Number: n, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -2.37 + table.Inches(n)/3, Y: 39.91}}, CuePath: drill.PathBack,
			Rails: drill.ObservedCount(6), WingMiss: drill.MissSideRail,
			Rest: []drill.RestingBall{{Ball: set.Setup.HeadBall() + 1, Place: table.Place{X: -7.77, Y: 31.13}}},
		}
		if n > 7 {
			b.WingMiss, b.Pocketed = "", []drill.Pocketed{{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()}}
		}
		if _, err := s.SaveBreak(ctx, student, set.ID, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b}); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.CloseSet(ctx, student, set.ID, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	closed, err := s.GetSet(ctx, sc.Coach, set.ID)
	if err != nil {
		t.Fatal(err)
	}
	if p := closed.Prescription; p != nil && p.State == store.Proposed {
		if err := s.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
			t.Fatal(err)
		}
	}
}

// What nobody would say: three places after the point, two of a long length, a
// speed or a share, and a plural of one.
var unsayable = regexp.MustCompile(`\d+\.\d{3,}|\d+\.\d{2,} (in|inches|mph|cm|km/h|%)( (?:left|right|out|behind|past|from))?\b|(?i)\b(?:1|one) (?:breaks|sets|students|misses|changes|messages|tables|drills|cards)\b`)

// hundredths may be said of a hit, and of a pocket's mouth as the coach typed it.
var hundredths = regexp.MustCompile(`\d\.\d\d (?:in|inches)(?: to the)? (?:left|right)(?: of full)?|(?:corners|sides) \d\.\d\d in`)

// Every page that links lead to, read by a coach and by a student.
func TestPages_SayNoMoreFiguresThanACoachWould(t *testing.T) {
	t.Parallel()
	sc := oddClub(t)
	site := webtest.NewOverScene(t, sc)
	for who, client := range map[string]*webtest.Client{"coach": site.SignInCoach(t), "student": site.SignInStudent(t, sc.Students[0])} {
		read := crawlPages(t, client)
		for path, text := range read {
			for _, said := range unsayable.FindAllStringIndex(text, -1) {
				around := text[max(0, said[0]-60):min(len(text), said[1]+40)]
				if hundredths.MatchString(text[max(0, said[0]-8):min(len(text), said[1]+20)]) {
					continue
				}
				t.Errorf("%s, %s: …%s…", who, path, around)
			}
		}
		if least := map[string]int{"coach": 30, "student": 8}[who]; len(read) < least {
			t.Errorf("the %s was led to only %d pages", who, len(read))
		}
	}
}

// inchesSaid is a length or a speed in the units that a metric club does not read.
var inchesSaid = regexp.MustCompile(`\d (?:inches|inch|mph)\b|\d in (?:left|right|out|behind|past|from|of full|wider|narrower|longer|shorter|nearer|further)\b|(?:corners|sides) [\d.]+ in\b|(?i)\b(?:inches|miles an hour)\b`)

// A club that chose centimetres reads them on every page that links lead to. The page
// of the club names both, and the rules' own numbers stay as they are.
func TestPages_SpeakTheUnitsOfTheClub(t *testing.T) {
	t.Parallel()
	sc := oddClub(t)
	club, err := sc.Store.GetClub(t.Context(), sc.Coach)
	if err != nil {
		t.Fatal(err)
	}
	club.Units = store.Centimetres
	if err := sc.Store.ChangeClub(t.Context(), sc.Coach, club); err != nil {
		t.Fatal(err)
	}
	site := webtest.NewOverScene(t, sc)
	metric := 0
	for who, client := range map[string]*webtest.Client{"coach": site.SignInCoach(t), "student": site.SignInStudent(t, sc.Students[0])} {
		for path, text := range crawlPages(t, client) {
			if path == "/club" || strings.HasPrefix(path, "/rules") {
				continue
			}
			if said := inchesSaid.FindStringIndex(text); said != nil {
				t.Errorf("%s, %s: …%s…", who, path, text[max(0, said[0]-60):min(len(text), said[1]+40)])
			}
			metric += strings.Count(text, " cm") + strings.Count(text, " km/h")
		}
	}
	if metric < 50 {
		t.Errorf("only %d lengths and speeds were met", metric)
	}
}

// crawlPages follows links from the first page and returns the words of each page,
// without the model's own, whose constants are physics.
func crawlPages(t *testing.T, client *webtest.Client) map[string]string {
	t.Helper()
	read, next := map[string]string{}, []string{"/"}
	for len(next) > 0 && len(read) < 200 {
		path := next[0]
		next = next[1:]
		if _, seen := read[path]; seen || strings.HasPrefix(path, "/static") || strings.HasPrefix(path, "/what-if") {
			continue
		}
		p := client.Get(t, path)
		if kind, _, _ := mime.ParseMediaType(p.Header.Get("Content-Type")); kind != "text/html" {
			continue
		}
		read[path] = p.TextOf(t, "body")
		for _, link := range p.FindAll(t, "a[href]") {
			for _, a := range link.Attr {
				if u, err := url.Parse(a.Val); a.Key == "href" && err == nil && u.Host == "" && strings.HasPrefix(u.Path, "/") {
					u.Fragment = ""
					next = append(next, u.String())
				}
			}
		}
	}
	return read
}
