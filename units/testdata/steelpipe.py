#!/usr/bin/env python3
"""Write steelpipe.csv: metric dimensions of steel pipe as fluids tabulates them.

Run as: python3 steelpipe.py > steelpipe.csv   (Debian package "python3-fluids")
"""
import fluids
from fluids import piping

print(f"# source: fluids {fluids.__version__}, tables of ASME B36.10M in millimetres, run 2026-11-25 by steelpipe.py; status: computed")
print("nominal_in,schedule,outside_mm,wall_mm")
for schedule, sizes, outside, wall in (
    (40, piping.NPS40, piping.S40o, piping.S40t),
    (80, piping.NPS80, piping.S80o, piping.S80t),
):
    for row in zip(sizes, outside, wall):
        if row[0] <= 6:
            print(f"{row[0]},{schedule},{row[1]},{row[2]}")
