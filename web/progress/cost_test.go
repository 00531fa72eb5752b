package progress_test

import (
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// A page takes as many queries for forty students with long histories as for
// three with short ones, who is signed in included.
func TestPages_TakeAFixedNumberOfQueries(t *testing.T) {
	// The page of a student is the costliest: their story, and what comes next as they see it.
	const most = 36
	var few map[string]int64
	for _, h := range []storetest.SimulatedHistory{
		{Students: 3, Sets: 14, Seed: 9, Until: time.Now()}, {Students: 40, Sets: 45, Seed: 10, Until: time.Now()},
	} {
		var queries storetest.Counter
		site, students := webtest.NewWithHistory(t, h, store.WithTracer(&queries))
		coach, mine := site.SignInCoach(t), site.SignInStudent(t, students[0])
		costs := map[string]int64{}
		for name, get := range map[string]func(){
			"desk": func() { coach.Get(t, "/desk").RequireStatus(t, 200) },
			"class": func() {
				coach.Get(t, classPath(site)+"/progress").RequireStatus(t, 200).RequireCount(t, "tbody tr", h.Students+3)
			},
			"picture": func() { coach.Get(t, classPath(site)+"/picture").RequireStatus(t, 200) },
			"student": func() { coach.Get(t, "/students/"+students[0].ID.String()).RequireStatus(t, 200) },
			"mine":    func() { mine.Get(t, "/my/progress").RequireStatus(t, 200) },
		} {
			costs[name] = queries.CountDuring(get)
		}
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
