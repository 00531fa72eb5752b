package breaklog

import (
	"reflect"
	"strconv"
	"strings"

	"breakwright/internal/drill"
)

// How a club's tables play stands in one cell, all numbers whole ones:
// "breaks=240;character=1,0,-2,0;spread=2,3,2,0;departures=0,-1,3".

// tablesBreaks begins the part that tells how many breaks it rests on.
const tablesBreaks = "breaks"

// tablesPart is one of the lists of numbers.
type tablesPart struct {
	name string
	list func(*drill.TablesPlay) *[]int
}

var tablesParts = []tablesPart{
	{"character", func(p *drill.TablesPlay) *[]int { return &p.Character }},
	{"spread", func(p *drill.TablesPlay) *[]int { return &p.Spread }},
	{"departures", func(p *drill.TablesPlay) *[]int { return &p.Departures }},
}

// writeTablesPlay writes how the tables play; "" where nothing is known of them.
func writeTablesPlay(p drill.TablesPlay) string {
	if !p.IsKnown() {
		return ""
	}
	parts := []string{tablesBreaks + "=" + strconv.Itoa(p.Breaks)}
	for _, part := range tablesParts {
		var numbers []string
		for _, n := range *part.list(&p) {
			numbers = append(numbers, strconv.Itoa(n))
		}
		if numbers != nil {
			parts = append(parts, part.name+"="+strings.Join(numbers, ","))
		}
	}
	return strings.Join(parts, ";")
}

// parseTablesPlay reads what writeTablesPlay writes.
func parseTablesPlay(text string) (p drill.TablesPlay, ok bool) {
	for part := range strings.SplitSeq(text, ";") {
		name, numbers, _ := strings.Cut(strings.TrimSpace(part), "=")
		if name != "" && !readTablesPart(&p, name, numbers) {
			return drill.TablesPlay{}, false
		}
	}
	return p, p.Check() == nil
}

// readTablesPart reads a part that was not read before.
func readTablesPart(p *drill.TablesPlay, name, text string) bool {
	var numbers []int
	for number := range strings.SplitSeq(text, ",") {
		n, err := strconv.Atoi(strings.TrimSpace(number))
		if err != nil {
			return false
		}
		numbers = append(numbers, n)
	}
	if name == tablesBreaks {
		isFirst := p.Breaks == 0
		p.Breaks = numbers[0]
		return isFirst && len(numbers) == 1
	}
	for _, part := range tablesParts {
		if list := part.list(p); part.name == name && *list == nil {
			*list = numbers
			return true
		}
	}
	return false
}

// canReadTablesBack reports whether how tables play is read as it is written.
func canReadTablesBack(p drill.TablesPlay) bool {
	got, ok := parseTablesPlay(writeTablesPlay(p))
	return ok && reflect.DeepEqual(got, p)
}

func (r *logReader) readTablesPlay() drill.TablesPlay {
	p, ok := parseTablesPlay(r.cellText(colTablesPlay))
	if !ok {
		r.rejectCell(colTablesPlay, "what others’ breaks had shown of the tables is accepted as it was written, such as “breaks=240;character=1,0,-2,0;spread=2,3,2,0;departures=0,-1,3”, in whole numbers")
	}
	return p
}
