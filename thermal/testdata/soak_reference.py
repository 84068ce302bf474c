#!/usr/bin/env python3
"""Reference solutions of heat soak into shut-in water, by numerical integration.

Writes soak_reference.csv. Needs SciPy and iapws; made with SciPy 1.10.1 and iapws
1.5.2 on 2026-11-25. Water: region 1 of IAPWS-IF97.

    Cs dTs/dt = -K (Ts - Tw) - L (Ts - Ta)
    m cp(p0, Tw) dTw/dt = K (Ts - Tw)
    m/rho(p, Tw) + ml/rho(p, Tl) = V0 + stretch (p - p0) + air (1 - p0/p)
"""
import csv
import scipy
from iapws.iapws97 import _Region1
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

CASES = [
    # name, Cs, K, L, Ta, coil m3, Tw0, line m3, Tl, Ts0, p0, stretch m3/Pa, air m3, relief Pa (0: none)
    ("rigid", 29400.0, 2500.0, 0.0, 0.0, 7e-3, 347.6, 0.0, 0.0, 352.0, 5e6, 0.0, 0.0, 0.0),
    ("hose", 29400.0, 2500.0, 0.0, 0.0, 7e-3, 347.6, 3.2e-3, 343.0, 400.0, 1.9e7, 4.8e-12, 0.0, 0.0),
    ("hose and relief", 29400.0, 2500.0, 8.0, 283.0, 7e-3, 347.6, 3.2e-3, 343.0, 400.0, 1.9e7, 4.8e-12, 0.0, 2.2e7),
    ("air", 40000.0, 1500.0, 20.0, 273.0, 5e-3, 330.0, 1e-3, 300.0, 420.0, 1e6, 0.0, 4e-4, 0.0),
]


def water(T, p):
    r = _Region1(T, p / 1e6)
    return 1 / r["v"], r["h"] * 1e3, r["cp"] * 1e3


def main():
    with open("soak_reference.csv", "w", newline="") as out:
        out.write("# source: soak_reference.py, SciPy %s, solve_ivp DOP853, rtol 1e-12, brentq; iapws 1.5.2; 2026-11-25; status: computed\n" % scipy.__version__)
        w = csv.writer(out, lineterminator="\n")
        w.writerow("case Cs K L Ta coil Tw0 line Tl Ts0 p0 stretch air relief peak time_to_thousandth pressure lost lift_time vented".split())
        for c in CASES:
            name, Cs, K, L, Ta, coil, Tw0, line, Tl, Ts0, p0, stretch, air, relief = c
            m = coil * water(Tw0, p0)[0]
            ml = line * water(Tl, p0)[0] if line else 0.0
            rest = 0.0 if L else 1e-3 * (Ts0 - Tw0)

            def f(t, y):
                Ts, Tw = y[0], y[1]
                q = K * (Ts - Tw)
                lost = L * (Ts - Ta)
                return [(-q - lost) / Cs, q / (m * water(Tw, p0)[2]), lost]

            def meet(t, y):
                return y[0] - y[1] - rest
            meet.terminal, meet.direction = True, -1
            s = solve_ivp(f, (0, 1e6), [Ts0, Tw0, 0], method="DOP853", rtol=1e-12, atol=1e-9, events=meet)
            t, lost = s.t[-1], s.y[2, -1]
            peak = s.y[1, -1]
            if not L:
                h0 = water(Tw0, p0)[1]
                peak = brentq(lambda T: m * (water(T, p0)[1] - h0) - Cs * (Ts0 - T), Tw0, Ts0, xtol=1e-11)

            def excess(p, T):
                need = m / water(T, p)[0] + (ml / water(Tl, p)[0] if line else 0.0)
                return need - coil - line - stretch * (p - p0) - air * (1 - p0 / p)
            p = brentq(lambda p: excess(p, peak), 1e5, 5e7, xtol=1e-3)
            lift = vented = 0.0
            if relief and p > relief:
                Tr = brentq(lambda T: excess(relief, T), Tw0, peak, xtol=1e-11)

                def at(t, y):
                    return y[1] - Tr
                at.terminal, at.direction = True, 1
                lift = solve_ivp(f, (0, t), [Ts0, Tw0, 0], method="DOP853", rtol=1e-12, atol=1e-9, events=at).t[-1]
                vented = excess(relief, peak) * water(peak, relief)[0]
            w.writerow(list(c) + ["%.15g" % v for v in (peak, t, p, lost, lift, vented)])


main()
