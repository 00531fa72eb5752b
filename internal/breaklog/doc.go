// Package breaklog reads and writes the break log: a CSV file with one row a
// break, used to import paper records, to export everything, and to ask for
// advice without a database. It knows how a file becomes sets and sets become
// a file. It refuses to judge a break, to guess at a cell it cannot read, and
// to take half a file.
//
// # The file
//
// UTF-8 with or without a byte order mark, commas and quotes as RFC 4180 has
// them, a header row, columns in any order. Unknown and repeated columns are
// refused by name. An empty cell says "not observed"; a row without any filled
// cell is passed over, since spreadsheets leave such rows behind. Spaces around
// a cell do not count, except in a note. Lengths are inches and speeds miles an
// hour, in the coordinates of package table; numbers have a decimal point.
//
// # Sets
//
// Breaks with the same student and set belong together, wherever their rows
// stand. Students come in the order in which the file first names them, a
// student's sets by their first time; sets without any time keep their place in
// the file. One set is one setup: game, table, side, rack, spot, wing, place,
// contact, tip and spin agree on all its rows. Speed is what was measured, break
// by break; the setup's speed is the one asked for, where the file has it, else
// the median of the measured ones, to a tenth of a mile an hour, 0 when none was. A
// set without breaks is not in the file.
//
// # The plan of a set
//
// Eight more columns, the same on all rows of a set, say what it was broken for and
// what a coach decided on it, so that advice on a log is the advice that the
// student's page gives. A file without them reads as it always did.
//
//	speed_asked  mph, or "own" when it was left to the student
//	window       two opposite corners of the cue-ball window: -12.5,25;12.5,50
//	goals        shares of the breaks: wing@0.5;window@0.6;shot@0.4;ran_out@0.1
//	house        the room's rules: box@8 (inches to each side); three-points
//	closed       when the set was closed, as at; empty while it is open
//	decision     newest first: declined weak-break;changed cue-ball-wide contact=0.2;
//	             own speed=16 tip=-0.2: what was decided, what had asked for the
//	             change, and by its column what it made another than in this set
//	rules        a club's own numbers of the adviser's rules when the set was closed,
//	             only what is not as the rules come:
//	             revision=7;unsteady line=0.3 min_breaks=12;dry-break on=no
//	tables_play  how the club's tables play, as the breaks of other students had shown
//	             it when the set was closed, as drill.TablesPlay has it:
//	             breaks=240;character=1,0,-2,0;spread=2,3,2,0;departures=0,-1,3
//
// # What an empty cell of the setup means
//
// The game is nine-ball, the table 9 ft with standard pocket mouths, the side
// the one the cue ball stands on (the long string counts as left), the rack the
// game's practice order for a break from that side, the spot the game's usual
// one, the wing ball the one on the break side; contact, tip and spin are 0.
// Records are of the past: they are held to what is possible, not to the
// narrower limits that are taught.
//
// # Text and spreadsheets
//
// A spreadsheet takes a cell that begins with = + - or @ for a formula and may
// run it. Texts that people type (student, set, table, note) are therefore
// written with an apostrophe in front when they begin so, and read without it:
// text that begins with apostrophes and then such a sign has one apostrophe
// taken off. Both ways it is exact: what was written is what is read, an
// apostrophe before a letter stays, and a spreadsheet sees only text. Numbers
// and places need no such care. Line ends in a note are always line feeds.
package breaklog
