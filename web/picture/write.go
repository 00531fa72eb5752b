package picture

import (
	"context"
	"fmt"
	"io"
)

// SVGMediaType is the content type of a picture served on its own.
const SVGMediaType = "image/svg+xml"

// WriteSVG writes the picture of a table as a document of its own, for an
// image or an image button. It looks as on paper, since no stylesheet reaches
// into an image.
func WriteSVG(w io.Writer, t TableView) error {
	if err := TableSVG(t).Render(context.Background(), w); err != nil {
		return fmt.Errorf("draw the table: %w", err)
	}
	return nil
}
