package csvcell

import "testing"

// The signs are those of the OWASP page on CSV injection: = + - @, tab, carriage
// return, and their full-width forms.
func TestInert(t *testing.T) {
	for _, s := range []string{"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", " =1", "\u00a0=1", "＝1", "＋1", "－1", "＠x", "=cmd|' /C calc'!A0"} {
		if got := Inert(s); got != "'"+s {
			t.Errorf("Inert(%q) = %q", s, got)
		}
	}
	for _, s := range []string{"", " ", "pump", "3/8 in hose", "'=1", "a=1", "−40 °F", "2283"} {
		if got := Inert(s); got != s {
			t.Errorf("Inert(%q) = %q", s, got)
		}
	}
}

func TestText(t *testing.T) {
	for _, c := range [][2]string{
		{"one\ntwo", "one; two"}, {"one\r\n\r\ntwo\n", "one; two"}, {"a\x1b[31mb", "a\ufffd[31mb"}, {"a\xffb", "a\ufffdb"}, {"a\u202eb", "a\ufffdb"},
		{"=1", "'=1"}, {"\n=1", "'=1"}, {"plain", "plain"},
	} {
		if got := Text(c[0]); got != c[1] {
			t.Errorf("Text(%q) = %q, want %q", c[0], got, c[1])
		}
	}
}

func TestComment(t *testing.T) {
	for _, c := range [][2]string{{"one, two", "# one; two"}, {`a "b"`, "# a 'b'"}, {"=1\n2", "# =1; 2"}, {"a\x1bb", "# a\ufffdb"}} {
		if got := Comment(c[0]); got != c[1] {
			t.Errorf("Comment(%q) = %q, want %q", c[0], got, c[1])
		}
	}
}
