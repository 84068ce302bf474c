package sheet

import (
	"example.com/washrig/rig"
	"example.com/washrig/units"
)

// carries sets usable against nominal volumes: what a tank can give is not
// what its sheet says it holds.
func carries(d *Document, in *source) error {
	t := Table{Columns: []Column{left("tank"), right("usable"), right("nominal"), left("holds"), left("basis of the usable volume")}}
	for i := range in.spec.Tanks {
		k := &in.spec.Tanks[i]
		t.Rows = append(t.Rows, []string{k.ID, in.volume(k.Usable), in.volume(k.Nominal), k.Contents + " water", in.origin(rig.Path("tanks[" + k.ID + "].usable"))})
	}
	for i := range in.spec.FuelTanks {
		k := &in.spec.FuelTanks[i]
		t.Rows = append(t.Rows, []string{k.ID, none, in.volume(k.Volume), k.Fuel, in.origin(rig.Path("fuel_tanks[" + k.ID + "].volume"))})
	}
	if len(t.Rows) > 0 {
		d.Add(Heading{Text: "What it carries"}, t)
	}
	return nil
}

func (in *source) volume(v units.Volume) string {
	if v == 0 {
		return none
	}
	return v.Quantity().Text(in.o.System, digits)
}

// origin says where a value comes from.
func (in *source) origin(p rig.Path) string {
	o := in.m.Origin(p)
	w := string(o.Basis)
	if w == "" {
		w = "stated"
	}
	if o.Why != "" && o.Basis == rig.Assumed {
		w += ": " + o.Why
	}
	return w
}
