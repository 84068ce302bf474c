#!/usr/bin/env python3
"""Reference solutions of a heater as two heat stores, by numerical integration.

Writes heater_reference.csv. Needs SciPy; made with SciPy 1.10.1 on 2026-11-25.

    Cs dTs/dt = q + G (Tg - Ts) - K (Ts - Tw) - L (Ts - Ta)
    Cw dTw/dt = K (Ts - Tw) - W (Tw - Ti)

J/K, W, W/K, K and s. Method DOP853 with relative tolerance 1e-12.
"""
import csv
import scipy
from scipy.integrate import solve_ivp

CASES = [
    # name, Cs, Cw, q, G, Tg, K, L, Ta, W, Ti, start, target, set, call, stop, fire
    ("constant output", 29400.0, 28900.0, 104e3, 0.0, 0.0, 2500.0, 0.0, 0.0, 930.0, 280.4, 280.4, 347.0, 347.6, 342.0, 1.0, 10.0),
    ("flame", 29400.0, 28900.0, 0.0, 66.0, 1900.0, 2500.0, 5.0, 280.4, 930.0, 280.4, 280.4, 340.0, 347.6, 342.0, 1.0, 10.0),
    ("half flow", 29400.0, 28900.0, 104e3, 0.0, 0.0, 2500.0, 3.0, 300.0, 465.0, 280.4, 285.0, 347.0, 347.6, 344.8, 0.5, 5.0),
    ("light coil, no delays", 9000.0, 15000.0, 60e3, 0.0, 0.0, 1500.0, 0.0, 0.0, 700.0, 288.0, 288.0, 340.0, 345.0, 340.0, 0.0, 0.0),
    ("heavy coil, weak contact", 80000.0, 12000.0, 90e3, 0.0, 0.0, 600.0, 10.0, 295.0, 500.0, 283.0, 283.0, 350.0, 355.0, 350.0, 2.0, 15.0),
]


def rhs(c, on):
    (_, Cs, Cw, q, G, Tg, K, L, Ta, W, Ti) = c[:11]

    def f(t, y):
        Ts, Tw = y[0], y[1]
        fired = (q + G * (Tg - Ts)) if on else 0.0
        return [(fired - K * (Ts - Tw) - L * (Ts - Ta)) / Cs,
                (K * (Ts - Tw) - W * (Tw - Ti)) / Cw, fired, W * (Tw - Ti)]
    return f


def run(c, on, y, until=None, level=None, direction=0):
    """Integrate for a time or to a level of the water; returns t, y, high, low."""
    events = []
    if level is not None:
        def hit(t, z):
            return z[1] - level
        hit.terminal, hit.direction = True, direction
        events.append(hit)
    (_, _, Cw, _, _, _, K, _, _, W, Ti) = c[:11]

    def turn(t, z):
        return K * (z[0] - z[1]) - W * (z[1] - Ti)
    turn.terminal = False
    events.append(turn)
    s = solve_ivp(rhs(c, on), (0.0, 1e5 if until is None else until), y, method="DOP853",
                  rtol=1e-12, atol=1e-10, events=events)
    tops = [z[1] for z in s.y_events[-1]] + [y[1], s.y[1, -1]]
    return s.t[-1], list(s.y[:, -1]), max(tops), min(tops)


def main():
    with open("heater_reference.csv", "w", newline="") as out:
        out.write("# source: heater_reference.py, SciPy %s, solve_ivp DOP853, rtol 1e-12, 2026-11-25; status: computed\n" % scipy.__version__)
        w = csv.writer(out, lineterminator="\n")
        w.writerow("case Cs Cw q G Tg K L Ta W Ti start target set call stop fire "
                   "t_target Ts_target fired_target delivered_target "
                   "fire_s pause_s highest lowest fired_cycle delivered_cycle".split())
        for c in CASES:
            start, target, cut, call, stop, fire = c[11:]
            t, y, _, _ = run(c, True, [start, start, 0, 0], level=target, direction=1)
            row = list(c) + ["%.15g" % v for v in (t, y[0], y[2], y[3])]
            y = [call, call, 0.0, 0.0]
            for _ in range(200):
                y[2] = y[3] = 0.0
                t1, y, h1, l1 = run(c, True, y, level=cut, direction=1)
                h2 = l2 = y[1]
                if stop > 0:
                    _, y, h2, l2 = run(c, True, y, until=stop)
                t2, y, h3, l3 = run(c, False, y, level=call, direction=-1)
                h4 = l4 = y[1]
                if fire > 0:
                    _, y, h4, l4 = run(c, False, y, until=fire)
            row += ["%.15g" % v for v in (t1 + stop, t2 + fire, max(h1, h2, h3, h4), min(l1, l2, l3, l4), y[2], y[3])]
            w.writerow(row)


main()
