package say

import (
	"encoding/json"
	"reflect"
	"testing"
)

func check(t *testing.T, s Statement, r Reader, want string) {
	t.Helper()
	if got := s.Text(r); got != want {
		t.Errorf("%s is said %q, want %q", s.Kind, got, want)
	}
}

// The same facts, to the student, to a coach and on paper.
func TestText_SpeaksToTheReader(t *testing.T) {
	for _, c := range []struct {
		statement               Statement
		student, coach, anybody string
	}{
		{
			Statement{Kind: NoRoomLeft, About: "The cue ball runs forward"},
			"Keep the setup for now. The cue ball runs forward: what the rules know to change has no room left, so your coach should look.",
			"Keep the setup for now. The cue ball runs forward: what the rules know to change has no room left, so it is for you to look.",
			"Keep the setup for now. The cue ball runs forward: what the rules know to change has no room left, so the coach should look.",
		},
		{
			Statement{Kind: Caution, About: "third time"},
			"This is the third time: stop power breaks for today and speak with your coach.",
			"This is the third time: stop power breaks for today and speak with the student.",
			"This is the third time: stop power breaks for today and speak with the coach.",
		},
		{
			Statement{Kind: DoChange, Part: "speed", From: 18, By: -1, To: 17, Yes: true},
			"Break softer than your own speed: about 17 mph.",
			"Break softer than the student’s own speed: about 17 mph.",
			"Break softer than the student’s own speed: about 17 mph.",
		},
		{
			Statement{Kind: MeasuredSpeed, From: 18, To: 20.2, Count: 9, Of: 10, Yes: true},
			"In the last set the speed was measured in 9 of 10 breaks, the middle one 20.2 mph where 18 mph was asked: break as fast as is asked, or tell your coach that you do not.",
			"In the last set the speed was measured in 9 of 10 breaks, the middle one 20.2 mph where 18 mph was asked: have them break as fast as is asked, or ask for what they break.",
			"In the last set the speed was measured in 9 of 10 breaks, the middle one 20.2 mph where 18 mph was asked: break as fast as is asked.",
		},
		{
			Statement{Kind: Because, About: "slot goes back", Parts: []Statement{{Kind: Finding, About: "no-shot", Count: 7, Of: 9}}},
			"No shot on the lowest ball after seven of nine good breaks: your own breaks send that slot's ball to the head end.",
			"No shot on the lowest ball after seven of nine good breaks: the student’s own breaks send that slot's ball to the head end.",
			"No shot on the lowest ball after seven of nine good breaks: the student’s own breaks send that slot's ball to the head end.",
		},
	} {
		check(t, c.statement, Reader{}, c.student)
		check(t, c.statement, Reader{Who: Coach}, c.coach)
		check(t, c.statement, Reader{Who: Anybody}, c.anybody)
	}
}

// Typed in on another table, or carried over, a number can have any tail: it is
// rounded where it is said.
func TestText_NoMoreFiguresThanACoachWouldSay(t *testing.T) {
	for want, statement := range map[string]Statement{
		"Move the cue ball three inches out, toward the side rail.":                                                                               {Kind: DoChange, Part: "place", By: 2.960000000000001},
		"Move the cue ball 2.3 inches in, toward the head spot.":                                                                                  {Kind: DoChange, Part: "place", By: -2.3400000001},
		"Send the cue ball 0.33 of an inch away from the break side: 0.13 of an inch off full, on the far side.":                                  {Kind: DoChange, Part: "contact", By: 1.0 / 3, To: 0.1299999},
		"Break a little harder: 18 mph instead of 16.":                                                                                            {Kind: DoChange, Part: "speed", From: 16, By: 2, To: 18},
		"Break harder: 19 mph instead of 16.":                                                                                                     {Kind: DoChange, Part: "speed", From: 16, By: 3, To: 19},
		"Break softer: 16.4 mph instead of 17.6.":                                                                                                 {Kind: DoChange, Part: "speed", From: 17.6000001, By: -1.2, To: 16.399999},
		"Strike about half a tip lower: at a quarter of a tip below centre.":                                                                      {Kind: DoChange, Part: "tip", By: -0.21, To: -0.1333333},
		"Between the places tried, about 16.4 inches from the long string looks best so far. Searching further can win little.":                   {Kind: BestPlace, To: 16.38, Way: 1, Yes: true},
		"A place further in than any tried promises most: about ½ diamond (5 in) from the middle.":                                                {Kind: BestPlace, To: 5, Diamond: 12.5, About: "further in"},
		"A place further out than any tried may do a little better: about 1½ diamonds (19 in) from the middle. Searching further can win little.": {Kind: BestPlace, To: 19, Diamond: 12.5, About: "further out", Yes: true},
	} {
		check(t, statement, Reader{}, want)
	}
}

// A club may speak in centimetres and kilometres an hour: 1 in is 2.54 cm and 1
// mph 1.609344 km/h, both exact (the yard and mile of 1959).
func TestText_Metric(t *testing.T) {
	metric := Reader{Units: Metric}
	check(t, Statement{Kind: DoChange, Part: "place", By: 6}, metric, "Move the cue ball 15 cm out, toward the side rail.")
	check(t, Statement{Kind: DoChange, Part: "contact", By: -0.2, To: -0.2}, metric,
		"Send the cue ball 5 mm off full, on the break side.")
	check(t, Statement{Kind: DoChange, Part: "speed", From: 20, By: -2, To: 18}, metric, "Break softer: 29 km/h instead of 32.")
	check(t, Statement{Kind: DoChange, Part: "tip", By: 0.2, To: -0.1}, metric,
		"Strike about half a tip higher: at a quarter of a tip below centre.")
}

func TestText_WordsKeptWithoutFactsAreSaidAsTheyWere(t *testing.T) {
	for _, who := range []Who{Student, Coach, Anybody} {
		check(t, KeptWords("Break softer."), Reader{Who: who}, "Break softer.")
		check(t, Statement{}, Reader{Who: who}, "")
	}
}

// What is kept comes back with every fact.
func TestStatement_IsKeptWhole(t *testing.T) {
	s := Statement{
		Kind: Weighed, About: "tip more", Count: 1, Of: 2, Since: 3, OfSince: 4, Part: "tip", From: -0.3, By: 0.2, To: -0.1,
		Order: "1 2", Rate: 0.5, Way: -1, Yes: true, Others: []string{"speed"},
		Parts: []Statement{{Kind: Sign, About: "cue back", Count: 3, Of: 10}},
	}
	text, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var back Statement
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(back, s) {
		t.Errorf("%s comes back as %+v", text, back)
	}
	want := "The cue ball stopped on its way straight back in three of ten: the tip strikes too low. It could also be the speed."
	check(t, back, Reader{}, want)
}
