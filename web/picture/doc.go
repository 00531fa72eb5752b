// Package picture is the one place that draws: the table, the rack, the tip and
// the contact, and the small charts, all as SVG by templ.
//
// A picture is made from a view: a plain value in the words of table and rack,
// filled by a page. The package refuses to know people, storage, requests and
// judgement; it never decides what a result means.
//
// # Scale
//
// Pictures of the table are true to scale. One inch on the cloth is
// UnitsPerInch user units of the SVG, and the breaker stands at the bottom, so
// that for a point (u, v) in user units
//
//	x_in =  u / 10
//	y_in = -v / 10
//
// on every kind of table. The viewBox is Extent.ViewBox. A Tappable view says
// the same in data attributes (data-inches-per-unit="0.1", data-feet,
// data-width, data-length in inches), so that a script turns a tap into inches:
//
//	const p = new DOMPoint(e.clientX, e.clientY)
//	            .matrixTransform(svg.getScreenCTM().inverse());
//	const x = p.x * 0.1, y = -p.y * 0.1;
//
// Each pocket carries data-pocket with its name. Without a script the same
// picture is served as an image button: WriteSVG draws it, PlaceFromPixels turns
// the pixel that the form sends into inches.
// The image must then be shown at the size in pixels that the server believes,
// so give the input width and height attributes.
//
// # Colour and style
//
// Every shape has presentation attributes that look right alone, in print or in
// an image; static/css/picture.css, loaded with the page, changes them for dark
// pages and for paper. There is no style attribute and no style element, so a
// content security policy of default-src 'self' is enough. All classes begin
// with "pic-". Marks differ in shape first and in colour second.
//
// # Words
//
// Every picture has a title and a description in plain words, made by the
// Describe functions. A view's ID must be unique on its page: the ids in the
// picture begin with it.
//
// Sizes of table and ball are those of internal/table; what is only drawn
// (cushion width, facings, sights, rails) follows the World Pool-Billiard
// Association's table and equipment specification, cited in outline.go.
package picture
