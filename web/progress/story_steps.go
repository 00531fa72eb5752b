package progress

import (
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
)

// shown is the stint that is drawn.
type shown struct {
	Title string
	Cloud picture.CloudView
	// Wing is where the wing ball went.
	Wing []picture.RateView
	Of   string // which sets are drawn, where it is not all of them
}

// step is one thing on the timeline: a stint, or a change that came of it.
type step struct {
	Stint  *stintStep
	Change *changeStep
}

// stintStep is a stint on the timeline.
type stintStep struct {
	ID, When, Table, Show string
	// New says what is another than in the stint before it, a phrase a part.
	New    []string
	Wing   picture.RateView
	Says   string
	Sets   []setLine
	Hidden int // older sets of it that are not listed
	Drawn  bool
}

type setLine struct{ Path, When, Says, Verdict, Messages string }

// changeStep is a prescription on the timeline.
type changeStep struct {
	When, Reason, State, Mark, Note, Path string
	Changes                               []string
	// Effect are the counts before and after, "" until there are any.
	Effect string
}

func (v Story) shown(told store.StudentProgress, zone *time.Location) *shown {
	s := told.Shown
	if s == nil {
		return nil
	}
	d := &shown{Title: span(s.First, s.Last, zone) + ", " + s.Table.Label()}
	d.Cloud = cloud("cloud", "Where the cue ball stopped", *s)
	d.Wing = wingEnds("shown", s.Tally)
	if len(s.Breaks) < s.Tally.Breaks {
		d.Of = "The picture shows the latest " + count(len(s.Breaks), "break", "breaks") + " of " + count(s.Tally.Breaks, "break", "breaks") + "; the bars count all."
	}
	return d
}

// wingEnds are bars of where the wing ball went.
func wingEnds(id string, n store.Tally) []picture.RateView {
	ends := []picture.RateView{rate(id+"-made", "In its corner", n.WingMade, n.Breaks)}
	for _, end := range []struct {
		key, words string
		n          int
	}{
		{"side", "Side rail first", n.MissSide}, {"foot", "Foot rail first", n.MissFoot}, {"kissed", "Kissed by another ball", n.MissKissed},
		{"jaws", "Rattled in the jaws", n.MissJaws}, {"unseen", "Elsewhere, or not seen how", n.MissUnseen()},
	} {
		if end.n > 0 {
			ends = append(ends, rate(id+"-"+end.key, end.words, end.n, n.Breaks))
		}
	}
	return ends
}

// steps puts the stints and their changes on one line, the newest first.
func (v Story) steps(told store.StudentProgress, zone *time.Location) []step {
	var all []step
	for i, x := range told.Stints {
		for _, p := range x.Changes {
			all = append(all, step{Change: v.changeStep(p, x, told.Stints[:i], zone)})
		}
		one := v.stintStep(x, zone)
		one.Drawn = told.Shown != nil && told.Shown.ID == x.ID
		if i+1 < len(told.Stints) {
			one.New = newParts(told.Stints[i+1].Stint, x.Stint)
		}
		all = append(all, step{Stint: one})
	}
	return all
}

func newParts(before, now store.Stint) []string {
	if before.Table.ID != now.Table.ID {
		return []string{"Another table: " + now.Table.Label()}
	}
	changes := component.ChangeWords(before.Setup, now.Setup, now.Table.Kind)
	for i := range changes {
		changes[i] = component.Capitalize(changes[i])
	}
	return changes
}

func (v Story) stintStep(x store.ProgressStint, zone *time.Location) *stintStep {
	id := x.ID.String()
	one := &stintStep{
		ID: id, When: span(x.First, x.Last, zone), Table: x.Table.Label(), Show: v.Path + "?stint=" + id + "#picture",
		Wing: against(x.Targets.Wing, rate("wing-"+id, "Wing ball in its corner", x.WingMade, x.Breaks)),
		Says: count(x.Sets, "set", "sets") + ". Cue ball in the window " + ofWords(x.InWindow, x.Breaks) + ", scratches " +
			ofWords(x.Scratches(), x.Breaks) + ", dry breaks " + ofWords(x.Dry, x.Breaks) + ".",
		Hidden: x.Sets - len(x.List),
	}
	for _, set := range x.List {
		line := setLine{
			Path: v.setPath(set.ID), When: set.Started.In(zone).Format("2 January 2006, 15:04"), Verdict: verdictWords(set.Verdict),
			Says: "Wing ball " + ofWords(set.WingMade, set.Breaks) + ", window " + ofWords(set.InWindow, set.Breaks),
		}
		if set.Messages > 0 {
			line.Messages = count(set.Messages, "message", "messages")
		}
		one.Sets = append(one.Sets, line)
	}
	return one
}

// changeStep tells a change. later are the stints after the one it came of.
func (v Story) changeStep(p store.Prescription, from store.ProgressStint, later []store.ProgressStint, zone *time.Location) *changeStep {
	c := &changeStep{When: day(p.Created, zone), Reason: v.said(p.Reason), Note: p.DecisionNote, Path: v.setPath(p.Set)}
	c.State, c.Mark = stateWords(p)
	for _, change := range component.ChangeWords(p.Before, p.After, from.Table.Kind) {
		c.Changes = append(c.Changes, component.Capitalize(change))
	}
	switch p.State {
	case store.InTrial, store.Helped, store.NoDifference, store.Hurt:
	default:
		return c
	}
	for i := len(later) - 1; i >= 0; i-- { // the first after it
		if x := later[i]; x.Table.ID == from.Table.ID && x.Setup.SameAs(p.After) {
			c.Effect = "Wing ball in its corner: " + ofWords(from.WingMade, from.Breaks) + " before, " + ofWords(x.WingMade, x.Breaks) + " since."
			break
		}
	}
	return c
}

// addBreak puts a break's cue ball into a picture.
func addBreak(c *picture.CloudView, b drill.Break, w table.Window) {
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

// scatter is the mean of places and the ellipse that holds about half of such a
// cloud; nil for fewer than five.
func scatter(places []table.Place) *picture.Ellipse {
	if len(places) < 5 {
		return nil
	}
	points := make([]evidence.Point, len(places))
	for i, p := range places {
		points[i] = evidence.Point{X: float64(p.X), Y: float64(p.Y)}
	}
	e := evidence.ScatterOf(points).Ellipse(0.5)
	return &picture.Ellipse{
		Centre: table.Place{X: table.Inches(e.Centre.X), Y: table.Inches(e.Centre.Y)},
		Major:  table.Inches(e.Major), Minor: table.Inches(e.Minor), AngleRadians: e.AngleRadians,
	}
}
