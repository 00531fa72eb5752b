package main

import (
	"bytes"
	"reflect"
	"slices"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
)

// Each student of a log is judged beside the others' breaks and not their own, so that
// a log of one says what the adviser says alone, and the order of students is of no
// matter.
func TestAdviseStudents_EachBesideTheOthers(t *testing.T) {
	class, err := breaklog.Read(bytes.NewReader(clubLog(t, 12, 2)))
	if err != nil {
		t.Fatal(err)
	}
	all, err := adviseStudents(t.Context(), class)
	if err != nil {
		t.Fatal(err)
	}
	var histories [][]drill.Set
	if err := eachStudent(t.Context(), class, func(history []drill.Set) error {
		histories = append(histories, history)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	alone, err := adviseStudents(t.Context(), histories[0])
	if err != nil {
		t.Fatal(err)
	}
	if want := advice.Judge(histories[0], advice.Brief{}); !reflect.DeepEqual(alone[0], want) {
		t.Errorf("alone %q, want %q", alone[0].Says, want.Says)
	}
	if reflect.DeepEqual(alone[0].Causes, all[0].Causes) {
		t.Error("the others' breaks changed nothing")
	}
	slices.Reverse(histories)
	back, err := adviseStudents(t.Context(), slices.Concat(histories...))
	if err != nil {
		t.Fatal(err)
	}
	slices.Reverse(back)
	for i := range all {
		if !reflect.DeepEqual(back[i], all[i]) {
			t.Errorf("%s: %q, with the students turned round %q", all[i].Student, all[i].Says, back[i].Says)
		}
	}
}
