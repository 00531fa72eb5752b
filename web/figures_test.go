//go:build !quick

package web_test

import (
	"archive/zip"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"math"
	"mime"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// oddClub is a club whose every number has a tail: an 8-foot table of 44 by 88 in,
// a place of 25.3 cm, and a set on a 9-foot table to which it was carried.
func oddClub(t *testing.T) storetest.Scene {
	t.Helper()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	odd := table.Kind{Feet: 8, Small: true, CornerMouth: 4.31, SideMouth: 4.93}
	if odd.Width() != 44 || odd.Length() != 88 {
		t.Fatalf("an 8-foot table of %s by %s in", odd.Width(), odd.Length())
	}
	var err error
	if sc.Table, err = s.SaveTable(ctx, sc.Coach, store.Table{Name: "South 1", Kind: odd}); err != nil {
		t.Fatal(err)
	}
	d := storetest.StandardDrill()
	d.Name, d.Kind, d.Window = "By the metre", odd, odd.StandardWindow()
	d.Setup = d.Setup.CarryToKind(table.NineFoot(), odd)
	d.Setup.Cue.X, d.Setup.Cue.Y = -25.3/2.54, odd.HeadString()-3.7/2.54
	d.Setup.Contact, d.Setup.Tip, d.Setup.Speed = 0.13, -0.13, 17.37
	if sc.Drill, err = s.SaveDrill(ctx, sc.Coach, store.DrillID{}, d); err != nil {
		t.Fatal(err)
	}
	if sc.Assignment, err = s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Class: sc.Class}); err != nil {
		t.Fatal(err)
	}
	var latest store.SetID
	for range 3 {
		latest = recordOddSet(t, sc, sc.StudentActor(0))
	}
	if err := s.IssueCard(ctx, sc.Coach, store.CardID{}, latest); err != nil {
		t.Fatal(err)
	}
	recordOddSet(t, sc, sc.StudentActor(2))
	elsewhere := sc // there the drill's places are carried in proportion
	if elsewhere.Table, err = s.SaveTable(ctx, sc.Coach, store.Table{Name: "South 2", Kind: table.Kind{Feet: 9, CornerMouth: 4.47, SideMouth: 5.03}}); err != nil {
		t.Fatal(err)
	}
	recordOddSet(t, elsewhere, sc.StudentActor(1))
	return sc
}

// recordOddSet records a set of odd breaks, closes it with the real adviser, and approves
// what it proposes.
func recordOddSet(t *testing.T, sc storetest.Scene, student store.Actor) store.SetID {
	t.Helper()
	set := closeOddSet(t, sc, student)
	if p := set.Prescription; p != nil && p.State == store.Proposed {
		if err := sc.Store.DecidePrescription(t.Context(), sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
			t.Fatal(err)
		}
	}
	return set.ID
}

func closeOddSet(t *testing.T, sc storetest.Scene, student store.Actor) store.Set {
	t.Helper()
	id := recordOddBreaks(t, sc, student)
	if err := sc.Store.CloseSet(t.Context(), student, id, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	set, err := sc.Store.GetSet(t.Context(), sc.Coach, id)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// recordOddBreaks starts a set and records seven misses at the side rail and three wing
// balls.
func recordOddBreaks(t *testing.T, sc storetest.Scene, student store.Actor) store.SetID {
	t.Helper()
	ctx, s := t.Context(), sc.Store
	set := sc.StartSet(t, student)
	for n := 1; n <= 10; n++ {
		b := drill.Break{
			Number: n, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: table.Inches(math.Round(-237+float64(n)*100/3) / 100), Y: 39.91}}, CuePath: drill.PathBack,
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
	return set.ID
}

// unlinked are pages that no link leads to: of a proposal that waits, of forms, and of the
// next break of an open set.
func unlinked(t *testing.T, sc storetest.Scene) (ofCoach, ofStudent []string) {
	t.Helper()
	waits := closeOddSet(t, sc, sc.StudentActor(1)).Prescription
	if waits == nil {
		t.Fatal("no proposal waits")
	}
	open := recordOddBreaks(t, sc, sc.StudentActor(0))
	return []string{"/prescriptions/" + waits.ID.String(), "/students/codes?students=" + sc.Students[1].ID.String()},
		[]string{"/my/leave", "/my/sets/" + open.String() + "/next"}
}

// What nobody would say: three places after the point, two of a long length, a
// speed or a share, a power of ten, and a plural of one.
var unsayable = regexp.MustCompile(`\de\+\d\d|\d+\.\d{3,}|\d+\.\d{2,} (in|inches|mph|cm|km/h|%)( (?:left|right|out|behind|past|from))?\b|(?i)\b(?:1|one) (?:breaks|sets|students|misses|changes|messages|tables|drills|cards)\b`)

// hundredths may be said of a hit, and of a pocket's mouth as the coach typed it.
var hundredths = regexp.MustCompile(`\d\.\d\d (?:in|inches)(?: to the)? (?:left|right)(?: of full)?|(?:corners|sides) \d\.\d\d in`)

// fitOfContact is what a finished fit says of the hit and its range: in hundredths, too.
var fitOfContact = regexp.MustCompile(`Contact, [a-z ]+ [-+−]?\d\.\d\d in [-+−]?\d\.\d\d in to [-+−]?\d\.\d\d in`)

// Every page that links lead to, read by a coach and by a student.
func TestPages_SayNoMoreFiguresThanACoachWould(t *testing.T) {
	t.Parallel()
	sc := oddClub(t)
	ofCoach, ofStudent := unlinked(t, sc)
	site := webtest.NewOverScene(t, sc)
	for who, client := range map[string]*webtest.Client{"coach": site.SignInCoach(t), "student": site.SignInStudent(t, sc.Students[0])} {
		more := map[string][]string{"coach": ofCoach, "student": ofStudent}[who]
		read := crawlPages(t, client, more...)
		for _, path := range more {
			if read[path] == "" {
				t.Errorf("the %s was not shown %s", who, path)
			}
		}
		for path, text := range read {
			requireSayable(t, who+", "+path, text)
		}
		for _, kind := range map[string][]string{
			"coach":   {"/sheet", "/codes", "/card", "/report", "/live", "/type", "/picture", "/progress", "/decided", "/leave", "/fit"},
			"student": {"/my/report", "/my/progress", "/my/card", "/my/training", "/my/sets"},
		}[who] {
			if !slices.ContainsFunc(slices.Collect(maps.Keys(read)), func(path string) bool { return strings.Contains(path, kind) }) {
				t.Errorf("the %s was not led to any page of %s", who, kind)
			}
		}
	}
}

// requireSayable looks at a text for numbers longer than a coach would say, and for
// counts that contradict the club's and so each other: all its sets are alike.
func requireSayable(t *testing.T, where, text string) {
	t.Helper()
	text = fitOfContact.ReplaceAllString(text, "")
	for _, found := range unsayable.FindAllStringIndex(text, -1) {
		if !hundredths.MatchString(text[max(0, found[0]-8):min(len(text), found[1]+20)]) {
			t.Errorf("%s: …%s…", where, text[max(0, found[0]-60):min(len(text), found[1]+40)])
		}
	}
	if strings.Contains(where, ", /drills") { // the counts there are goals
		return
	}
	text = goals.ReplaceAllString(text, "")
	for _, measure := range oddCounts {
		for _, found := range measure.pattern.FindAllStringSubmatchIndex(text, -1) {
			count, of := readCount(text[found[2]:found[3]]), readCount(text[found[4]:found[5]])
			if 10*count != measure.inTen*of {
				t.Errorf("%s says %d of %d: …%s…", where, count, of, text[max(0, found[0]-60):min(len(text), found[1]+40)])
			}
		}
	}
}

// oddCounts are what every set of the odd club has in ten breaks, and how that is said,
// in digits or in letters.
var oddCounts = []struct {
	pattern *regexp.Regexp
	inTen   int
}{
	{countPattern(`wing ball(?: fell| in its corner)?(?: in)?(?: only)?:?`), 3},
	{countPattern(`in the window(?: in)?:?`), 10},
	{countPattern(`dry breaks:?`), 7},
}

// goals are counts that are asked for, and not of what was seen; or of other balls than
// the wing ball.
var goals = regexp.MustCompile(`Good is [^.]*\.|beside the wing ball in \w+ of \w+`)

func countPattern(measure string) *regexp.Regexp {
	const count = `(\d+|none|one|two|three|four|five|six|seven|eight|nine|ten)`
	return regexp.MustCompile(`(?i)` + measure + ` ` + count + ` of ` + count + `\b`)
}

func readCount(text string) int {
	for n := range 11 {
		if say.Number(n) == strings.ToLower(text) {
			return n
		}
	}
	n, _ := strconv.Atoi(text)
	return n
}

// longTail is a number as no hand types it and no phone measures it.
var longTail = regexp.MustCompile(`-?\d+\.\d{5,}`)

var moment = regexp.MustCompile(`\d{4}-\d\d-\d\dT[\d:.]+(?:Z|[+-]\d\d:\d\d)?`)

// Every file that a club and its students can take away, and what a phone is sent:
// their words are as sayable as a page's, and a break log's numbers no longer than they
// were recorded. What the adviser computed stands in files whole, as data.
func TestFiles_SayNoMoreFiguresThanACoachWould(t *testing.T) {
	t.Parallel()
	sc := oddClub(t)
	site := webtest.NewOverScene(t, sc)
	coach, student, person := site.SignInCoach(t), site.SignInStudent(t, sc.Students[0]), sc.Students[0].ID.String()
	words := 0
	for path, client := range map[string]*webtest.Client{
		"/export": coach, "/export/struck": coach, "/club/file.zip": coach, "/students/" + person + "/everything": coach,
		"/my/export": student, "/my/everything": student, "/sync": student, "/calendar.ics": student,
	} {
		body := client.Get(t, path).RequireStatus(t, http.StatusOK).Text
		for name, text := range filesIn(t, path, body) {
			where := path + ", " + name
			if strings.HasSuffix(name, ".csv") {
				if tail := longTail.FindString(moment.ReplaceAllString(text, "")); tail != "" {
					t.Errorf("%s holds %s", where, tail)
				}
				continue
			}
			for _, found := range wordsIn(text) {
				requireSayable(t, where, moment.ReplaceAllString(found, ""))
				words++
			}
		}
	}
	if words < 500 {
		t.Errorf("only %d texts were read", words)
	}
}

// filesIn are the parts of a zip file, or the file itself, by name.
func filesIn(t *testing.T, path, body string) map[string]string {
	t.Helper()
	if !strings.HasPrefix(body, "PK") {
		name := path
		if strings.Contains(path, "export") {
			name += ".csv"
		}
		return map[string]string{name: body}
	}
	archive, err := zip.NewReader(strings.NewReader(body), int64(len(body)))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, part := range archive.File {
		open, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(open)
		if err != nil {
			t.Fatal(err)
		}
		files[part.Name] = string(text)
	}
	return files
}

// wordsIn are the texts within JSON, one value after another, or the text itself.
func wordsIn(text string) (words []string) {
	var walk func(any)
	walk = func(value any) {
		switch v := value.(type) {
		case string:
			words = append(words, v)
		case []any:
			for _, one := range v {
				walk(one)
			}
		case map[string]any:
			for _, one := range v {
				walk(one)
			}
		}
	}
	values := json.NewDecoder(strings.NewReader(text))
	for {
		var value any
		switch err := values.Decode(&value); {
		case errors.Is(err, io.EOF):
			return words
		case err != nil:
			return []string{text}
		}
		walk(value)
	}
}

// inchWords is a length or a speed in the units that a metric club does not read.
var inchWords = regexp.MustCompile(`\d (?:inches|inch|mph)\b|\d in (?:left|right|out|behind|past|from|of full|wider|narrower|longer|shorter|nearer|further)\b|(?:corners|sides) [\d.]+ in\b|(?i)\b(?:inches|miles an hour)\b`)

// A club that chose centimetres reads them on every page that links lead to. The pages
// of the club and of one's account name both, and the rules' own numbers stay as they are.
func TestPages_SpeakTheUnitsOfTheClub(t *testing.T) {
	t.Parallel()
	sc := oddClub(t)
	setUnits(t, sc, store.Centimetres)
	site := webtest.NewOverScene(t, sc)
	metric := 0
	ofCoach, ofStudent := unlinked(t, sc)
	for who, client := range map[string]*webtest.Client{"coach": site.SignInCoach(t), "student": site.SignInStudent(t, sc.Students[0])} {
		for path, text := range crawlPages(t, client, map[string][]string{"coach": ofCoach, "student": ofStudent}[who]...) {
			if path == "/club" || path == "/account" || strings.HasPrefix(path, "/rules") {
				continue
			}
			if found := inchWords.FindStringIndex(text); found != nil {
				t.Errorf("%s, %s: …%s…", who, path, text[max(0, found[0]-60):min(len(text), found[1]+40)])
			}
			metric += strings.Count(text, " cm") + strings.Count(text, " km/h")
		}
	}
	if metric < 50 {
		t.Errorf("only %d lengths and speeds were met", metric)
	}
}

func setUnits(t *testing.T, sc storetest.Scene, u store.UnitChoice) {
	t.Helper()
	club, err := sc.Store.GetClub(t.Context(), sc.Coach)
	if err != nil {
		t.Fatal(err)
	}
	club.Units = u
	if err := sc.Store.ChangeClub(t.Context(), sc.Coach, club); err != nil {
		t.Fatal(err)
	}
}

// crawlPages follows links from the first page, and from more of them, and returns the
// words of each page, without the model's own, whose constants are physics.
func crawlPages(t *testing.T, client *webtest.Client, more ...string) map[string]string {
	t.Helper()
	read, next := map[string]string{}, append([]string{"/"}, more...)
	for len(next) > 0 && len(read) < 300 {
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
