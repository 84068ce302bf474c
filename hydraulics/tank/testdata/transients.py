"""Reference transients of draining and joined tanks for the tests of this package.

Integrates the same physics with SciPy's Radau method and writes
transients.csv: volumes and volumes of recovered water by tank at given times, and
the times at which a level meets its overflow or a drawn port. Needs SciPy (1.10.1);
run in this directory:  python3 transients.py

Everything is written down again from the textbooks: friction is Colebrook's equation
solved by bracketing, laminar below Re = 2000 and the cubic in Re between 2000 and
4000 that meets both in value and slope; a link or outlet loses
(K + f L/d) rho v^2/2 + 3 mu q/r^3.
"""
import math

import scipy
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

G, RHO, MU = 9.80665, 998.2, 1.0e-3


def colebrook(re, k):
    g = lambda x: x + 2 * math.log10(k / 3.7 + 2.51 * x / re)
    x = brentq(g, 1, 20, xtol=1e-15, rtol=1e-15)
    return 1 / (x * x)


def colebrook_slope(re, k):
    # implicit derivative of x + 2 log10(k/3.7 + 2.51 x/Re) = 0, f = x^-2
    x = colebrook(re, k) ** -0.5
    s = k / 3.7 + 2.51 * x / re
    c = 2 / math.log(10) / s
    dx = c * 2.51 * x / re**2 / (1 + c * 2.51 / re)
    return -2 * x**-3 * dx


def friction(re, k):
    if re <= 2000:
        return 64 / re
    if re >= 4000:
        return colebrook(re, k)
    a, b = 2000.0, 4000.0
    fa, fb, sa, sb = 64 / a, colebrook(b, k), -64 / a**2, colebrook_slope(b, k)
    t, w = (re - a) / (b - a), b - a
    return ((1 + 2 * t) * (1 - t)**2 * fa + t * (1 - t)**2 * w * sa
            + t * t * (3 - 2 * t) * fb + t * t * (t - 1) * w * sb)


class Opening:
    def __init__(self, d, K, L=0.0, e=0.0):
        self.d, self.K, self.L, self.e = d, K, L, e

    def loss(self, q):
        a = math.pi / 4 * self.d**2
        v = q / a
        p = self.K * RHO * v * v / 2 + 3 * MU * q / (self.d / 2)**3
        if self.L > 0 and q > 0:
            re = RHO * v * self.d / MU
            p += friction(re, self.e / self.d) * self.L / self.d * RHO * v * v / 2
        return p

    def flow(self, head):
        if head <= 0:
            return 0.0
        dp = RHO * G * head
        hi = math.pi / 4 * self.d**2 * math.sqrt(2 * dp / (RHO * self.K))
        if self.loss(hi) <= dp:
            return hi
        return brentq(lambda q: self.loss(q) - dp, 0, hi, xtol=1e-18, rtol=1e-14)


class Upright:
    def __init__(self, area, height):
        self.area, self.height = area, height

    def volume(self, h):
        return self.area * min(max(h, 0), self.height)

    def level(self, v):
        return min(max(v / self.area, 0), self.height)


class Lying:
    """Cylinder lying on its side with ends that are parts of a sphere."""

    def __init__(self, d, length, dish):
        self.r, self.l, self.dish, self.height = d / 2, length, dish, d

    def area(self, h):
        w = math.sqrt(max(0, self.r**2 - (self.r - h)**2))
        rs = (self.r**2 + self.dish**2) / (2 * self.dish)
        c = rs - self.dish
        r = math.hypot(c, w)
        return 2 * w * self.l + 2 * (r * r * math.acos(c / r) - c * w)

    def volume(self, h):
        return quad(self.area, 0, h, epsabs=1e-15, epsrel=1e-13, limit=200)[0]


def run_upright(tanks, links, outlets, fills, draws, brims, start, rec, until, times, pitch=0.0, x=None, floors=None):
    """tanks: Upright; links: (from, to, zf, zt, Opening), z above own floor;
    outlets: (tank, z, Opening); fills: (tank, q, share); draws: (tank, z, q);
    brims: overflow levels. Returns rows and events."""
    n = len(tanks)
    x = x or [0.0] * n
    floors = floors or [0.0] * n
    c, s = math.cos(pitch), math.sin(pitch)
    e0 = [floors[i] * c - x[i] * s for i in range(n)]
    mode = ["free"] * n  # free, spill, starved
    dry = [False] * len(draws)

    def through(y):
        lv = [tanks[i].level(y[i]) for i in range(n)]
        sf = [e0[i] + lv[i] * c for i in range(n)]
        out = []
        for a, b, za, zb, o in links:
            sill = max(e0[a] + za * c, e0[b] + zb * c)
            if sf[a] >= sf[b]:
                q = o.flow(sf[a] - max(sf[b], sill)) if sf[a] > sill else 0.0
            else:
                q = -o.flow(sf[b] - max(sf[a], sill)) if sf[b] > sill else 0.0
            out.append((a, b, q))
        for t, z, o in outlets:
            out.append((t, -1, o.flow(sf[t] - (e0[t] + z * c))))
        for t, q, _ in fills:
            out.append((-1, t, q))
        return out

    def rates(t, y):
        d = [0.0] * (2 * n)
        net = [0.0] * n
        share = [y[n + i] / max(y[i], 1e-9 * tanks[i].volume(1e9)) for i in range(n)]

        def move(a, b, q, conc=None):
            src = a if q >= 0 else b
            cc = conc if conc is not None else share[src]
            if a >= 0:
                d[a] -= q
                d[n + a] -= q * cc
            if b >= 0:
                d[b] += q
                d[n + b] += q * cc

        nf = len(links) + len(outlets)
        for k, (a, b, q) in enumerate(through(y)):
            move(a, b, q, fills[k - nf][2] if k >= nf else None)
        for k, (tk, z, q) in enumerate(draws):
            if mode[tk] == "starved":
                q = d[tk] if d[tk] > 0 else 0.0
            move(tk, -1, q)
        for i in range(n):
            if mode[i] == "spill":
                move(i, -1, d[i])
        return d

    rows, events = [], []
    t, y = 0.0, list(start) + list(rec)
    todo = list(times)
    while todo:
        fs = []
        for i in range(n):
            if mode[i] == "free":
                def f(t, y, i=i, v=tanks[i].volume(brims[i])):
                    return y[i] - v
                f.terminal, f.direction, f.what = True, 1, ("spill begins", i)
                fs.append(f)
        for k, (tk, z, q) in enumerate(draws):
            if mode[tk] == "free":
                def f(t, y, tk=tk, v=tanks[tk].volume(z)):
                    return y[tk] - v
                f.terminal, f.direction, f.what = True, -1, ("port dries", tk)
                fs.append(f)
        for i in range(n):
            if mode[i] == "spill":
                def f(t, y, i=i):
                    was, mode[i] = mode[i], "free"
                    r = rates(t, y)[i]
                    mode[i] = was
                    return r
                f.terminal, f.direction, f.what = True, -1, ("spill ends", i)
                fs.append(f)
        r = solve_ivp(rates, (t, until), y, method="Radau", t_eval=None, rtol=1e-11, atol=1e-14,
                      events=fs, dense_output=True, max_step=until / 200)
        end = r.t[-1]
        while todo and todo[0] <= end:
            rows.append((todo[0], list(r.sol(todo[0]))))
            todo.pop(0)
        t, y = end, list(r.y[:, -1])
        for f, ts in zip(fs, r.t_events):
            if len(ts):
                what, i = f.what
                events.append((ts[0], what, i))
                mode[i] = {"spill begins": "spill", "port dries": "starved", "spill ends": "free"}[what]
                if what == "spill begins":
                    y[i] = tanks[i].volume(brims[i])
                if what == "port dries":
                    y[i] = [tanks[i].volume(z) for tk, z, q in draws if tk == i][0]
        if not any(len(ts) for ts in r.t_events) and end >= until:
            break
    return rows, events


out = []


def save(case, rows, events):
    for t, y in rows:
        n = len(y) // 2
        out.append([case, "state", repr(t)] + [repr(float(v)) for v in y[:n]] + [""] * (3 - n)
                   + [repr(float(v)) for v in y[n:]] + [""] * (3 - n))
    for t, what, i in events:
        out.append([case, what, repr(float(t)), str(i)] + [""] * 5)


# one tank through a pipe, laminar to turbulent
a = math.pi / 4
rows, ev = run_upright([Upright(a, 1.5)], [], [(0, 0.05, Opening(0.040894, 1.9, 0.6, 1.5e-6))], [], [], [1.5],
                       [a * 1.4], [0.0], 1500, [60, 200, 400, 600, 800, 1000, 1500])
save("drain", rows, ev)

# a lying cylinder with dished ends through a hole: level as the state
ly = Lying(0.9, 1.6, 0.15)
o = Opening(0.030, 2.7)
r = solve_ivp(lambda t, h: [-o.flow(h[0]) / max(ly.area(h[0]), 1e-4)], (0, 1300), [0.85], method="Radau", rtol=1e-12, atol=1e-14, dense_output=True)
save("lying", [(t, [ly.volume(float(r.sol(t)[0])), 0.0]) for t in (100, 300, 600, 900, 1100, 1200, 1300)], [])

# two tanks with unequal floors, one drawn until its port is dry and beyond
rows, ev = run_upright([Upright(0.9, 0.8), Upright(0.5, 0.7)], [(0, 1, 0.03, 0.02, Opening(0.0525, 1.5, 1.2))], [], [],
                       [(0, 0.15, 4.5e-4)], [0.8, 0.7], [0.9 * 0.75, 0.5 * 0.4], [0.0, 0.5 * 0.4], 2000,
                       [10, 60, 300, 900, 1200, 1400, 1600, 2000], floors=[0.0, 0.1])
save("two", rows, ev)

# three tanks in a row, filled at one end until two overflow
rows, ev = run_upright([Upright(0.5, 0.75), Upright(0.4, 0.75), Upright(0.6, 0.75)],
                       [(0, 1, 0.02, 0.02, Opening(0.0525, 2.0, 0.8)), (1, 2, 0.02, 0.02, Opening(0.0409, 2.5, 1.5, 4.5e-5))],
                       [], [(0, 3.0e-3, 0.25)], [], [0.72, 0.70, 0.71], [0.5 * 0.30, 0.4 * 0.1, 0.6 * 0.05], [0.0, 0.04, 0.0], 600,
                       [5, 30, 60, 120, 200, 300, 400, 600])
save("three", rows, ev)

# two joined tanks parked nose up: the front one runs into the rear one
rows, ev = run_upright([Upright(0.8, 0.76), Upright(0.5, 0.76)], [(0, 1, 0.05, 0.05, Opening(0.0525, 2.2, 1.0))], [], [], [],
                       [0.76, 0.60], [0.8 * 0.5, 0.5 * 0.5], [0.0, 0.25], 4000, [5, 20, 60, 100, 140, 300, 4000],
                       pitch=math.radians(6), x=[0.0, 2.0])
save("slope", rows, ev)

# a 240 gal and a 160 gal tank, both 30 in high, joined by 3 ft of 2 in pipe; a hydrant
# gives 50 gpm into the greater one; 10 gal stand in each, and the run ends after the first spill
gal, inch, foot = 0.003785411784, 0.0254, 0.3048
h = 30 * inch
rows, ev = run_upright([Upright(240 * gal / h, h), Upright(160 * gal / h, h)],
                       [(0, 1, 0.0, 0.0, Opening(2.067 * inch, 2.0, 3 * foot))], [], [(0, 50 * gal / 60, 0.0)], [], [h, h],
                       [10 * gal, 10 * gal], [0.0, 0.0], 448, [120, 300, 440])
save("hydrant", rows, ev)

with open("transients.csv", "w") as f:
    f.write("# source: SciPy %s, solve_ivp method Radau at 1e-11, physics written down again in transients.py; made on 2026-11-25; status: computed\n" % scipy.__version__)
    f.write("case,row,time_s,volume0_m3,volume1_m3,volume2_m3,recovered0_m3,recovered1_m3,recovered2_m3\n")
    for r in out:
        f.write(",".join(r) + "\n")
