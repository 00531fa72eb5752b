// Package sql holds the SQL of Breakwright: the migrations, which the program
// carries along, and the queries, from which sqlc writes Go.
package sql

import "embed"

// Migrations are goose's files, in the folder "migrations".
//
//go:embed migrations/*.sql
var Migrations embed.FS
