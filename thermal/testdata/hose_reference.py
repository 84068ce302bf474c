#!/usr/bin/env python3
"""Reference solutions of water cooling along a hose, and of standing water freezing.

Writes hose_reference.csv and freeze_reference.csv. Needs SciPy and iapws; made with
SciPy 1.10.1 and iapws 1.5.2 on 2026-11-25. The correlations are written out here
from their papers: Churchill and Chu 1975, Churchill and Bernstein 1977, Gnielinski
1976 with Petukhov's friction factor, Nu^4 = Nu_n^4 + Nu_f^4, grey radiation; air by
the U.S. Standard Atmosphere 1976; cp of air 1006 J/(kg K); saturation of vapour by
Hyland and Wexler; Chilton and Colburn with the diffusivity of Marrero and Mason.
"""
import csv
import math
import scipy
from iapws._iapws import _ThCond, _Viscosity
from iapws.iapws97 import _Region1, _Region2, _PSat_T
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

SIGMA, G, R = 5.670374419e-8, 9.80665, 8.31432e3 / 28.9644


def water(T, p):
    r = _Region1(T, p / 1e6)
    return 1 / r["v"], r["cp"] * 1e3


def latent(T):
    p = _PSat_T(T)
    return (_Region2(T, p)["h"] - _Region1(T, p)["h"]) * 1e3


def psat(T):
    if T < 273.16:
        return math.exp(-5.6745359e3 / T + 6.3925247 - 9.677843e-3 * T + 6.2215701e-7 * T**2 + 2.0747825e-9 * T**3
                        - 9.484024e-13 * T**4 + 4.1635019 * math.log(T))
    return math.exp(-5.8002206e3 / T + 1.3914993 - 4.8640239e-2 * T + 4.1764768e-5 * T**2 - 1.4452093e-8 * T**3
                    + 6.5459673 * math.log(T))


class Around:
    def __init__(self, Ta, site, wind, Tr, wet, humidity, contact, Tg, hg):
        self.Ta, self.site, self.wind, self.Tr = Ta, site, wind, Tr or Ta
        self.wet, self.pv, self.contact, self.Tg, self.hg = wet, humidity * psat(Ta), contact, Tg, hg

    def flux(self, Ts, D, eps):
        Tm = 0.5 * (Ts + self.Ta)
        rho = self.site / (R * Tm)
        mu = 1.458e-6 * Tm**1.5 / (Tm + 110.4)
        k = 2.64638e-3 * Tm**1.5 / (Tm + 245.4 * 10**(-12 / Tm))
        Pr, nu = mu * 1006 / k, mu / rho
        Ra = G * abs(Ts - self.Ta) / Tm * D**3 / nu**2 * Pr
        Nu = (0.60 + 0.387 * Ra**(1 / 6) / (1 + (0.559 / Pr)**(9 / 16))**(8 / 27))**2
        if self.wind > 0:
            Re = self.wind * D / nu
            Nf = 0.3 + 0.62 * Re**0.5 * Pr**(1 / 3) / (1 + (0.4 / Pr)**(2 / 3))**0.25 * (1 + (Re / 282000)**0.625)**0.8
            Nu = (Nu**4 + Nf**4)**0.25
        h = Nu * k / D
        q = h * (Ts - self.Ta) + eps * SIGMA * (Ts**4 - self.Tr**4)
        if self.wet > 0:
            Diff = 1.87e-10 * Tm**2.072 * 101325 / self.site
            Le = k / (rho * 1006) / Diff
            q += self.wet * h / (rho * 1006 * Le**(2 / 3)) * (psat(Ts) / Ts - self.pv / self.Ta) / 461.523 * latent(max(Ts, 273.15))
        return (1 - self.contact) * q + (self.contact * self.hg * (Ts - self.Tg) if self.contact else 0.0)

    def through(self, T, Rw, D, eps):
        """Heat per square metre of outside that leaves T through Rw."""
        if Rw == 0:
            return self.flux(T, D, eps)
        lo = min(T, self.Ta, self.Tr, self.Tg or T) - 50
        hi = max(T, self.Ta, self.Tr, self.Tg or T)
        Ts = brentq(lambda x: T - x - Rw * self.flux(x, D, eps), lo, hi, xtol=1e-12, rtol=1e-14)
        return self.flux(Ts, D, eps)


def nusselt(Re, Pr):
    def turbulent(Re):
        f = (0.79 * math.log(Re) - 1.64)**-2
        return f / 8 * (Re - 1000) * Pr / (1 + 12.7 * (f / 8)**0.5 * (Pr**(2 / 3) - 1))
    if Re <= 2300:
        return 3.66
    if Re >= 4000:
        return turbulent(Re)
    g = (Re - 2300) / 1700
    return (1 - g) * 3.66 + g * turbulent(4000)


HOSES = [
    # name, length, bore, outside, k, eps, kg/s, T in, line, Ta, site, wind, Tr, wet, humidity, contact, Tg, hg
    ("still air", 39.624, 0.009525, 0.017526, 0.2, 0.9, 0.38895339, 355.372, 1.8717e7, 283.15, 101325, 0, 0, 0, 0, 0, 0, 0),
    ("10 mph", 39.624, 0.009525, 0.01778, 0.2, 0.9, 0.195, 349.817, 1.8e7, 280.372, 101325, 4.4704, 0, 0, 0, 0, 0, 0),
    ("half flow, 5200 ft", 45.72, 0.009525, 0.017526, 0.2, 0.9, 0.107, 347.594, 1.5e7, 274.261, 83678, 2.0, 265.0, 0, 0, 0, 0, 0),
    ("wet, on the ground", 45.72, 0.009525, 0.017526, 0.17, 0.9, 0.23, 347.594, 1.9e7, 285.0, 95000, 1.0, 280.0, 0.5, 0.6, 0.2, 283.0, 100.0),
    ("cold water warms", 30.0, 0.0127, 0.0222, 0.25, 0.9, 0.05, 280.0, 2e6, 308.15, 101325, 0.5, 330.0, 0, 0, 0, 0, 0),
    ("laminar", 20.0, 0.0127, 0.0222, 0.25, 0.9, 0.008, 340.0, 1e6, 275.0, 101325, 0, 0, 0, 0, 0, 0, 0),
]


def hoses():
    with open("hose_reference.csv", "w", newline="") as out:
        out.write("# source: hose_reference.py, SciPy %s, solve_ivp DOP853, rtol 1e-11; iapws 1.5.2; 2026-11-25; status: computed\n" % scipy.__version__)
        w = csv.writer(out, lineterminator="\n")
        w.writerow("case length bore outside k eps flow T_in line Ta site wind Tr wet humidity contact Tg hg T_out loss_W".split())
        for c in HOSES:
            name, L, d, D, k, eps, m, Tin, p = c[:9]
            a = Around(*c[9:])

            def f(x, y):
                T = y[0]
                rho, cp = water(T, p)
                mu, kw = _Viscosity(rho, T), _ThCond(rho, T)
                hi = nusselt(4 * m / (math.pi * d * mu), cp * mu / kw) * kw / d
                Rw = math.pi * D * (1 / (math.pi * d * hi) + math.log(D / d) / (2 * math.pi * k))
                q = math.pi * D * a.through(T, Rw, D, eps)
                return [-q / (m * cp), q]
            s = solve_ivp(f, (0, L), [Tin, 0.0], method="DOP853", rtol=1e-11, atol=1e-9)
            w.writerow(list(c) + ["%.12g" % v for v in s.y[:, -1]])


FREEZE = [
    # name, water m3, metal J/K, area, D, bore, wall W/m2K (0: none), eps, start, share, Ta, site, wind, Tr, wet, humidity, contact, Tg, hg
    ("hose, still", 3.2578e-3, 13989.0, 2.51732, 0.017526, 0.009525, 37.4295, 0.9, 280.4, 0.1, 263.15, 101325, 0, 0, 0, 0, 0, 0, 0),
    ("hose, road wind", 3.2578e-3, 13989.0, 2.51732, 0.017526, 0.009525, 37.4295, 0.9, 280.4, 0.1, 263.15, 101325, 25.0, 0, 0, 0, 0, 0, 0),
    ("coil", 6.9e-3, 36300.0, 3.06, 0.0213, 0.01387, 0.0, 0.8, 300.0, 0.2, 258.15, 83678, 1.0, 250.0, 0, 0, 0, 0, 0),
    ("pump head", 0.4e-3, 4900.0, 0.07, 0.10, 0.018, 0.0, 0.6, 350.0, 0.05, 268.15, 101325, 3.0, 0, 0, 0, 0.15, 270.0, 30.0),
]


def freezes():
    L_FUSION, K_ICE, T0 = 333.55e3, 2.22, 273.15
    with open("freeze_reference.csv", "w", newline="") as out:
        out.write("# source: hose_reference.py, SciPy %s, solve_ivp DOP853, rtol 1e-11, and quad; iapws 1.5.2; 2026-11-25; status: computed\n" % scipy.__version__)
        w = csv.writer(out, lineterminator="\n")
        w.writerow("case water metal area D bore wall eps start share Ta site wind Tr wet humidity contact Tg hg t_zero t_share t_solid heat".split())
        for c in FREEZE:
            name, V, metal, A, D, bore, wall, eps, start, share = c[:10]
            a = Around(*c[10:])
            Rw = 1 / wall if wall else 0.0
            m = V * water(T0, 101325)[0]

            def f(t, y):
                return [-A * a.through(y[0], Rw, D, eps) / (m * water(max(y[0], T0), 101325)[1] + metal)]

            def zero(t, y):
                return y[0] - T0
            zero.terminal = True
            t0 = solve_ivp(f, (0, 1e7), [start], method="DOP853", rtol=1e-11, atol=1e-9, events=zero).t[-1]
            length = V / (math.pi / 4 * bore**2)

            def slow(phi):
                return m * L_FUSION / (A * a.through(T0, Rw + A * math.log(1 / (1 - phi)) / (4 * math.pi * K_ICE * length), D, eps))
            ts = quad(slow, 0, share, epsabs=1e-9, epsrel=1e-11, limit=200)[0]
            te = quad(slow, share, 0.999, epsabs=1e-9, epsrel=1e-11, limit=200)[0]
            w.writerow(list(c) + ["%.12g" % v for v in (t0, t0 + ts, t0 + ts + te, A * a.through(T0, Rw, D, eps))])


hoses()
freezes()
