package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

const tiny = `{"format":"washrig-request/1","spec":{"format":"washrig/1","name":"x"}}`

func post(t testing.TB, h http.Handler, set func(*http.Request), body io.Reader) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(http.MethodPost, "http://localhost/answer", body)
	r.Header.Set("Content-Type", "application/json")
	if set != nil {
		set(r)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestHandler(t *testing.T) {
	h := handler("rigs.example")
	for _, c := range []struct {
		name string
		set  func(*http.Request)
		body string
		want int
	}{
		{"good", nil, tiny, http.StatusOK},
		{"with a character set", func(r *http.Request) { r.Header.Set("Content-Type", "application/json; charset=utf-8") }, tiny, http.StatusOK},
		{"address", func(r *http.Request) { r.Host = "127.0.0.1:8642" }, tiny, http.StatusOK},
		{"address of the sixth version", func(r *http.Request) { r.Host = "[::1]:8642" }, tiny, http.StatusOK},
		{"listed name", func(r *http.Request) { r.Host = "rigs.example:80" }, tiny, http.StatusOK},
		{"another site's page", func(r *http.Request) { r.Host = "elsewhere.example" }, tiny, http.StatusForbidden},
		{"a form's content type", func(r *http.Request) { r.Header.Set("Content-Type", "text/plain") }, tiny, http.StatusUnsupportedMediaType},
		{"no content type", func(r *http.Request) { r.Header.Del("Content-Type") }, tiny, http.StatusUnsupportedMediaType},
		{"bad request", nil, `{"format":"washrig-request/1"}`, http.StatusUnprocessableEntity},
		{"no JSON", nil, `<xml/>`, http.StatusUnprocessableEntity},
		{"GET", func(r *http.Request) { r.Method = http.MethodGet }, tiny, http.StatusMethodNotAllowed},
		{"another path", func(r *http.Request) { r.URL.Path = "/" }, tiny, http.StatusNotFound},
	} {
		w := post(t, h, c.set, strings.NewReader(c.body))
		if w.Code != c.want || w.Header().Get("X-Content-Type-Options") != "nosniff" || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %d, want %d; %v", c.name, w.Code, c.want, w.Header())
		}
		if c.want != http.StatusMethodNotAllowed && c.want != http.StatusNotFound && !json.Valid(w.Body.Bytes()) {
			t.Errorf("%s: the answer is no JSON: %s", c.name, w.Body)
		}
	}
	// the answer is the one of standard input and output
	if got := post(t, h, nil, strings.NewReader(tiny)).Body.String(); got != text(t, answer([]byte(tiny))) {
		t.Errorf("the server answers %s", got)
	}
	for _, name := range []string{"request", "response"} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "http://localhost/schema/"+name+".json", nil))
		if w.Code != http.StatusOK || !json.Valid(w.Body.Bytes()) {
			t.Errorf("the schema of a %s: %d", name, w.Code)
		}
	}
}

// endless is a body that never ends.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	e.read += len(p)
	return len(p), nil
}

func TestHandler_boundsTheBody(t *testing.T) {
	body := &endless{}
	if w := post(t, handler(), nil, body); w.Code != http.StatusRequestEntityTooLarge || body.read > 2*maxRequest {
		t.Errorf("%d after %d bytes", w.Code, body.read)
	}
}

// More requests than are answered at once are asked to come again.
func TestHandler_boundsTheCrowd(t *testing.T) {
	h := handler()
	held := make([]*io.PipeWriter, atOnce)
	done := make(chan int, atOnce)
	for i := range held {
		r, w := io.Pipe()
		held[i] = w
		go func() { done <- post(t, h, nil, r).Code }()
		if _, err := w.Write([]byte(" ")); err != nil { // read: the request is being answered
			t.Fatal(err)
		}
	}
	if w := post(t, h, nil, strings.NewReader(tiny)); w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" {
		t.Errorf("one more than %d at once: %d", atOnce, w.Code)
	}
	for _, w := range held {
		if _, err := w.Write([]byte(tiny)); err != nil {
			t.Fatal(err)
		}
		w.Close()
	}
	for range held {
		if code := <-done; code != http.StatusOK {
			t.Errorf("a request that waited got %d", code)
		}
	}
	if w := post(t, h, nil, strings.NewReader(tiny)); w.Code != http.StatusOK {
		t.Errorf("after the crowd: %d", w.Code)
	}
}

func TestLoopback(t *testing.T) {
	for address, want := range map[string]bool{"127.0.0.1:80": true, "localhost:0": true, "[::1]:80": true, "127.8.9.10:1": true,
		":80": false, "0.0.0.0:80": false, "192.0.2.1:80": false, "rigs.example:80": false, "[::]:80": false, "80": false, "": false} {
		if err := loopback(address); (err == nil) != want {
			t.Errorf("%q: %v", address, err)
		}
	}
}

// The server answers on a real socket and ends when it is told to.
func TestServe(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	ready, ended := make(chan net.Addr, 1), make(chan error, 1)
	go func() { ended <- serve(ctx, "127.0.0.1:0", nil, func(a net.Addr) { ready <- a }) }()
	var address net.Addr
	select {
	case address = <-ready:
	case err := <-ended:
		t.Fatal(err)
	}
	resp, err := http.Post(fmt.Sprintf("http://%s/answer", address), "application/json", strings.NewReader(tiny))
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(resp.Body)
	resp.Body.Close()
	if err != nil || resp.StatusCode != http.StatusOK || !bytes.Contains(body, []byte(`"ok":true`)) {
		t.Errorf("%d, %v: %s", resp.StatusCode, err, body)
	}
	cancel()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Error("the server does not end")
	}
}

func TestRun(t *testing.T) {
	for _, c := range []struct {
		stdin string
		args  []string
		want  int
		out   string
		err   string
	}{
		{tiny, nil, ran, `"ok":true`, ""},
		{`{}`, nil, badInput, `"ok":false`, ""},
		{"", []string{"-schema", "request"}, ran, "Request about a wash rig", ""},
		{"", []string{"-schema", "response"}, ran, "Answer about a wash rig", ""},
		{"", []string{"-schema", "other"}, badInput, "", "request or response"},
		{"", []string{"-http", "0.0.0.0:0"}, badInput, "", "-public"},
		{"", []string{"-http", "nonsense"}, badInput, "", "nonsense"},
		{"", []string{"stray"}, badInput, "", "flags only"},
		{"", []string{"-h"}, ran, "", "-http"},
	} {
		var out, errs bytes.Buffer
		code := run(context.Background(), c.args, strings.NewReader(c.stdin), &out, &errs)
		if code != c.want || !strings.Contains(out.String(), c.out) || !strings.Contains(errs.String(), c.err) || (c.out == "" && out.Len() > 0) {
			t.Errorf("%q: exit %d, %s%s", c.args, code, out.String(), errs.String())
		}
	}
}
