package sheet

import "fmt"

// passed are the judgements that found nothing, narrowest first: a pass is a
// judgement and not silence.
func passed(d *Document, in *source) error {
	list := in.rep.Passed()
	if len(list) == 0 {
		return nil
	}
	d.Add(Heading{Text: "Checked and passed, narrowest first"})
	var l List
	for _, f := range list {
		if f.Limit.SI() == 0 || (!in.o.Full && len(l.Items) == 6) {
			continue
		}
		text := fmt.Sprintf("%s: %s — %s. Limit: %s.", component(f.Reading), against(f, in.o.System), stateWords(in.m, f.Reading.State), f.Source)
		if w := leanWords(in.m, f, in.o.System); w != "" {
			text += " " + w
		}
		l.Items = append(l.Items, text)
	}
	d.Add(l)
	if more := len(list) - len(l.Items); more > 0 {
		d.Add(Paragraph{Text: fmt.Sprintf("and %d more.", more)})
	}
	return nil
}
