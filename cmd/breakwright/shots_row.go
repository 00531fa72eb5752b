package main

import (
	"encoding/json"
	"fmt"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
)

// A row of the answer is written by hand: a hundred thousand of them take more
// time to be looked into than to be found. Its shape is shotsRow's in the tests.

// beginShotsRow is what the rows of a set have in common.
func beginShotsRow(s drill.Set) ([]byte, error) {
	student, err := json.Marshal(s.Student)
	if err != nil {
		return nil, fmt.Errorf("write shots: %w", err)
	}
	name, err := json.Marshal(s.Name)
	if err != nil {
		return nil, fmt.Errorf("write shots: %w", err)
	}
	return fmt.Appendf(nil, `{"student":%s,"set":%s,"break":`, student, name), nil
}

// appendShotsRow goes on with a break. Lowest is null when nothing is left to shoot
// at, shot when it is not known.
func appendShotsRow(row []byte, number int, a leave.FoundShots) []byte {
	row = strconv.AppendInt(row, int64(number), 10)
	row = append(row, `,"lowest":`...)
	if a.Ball == 0 {
		row = append(row, "null"...)
	} else {
		row = strconv.AppendInt(row, int64(a.Ball), 10)
	}
	row = append(row, `,"shot":`...)
	if a.Shot == "" {
		row = append(row, "null"...)
	} else {
		row = append(append(append(row, '"'), a.Shot...), '"')
	}
	row = append(row, `,"shots":[`...)
	for i, shot := range a.Shots {
		if i > 0 {
			row = append(row, ',')
		}
		row = appendShot(row, shot)
	}
	return append(row, "]}"...)
}

func appendShot(row []byte, s leave.Shot) []byte {
	row = append(append(row, `{"pocket":"`...), s.Pocket...)
	row = append(append(row, `","kind":"`...), s.Way...)
	row = strconv.AppendFloat(append(row, `","cut_deg":`...), roundTo(float64(s.Cut), 10), 'f', -1, 64)
	row = strconv.AppendFloat(append(row, `,"chance":`...), roundTo(s.Chance, 1000), 'f', -1, 64)
	row = append(row, `,"blocked_by":[`...)
	for i, ball := range s.BlockedBy {
		if i > 0 {
			row = append(row, ',')
		}
		row = strconv.AppendInt(row, int64(ball), 10)
	}
	return append(row, "]}"...)
}
