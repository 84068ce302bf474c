#!/usr/bin/env python3
"""Saturated liquid propane from its reference equation of state.

Writes propane_saturation.csv: temperature, vapour pressure and liquid density,
where pressure and Gibbs energy of the two phases agree.

Equation of state: E. W. Lemmon, M. O. McLinden, W. Wagner, "Thermodynamic
Properties of Propane. III", J. Chem. Eng. Data 54 (2009) 3141-3180, residual
part, coefficients as in the fluid file of CoolProp. Solved with SciPy 1.10.1.
"""
import math

from scipy.optimize import fsolve

R, M, TC, RHOC = 8.314472, 0.04409562, 369.89, 5000.0
POWER = [  # n, t, d, l
    (0.042910051, 1, 4, 0), (1.7313671, 0.33, 1, 0), (-2.4516524, 0.8, 1, 0),
    (0.34157466, 0.43, 2, 0), (-0.46047898, 0.9, 2, 0), (-0.66847295, 2.46, 1, 1),
    (0.20889705, 2.09, 3, 1), (0.19421381, 0.88, 6, 1), (-0.22917851, 1.09, 6, 1),
    (-0.60405866, 3.25, 2, 2), (0.066680654, 4.62, 3, 2),
]
GAUSS = [  # n, t, d, eta, beta, gamma, epsilon
    (0.017534618, 0.76, 1, 0.963, 2.33, 0.684, 1.283),
    (0.33874242, 2.5, 1, 1.977, 3.47, 0.829, 0.6936),
    (0.22228777, 2.75, 1, 1.917, 3.15, 1.419, 0.788),
    (-0.23219062, 3.05, 2, 2.307, 3.19, 0.817, 0.473),
    (-0.09220694, 2.55, 2, 2.546, 0.92, 1.5, 0.8577),
    (-0.47575718, 8.4, 4, 3.28, 18.8, 1.426, 0.271),
    (-0.017486824, 6.75, 1, 14.6, 547.8, 1.093, 0.948),
]


def residual(delta, tau):
    a = ad = 0.0
    for n, t, d, l in POWER:
        x = n * delta**d * tau**t * (math.exp(-(delta**l)) if l else 1.0)
        a += x
        ad += x / delta * (d - (l * delta**l if l else 0.0))
    for n, t, d, eta, beta, gamma, epsilon in GAUSS:
        x = n * delta**d * tau**t * math.exp(-eta * (delta - epsilon) ** 2 - beta * (tau - gamma) ** 2)
        a += x
        ad += x * (d / delta - 2 * eta * (delta - epsilon))
    return a, ad


def saturation(T, guess):
    tau = TC / T

    def equations(v):
        dl, dv = v[0], math.exp(v[1])
        (al, adl), (av, adv) = residual(dl, tau), residual(dv, tau)
        pl, pv = dl * (1 + dl * adl), dv * (1 + dv * adv)
        return [pl - pv, (al + dl * adl + math.log(dl)) - (av + dv * adv + math.log(dv))]

    v, _, ok, why = fsolve(equations, guess, xtol=1e-13, full_output=True)
    if ok != 1:
        raise SystemExit(f"{T} K: {why}")
    dv = math.exp(v[1])
    p = dv * (1 + dv * residual(dv, tau)[1]) * RHOC * R * T
    return v, p, v[0] * RHOC * M


guess = [2.6, math.log(0.008)]
with open("propane_saturation.csv", "w", newline="\n") as f:
    f.write("# source: Lemmon, McLinden, Wagner 2009 equation of state of propane, solved by propane_saturation.py with SciPy 1.10.1, 2026-11-25\n")
    f.write("temperature_F,pressure_psia,liquid_density_kg_per_m3\n")
    for F in range(-60, 161, 10):
        T = (F + 459.67) * 5 / 9
        guess, p, rho = saturation(T, guess)
        f.write(f"{F},{p / 6894.757293168361:.4f},{rho:.4f}\n")
