#!/usr/bin/env python3
"""Reference solutions for the vacuum package from general-purpose libraries.

Writes twophase_reference.csv, hose_reference.csv, plant_reference.csv and
dump_reference.csv. Made with fluids 1.0.22 and SciPy 1.10.1 on 2026-11-25.

What is computed here apart from those libraries is written out from the sources:
the isothermal equation, the fan law, the sum of heads. Air: U.S. Standard
Atmosphere 1976, R = 8.31432e3/28.9644 J/(kg K), Sutherland's viscosity.
"""
import csv
import math
import random

import fluids
import scipy
from fluids.friction import friction_factor
from fluids.two_phase import Lockhart_Martinelli, Muller_Steinhagen_Heck
from fluids.two_phase_voidage import Rouhani_1
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

R, G = 8.31432e3 / 28.9644, 9.80665
INCH, FOOT, CFM, GPM, INH2O = 0.0254, 0.3048, 0.3048**3 / 60, 231 * 0.0254**3 / 60, 249.08891
STAMP = "fluids %s, SciPy %s, 2026-11-25; status: computed" % (fluids.__version__, scipy.__version__)
random.seed(20261125)


def air(p, T):
    return p / (R * T), 1.458e-6 * T**1.5 / (T + 110.4)


def colebrook(Re, k):
    """Laminar below 2040, Colebrook above: the library's own choice."""
    return friction_factor(Re, k)


def write(name, what, head, rows):
    with open(name, "w", newline="\n") as f:
        f.write("# source: reference.py, %s; %s\n" % (what, STAMP))
        w = csv.writer(f, lineterminator="\n")
        w.writerow(head)
        w.writerows(rows)


# Two-phase gradients and void fraction, turbulent in both phases.
rows = []
for _ in range(60):
    D = round(random.uniform(0.025, 0.1), 4)
    rhol, rhog = round(random.uniform(950, 1050), 2), round(random.uniform(0.8, 2.5), 4)
    mul, mug, sigma = 1.0016e-3, 1.813e-5, round(random.uniform(0.03, 0.073), 4)
    m, x = float("%.4g" % 10 ** random.uniform(-0.7, 0.5)), float("%.4g" % random.uniform(0.02, 0.9))
    Rel = m * (1 - x) / (math.pi / 4 * D * mul)
    Reg = m * x / (math.pi / 4 * D * mug)
    if Rel < 4000 or Reg < 4000:
        continue
    rows.append((m, x, rhol, rhog, mul, mug, sigma, D,
                 "%.12g" % Muller_Steinhagen_Heck(m, x, rhol, rhog, mul, mug, D),
                 "%.12g" % Lockhart_Martinelli(m, x, rhol, rhog, mul, mug, D),
                 "%.12g" % Rouhani_1(x, rhol, rhog, sigma, m, D, g=G)))
write("twophase_reference.csv", "Muller_Steinhagen_Heck (friction: fluids' own), Lockhart_Martinelli, Rouhani_1, SI units, gradients in Pa/m",
      ("m", "x", "rhol", "rhog", "mul", "mug", "sigma", "D", "msh", "lm", "void"), rows)


def dry(p1, T, d, L, k, m, times=1.0):
    """Pressure behind a hose with air alone: root of the isothermal equation."""
    rho, mu = air(p1, T)
    A = math.pi / 4 * d * d
    Gm = m / A
    f = times * colebrook(Gm * d / mu, k)
    c = Gm * Gm * R * T

    def eq(p2):
        return c * (f * L / d + 2 * math.log(p1 / p2)) - (p1 * p1 - p2 * p2)

    lo = math.sqrt(c)
    if eq(lo) > 0 or p1 <= lo:
        return None
    return brentq(eq, lo, p1, xtol=1e-9, rtol=1e-15)


def gradient(p, T, d, k, mg, ml, sin, liquid, outside, times=1.0):
    """-dp/dz without and the share with momentum, of air and water together."""
    rhol, mul, sigma = liquid
    rhog, mug = air(p, T)
    m = mg + ml
    x = mg / m
    A = math.pi / 4 * d * d
    Gm = m / A
    lo = times * colebrook(Gm * d / mul, k) * Gm * Gm / (2 * rhol * d)
    go = times * colebrook(Gm * d / mug, k) * Gm * Gm / (2 * rhog * d)
    friction = (lo + 2 * (go - lo) * x) * (1 - x) ** (1 / 3.0) + go * x**3
    # drift at the density outside, void at the density here
    w = 1.18 * (1 - x) * (G * sigma * (rhol - outside) / rhol**2) ** 0.25
    void = x / rhog / ((1 + 0.2 * (1 - x)) * (x / rhog + (1 - x) / rhol) + w / Gm)
    return friction + rhol * G * sin * (1 - void), Gm * Gm * x * R * T


def wet(p1, T, d, L, k, mg, ml, rise, liquid, outside, times=1.0):
    """Pressure behind a hose with air and water: the momentum equation integrated."""
    def rhs(z, y):
        g, c = gradient(y[0], T, d, k, mg, ml, rise / L, liquid, outside, times)
        return [-g / (1 - c / (y[0] * y[0]))]

    c = ((mg + ml) / (math.pi / 4 * d * d)) ** 2 * mg / (mg + ml) * R * T

    def choke(z, y):
        return y[0] - 1.02 * math.sqrt(c)

    choke.terminal = True
    if p1 <= 1.02 * math.sqrt(c):
        return None
    s = solve_ivp(rhs, (0, L), [p1], method="DOP853", rtol=1e-12, atol=1e-6, events=choke)
    return s.y[0, -1] if s.status == 0 and s.y[0, -1] > 1000 else None


WATER = (998.2071, 1.0016e-3, 0.07274)
rows = []
while len(rows) < 40:
    p, T = round(random.uniform(70e3, 102e3)), round(random.uniform(270, 315), 2)
    d, L = round(random.uniform(1.0, 4.0) * INCH, 5), round(random.uniform(5, 150) * FOOT, 3)
    rise = round(random.uniform(0, min(L, 6.0)), 3) if random.random() < 0.7 else 0.0
    eps = random.choice([0.0, 1e-5, 1e-4])
    times = random.choice([1.0, 2.0])
    mg = float("%.4g" % (10 ** random.uniform(-2.2, -0.7)))
    ml = float("%.4g" % (10 ** random.uniform(-2, 0.3))) if random.random() < 0.75 else 0.0
    p2 = wet(p, T, d, L, eps / d, mg, ml, rise, WATER, air(p, T)[0], times) if ml else dry(p, T, d, L, eps / d, mg, times)
    slow = (mg + ml) / (math.pi / 4 * d) / max(WATER[1], air(p, T)[1]) if ml else mg / (math.pi / 4 * d) / air(p, T)[1]
    if p2 is None or p - p2 < 100 or p2 < 0.3 * p or slow < 4000:  # turbulent by every reading
        continue
    rows.append((p, T, d, L, eps, times, rise, mg, ml, "%.10g" % p2))
write("hose_reference.csv", "air: root of the isothermal equation; with water: solve_ivp DOP853, rtol 1e-12, of the momentum equation; friction of fluids; SI units; water %r" % (WATER,),
      ("p1", "T", "bore", "length", "roughness", "times", "rise", "air", "water", "p2"), rows)


# Whole plants: where motors and hose meet.
def lift(shape, sealed, opened, q):
    return sealed * (1 - (q / opened) ** (1 if shape == "straight" else 2))


def tool(p, T, loss, flow, mg, ml):
    """Pressure behind a rated loss, quadratic, air at the mean of both pressures."""
    c2 = loss / (air(101325.0, 293.15)[0] * flow**2)
    m = c2 * (mg + ml)

    def eq(p2):
        return p - p2 - m * (ml / WATER[0] + mg * R * T * 2 / (p + p2))

    # the branch next to p: leave out the choked one below the turning point
    turn = math.sqrt(2 * m * mg * R * T) * math.sqrt(1.0) * 2 - p
    lo = max(turn, 1.0)
    return brentq(eq, lo, p, xtol=1e-9) if eq(lo) >= 0 else None


def surplus(c, mg, ml):
    """Vacuum of the motors over what hose and tool need, one hose, no duct."""
    p = tool(c["p"], c["T"], c["loss"], c["flow"], mg, ml)
    if p is None:
        return None
    out = air(c["p"], c["T"])[0]
    p = wet(p, c["T"], c["d"], c["L"], 0.0, mg, ml, c["rise"], WATER, out) if ml else dry(p, c["T"], c["d"], c["L"], 0.0, mg)
    if p is None:
        return None
    rho0 = air(101325.0, 293.15)[0]
    return p - (c["p"] - lift(c["shape"], c["sealed"], c["open"], mg / (out * c["n"])) * out / rho0)


rows = []
while len(rows) < 24:
    c = dict(p=round(random.uniform(78e3, 102e3)), T=round(random.uniform(275, 312), 2), shape=random.choice(["straight", "parabola"]),
             sealed=round(random.uniform(60, 130) * INH2O, 1), open=round(random.uniform(80, 200) * CFM, 6), n=random.choice([1, 2, 3]),
             d=round(random.uniform(1.4, 3.0) * INCH, 5), L=round(random.uniform(15, 100) * FOOT, 3), rise=round(random.uniform(0, 2), 3),
             loss=round(random.uniform(2, 20) * INH2O, 1), flow=round(100 * CFM, 6))
    out = air(c["p"], c["T"])[0]
    top = c["open"] * c["n"] * out
    ml = random.choice([0.0, float("%.4g" % random.uniform(0.05, 0.35))])
    grid = [top * (i / 60.0) ** 2 for i in range(59, 0, -1)]
    above, found = None, None
    for m in grid:  # from much air to little: the first sign change is the stable flow
        s = surplus(c, m, ml)
        if s is not None and s > 0:
            found = m
            break
        above = m
    if found is None or above is None:
        continue

    def f(m):
        s = surplus(c, m, ml)
        return -1e5 if s is None else s

    m = brentq(f, found, above, xtol=1e-13, rtol=1e-12)
    if (m + ml) / (math.pi / 4 * c["d"]) / (WATER[1] if ml else air(c["p"], c["T"])[1]) < 4000:
        continue
    rows.append((c["p"], c["T"], c["shape"], c["sealed"], c["open"], c["n"], c["d"], c["L"], c["rise"], c["loss"], c["flow"], ml, "%.9g" % m))
write("plant_reference.csv", "brentq over the functions of hose_reference.csv, a rated tool and the fan law; SI units; plate and tool in air of 101325 Pa and 293.15 K",
      ("p", "T", "shape", "sealed", "open", "motors", "bore", "length", "rise", "tool_loss", "tool_flow", "water", "air"), rows)


# Dump-out against lift, vacuum, hose and filters.
rows = []
while len(rows) < 24:
    shut, run, n = round(random.uniform(3, 15), 3), round(random.uniform(5, 40) * GPM, 7), random.choice([1, 2])
    shape = random.choice(["straight", "parabola"])
    rise, vac = round(random.uniform(-1, 3), 3), round(random.uniform(0, 25e3), 1)
    d, L, K = round(random.uniform(0.75, 2) * INCH, 5), round(random.uniform(3, 30), 2), round(random.uniform(0, 8), 2)
    clean, dirty, qf, s, loaded = round(random.uniform(1e3, 2e4)), 0, round(10 * GPM, 7), round(random.uniform(0, 1), 2), random.choice([0.0, 0.5, 1.0])
    dirty = round(clean * random.uniform(2, 6))
    rho, mu, _ = WATER

    def need(q):
        v = q / (math.pi / 4 * d * d)
        Re = rho * v * d / mu
        f = colebrook(Re, 0.0)
        cake = (dirty - clean) * loaded * q / qf
        return rise + vac / (rho * G) + (f * L / d + K) * v * v / (2 * G) + (clean * ((1 - s) * (q / qf) ** 2 + s * q / qf) + cake) / (rho * G)

    def over(q):
        return shut * (1 - (q / (n * run)) ** (1 if shape == "straight" else 2)) - need(q)

    if over(1e-9) <= 0 or over(n * run) >= 0:
        continue
    q = brentq(over, 1e-9, n * run, xtol=1e-15, rtol=1e-13)
    if 2000 < rho * q / (math.pi / 4 * d * d) * d / mu < 4000:
        continue
    rows.append((shut, run, n, shape, rise, vac, d, L, K, clean, dirty, qf, s, loaded, "%.12g" % q))
write("dump_reference.csv", "brentq over heads; friction of fluids; SI units; water %r" % (WATER,),
      ("shutoff", "runout", "pumps", "shape", "rise", "vacuum", "bore", "length", "k", "clean", "dirty", "filter_flow", "linear", "loaded", "flow"), rows)


# The shop's questions, for one invented plant: motors of 110 in of water sealed and
# 120 cfm open on a straight line, a tool of 8 in at 100 cfm, 40 ft of smooth hose
# that climbs 3 ft, a filter of 4 in at 200 cfm, half of it laminar.
from iapws import IAPWS97, iapws97  # noqa: E402

T60 = (60 + 459.67) * 5 / 9
sixty = IAPWS97(P=0.101325, T=T60)
COLD = (sixty.rho, sixty.mu, sixty.sigma)
RHO0, MU0 = air(101325.0, 293.15)


def rated(p, T, loss, flow, linear, mg, ml, liquid):
    """Pressure behind a rated loss, both shares, air at the mean of both pressures."""
    mu = air(p, T)[1]
    c2 = (1 - linear) * loss / (RHO0 * flow**2)
    c1 = linear * loss * mu / (MU0 * flow)
    m = c2 * (mg + ml) + c1

    def eq(p2):
        return p - p2 - m * (ml / liquid[0] + mg * R * T * 2 / (p + p2))

    return brentq(eq, 0.6 * p, p, xtol=1e-9) if eq(0.6 * p) > 0 else None


def need(mg, ml, n, bore, length, p, T, spread=1.0):
    """Vacuum of the motors over what the plant needs."""
    out = air(p, T)[0]
    behind = rated(p, T, 8 * INH2O, 100 * CFM, 0.0, mg, ml, COLD)
    behind = behind and wet(behind, T, bore * INCH, length * FOOT, 0.0, mg, ml, 3 * FOOT, COLD, out)
    if behind is None:
        return -1e6, p
    motors = rated(behind, T, 4 * INH2O, 200 * CFM, 0.5, mg, 0.0, COLD)
    return motors - (p - 110 * INH2O * (1 - mg / (out * 120 * CFM * n)) * out / RHO0), behind


def pickup(n, bore=2.0, length=40.0, p=101325.0, T=293.15):
    """Water at which the air has come down to the speed that carries it."""
    out = air(p, T)[0]
    v = 3.1 * (COLD[2] * G * (COLD[0] - out)) ** 0.25 / math.sqrt(out)
    mg = v * out * math.pi / 4 * (bore * INCH) ** 2
    if need(mg, 1e-9, n, bore, length, p, T)[0] < 0:
        return 0.0, p, v
    w = brentq(lambda w: need(mg, w, n, bore, length, p, T)[0], 1e-6, 0.9, xtol=1e-13, rtol=1e-12)
    return w / COLD[0] / GPM, p - need(mg, w, n, bore, length, p, T)[1], v


def dumped(vac, loaded):
    """Flow of the invented dump pump, gpm: 20 ft shut off, 14 gpm run out, parabola."""
    rho, mu, _ = COLD
    d = 1 * INCH

    def over(q):
        v = q / (math.pi / 4 * d * d)
        f = colebrook(rho * v * d / mu, 0.0)
        h = 20 * FOOT * (1 - (q / (14 * GPM)) ** 2) - 3 * FOOT - (vac + 0.2 * 6894.757293168361) / (rho * G)
        h -= (f * 15 * FOOT / d + 4) * v * v / (2 * G)
        for clean, dirty, s in ((0.5, 3, 0.3), (1, 4, 0.8)):
            x = q / (10 * GPM)
            h -= 6894.757293168361 * (clean * ((1 - s) * x * x + s * x) + (dirty - clean) * loaded * x) / (rho * G)
        return h

    return brentq(over, 4000 * math.pi / 4 * d * mu / rho, 14 * GPM, xtol=1e-15) / GPM


MILE = dict(p=83540.0, T=(95 + 459.67) * 5 / 9)
rows = [("water density", COLD[0], "kg/m³"), ("water viscosity", COLD[1], "Pa s"), ("water surface tension", COLD[2], "N/m")]
for name, kw in (("one motor", dict(n=1)), ("two motors", dict(n=2)), ("three motors", dict(n=3)), ("one motor, 2.5 in", dict(n=1, bore=2.5)), ("two motors, 2.5 in", dict(n=2, bore=2.5)),
                 ("two motors, 80 ft", dict(n=2, length=80.0)), ("one motor, a mile up", dict(n=1, **MILE)), ("two motors, a mile up", dict(n=2, **MILE))):
    w, vac, v = pickup(**kw)
    rows.append((name + ", pick-up", w, "gpm"))
    rows.append((name + ", tank", vac / INH2O, "inH2O"))
    if "motors" not in name:
        rows.append((name + ", speed", v / FOOT * 60, "ft/min"))
for loaded in (0.0, 1.0):
    for vac in (0.0, 40.0, 60.0):
        rows.append(("dump at %g in, filters %s" % (vac, "at change-out" if loaded else "new"), dumped(vac * INH2O, loaded), "gpm"))
write("shop_reference.csv", "solve_ivp and brentq as before; water at 60 F by iapws 1.5.3", ("answer", "value", "unit"), [(a, "%.6g" % b, u) for a, b, u in rows])
