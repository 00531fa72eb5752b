package progress

import (
	"time"

	"breakwright/internal/density"
	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
)

// shownStintView is the stint that is drawn.
type shownStintView struct {
	Title string
	Cloud picture.CloudView
	// Wing is where the wing ball went.
	Wing []picture.RateView
	Of   string // which sets are drawn, where it is not all of them
}

// storyStep is one thing on the timeline: a stint, or a change that came of it.
type storyStep struct {
	Stint  *stintStoryStep
	Change *changeStoryStep
}

// stintStoryStep is a stint on the timeline.
type stintStoryStep struct {
	ID, When, Table, Show string
	// New says what is another than in the stint before it, a phrase a part.
	New  []string
	Wing picture.RateView
	Says string
	Sets []storySetLine
	// WordsBack are the student's own words after sets of it, the newest first.
	WordsBack []wordBackLine
	Hidden    int // older sets of it that are not listed
	Drawn     bool
}

// wordBackLine is a student's word after a set, with the set that it was said of.
type wordBackLine struct {
	Path, When, Word string
	Hurts            bool
}

type storySetLine struct{ Path, Title, When, Says, Verdict, Messages string }

// changeStoryStep is a prescription on the timeline.
type changeStoryStep struct {
	When, Reason, State, Mark, Note, Path string
	// Asked are the parts that it changes; Changes those that the reason does not say.
	Asked, Changes []string
	// Effect are the counts before and after, "" until there are any.
	Effect string
}

func (v Story) buildShownStint(history store.StudentProgress, zone *time.Location) *shownStintView {
	s := history.Shown
	if s == nil {
		return nil
	}
	d := &shownStintView{Title: formatSpan(s.First, s.Last, zone) + ", " + s.Table.Label()}
	d.Cloud = newCloud("cloud", "Where the cue ball stopped", *s)
	d.Wing = wingEndRates("shown", s.Tally)
	if len(s.Breaks) < s.Tally.Breaks {
		d.Of = "The picture shows the latest " + say.Count(len(s.Breaks), "break", "breaks") + " of " + say.Count(s.Tally.Breaks, "break", "breaks") + "; the bars count all."
	}
	return d
}

// wingEndRates are bars of where the wing ball went.
func wingEndRates(id string, n store.Tally) []picture.RateView {
	ends := []picture.RateView{newRate(id+"-made", "In its corner", n.WingMade, n.Watched)}
	for _, end := range []struct {
		key, words string
		n          int
	}{
		{"side", "Side rail first", n.MissSide}, {"foot", "Foot rail first", n.MissFoot}, {"kissed", "Kissed by another ball", n.MissKissed},
		{"jaws", "Rattled in the jaws", n.MissJaws}, {"unseen", "Elsewhere, or not seen how", n.MissUnseen()},
	} {
		if end.n > 0 {
			ends = append(ends, newRate(id+"-"+end.key, end.words, end.n, n.Watched))
		}
	}
	return ends
}

// buildSteps puts the stints and their changes on one line, the newest first.
func (v Story) buildSteps(history store.StudentProgress, zone *time.Location) []storyStep {
	var all []storyStep
	for i, x := range history.Stints {
		for _, p := range x.Changes {
			all = append(all, storyStep{Change: v.buildChangeStep(p, x, history.Stints[:i], zone)})
		}
		one := v.buildStintStep(x, zone)
		one.Drawn = history.Shown != nil && history.Shown.ID == x.ID
		if i+1 < len(history.Stints) {
			one.New = changedParts(history.Stints[i+1:], x, v.Units)
		}
		all = append(all, storyStep{Stint: one})
	}
	return all
}

// changedParts says what is new in a stint: the table, seen from the stint before it, and
// the parts of the setup, seen from the last on this kind of table.
func changedParts(before []store.ProgressStint, now store.ProgressStint, u say.Units) []string {
	var parts []string
	if before[0].Table.ID != now.Table.ID {
		parts = []string{"Another table: " + now.Table.Label()}
	}
	last := lastOnKind(before, now.Table.Kind)
	if last == nil {
		return parts
	}
	for _, words := range component.ChangeWords(last.Setup, now.Setup, now.Table.Kind, u) {
		parts = append(parts, say.Capitalize(words))
	}
	return parts
}

func (v Story) buildStintStep(x store.ProgressStint, zone *time.Location) *stintStoryStep {
	id := x.ID.String()
	one := &stintStoryStep{
		ID: id, When: formatSpan(x.First, x.Last, zone), Table: x.Table.Label(), Show: v.Path + "?stint=" + id + "#picture",
		Wing: withTarget(x.Targets.Wing, newRate("wing-"+id, "Wing ball in its corner", x.WingMade, x.Watched)),
		Says: say.Count(x.Sets, "set", "sets") + ". Cue ball in the window " + say.OfTotal(x.InWindow, x.Breaks) + ", scratches " +
			say.OfTotal(x.Scratches(), x.Breaks) + ", dry breaks " + say.OfWatched(x.Dry, x.Watched) + ".",
		Hidden: x.Sets - len(x.List),
	}
	for _, set := range x.List {
		line := storySetLine{
			Path: v.setPagePath(set.ID), When: say.MomentOfYear(set.Started.In(zone)), Verdict: say.Sentence(component.VerdictWords(set.Verdict)),
			Says: "Wing ball " + say.OfWatched(set.WingMade, set.Watched) + ", window " + say.OfTotal(set.InWindow, set.Breaks),
		}
		if set.Messages > 0 {
			line.Messages = say.Count(set.Messages, "message", "messages")
		}
		if set.WordBack != "" {
			one.WordsBack = append(one.WordsBack, wordBackLine{line.Path, line.When, string(set.WordBack), set.WordBack == store.Hurts})
		}
		one.Sets = append(one.Sets, line)
	}
	return one
}

// buildChangeStep tells a change: what was set and played, and what had been
// proposed where that was something else. later are the stints after the one it
// was made in.
func (v Story) buildChangeStep(p store.Prescription, from store.ProgressStint, later []store.ProgressStint, zone *time.Location) *changeStoryStep {
	record := p.Change()
	c := &changeStoryStep{When: say.Day(p.Created.In(zone)), Note: p.ShownNote(), Path: v.setPagePath(p.Set)}
	c.State, c.Mark = prescriptionStateWords(p)
	c.Reason = component.WhyWords(record, v.coachWords(), v.Units)
	for _, change := range component.ChangeWords(p.Before, p.After, from.Table.Kind, v.Units) {
		c.Asked = append(c.Asked, say.Capitalize(change))
	}
	if record.Proposed == (drill.Setup{}) { // else the reason says what was set
		c.Changes = c.Asked
	}
	c.Effect = component.CountsWords(p.Counts)
	if c.Effect == "" && !store.IsZero(p.FirstSet) {
		c.Effect = wingEffectWords(p, from, later)
	}
	return c
}

// wingEffectWords counts the wing ball before a change and under it, where the
// record has no counts of its own; "" before a set under it is closed, and where it was
// not watched.
func wingEffectWords(p store.Prescription, from store.ProgressStint, later []store.ProgressStint) string {
	for i := len(later) - 1; i >= 0; i-- { // the first after it
		if x := later[i]; x.Table.ID == from.Table.ID && x.Setup.SameAs(p.After) {
			if from.Watched == 0 || x.Watched == 0 {
				return ""
			}
			return "Wing ball in its corner: " + say.OfTotal(from.WingMade, from.Watched) + " before, then " + say.OfTotal(x.WingMade, x.Watched) + "."
		}
	}
	return ""
}

// coachWords names the coach to the reader.
func (v Story) coachWords() string {
	if v.You {
		return "your coach"
	}
	return "the coach"
}

// addBreakToCloud puts a break's cue ball into a picture.
func addBreakToCloud(c *picture.CloudView, b drill.Break, w table.Window) {
	switch b.Cue.How {
	case drill.Scratched:
		c.Scratches++
	case drill.OffTable:
		c.Off++
	default:
		c.Places = append(c.Places, b.Cue.Place)
		if b.InWindow(w) {
			c.InWindow++
		}
	}
}

// placesForAreas are enough to say where most stop by how crowded the cloth is, which
// follows two heaps or a bent one; of fewer an ellipse says it.
const placesForAreas = 60

// markWhereMostStop marks where most cue balls stop.
func markWhereMostStop(c *picture.CloudView) {
	if len(c.Places) < placesForAreas {
		c.Mean = scatterEllipse(c.Places)
		return
	}
	for _, a := range density.Areas(c.Places, c.Kind, 0.9, 0.5) {
		c.Areas = append(c.Areas, picture.CrowdArea(a))
	}
}

// scatterEllipse is the mean of places and the ellipse that holds about half of such a
// cloud; nil for fewer than five.
func scatterEllipse(places []table.Place) *picture.Ellipse {
	if len(places) < 5 {
		return nil
	}
	points := make([]evidence.Point, len(places))
	for i, p := range places {
		points[i] = evidence.Point{X: float64(p.X), Y: float64(p.Y)}
	}
	e := evidence.ScatterOf(points).EllipseHolding(0.5)
	return &picture.Ellipse{
		Centre: table.Place{X: table.Inches(e.Centre.X), Y: table.Inches(e.Centre.Y)},
		Major:  table.Inches(e.Major), Minor: table.Inches(e.Minor), AngleRadians: e.AngleRadians,
	}
}
