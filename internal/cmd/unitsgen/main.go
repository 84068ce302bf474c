// Command unitsgen writes units/zkinds.go. Run it by "go generate ./units".
package main

import (
	"log"
	"os"

	"example.com/washrig/internal/unitsgen"
)

func main() {
	log.SetFlags(0)
	if len(os.Args) != 2 {
		log.Fatal("usage: unitsgen file")
	}
	src, err := unitsgen.Generate()
	if err != nil {
		log.Fatal(err)
	}
	if err := os.WriteFile(os.Args[1], src, 0o644); err != nil {
		log.Fatal(err)
	}
}
