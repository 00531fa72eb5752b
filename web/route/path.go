package route

import "breakwright/internal/store"

// StudentPath is the address of a student's page for coaches.
func StudentPath(id store.PersonID) string { return "/students/" + id.String() }

// CoachPath is where the pages about a coach begin.
func CoachPath(id store.PersonID) string { return "/club/coaches/" + id.String() }

// ClassPath is the address of a class.
func ClassPath(id store.ClassID) string { return "/classes/" + id.String() }

// TablePath is the address of a table.
func TablePath(id store.TableID) string { return "/tables/" + id.String() }

// DrillPath is the address of a drill.
func DrillPath(id store.DrillID) string { return "/drills/" + id.String() }

// AssignmentPath is the address of an assignment for coaches.
func AssignmentPath(id store.AssignmentID) string { return "/assignments/" + id.String() }

// TaskPath is the address of an assignment for a student who has it to do.
func TaskPath(id store.AssignmentID) string { return "/today/" + id.String() }

// SetPath is the address of a set for coaches.
func SetPath(id store.SetID) string { return "/sets/" + id.String() }

// OwnSetPath is the address of a set for the student who recorded it.
func OwnSetPath(id store.SetID) string { return "/my/sets/" + id.String() }

// PrescriptionPath is the address of a change.
func PrescriptionPath(id store.PrescriptionID) string { return "/prescriptions/" + id.String() }

// SetChangePath is where a coach makes a change of their own from a set.
func SetChangePath(id store.SetID) string { return SetPath(id) + "/change" }
