package report_test

import (
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// A report takes as many queries for forty students with long histories as for
// three with short ones, who is signed in included.
func TestReports_TakeAFixedNumberOfQueries(t *testing.T) {
	const most = 20
	var few map[string]int64
	for _, h := range []storetest.SimulatedHistory{
		{Students: 3, Sets: 14, Seed: 9, Until: time.Now()}, {Students: 40, Sets: 45, Seed: 10, Until: time.Now()},
	} {
		var queries storetest.Counter
		site, students := webtest.NewWithHistory(t, h, store.WithTracer(&queries))
		coach, mine := site.SignInCoach(t), site.SignInStudent(t, students[0])
		costs := map[string]int64{}
		for name, get := range map[string]func(){
			"class": func() {
				coach.Get(t, classReport(site)).RequireStatus(t, 200).RequireCount(t, ".report-rows tbody tr", h.Students+3)
			},
			"student": func() { coach.Get(t, studentReport(students[0])).RequireStatus(t, 200).RequireCount(t, "#cloud", 1) },
			"mine":    func() { mine.Get(t, "/my/report").RequireStatus(t, 200).RequireCount(t, "#cloud", 1) },
		} {
			costs[name] = queries.CountDuring(get)
		}
		t.Logf("%d students: %v", h.Students, costs)
		if few == nil {
			few = costs
		}
		for name, n := range costs {
			if n != few[name] || n == 0 || n > most {
				t.Errorf("%s takes %d queries for %d students and %d for few; %d is the most", name, n, h.Students, few[name], most)
			}
		}
	}
}
