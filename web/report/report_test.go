package report_test

import (
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/progress"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

func classReport(site *webtest.Site) string { return "/classes/" + site.Class.String() + "/report" }

func studentReport(who store.Person) string { return "/students/" + who.ID.String() + "/report" }

// row is the text of each cell of the row with that heading.
func row(t *testing.T, p *webtest.Page, name string) (words string) {
	t.Helper()
	for i := range p.FindAll(t, ".report-rows tbody tr") {
		line := fmt.Sprintf(".report-rows tbody tr:nth-child(%d)", i+1)
		if p.TextOf(t, line+" th") == name {
			return p.TextOf(t, line)
		}
	}
	t.Fatalf("no row of %s", name)
	return ""
}

// Every number of a class report is the one that is stored, and the likely rate
// is that of the one model.
func TestClass_SaysWhatIsStored(t *testing.T) {
	site, _ := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 6, Sets: 14, Seed: 1, Until: time.Now()})
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 10), -16)
	_, all, err := site.Store.GetClassProgress(t.Context(), site.Coach, site.Class)
	if err != nil {
		t.Fatal(err)
	}
	members := make([]progress.CountedMember, len(all))
	for i, one := range all {
		if one.Stint != nil {
			members[i] = progress.CountedMember{Kind: one.Stint.Table.Kind, Count: evidence.Count{Made: one.Stint.WingMade, Tried: one.Stint.Breaks}}
		}
	}
	likely := progress.RankMembers(members)
	p := site.SignInCoach(t).Get(t, classReport(site)+"?time=all").RequireStatus(t, http.StatusOK).RequireCount(t, ".report-rows tbody tr", 9)
	p.RequireText(t, "h1", "Thursday evening").RequireText(t, ".report-head", "Harbour Lane", time.Now().UTC().Format("2 January 2006"))
	p.RequireText(t, ".report-when", "7 of 9 students closed a set in this time: 85 sets, 850 breaks.")
	p.RequireText(t, ".report-list", "Find the wing ball", "7 of 9 have closed a set of it").RequireText(t, ".pic-key", "the rate seen", "where the true rate may lie")
	for i, one := range all {
		says := row(t, p, one.Name)
		if one.Stint == nil {
			if !strings.Contains(says, "0 Not done yet") {
				t.Errorf("%s, who broke nothing, is said %q", one.Name, says)
			}
			continue
		}
		x := one.Stint
		interval := evidence.JeffreysInterval(x.WingMade, x.Breaks, 0.95)
		for _, want := range []string{
			one.Name + " " + strconv.Itoa(x.SetsBefore+x.Sets) + " ", fmt.Sprintf("%d of %d", x.WingMade, x.Breaks),
			fmt.Sprintf("%.0f to %.0f %%", 100*interval.Low, 100*interval.High), fmt.Sprintf(" %.0f %% ", 100*likely[i].Rate),
			fmt.Sprintf("%d of %d %d of %d %d of %d", x.InWindow, x.Breaks, x.Scratches(), x.Breaks, x.Dry, x.Breaks),
		} {
			if !strings.Contains(says, want) {
				t.Errorf("the row of %s is %q, without %q", one.Name, says, want)
			}
		}
		if drawn := len(p.FindAll(t, "#s-"+one.ID.String()+" text")); drawn != min(len(one.Recent), 8) {
			t.Errorf("%s: %d sets drawn", one.Name, drawn)
		}
		at, err := strconv.ParseFloat(strings.TrimSuffix(p.AttributeOf(t, "#w-"+one.ID.String()+" .pic-seen", "x"), "%"), 64)
		if rate := 100 * float64(x.WingMade) / float64(x.Breaks); err != nil || math.Abs(at-rate) > 0.06 {
			t.Errorf("%s: %d of %d is drawn at %v %%", one.Name, x.WingMade, x.Breaks, at)
		}
	}
}

// The time that sets are counted in is in days of the club, and changes nothing
// of where students stand.
func TestClass_CountsTheSetsOfATime(t *testing.T) {
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 1, Sets: 60, Seed: 2, Until: time.Now()})
	coach := site.SignInCoach(t)
	sets, err := site.Store.ListSets(t.Context(), site.Coach, students[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	today := time.Now().UTC().Truncate(24 * time.Hour)
	in := 0
	for _, set := range sets {
		if !set.Started.Before(today.AddDate(0, 0, -27)) {
			in++
		}
	}
	if in < 10 || in >= 60 {
		t.Fatalf("%d of %d sets in four weeks: the history tests nothing", in, len(sets))
	}
	month := coach.Get(t, classReport(site)).RequireStatus(t, http.StatusOK)
	if says := row(t, month, students[0].Name); !strings.HasPrefix(says, fmt.Sprintf("%s %d of 60 ", students[0].Name, in)) {
		t.Errorf("four weeks, with %d sets, are said %q", in, says)
	}
	month.RequireText(t, ".report-when", today.AddDate(0, 0, -27).Format("2 January"), "1 of 4 students", fmt.Sprintf("%d sets, %d breaks", in, 10*in))
	all := coach.Get(t, classReport(site)+"?time=all").RequireText(t, ".report-when", "From the first set to", "60 sets, 600 breaks")
	if says := row(t, all, students[0].Name); !strings.HasPrefix(says, students[0].Name+" 60 ") {
		t.Errorf("all so far is said %q", says)
	}
	odd := coach.Get(t, classReport(site)+"?time=%F0%9F%8E%B1&paper=%00").RequireStatus(t, http.StatusOK)
	odd.RequireText(t, ".report-when", fmt.Sprintf("%d sets", in))
}

// The paper is the one asked for, else the one usual where the browser is from.
func TestPaper_IsAskedForOrUsual(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	for _, c := range []struct{ query, language, want string }{
		{"", "", "a4"}, {"", "en-US,en;q=0.9", "letter"}, {"", "es-MX", "letter"}, {"", "zh-Hant-TW", "a4"}, {"", "de-DE,en-US", "a4"},
		{"?paper=a4", "en-US", "a4"}, {"?paper=letter", "de-DE", "letter"}, {"?paper=b5", "fr-CA", "letter"}, {"", "-,;us", "a4"},
	} {
		p := coach.SendWithHeaders(t, http.MethodGet, classReport(site)+c.query, nil, map[string]string{"Accept-Language": c.language})
		p.RequireStatus(t, http.StatusOK).RequireCount(t, "article.report-"+c.want, 1)
		styles := 0
		for _, n := range p.FindAll(t, "link[rel=stylesheet]") {
			for _, a := range n.Attr {
				if a.Key == "href" && strings.Contains(a.Val, "report-"+c.want+".") {
					styles++
				}
			}
		}
		if checked := p.AttributeOf(t, "input[name=paper][checked]", "value"); checked != c.want || styles != 1 {
			t.Errorf("%q in %q: %s is chosen, and %d stylesheets are %s's", c.query, c.language, checked, styles, c.want)
		}
	}
}

// A class without students, without sets, and of one student.
func TestClass_EmptyAndSmall(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	none := coach.Get(t, classReport(site)).RequireStatus(t, http.StatusOK).RequireCount(t, ".report-rows tbody tr", 3)
	none.RequireText(t, ".answer", "Nobody of this class has done a set yet").RequireText(t, ".report-when", "3 students; no set closed in this time.").RequireCount(t, "#says", 0).RequireCount(t, ".pic-key", 0)
	name := "<b>New</b> 🎱" + strings.Repeat("n", 90)
	empty, err := site.Store.SaveClass(t.Context(), site.Coach, store.Class{Name: name})
	if err != nil {
		t.Fatal(err)
	}
	path := "/classes/" + empty.String() + "/report"
	coach.Get(t, path).RequireStatus(t, http.StatusOK).RequireText(t, "h1", name).RequireText(t, ".report-when", "No students yet").RequireCount(t, "table", 0)
	site.ChangeStudents(t, store.RosterChange{Kind: store.AddToClass, Class: empty}, site.Students[0].ID)
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 10), -18)
	one := coach.Get(t, path).RequireCount(t, ".report-rows tbody tr", 1).RequireText(t, ".report-when", "1 of 1 student closed a set in this time: 1 set, 10 breaks.")
	one.RequireText(t, ".report-rows", "Odile", "5 of 10", "22 to 78 %").RequireText(t, "#says ~ ul", "1 of 1 student has fewer than 20 breaks")
	one.RequireText(t, "#work ~ p", "No drill is given")
	for _, junk := range []string{uuid.NewString(), "x"} {
		coach.Get(t, "/classes/"+junk+"/report").RequireStatus(t, http.StatusNotFound)
		coach.Get(t, "/students/"+junk+"/report").RequireStatus(t, http.StatusNotFound)
	}
}

// What others broke, and where, is said to be another measure.
func TestClass_OtherTablesAreMarked(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	for i := range 2 {
		site.CloseSet(t, site.StudentActor(i), site.RecordBreaks(t, site.StudentActor(i), 10), -18)
	}
	small, err := site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	set, err := site.Store.StartSet(t.Context(), site.StudentActor(2), store.NewSet{Assignment: site.Assignment, Table: small.ID})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := site.Store.SaveBreak(t.Context(), site.StudentActor(2), set.ID, store.Break{
		ID: store.NewID[store.BreakID](), Revision: 1, Break: drill.Break{Number: 1, Cue: drill.CueEnd{How: drill.OffTable}},
	}); err != nil {
		t.Fatal(err)
	}
	site.CloseSet(t, site.StudentActor(2), set.ID, set.Setup.Cue.X)
	p := site.SignInCoach(t).Get(t, classReport(site)).RequireStatus(t, http.StatusOK)
	p.RequireText(t, ".answer", "10 of 20", "1 student breaks on other tables").RequireText(t, ".report-says", "no more than luck alone", "compared only with each other")
	if says := row(t, p, "Wen"); !strings.Contains(says, "not in the class total") || strings.Contains(row(t, p, "Odile"), "not in the class total") {
		t.Errorf("Wen's row is %q", says)
	}
}

// The reports are found from the pages they are about.
func TestReports_AreLinkedTo(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 10), -18)
	coach, mine := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	of := "/students/" + site.Students[0].ID.String()
	for _, c := range []struct {
		who        *webtest.Client
		page, path string
	}{
		{coach, "/classes/" + site.Class.String() + "/progress", classReport(site)},
		{coach, of, of + "/report"}, {mine, "/my/progress", "/my/report"},
	} {
		c.who.Get(t, c.page).RequireCount(t, `main a[href="`+c.path+`"]`, 1)
		back := c.who.Get(t, c.path).RequireStatus(t, http.StatusOK).AttributeOf(t, ".trail a", "href")
		if back != c.page {
			t.Errorf("%s leads back to %s, not to %s", c.path, back, c.page)
		}
	}
}
