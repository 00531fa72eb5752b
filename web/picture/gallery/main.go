package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"

	"breakwright/web/picture"
	"breakwright/web/picture/plate"
)

func main() {
	out := flag.String("out", "", "folder to write to")
	css := flag.String("css", "static/css/picture.css", "the stylesheet of the pictures")
	flag.Parse()
	if *out == "" {
		log.Fatal("gallery: say where to write with -out DIR")
	}
	if err := writeGallery(*out, *css); err != nil {
		log.Fatal("gallery: ", err)
	}
}

// writeGallery makes one page for each theme and the stand-alone pictures.
func writeGallery(dir, css string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("make the folder: %w", err)
	}
	sheet, err := os.ReadFile(css)
	if err != nil {
		return fmt.Errorf("read the stylesheet: %w", err)
	}
	files := map[string][]byte{"picture.css": sheet, "page.css": []byte(pageCSS)}
	for _, theme := range []string{"light", "dark"} {
		var page bytes.Buffer
		if err := galleryPage(theme, plate.ListPlates()).Render(context.Background(), &page); err != nil {
			return fmt.Errorf("draw the %s page: %w", theme, err)
		}
		files[theme+".html"] = page.Bytes()
	}
	for _, t := range plate.ListTableViews() {
		var alone bytes.Buffer
		if err := picture.WriteSVG(&alone, t); err != nil {
			return err
		}
		files[t.ID+".svg"] = alone.Bytes()
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(dir, name), content, 0o644); err != nil {
			return fmt.Errorf("write %s: %w", name, err)
		}
		fmt.Printf("%6d %s\n", len(content), name)
	}
	return nil
}

// pageCSS stands in for the pages' own stylesheet.
const pageCSS = `
body { margin: 0; padding: 16px; font: 16px/1.5 system-ui, "DejaVu Sans", sans-serif; background: #f7f5ef; color: #1f2a35; }
[data-theme="dark"] body { background: #1b2127; color: #e3e7ea; }
main { display: grid; gap: 40px 32px; grid-template-columns: repeat(auto-fit, minmax(min(100%, 340px), 1fr)); max-width: 1168px; margin: 0 auto; }
h2 { font-size: 1rem; margin: 0 0 12px; }
@media print { main { display: block; } section { break-inside: avoid; margin-bottom: 1cm; }
  body, [data-theme] body { background: #fff; color: #000; } }
`
