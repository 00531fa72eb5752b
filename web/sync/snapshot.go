package sync

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/library"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
	"breakwright/web/session"
)

// maxOpenSets bounds how many open sets a phone is given, the newest first.
const maxOpenSets = 8

// snapshot is what a phone should hold to work without a signal.
type snapshot struct {
	Person    store.PersonID  `json:"person"`
	Name      string          `json:"name"`
	Tables    []tableSnapshot `json:"tables"`
	LastTable store.TableID   `json:"last_table,omitzero"`
	// LastStart tells a phone that a set came, whose pages it keeps: also one that
	// was begun and closed since it last looked.
	LastStart time.Time            `json:"last_start,omitzero"`
	Tasks     []assignmentSnapshot `json:"tasks"`
	Drills    []drillSnapshot      `json:"plans"`
	// Cloths are pictures of the tables, by the name of their kind.
	Cloths map[string]string `json:"cloths"`
	Sets   []setSnapshot     `json:"sets"`
	// All says that Sets are all the open ones.
	All bool `json:"all"`
}

type tableSnapshot struct {
	ID    store.TableID `json:"id"`
	Label string        `json:"label"`
	Cloth string        `json:"cloth"` // the key in snapshot.Cloths, for a table of a drill's plan
}

// assignmentSnapshot is an assignment; On names for each table the setup to break
// by, as a place in the snapshot's Drills.
type assignmentSnapshot struct {
	Assignment store.AssignmentID    `json:"assignment"`
	Name       string                `json:"name"`
	Watch      string                `json:"watch,omitempty"`
	WatchList  watchListJSON         `json:"ask"`
	Breaks     int                   `json:"breaks"`
	On         map[store.TableID]int `json:"on"`
}

// drillSnapshot is how to break on a kind of table, with what a script needs to show
// and to check it. Lengths are inches.
type drillSnapshot struct {
	Setup  setupJSON             `json:"setup"`
	Parts  []component.SetupPart `json:"parts"`
	Cloth  string                `json:"cloth"` // the key in snapshot.Cloths
	Kind   kindJSON              `json:"kind"`
	Width  table.Inches          `json:"width"`
	Length table.Inches          `json:"length"`
	Balls  int                   `json:"balls"`
	Wing   int                   `json:"wing"` // the wing ball's number
	// Pocket is where the wing ball should go.
	Pocket table.Pocket    `json:"pocket"`
	Window [4]table.Inches `json:"window"` // left, right, head, foot
	// Run is how far the cue ball's centre travels until it meets the head ball.
	Run table.Inches `json:"run"`
	// Leave is the table for the shot finder, nil where the drill does not watch
	// what a break leaves.
	Leave *kindJSON `json:"leave,omitempty"`
	// Change says in a line what is being tried under this setup.
	Change string `json:"change,omitempty"`
}

// watchListJSON is what a drill asks at the table, as package drill has it. Rack
// says that the rack is asked about at every break, not only before the first:
// the advice wants it checked.
type watchListJSON struct {
	WingPath bool `json:"wing"`
	CuePath  bool `json:"path"`
	CueOnly  bool `json:"cue_only,omitempty"`
	Rack     bool `json:"rack,omitempty"`
}

func newWatchListJSON(list drill.WatchList, checkRack bool) watchListJSON {
	return watchListJSON{WingPath: list.WingPath, CuePath: list.CuePath, CueOnly: list.CueOnly, Rack: checkRack}
}

func watchListOfTask(t store.Task) watchListJSON {
	return newWatchListJSON(t.Drill.WatchList, t.CheckRack)
}

// WatchOf returns what to look for in a set, in words and as questions: its drill's,
// those of the lesson that was trained without one, else no words and the usual.
func WatchOf(set store.Set) (words string, list drill.WatchList) {
	if !store.IsZero(set.Drill.ID) {
		return set.Drill.Watch, set.Drill.WatchList
	}
	if lesson, found := library.FindLessonNamed(set.Training); found {
		return lesson.Watch, lesson.List
	}
	return "", drill.UsualWatchList()
}

func watchListOfSet(set store.Set, tasks []store.Task) watchListJSON {
	checkRack := slices.ContainsFunc(tasks, func(t store.Task) bool { return t.Assignment == set.Assignment && t.CheckRack })
	_, list := WatchOf(set)
	return newWatchListJSON(list, checkRack)
}

// kindJSON is a kind of table: feet, and the mouths in inches.
type kindJSON struct {
	Feet   int          `json:"feet"`
	Small  bool         `json:"small,omitempty"`
	Corner table.Inches `json:"corner"`
	Side   table.Inches `json:"side"`
}

func newKindJSON(k table.Kind) kindJSON {
	return kindJSON{k.Feet, k.Small, k.CornerMouth, k.SideMouth}
}

// leaveTable is the kind of table for the phone's shot finder, nil where the drill does
// not watch what a break leaves.
func leaveTable(asked drill.Targets, k table.Kind) *kindJSON {
	if !asked.WatchLeave() {
		return nil
	}
	return new(newKindJSON(k))
}

// setSnapshot is an open set.
type setSnapshot struct {
	ID         store.SetID        `json:"id"`
	Assignment store.AssignmentID `json:"assignment,omitzero"`
	Table      store.TableID      `json:"table"`
	Label      string             `json:"label"`
	Drill      string             `json:"drill"`
	Watch      string             `json:"watch,omitempty"`
	WatchList  watchListJSON      `json:"ask"`
	Planned    int                `json:"planned"`
	Started    time.Time          `json:"started"`
	DrillIndex int                `json:"plan"`
	Breaks     []currentBreak     `json:"breaks"`
}

// getSnapshot answers with what the user's phone should hold. The tag changes when
// it does, so that asking again costs next to nothing.
func (d *Endpoint) getSnapshot(w http.ResponseWriter, r *http.Request) error {
	h, err := d.buildSnapshot(r.Context(), session.MustUser(r))
	if err != nil {
		return err
	}
	body, err := encodeJSON(h)
	if err != nil {
		return fmt.Errorf("sync: write what a phone holds: %w", err)
	}
	sum := sha256.Sum256(body)
	tag := `"` + hex.EncodeToString(sum[:10]) + `"`
	header := w.Header()
	header.Set("Content-Type", "application/json")
	header.Set("Cache-Control", "private, no-cache")
	header.Set("ETag", tag)
	if strings.TrimPrefix(r.Header.Get("If-None-Match"), "W/") == tag {
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	// A phone that went away asks again.
	_, _ = w.Write(body)
	return nil
}

func (d *Endpoint) buildSnapshot(ctx context.Context, user session.User) (snapshot, error) {
	today, err := d.store.GetToday(ctx, user.Actor)
	if err != nil {
		return snapshot{}, err
	}
	h := snapshot{
		Person: user.Person, Name: user.Name, LastTable: today.LastTable, LastStart: today.LastStart,
		Tables: []tableSnapshot{}, Tasks: []assignmentSnapshot{}, Drills: []drillSnapshot{}, Sets: []setSnapshot{}, Cloths: map[string]string{}, All: len(today.Open) <= maxOpenSets,
	}
	for _, t := range today.Tables {
		h.Tables = append(h.Tables, tableSnapshot{ID: t.ID, Label: t.Label(), Cloth: t.Kind.String()})
	}
	for _, task := range today.Tasks {
		if err := h.addAssignment(task, today.Tables, user.Units); err != nil {
			return snapshot{}, err
		}
	}
	for _, open := range today.Open[:min(len(today.Open), maxOpenSets)] {
		set, err := d.store.GetSet(ctx, user.Actor, open.ID)
		if err != nil {
			return snapshot{}, err
		}
		if err := h.addOpenSet(set, today.Tasks, user.Units); err != nil {
			return snapshot{}, err
		}
	}
	return h, nil
}

// addAssignment adds a drill and how it is broken on each table: tables of one kind
// share a plan.
func (h *snapshot) addAssignment(task store.Task, tables []store.Table, u say.Units) error {
	held := assignmentSnapshot{
		Assignment: task.Assignment, Name: task.Name(), Watch: task.Drill.Watch, WatchList: watchListOfTask(task),
		Breaks: task.Drill.Breaks, On: map[store.TableID]int{},
	}
	byKind := map[table.Kind]int{}
	for _, t := range tables {
		if _, known := byKind[t.Kind]; !known {
			next := task.InstructionOn(t.Kind)
			n, err := h.addDrill(newDrillSnapshot(next.Setup, next.Window, next.Targets, t.Kind, TryingWords(task.ChangeOn(t.Kind), u), u), t.Kind)
			if err != nil {
				return err
			}
			byKind[t.Kind], held.Breaks = n, next.Breaks
		}
		held.On[t.ID] = byKind[t.Kind]
	}
	h.Tasks = append(h.Tasks, held)
	return nil
}

func (h *snapshot) addOpenSet(set store.Set, tasks []store.Task, u say.Units) error {
	n, err := h.addDrill(newDrillSnapshot(set.Setup, set.Window, set.Targets, set.Table.Kind, TryingWords(set.Under, u), u), set.Table.Kind)
	if err != nil {
		return err
	}
	watch, _ := WatchOf(set)
	held := setSnapshot{
		ID: set.ID, Assignment: set.Assignment, Table: set.Table.ID, Label: set.Table.Label(),
		Drill: set.Title(), Watch: watch, WatchList: watchListOfSet(set, tasks), Planned: set.Planned, Started: set.Started, DrillIndex: n, Breaks: []currentBreak{},
	}
	for _, b := range set.Breaks {
		held.Breaks = append(held.Breaks, newCurrentBreak(b))
	}
	h.Sets = append(h.Sets, held)
	return nil
}

func (h *snapshot) addDrill(d drillSnapshot, k table.Kind) (int, error) {
	cloth := k.String()
	if _, drawn := h.Cloths[cloth]; !drawn {
		var b strings.Builder
		// The picture is decoration: what is on it is said beside it in words.
		if err := picture.WriteSVG(&b, picture.TableView{ID: "cloth-picture", Kind: k, Tappable: true}); err != nil {
			return 0, fmt.Errorf("sync: draw the table: %w", err)
		}
		h.Cloths[cloth] = b.String()
	}
	h.Drills = append(h.Drills, d)
	return len(h.Drills) - 1, nil
}

func newDrillSnapshot(s drill.Setup, w table.Window, asked drill.Targets, k table.Kind, change string, u say.Units) drillSnapshot {
	return drillSnapshot{
		Setup: setupToJSON(s), Parts: component.ListSetupParts(s, k, u), Cloth: k.String(),
		Kind: newKindJSON(k), Width: k.Width(), Length: k.Length(),
		Balls: s.Game.BallCount(), Wing: int(s.WingBall()), Pocket: s.WingPocket(),
		Window: [4]table.Inches{w.Left, w.Right, w.Head, w.Foot},
		Run:    s.Cue.Distance(s.Game.HeadBallPlace(s.Spot, k)) - table.BallDiameter,
		Leave:  leaveTable(asked, k),
		Change: change,
	}
}
