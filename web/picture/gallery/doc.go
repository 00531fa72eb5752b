// Command gallery writes a page with every picture, so that they can be looked
// at: light, dark and in print, at the width of a phone and of a laptop.
//
//	go run ./web/picture/gallery -out DIR -css static/css/picture.css
//
// What it shows is in package plate.
package main
