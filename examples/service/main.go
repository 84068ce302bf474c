// Command service answers questions about rigs for apps that are not written in
// Go: one JSON document in, one out.
//
// With no arguments it reads a request on standard input and writes the answer
// on standard output:
//
//	go run ./examples/service < examples/service/request.json
//
// With -http it serves the same contract:
//
//	go run ./examples/service -http 127.0.0.1:8642
//	curl -H 'Content-Type: application/json' --data @examples/service/request.json http://127.0.0.1:8642/answer
//
// A request holds a specification and, as far as they are wanted, a shelf of
// parts, a price book, changed limits, a letterhead and options; an answer holds
// a report, a quote for the dealer or for the customer, pages, or everything
// that is wrong with the request, by path, line and column. -schema request and
// -schema response print their JSON Schemas, which name those of the members.
//
// An answer for a customer, which is what is given unless the dealer's is asked
// for, is made of types that cannot hold cost, margin or supplier's numbers.
//
// The server listens on this machine alone unless -public is given, bounds the
// size and the time of requests, and keeps nothing.
//
// Exit codes: 0 it answered; 1 the request was refused, or bad flags.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"os"
	"os/signal"

	"example.com/washrig/examples/internal/load"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// Exit codes.
const (
	ran      = 0
	badInput = 1
)

func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("service", flag.ContinueOnError)
	fs.SetOutput(stderr)
	address := fs.String("http", "", "serve on this `address`, such as 127.0.0.1:8642, instead of standard input and output")
	public := fs.Bool("public", false, "allow an address that other machines can reach")
	var hosts load.List
	fs.Var(&hosts, "host", "host `name` that is served beside this machine's own; repeat the flag for more")
	schema := fs.String("schema", "", "print a schema: request or response")
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return ran
		}
		return badInput
	}
	fail := func(err error) int {
		fmt.Fprintln(stderr, "service:", err)
		return badInput
	}
	var err error
	switch {
	case fs.NArg() > 0:
		return fail(fmt.Errorf("%q: want flags only", fs.Arg(0)))
	case *schema == "request":
		_, err = io.WriteString(stdout, requestSchema)
	case *schema == "response":
		_, err = io.WriteString(stdout, responseSchema)
	case *schema != "":
		err = fmt.Errorf("-schema %q: want request or response", *schema)
	case *address != "":
		if !*public {
			err = loopback(*address)
		}
		if err == nil {
			err = serve(ctx, *address, hosts, func(a net.Addr) { fmt.Fprintf(stderr, "service: listening on %s\n", a) })
		}
	default:
		return once(stdin, stdout, fail)
	}
	if err != nil {
		return fail(err)
	}
	return ran
}

// once answers the request on standard input.
func once(stdin io.Reader, stdout io.Writer, fail func(error) int) int {
	body, err := io.ReadAll(io.LimitReader(stdin, maxRequest+1))
	if err != nil {
		return fail(err)
	}
	a := answer(body)
	data, err := encode(a)
	if err == nil {
		_, err = stdout.Write(data)
	}
	if err != nil {
		return fail(err)
	}
	if !a.OK {
		return badInput
	}
	return ran
}
