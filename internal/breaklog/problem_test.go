package breaklog_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/breaklog"
)

func readProblems(t *testing.T, text string) breaklog.Problems {
	t.Helper()
	sets, err := breaklog.Read(strings.NewReader(text))
	var found breaklog.Problems
	if !errors.As(err, &found) {
		t.Fatalf("taken as %d sets, error %v, want problems", len(sets), err)
	}
	if sets != nil {
		t.Errorf("half a file was taken: %d sets", len(sets))
	}
	return found
}

func TestProblems_NameLineColumnAndValue(t *testing.T) {
	found := readProblems(t, openFixture(t, "spoilt.csv"))
	var got []string
	for _, p := range found {
		got = append(got, strings.TrimSpace(fmt.Sprintf("%d %s %s", p.Line, p.Column, p.Value)))
		if p.Says == "" {
			t.Errorf("line %d column %s: nothing is said", p.Line, p.Column)
		}
	}
	want := []string{
		"2 tip -0,1", "2 at 2 March",
		"3 table_ft 10", "3 tip −0.1", "3 speed fast", "3 pocketed 8@left", "3 cue scratch", "3 wing_miss side", "3 rails many",
		"4 student", "4 cue_x", "4 pocketed 8", "4 cue -3.5 41",
		"5",
		"6 cue -30,41", "6 wing_miss jaws", "6 rails 12",
		"8 cue_x -16",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	if lines := strings.Split(found.Error(), "\n"); len(lines) != len(want) {
		t.Errorf("%d lines for %d problems", len(lines), len(want))
	}
}

const header = "student,set,break,cue_x,cue_y,pocketed,cue"

func TestProblems_SayWhatIsAccepted(t *testing.T) {
	rows := func(rows ...string) string { return header + "\n" + strings.Join(rows, "\n") + "\n" }
	more := func(columns, row string) string { return header + "," + columns + "\n" + row + "\n" }
	for name, c := range map[string]struct{ text, says string }{
		"empty file":        {"", "line 1: the file is empty; it begins with a row of column names"},
		"unknown column":    {"student,colour\n", `line 1, "colour": no such column`},
		"repeated column":   {header + ",cue\n", `line 1, "cue": the column is there twice`},
		"capitals":          {"Student,set\n", `line 1, "Student": column names are written in small letters: student`},
		"missing column":    {"student,set,break,cue_x,cue_y,pocketed\n", "line 1: the column cue is missing"},
		"nameless column":   {header + ",\n", "line 1: column 8 has no name"},
		"semicolons":        {"student;set;break\n", "line 1: the columns are separated by semicolons"},
		"tabs":              {"student\tset\tbreak\n", "line 1: the columns are separated by tabs"},
		"UTF-16":            {"\xff\xfes\x00t\x00", "line 1: the file is not written in UTF-8"},
		"Latin-1":           {rows("Ren\xe9,1,1,-18,25,,\"0,40\""), "is not written in UTF-8"},
		"stray quote":       {rows(`A "the Hat",1,1,-18,25,,"0,40"`), "line 2: a cell with a quote mark in it"},
		"decimal comma":     {rows(`A,1,1,"-18,5",25,,"0,40"`), `line 2, column cue_x, "-18,5": write numbers with a decimal point: -18.5`},
		"typographic minus": {rows(`A,1,1,−18,25,,"0,40"`), "write the minus sign as a plain hyphen"},
		"infinity":          {rows(`A,1,1,Inf,25,,"0,40"`), `column cue_x, "Inf": a decimal number`},
		"too large":         {rows(`A,1,1,` + strings.Repeat("9", 400) + `,25,,"0,40"`), "a decimal number"},
		"not a number":      {rows(`A,1,1,-18,25,,"NaN,40"`), `column cue, "NaN,40"`},
		"no break number":   {rows(`A,1,,-18,25,,"0,40"`), "column break, empty: breaks are numbered"},
		"break 0":           {rows(`A,1,0,-18,25,,"0,40"`), `column break, "0": breaks are numbered`},
		"repeated break":    {rows(`A,1,1,-18,25,,"0,40"`, `A,1,1,-18,25,,"0,40"`), `line 3, column break, "1": set 1 of A has this break already, on line 2`},
		"gap":               {rows(`A,1,3,-18,25,,"0,40"`, `A,1,1,-18,25,,"0,40"`), `line 2, column break, "3": set 1 of A has no break 2`},
		"no cue ball":       {rows(`A,1,1,-18,25,,`), "column cue, empty: where the cue ball stopped"},
		"scratch nowhere":   {rows(`A,1,1,-18,25,,scratch@left`), "scratch names its pocket"},
		"beyond the string": {rows(`A,1,1,-18,60,,"0,40"`), `column cue_y, "60": the cue ball is placed on or behind the head string`},
		"ball twice":        {rows(`A,1,1,-18,25,8@foot-left;8@foot-right,"0,40"`), "the 8 is there twice"},
		"no such ball":      {rows(`A,1,1,-18,25,10@foot-left,"0,40"`), "the 10 is not in this rack"},
		"slow speed":        {more("speed", `A,1,1,-18,25,,"0,40",0`), "leave it empty when it was not measured"},
		"rack":              {more("rack", `A,1,1,-18,25,,"0,40",1-2-3`), "nine-ball has 9 balls, not 3; balls in slot order such as 1-3-2-8-9-5-6-4-7"},
		"centre in ten":     {more("spot,game", `A,1,1,-18,25,,"0,40",centre,ten-ball`), "for ten-ball head is accepted"},
		"wing":              {more("wing", `A,1,1,-18,25,,"0,40",4L`), "3L or 3R is accepted"},
		"mouth":             {more("corner_in", `A,1,1,-18,25,,"0,40",0`), "a pocket mouth from 3.5 to 6.5 inches"},
		"local time":        {more("at", `A,1,1,-18,25,,"0,40",2026-03-02 18:05`), "a time with its zone such as"},
		"year 1":            {more("at", `A,1,1,-18,25,,"0,40",0001-01-01T00:00:00Z`), "a time with its zone such as"},
		"control letter":    {more("note", "A,1,1,-18,25,,\"0,40\",a\x00b"), "a note is letters"},
		"asked speed":       {more("speed_asked", `A,1,1,-18,25,,"0,40",0`), "“own” when it was left to the student"},
		"half a window":     {more("window", `A,1,1,-18,25,,"0,40","-12,25"`), "two opposite corners"},
		"window off":        {more("window", `A,1,1,-18,25,,"0,40","-40,25;12,50"`), "between the rails"},
		"goal":              {more("goals", `A,1,1,-18,25,,"0,40",wing@50`), "goals and their shares such as wing@0.5"},
		"house rule":        {more("house", `A,1,1,-18,25,,"0,40",box`), "such as box@8;three-points"},
		"closed when":       {more("closed", `A,1,1,-18,25,,"0,40",yes`), "column closed, \"yes\": a time with its zone"},
		"decided what":      {more("decision", `A,1,1,-18,25,,"0,40",declined`), "decisions such as “declined weak-break”"},
		"decided to":        {more("decision", `A,1,1,-18,25,,"0,40",own speed=fast`), "decisions such as"},
		"decided the wrong": {more("decision", `A,1,1,-18,25,,"0,40",own tip=3`), "decisions such as"},
		"rule of nothing":   {more("rules", `A,1,1,-18,25,,"0,40",unsteady`), "a club's own numbers such as"},
		"rule's number":     {more("rules", `A,1,1,-18,25,,"0,40",unsteady line=NaN`), "a club's own numbers such as"},
		"rule's far line":   {more("rules", `A,1,1,-18,25,,"0,40",unsteady line=7`), "a club's own numbers such as"},
		"rule's two lines":  {more("rules", `A,1,1,-18,25,,"0,40",unsteady line=0.1 line=0.2`), "a club's own numbers such as"},
		"rule's word":       {more("rules", `A,1,1,-18,25,,"0,40",unsteady weight=7`), "a club's own numbers such as"},
		"rule half on":      {more("rules", `A,1,1,-18,25,,"0,40",unsteady on=maybe`), "a club's own numbers such as"},
		"rule twice":        {more("rules", `A,1,1,-18,25,,"0,40",unsteady on=no;unsteady on=no`), "a club's own numbers such as"},
		"no revision":       {more("rules", `A,1,1,-18,25,,"0,40",revision=0`), "a club's own numbers such as"},
		"tables of nobody":  {more("tables_play", `A,1,1,-18,25,,"0,40","character=1,2"`), "what others’ breaks had shown"},
		"tables twice":      {more("tables_play", `A,1,1,-18,25,,"0,40",breaks=9;breaks=9`), "what others’ breaks had shown"},
		"tables by halves":  {more("tables_play", `A,1,1,-18,25,,"0,40",breaks=9;spread=0.5`), "what others’ breaks had shown"},
		"tables too far":    {more("tables_play", `A,1,1,-18,25,,"0,40",breaks=9;spread=2000`), "what others’ breaks had shown"},
		"tables otherwise":  {more("tables_play", `A,1,1,-18,25,,"0,40",breaks=9;cloth=2`), "what others’ breaks had shown"},
		"name of two lines": {rows("\"A\nB\",1,1,-18,25,,\"0,40\""), "a name is one line"},
	} {
		if got := readProblems(t, c.text).Error(); !strings.Contains(got, c.says) {
			t.Errorf("%s:\ngot  %s\nwant %s", name, got, c.says)
		}
	}
}

func TestProblems_OneSetIsOnePlan(t *testing.T) {
	text := header + ",goals\nA,1,1,-18,25,,\"0,40\",wing@0.5\nA,1,2,-18,25,,\"0,40\",\n"
	if got := readProblems(t, text).Error(); !strings.Contains(got, `line 3, column goals`) || !strings.Contains(got, `has "", but its first row, line 2, has "wing@0.5"`) {
		t.Errorf("got %s", got)
	}
}

func TestProblems_OneSetIsOneSetup(t *testing.T) {
	text := header + ",tip,rack\n" +
		"A,1,1,-18,25,,\"0,40\",-0.1,\n" +
		"A,1,2,-17,25,,\"0,40\",0,1-2-3-4-9-5-6-7-8\n"
	got := readProblems(t, text).Error()
	for _, want := range []string{
		`line 3, column cue_x, "-17": this row of set 1 has -17, but its first row, line 2, has -18; one set is one setup`,
		`line 3, column tip, "0": this row of set 1 has 0, but its first row, line 2, has -0.1`,
		`has 1-2-3-4-9-5-6-7-8, but its first row, line 2, has 1-3-2-8-9-5-6-4-7`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("got %s\nwant %s", got, want)
		}
	}
}

// Whatever all rows of a set share is read in each row: another cell in the second is found,
// in every column but those that are a break's own.
func TestProblems_OneSetIsOneOfEverything(t *testing.T) {
	own := []string{
		"student", "set", "break", "at", "speed", "pocketed", "cue", "off", "wing_miss", "cue_path", "rest",
		"rails", "past_string", "shot", "ran_out", "racked", "note",
	}
	for i, column := range breaklog.ColumnNames() {
		if slices.Contains(own, column) {
			continue
		}
		row := func(number, other string) string {
			usual := map[string]string{"student": "A", "set": "1", "break": number, "cue_x": "-18", "cue_y": "25", "cue": `"0,40"`}
			var cells []string
			for k, name := range breaklog.ColumnNames() {
				if k == i && other != "" {
					usual[name] = other
				}
				cells = append(cells, usual[name])
			}
			return strings.Join(cells, ",") + "\n"
		}
		text := strings.Join(breaklog.ColumnNames(), ",") + "\n" + row("1", "") + row("2", "?")
		if found := readProblems(t, text); found[0].Line != 3 || found[0].Column != column {
			t.Errorf("%s: %v", column, found)
		}
	}
}

// What is wrong with the setup of every row is said of every row.
func TestProblems_OfTheSetupInEachRow(t *testing.T) {
	text := header + ",table_ft\n" + strings.Repeat("A,1,1,-18,25,,\"0,40\",10\n", 3) + "A,1,2,-18,25,,\"0,40\",9\n"
	var lines []int
	for _, p := range readProblems(t, text) {
		lines = append(lines, p.Line)
	}
	if want := []int{2, 3, 4}; !slices.Equal(lines, want) {
		t.Errorf("problems in the lines %v, want %v", lines, want)
	}
}

// Rows of one set, then of another, then of the first again, each with its own setup.
func TestRead_SetupsTakeTurns(t *testing.T) {
	row := func(set, number int, x string) string {
		return fmt.Sprintf("A,%d,%d,%s,25,,\"0,40\"\n", set, number, x)
	}
	text := header + "\n" + row(1, 1, "-18") + row(1, 2, "-18") + row(2, 1, "-12") + row(2, 2, "-12") + row(1, 3, "-18")
	sets, err := breaklog.Read(strings.NewReader(text))
	if err != nil || len(sets) != 2 || sets[0].Setup.Cue.X != -18 || sets[1].Setup.Cue.X != -12 || len(sets[0].Breaks) != 3 {
		t.Errorf("read as %+v (%v)", sets, err)
	}
}

func TestProblems_StopAtTwenty(t *testing.T) {
	text := header + "\n" + strings.Repeat("A,1,x,-18,25,,\"0,40\"\n", 500)
	found := readProblems(t, text)
	if len(found) != breaklog.MaxProblems || !found.IsFull() || found[19].Line != 21 {
		t.Errorf("%d problems, the last on line %d", len(found), found[len(found)-1].Line)
	}
	if many := readProblems(t, header+strings.Repeat(",colour", 100)+"\n"); len(many) != breaklog.MaxProblems {
		t.Errorf("%d problems of a header", len(many))
	}
	if !strings.HasSuffix(found.Error(), "the rest was not read") {
		t.Errorf("it is not said that reading stopped: %s", found)
	}
}

func TestProblems_LongCellsAreCutBetweenLetters(t *testing.T) {
	text := header + "\nA,1,1," + strings.Repeat("é", 200) + ",25,,\"0,40\"\n"
	if got, want := readProblems(t, text)[0].Value, strings.Repeat("é", 30)+"…"; got != want {
		t.Errorf("value %q, want %q", got, want)
	}
}
