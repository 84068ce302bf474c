# Writes colebrook_mpmath.csv: the Colebrook-White equation solved by Newton's
# method in 40 digits. Run as: python3 colebrook_mpmath.py > colebrook_mpmath.csv
import random

import mpmath as mp

mp.mp.dps = 40
random.seed(20261125)


def f(re, k):
    x = mp.mpf(6)
    for _ in range(60):
        s = k / mp.mpf("3.7") + mp.mpf("2.51") * x / re
        g = x + 2 * mp.log10(s)
        x -= g / (1 + 2 / mp.log(10) * mp.mpf("2.51") / re / s)
    return 1 / x**2


cases = [(4000.0, 0.0), (4000.0, 0.05), (1e8, 0.0), (1e8, 0.05), (1e12, 1e-9), (1e15, 0.0)]
for _ in range(194):
    re = float("%.6g" % (4000 * 10 ** random.uniform(0, 5)))
    k = 0.0 if random.random() < 0.15 else float("%.6g" % (0.05 * 10 ** random.uniform(-7, 0)))
    cases.append((re, k))
print("# source: mpmath %s, 40 digits, 2026-11-25; f = 1/x^2, x + 2 log10(k/3.7 + 2.51 x/Re) = 0; status: computed" % mp.__version__)
print("Re,k,f")
for re, k in cases:
    print("%r,%r,%s" % (re, k, mp.nstr(f(mp.mpf(re), mp.mpf(k)), 20)))
