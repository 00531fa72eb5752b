// Package record is the page at the table: a student enters what a break did,
// one break after another, until the set is closed. It works as plain forms;
// scripts only save taps. It is kept apart from the other pages so that it
// stays small.
package record
