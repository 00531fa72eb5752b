package paper

import (
	"fmt"
	"net/http"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// The choices of a page of sheets, as its address has them.
const (
	fieldTable = "table"
	fieldFor   = "for" // a student's id, or one of the words below; "" for every student
	blankLeft  = "left"
	blankRight = "right"
)

// drillSheetsView is a page of sheets to print.
type drillSheetsView struct {
	Frame  page.Frame
	Title  string
	Path   string
	Back   page.NavLink
	Form   *page.Form
	Tables []page.Option
	For    []page.Option
	Sheets []paperSheet
}

func (v drillSheetsView) headline() string {
	if len(v.Sheets) == 0 {
		return "Nobody has this assignment, so there is no sheet to print."
	}
	if len(v.Sheets) == 1 && v.Sheets[0].Student == "" {
		return "One sheet, with the name left open."
	}
	return say.Capitalize(say.CountFromOne(len(v.Sheets), "sheet", "sheets")) + ", each the right way round for whoever gets it."
}

var blankOptions = []page.Option{
	{Value: blankLeft, Words: "No name, from the left"}, {Value: blankRight, Words: "No name, from the right"},
}

// showDrillSheet prints a drill for anyone.
func (p *Pages) showDrillSheet(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	id, err := store.ParseID[store.DrillID](chi.URLParam(r, "drill"))
	if err != nil {
		return err
	}
	d, err := p.store.GetDrill(r.Context(), user.Actor, id)
	if err != nil {
		return err
	}
	side := d.Setup.Side
	if asked, err := table.ParseSide(r.URL.Query().Get(fieldFor)); err == nil {
		side = asked
	}
	v := drillSheetsView{
		Title: d.Name, Path: route.DrillPath(id), Back: page.NavLink{Path: route.DrillPath(id), Words: d.Name},
		For: blankOptions, Form: page.NewForm(map[string]string{fieldFor: string(side)}),
	}
	where, err := p.chooseTable(r, &v, d.Kind)
	if err != nil {
		return err
	}
	blank := paperSheet{ID: "sheet", Club: user.Club, Drill: d.Name, Watch: d.Watch}
	v.Sheets = []paperSheet{blank.onTable(where, d.UndecidedInstruction(side, where.Kind))}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, drillSheetsPage(v))
}

// showAssignmentSheets prints an assignment for each of its students, for one of them, or
// for nobody in particular.
func (p *Pages) showAssignmentSheets(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	id, err := store.ParseID[store.AssignmentID](chi.URLParam(r, "assignment"))
	if err != nil {
		return err
	}
	sheets, err := p.store.GetSheets(r.Context(), user.Actor, id)
	if err != nil {
		return err
	}
	path, who := route.AssignmentPath(id), r.URL.Query().Get(fieldFor)
	v := drillSheetsView{
		Title: sheets.Assignment.Name(sheets.Drill.Name), Path: path, Back: page.NavLink{Path: path, Words: sheets.Assignment.Name(sheets.Drill.Name)},
		For: recipientOptions(sheets), Form: page.NewForm(map[string]string{fieldFor: who}),
	}
	where, err := p.chooseTable(r, &v, sheets.Drill.Kind)
	if err != nil {
		return err
	}
	blank := paperSheet{Club: user.Club, Drill: sheets.Assignment.Name(sheets.Drill.Name), Watch: sheets.Drill.Watch, Note: sheets.Assignment.Note}
	if !sheets.Assignment.Due.IsZero() {
		blank.Due = say.Day(sheets.Assignment.Due)
	}
	v.Sheets = buildSheets(blank, sheets, who, where)
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, drillSheetsPage(v))
}

// buildSheets makes the sheets that are asked for.
func buildSheets(blank paperSheet, sheets store.Sheets, who string, where store.Table) []paperSheet {
	if who == blankLeft || who == blankRight {
		blank.ID = "sheet"
		return []paperSheet{blank.onTable(where, sheets.Drill.UndecidedInstruction(table.Side(who), where.Kind))}
	}
	var all []paperSheet
	for i, student := range sheets.Students {
		if who != "" && who != student.ID.String() {
			continue
		}
		one := blank
		one.ID, one.Student = fmt.Sprintf("sheet-%d", i+1), student.Name
		all = append(all, one.onTable(where, student.Task.InstructionOn(where.Kind)))
	}
	return all
}

// onTable puts the sheet on a table; one without a name is any table of its kind.
func (s paperSheet) onTable(where store.Table, next store.Instruction) paperSheet {
	s.Kind, s.Next = where.Kind, next
	if where.Name != "" {
		s.Table = where.Label()
	}
	return s
}

func recipientOptions(sheets store.Sheets) []page.Option {
	options := []page.Option{{Words: "Every student"}}
	for _, student := range sheets.Students {
		options = append(options, page.Option{Value: student.ID.String(), Words: student.Name})
	}
	return append(options, blankOptions...)
}

// chooseTable lists the tables and gives the one that is asked for: without one,
// any table of the drill's kind, with no name.
func (p *Pages) chooseTable(r *http.Request, v *drillSheetsView, kind table.Kind) (store.Table, error) {
	tables, err := p.store.ListTables(r.Context(), session.MustUser(r).Actor, store.ActiveOnly)
	if err != nil {
		return store.Table{}, err
	}
	v.Tables = tableOptions(tables, fmt.Sprintf("Any %s-foot table, to be written in", kind.Size()), say.UnitsOf(r.Context()))
	where, chosen := findTable(tables, r.URL.Query().Get(fieldTable))
	if !chosen {
		where = store.Table{Kind: kind}
	}
	v.Form.Values.Set(fieldTable, "")
	if chosen {
		v.Form.Values.Set(fieldTable, where.ID.String())
	}
	return where, nil
}
