package picture

import (
	"context"
	"fmt"
	"io"

	"github.com/a-h/templ"
)

// SVGMediaType is the content type of a picture served on its own.
const SVGMediaType = "image/svg+xml"

// WriteSVG writes the picture of a table as a document of its own, for an
// image or an image button. It looks as on paper, since no stylesheet reaches
// into an image.
func WriteSVG(w io.Writer, t TableView) error { return writePicture(w, "table", TableSVG(t)) }

// WriteRackSVG is WriteSVG for a rack seen from close up.
func WriteRackSVG(w io.Writer, r RackView) error { return writePicture(w, "rack", RackSVG(r)) }

func writePicture(w io.Writer, what string, picture templ.Component) error {
	if err := picture.Render(context.Background(), w); err != nil {
		return fmt.Errorf("draw the %s: %w", what, err)
	}
	return nil
}
