package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net"
	"net/http"
	"time"
)

// Bounds of the server. They are generous for one shop and small for a machine.
const (
	readHeaderTime = 5 * time.Second
	readTime       = 30 * time.Second
	writeTime      = 60 * time.Second
	idleTime       = 60 * time.Second
	headerBytes    = 16 << 10
	atOnce         = 4 // requests answered at once; more are asked to come again
)

// handler answers POST /answer with the response to the request in its body,
// and GET /schema/request.json and /schema/response.json with the schemas. The
// host names it answers to are those of this machine unless others are listed:
// a page of another site cannot have a browser ask on its behalf.
func handler(hosts ...string) http.Handler {
	mux := http.NewServeMux()
	busy := make(chan struct{}, atOnce)
	mux.HandleFunc("POST /answer", func(w http.ResponseWriter, r *http.Request) {
		if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
			respond(w, http.StatusUnsupportedMediaType, refusal("want the content type application/json"))
			return
		}
		select {
		case busy <- struct{}{}:
			defer func() { <-busy }()
		default:
			w.Header().Set("Retry-After", "1")
			respond(w, http.StatusServiceUnavailable, refusal("too many requests at once; try again"))
			return
		}
		body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxRequest))
		if err != nil {
			status := http.StatusBadRequest
			var large *http.MaxBytesError
			if errors.As(err, &large) {
				status = http.StatusRequestEntityTooLarge
			}
			respond(w, status, refusal(err.Error()))
			return
		}
		a := answer(body)
		status := http.StatusOK
		if !a.OK {
			status = http.StatusUnprocessableEntity
		}
		respond(w, status, a)
	})
	for name, text := range map[string]string{"request": requestSchema, "response": responseSchema} {
		mux.HandleFunc("GET /schema/"+name+".json", func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", "application/schema+json")
			_, _ = io.WriteString(w, text) // a reader that went away needs no answer
		})
	}
	return guarded(mux, hosts)
}

// guarded refuses requests to a host name that is not this machine's and sets
// the headers of every answer.
func guarded(next http.Handler, hosts []string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Cache-Control", "no-store")
		host, _, err := net.SplitHostPort(r.Host)
		if err != nil {
			host = r.Host
		}
		for _, x := range append([]string{"localhost", "127.0.0.1", "::1", "[::1]"}, hosts...) {
			if host == x {
				next.ServeHTTP(w, r)
				return
			}
		}
		respond(w, http.StatusForbidden, refusal("this host name is not served here"))
	})
}

func refusal(message string) response {
	return response{Format: responseFormat, Problems: []problem{{Message: message}}}
}

func respond(w http.ResponseWriter, status int, a response) {
	data, err := encode(a)
	if err != nil { // a report that cannot be written is a mistake of ours
		status, data = http.StatusInternalServerError, []byte(fmt.Sprintf("{%q:%q,%q:false}\n", "format", responseFormat, "ok"))
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = w.Write(data) // a reader that went away needs no answer
}

// serve listens until the context ends, then lets requests finish.
func serve(ctx context.Context, address string, hosts []string, ready func(net.Addr)) error {
	l, err := net.Listen("tcp", address)
	if err != nil {
		return err
	}
	s := &http.Server{Handler: handler(hosts...), ReadHeaderTimeout: readHeaderTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime, MaxHeaderBytes: headerBytes}
	ready(l.Addr())
	failed := make(chan error, 1)
	go func() { failed <- s.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	end, cancel := context.WithTimeout(context.Background(), writeTime)
	defer cancel()
	err = s.Shutdown(end)
	if served := <-failed; !errors.Is(served, http.ErrServerClosed) {
		err = errors.Join(err, served)
	}
	return err
}

// loopback refuses an address that other machines can reach.
func loopback(address string) error {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return err
	}
	if ip := net.ParseIP(host); host == "localhost" || (ip != nil && ip.IsLoopback()) {
		return nil
	}
	return fmt.Errorf("%s can be reached by other machines; say -public if that is meant, and put a server with TLS and a password before it", address)
}

func encode(a response) ([]byte, error) {
	var b buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(a)
	return b, err
}

// A buffer collects what is written to it.
type buffer []byte

func (b *buffer) Write(p []byte) (int, error) { *b = append(*b, p...); return len(p), nil }
