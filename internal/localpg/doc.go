// Package localpg finds or obtains PostgreSQL and runs a private server of it.
//
// "Cluster" is PostgreSQL's own word for one server and its data folder. A
// private one serves `breakwright demo` and the tests: it listens on a unix
// socket only, in a folder that only its own user and root may enter, so it
// needs no password and never meets a server that the machine already runs.
//
// The package knows folders, processes and users. It refuses to know tables,
// migrations or roles: those belong to the store. It never touches a cluster
// it did not make, never deletes data, and never stops a server that another
// process started.
//
// PostgreSQL refuses to run as root, so root hands the folder to the user
// postgres, or to nobody where there is none.
package localpg
