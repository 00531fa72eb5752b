package breaklog_test

import (
	"bytes"
	"errors"
	"reflect"
	"testing"

	"breakwright/internal/breaklog"
)

// Whatever the file, Read gives sets or says why not; and what it reads can be
// written and read back the same.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"example.csv", "paper.csv", "evening.csv", "spoilt.csv"} {
		f.Add([]byte(openFixture(f, name)))
	}
	f.Add([]byte("student,set,break,cue_x,cue_y,pocketed,cue,rules\nA,1,1,-18,25,,\"0,40\",revision=7;unsteady line=0.3 min_breaks=12;dry-break on=no\n"))
	f.Fuzz(func(t *testing.T, file []byte) {
		sets, err := breaklog.Read(bytes.NewReader(file))
		if err != nil {
			var problems breaklog.Problems
			if !errors.As(err, &problems) || len(problems) == 0 || sets != nil {
				t.Fatalf("%d sets and error %v", len(sets), err)
			}
			return
		}
		var text bytes.Buffer
		if err := breaklog.Write(&text, sets); err != nil {
			t.Fatalf("what was read cannot be written: %v", err)
		}
		again, err := breaklog.Read(&text)
		if err != nil || !reflect.DeepEqual(again, sets) {
			t.Fatalf("%v\nread    %+v\nre-read %+v", err, sets, again)
		}
	})
}
