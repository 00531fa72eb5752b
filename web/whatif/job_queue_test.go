package whatif

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/internal/whatif"
	"breakwright/web/page"
)

// small and long are questions that take next to nothing, and seconds.
func small(breaks int) whatif.Question {
	q := initialQuestion()
	q.Breaks = breaks
	return q
}

func long() whatif.Question { return small(whatif.MostBreaks) }

const forever = time.Minute

func awaitQuestion(t *testing.T, d *jobQueue, who string, q whatif.Question, patience time.Duration) ([]whatif.Answer, *jobProgress) {
	t.Helper()
	all, going, err := d.awaitAnswers(t.Context(), who, questionTasks([]whatif.Question{q}), patience)
	if err != nil {
		t.Fatal(err)
	}
	return questionAnswers(all), going
}

// idle waits until nothing is computed.
func idle(t *testing.T, d *jobQueue) {
	t.Helper()
	for end := time.Now().Add(forever); time.Now().Before(end); time.Sleep(time.Millisecond) {
		d.mu.Lock()
		jobs := len(d.jobs)
		d.mu.Unlock()
		if jobs == 0 && len(d.running) == 0 {
			return
		}
	}
	t.Fatal("it goes on computing")
}

func TestJobQueue_CachesAnswers(t *testing.T) {
	d := newJobQueue(time.Now)
	one, _ := awaitQuestion(t, d, "ines", small(10), forever)
	again, _ := awaitQuestion(t, d, "bram", small(10), 0)
	if len(again) != 1 || &again[0].Breaks[0] != &one[0].Breaks[0] {
		t.Fatal("the kept answer was computed again")
	}
	both, _, err := d.awaitAnswers(t.Context(), "ines", questionTasks([]whatif.Question{small(10), small(12)}), forever)
	two := questionAnswers(both)
	if err != nil || len(two) != 2 || &two[0].Breaks[0] != &one[0].Breaks[0] || len(two[1].Breaks) != 12 {
		t.Fatalf("two questions, one of them kept: %d answers, %v", len(two), err)
	}
}

func TestJobQueue_ReportsProgressAndStops(t *testing.T) {
	d := newJobQueue(time.Now)
	_, going := awaitQuestion(t, d, "ines", long(), 20*time.Millisecond)
	if going == nil || going.Total != whatif.MostBreaks || going.JobsAhead != 0 {
		t.Fatalf("%+v", going)
	}
	_, behind := awaitQuestion(t, d, "bram", small(11), time.Millisecond)
	if behind == nil || behind.JobsAhead != 1 {
		t.Fatalf("behind the first: %+v", behind)
	}
	d.leaveJob("ines", questionTasks([]whatif.Question{long()}))
	answers, _ := awaitQuestion(t, d, "bram", small(11), forever)
	if len(answers) != 1 {
		t.Fatal("the next question is not answered after the first was stopped")
	}
	if _, kept := d.cache.getAnswer(long().Key()); kept {
		t.Error("a stopped computation was kept")
	}
}

// One of two who wait for the same may go: it stops when the last one does.
func TestJobQueue_StopsWithTheLast(t *testing.T) {
	d := newJobQueue(time.Now)
	awaitQuestion(t, d, "ines", long(), time.Millisecond)
	awaitQuestion(t, d, "bram", long(), time.Millisecond)
	if len(d.jobs) != 1 {
		t.Fatalf("%d computations of one question", len(d.jobs))
	}
	d.leaveJob("ines", questionTasks([]whatif.Question{long()}))
	if _, going := awaitQuestion(t, d, "bram", long(), time.Millisecond); going == nil {
		t.Fatal("stopped though somebody waits")
	}
	d.leaveJob("bram", questionTasks([]whatif.Question{long()}))
	idle(t, d)
}

func TestJobQueue_StopsWhenTheRequestGoes(t *testing.T) {
	d := newJobQueue(time.Now)
	ctx, leave := context.WithCancel(t.Context())
	time.AfterFunc(20*time.Millisecond, leave)
	if _, _, err := d.awaitAnswers(ctx, "ines", questionTasks([]whatif.Question{long()}), forever); !errors.Is(err, context.Canceled) {
		t.Fatalf("ended with %v", err)
	}
	idle(t, d)
}

// Whoever closes the window without a word is believed for a lease.
func TestJobQueue_StopsWhenNobodyAsksAgain(t *testing.T) {
	d := newJobQueue(time.Now)
	d.lease = 40 * time.Millisecond
	awaitQuestion(t, d, "ines", long(), time.Millisecond)
	idle(t, d)
}

func TestJobQueue_RejectsWhenFull(t *testing.T) {
	d := newJobQueue(time.Now)
	for i := range maxJobs {
		awaitQuestion(t, d, "ines", small(whatif.MostBreaks-i), time.Millisecond)
	}
	if _, _, err := d.awaitAnswers(t.Context(), "bram", questionTasks([]whatif.Question{small(9)}), time.Millisecond); !errors.Is(err, errQueueFull) {
		t.Errorf("question number %d: %v", maxJobs+1, err)
	}
	for i := range maxJobs {
		d.leaveJob("ines", questionTasks([]whatif.Question{small(whatif.MostBreaks - i)}))
	}
	idle(t, d)
}

func TestCache_IsBounded(t *testing.T) {
	c := newAnswerCache()
	put := func(n int) whatif.Question {
		q := small(n)
		c.putAnswer(q.Key(), whatif.Answer{Question: q}, n)
		return q
	}
	oldest, used := put(15_000), put(14_000)
	put(9_000)
	c.getAnswer(oldest.Key())
	newest := put(8_000)
	if c.weight > maxCachedBreaks {
		t.Errorf("%d breaks are kept", c.weight)
	}
	for _, q := range []whatif.Question{oldest, newest} {
		if _, kept := c.getAnswer(q.Key()); !kept {
			t.Errorf("the answer of %d breaks is gone", q.Breaks)
		}
	}
	if _, kept := c.getAnswer(used.Key()); kept {
		t.Error("the one asked for longest ago is still kept")
	}
}

// An address shows what it asks, for every game, table and side.
func TestFields_ThereAndBack(t *testing.T) {
	for _, g := range rack.Games() {
		for _, side := range []table.Side{table.Left, table.Right} {
			for _, k := range table.Sizes() {
				k.CornerMouth, k.SideMouth = 4.25, 5.125
				q := newQuestion(drill.StandardSetup(g, side, k), k, k.StandardWindow())
				q.Setup.Contact, q.Setup.Tip, q.Setup.Spin = -0.15, 0.05, 0.1
				q.Scatter.Aim, q.Scatter.Gap = 0.33, 0.02
				q = q.Canonical()
				was := small(q.Breaks)
				f := &page.Form{Values: pageQuery{Now: q, Was: &was, Show: 4}.queryValues()}
				got := readPageQuery(f)
				if !f.IsValid() || got.Now != q || got.Was == nil || *got.Was != was || got.Show != 4 {
					t.Errorf("%s from the %s on %s feet: %v\n%+v\n%+v", g, side, k.Size(), f.Problems, got.Now, q)
				}
			}
		}
	}
}

func TestFollow_MirrorsChangesGameAndTable(t *testing.T) {
	q := initialQuestion()
	q.Setup.Contact, q.Setup.Cue.X = -0.2, -10
	q.Window.Left = -20
	sent := func(pairs ...string) *page.Form {
		f := &page.Form{Values: questionValues(q, say.InchesAndMiles)}
		for now, before := range map[string]string{fieldSide: shownSide, fieldGame: shownGame, fieldFeet: shownFeet} {
			f.Values.Set(before, f.Values.Get(now))
		}
		for i := 0; i < len(pairs); i += 2 {
			f.Values.Set(pairs[i], pairs[i+1])
		}
		return f
	}
	f := sent()
	if got := readQuestion(f); got != q.Canonical() || choicesChanged(f, got) {
		t.Errorf("nothing was changed: %+v", got)
	}
	f = sent(fieldSide, "right")
	if got := readQuestion(f); got != q.Mirror().Canonical() || !choicesChanged(f, got) {
		t.Errorf("from the right: %+v", got)
	}
	f = sent(fieldGame, string(rack.TenBall))
	got := readQuestion(f)
	if got.Setup.Order != rack.TenBall.PracticeOrder(table.Left) || got.Setup.Cue != q.Setup.Cue || !f.IsValid() {
		t.Errorf("ten-ball: %+v %v", got, f.Problems)
	}
	f = sent(fieldFeet, "7")
	got = readQuestion(f)
	if got.Kind.Feet != 7 || got.Setup.Cue.X != -7.8 || got.Window != table.SevenFoot().StandardWindow() || !f.IsValid() {
		t.Errorf("7 feet: %+v %v", got, f.Problems)
	}
	// Nothing follows while something else cannot be read.
	f = sent(fieldSide, "right", fieldTip, "low")
	if got := readQuestion(f); got.Setup.Side != table.Left || f.ErrorFor(fieldTip) == "" {
		t.Errorf("with a tip of %q: %+v", "low", got)
	}
}

func TestFields_RefuseWhatCannotBe(t *testing.T) {
	for _, c := range []struct{ field, typed string }{
		{fieldCueAcross, "-3"}, {fieldCueAcross, "1e9"}, {fieldCueAcross, "NaN"}, {fieldCueBehind, "11"}, {fieldContact, "0.6"},
		{fieldTip, "half"}, {fieldTip, "Inf"}, {fieldSpin, "<script>"}, {fieldSpeed, ""}, {fieldSpeed, "60"},
		{fieldOrder, "1-1-1"}, {fieldOrder, strings.Repeat("9", 300)}, {fieldCornerMouth, "3"}, {fieldSideMouth, "🎱"},
		{fieldBreakCount, "0"}, {fieldBreakCount, "1000000"}, {fieldBreakCount, "-1"}, {fieldGame, "snooker"}, {fieldFeet, "12"}, {fieldSide, "up"},
	} {
		f := &page.Form{Values: questionValues(initialQuestion(), say.InchesAndMiles)}
		f.Values.Set(c.field, c.typed)
		readPageQuery(f)
		if f.ErrorFor(c.field) == "" {
			t.Errorf("%s %q is not refused: %v", c.field, c.typed, f.Problems)
		}
	}
	for _, c := range []struct{ field, typed string }{{fieldScatterAim, "9"}, {fieldScatterSpeed, "-1"}, {fieldScatterTip, "x"}, {fieldScatterPlace, "NaN"}, {fieldScatterGap, "2"}} {
		f := &page.Form{Values: questionValues(initialQuestion(), say.InchesAndMiles)}
		f.Values.Set(fieldHands, levelOwn)
		f.Values.Set(fieldRack, levelOwn)
		f.Values.Set(c.field, c.typed)
		readPageQuery(f)
		if f.ErrorFor(c.field) == "" {
			t.Errorf("%s %q is not refused: %v", c.field, c.typed, f.Problems)
		}
	}
	// Another decimal point and a true minus sign are what they mean.
	f := &page.Form{Values: questionValues(initialQuestion(), say.InchesAndMiles)}
	f.Values.Set(fieldTip, "−0,15")
	if got := readPageQuery(f); !f.IsValid() || got.Now.Setup.Tip != -0.15 {
		t.Errorf("−0,15 is read as %v: %v", got.Now.Setup.Tip, f.Problems)
	}
}

// Words and levels agree with the numbers they stand for.
func TestLevels(t *testing.T) {
	s := usualScatter()
	if handLevelName(s) != "practised" || rackLevelName(s) != "usual" {
		t.Errorf("the usual hands are %s, the rack %s", handLevelName(s), rackLevelName(s))
	}
	s.Aim += 0.01
	if handLevelName(s) != levelOwn || rackLevelName(s) != "usual" {
		t.Errorf("own hands are called %s", handLevelName(s))
	}
	f := &page.Form{Values: questionValues(initialQuestion(), say.InchesAndMiles)}
	f.Values.Set(fieldHands, "steady")
	f.Values.Set(fieldRack, "loose")
	got := readPageQuery(f).Now.Scatter
	want := handLevels()[0].Scatter
	want.Gap = rackLevels()[2].Scatter.Gap
	if got != want {
		t.Errorf("steady hands and a loose rack: %+v", got)
	}
}
