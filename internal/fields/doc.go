// Package fields makes one table of a Go struct type by reflection and reads,
// writes, gets and sets values by that table.
//
// The table is the single description of a file's vocabulary: the strict JSON
// decoder, access by path, spreadsheet headers, defaults, schemas, forms and
// documents all read it.
//
// Beside it stand the parts that readers of such files share: what text is
// clean ([CleanText]), and the rows and cells of spreadsheets ([Rows],
// [AppendCell], [Inert]).
//
// # Tags
//
//	json:"hose"             the name in files and paths; "-" leaves the field out
//	doc:"free text"         one sentence for people
//	group:"lines"           heading in forms and documents
//	range:"0 psi..9000 psi" closed range of an accepted value; either end may be empty
//	need:"yes"              must be given before the model can be built
//	default:"0.96"          value taken, and recorded as assumed, when nothing is given
//	why:"common practice"   where the default comes from
//	when:"type=belt"        the default holds only where the sibling field says so
//	choice:"open|shut"      the accepted words of a text field
//	ref:"tanks"             the text must be the id of an element of that list
//
// # Paths
//
// A path is names joined by dots; an element of a list is named by its id in
// brackets: lines[left].hose.length. An element without a valid id is named by
// its position from 1, lines[#2], and only in error messages. A pattern is a
// path with empty brackets: lines[].hose.length.
package fields
