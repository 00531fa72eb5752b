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
	const most = 24
	var few map[string]int64
	for _, h := range []storetest.SimulatedHistory{
		{Students: 3, Sets: 14, Seed: 9, Until: time.Now()}, {Students: 40, Sets: 45, Seed: 10, Until: time.Now()},
	} {
		var queries storetest.Counter
		site, students := webtest.WithHistory(t, h, store.WithTracer(&queries))
		coach, mine := site.CoachIn(t), site.StudentIn(t, students[0])
		costs := map[string]int64{}
		for name, get := range map[string]func(){
			"desk":    func() { coach.Get(t, "/desk").Status(t, 200) },
			"class":   func() { coach.Get(t, classPath(site)+"/progress").Status(t, 200).Count(t, "tbody tr", h.Students+3) },
			"picture": func() { coach.Get(t, classPath(site)+"/picture").Status(t, 200) },
			"student": func() { coach.Get(t, "/students/"+students[0].ID.String()).Status(t, 200) },
			"mine":    func() { mine.Get(t, "/my/progress").Status(t, 200) },
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
