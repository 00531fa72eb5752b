package main

import (
	"strings"
	"testing"
)

func TestImportGroups(t *testing.T) {
	header := "package web\n\nimport (\n"
	for source, says := range map[string]string{
		header + "\t\"fmt\"\n\t\"os\"\n\n\t\"example.com/x\"\n\n\t\"breakwright/web/page\"\n)\n": "",
		header + "\t\"fmt\"\n\n\t\"breakwright/web/page\"\n)\n":                                  "",
		"package web\n\nimport \"fmt\"\n":                                                        "",
		"package web\n":                                                                          "",
		header + "\t\"fmt\"\n\n\t\"os\"\n)\n":                                                    "two groups",
		header + "\t\"fmt\"\n\t\"example.com/x\"\n)\n":                                           "one group",
		header + "\t\"example.com/x\"\n\n\t\"fmt\"\n)\n":                                         "comes after",
		header + "\t\"breakwright/web/page\"\n\n\t\"example.com/x\"\n)\n":                        "comes after",
		"package web\n\nimport \"fmt\"\nimport \"os\"\n":                                         "one import block",
	} {
		err := checkImportGroups("web/desk.go", []byte(source))
		if got := err != nil; got != (says != "") || got && !strings.Contains(err.Error(), says) {
			t.Errorf("%s\nis found to be: %v, want %q", source, err, says)
		}
	}
}
