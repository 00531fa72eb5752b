package picture_test

import (
	"io"
	"testing"

	"breakwright/web/picture"
)

func BenchmarkWriteSVG_TenBreaks(b *testing.B) {
	view := tenBreaks()
	b.ReportAllocs()
	for b.Loop() {
		if err := picture.WriteSVG(io.Discard, view); err != nil {
			b.Fatal(err)
		}
	}
}
