package main

import "os"

// asProcess, set in the environment, makes the test binary the program itself.
const asProcess = "BREAKWRIGHT_TEST_AS_PROGRAM"

// actAsProgram is the first thing that TestMain does.
func actAsProgram() {
	if os.Getenv(asProcess) != "" {
		main()
	}
}
