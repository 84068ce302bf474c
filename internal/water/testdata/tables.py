"""Reference tables of water and steam for the tests of this package.

Needs the general-purpose library iapws,
version 1.5.2 by its own account (packaged by Debian as 1.5.3-1), whose
functions are named below; run as

    python3 tables.py

in this directory. Numbers are written with all digits of a float64.
"""

import random
from types import SimpleNamespace

import iapws
from iapws._iapws import _Melting_Pressure, _Tension, _ThCond, _Viscosity
from iapws.iapws97 import (IAPWS97, _Backward1_T_Ph, _Backward1_T_Ps,
                           _PSat_T, _Region1, _Region2, _TSat_P)

assert iapws.__version__ == "1.5.2", iapws.__version__
random.seed(20261125)


def write(name, function, header, rows):
    with open(name, "w") as f:
        f.write("# source: IAPWS formulations as computed by python iapws 1.5.2, %s; "
                "made by tables.py on 2026-11-25; status: computed\n" % function)
        f.write(header + "\n")
        for row in rows:
            f.write(",".join(repr(float(x)) for x in row) + "\n")


T0, T1, PMAX = 273.15, 623.15, 50.0
PMIN = _PSat_T(T0) * (1 + 1e-12)


def derived(region, T, p):
    """One row in SI: everything the library gives at a state."""
    d = region(T, p)
    rho = 1/d["v"]
    return [p*1e6, T, rho, d["h"]*1e3, (d["h"] - p*1e3*d["v"])*1e3, d["s"]*1e3,
            d["cp"]*1e3, d["cv"]*1e3, d["w"], d["alfav"], d["kt"]/1e6,
            _Viscosity(rho, T), conductivity(d, T)]


def conductivity(d, T):
    """R15-11 with the industrial critical enhancement."""
    rho = 1/d["v"]
    # The library asks for cp in kJ/(kg K), mu in Pa s, (drho/dp)_T in kg/(m3 MPa).
    phase = SimpleNamespace(cp=d["cp"], cp_cv=d["cp"]/d["cv"], mu=_Viscosity(rho, T),
                            drhodP_T=rho*d["kt"])
    return _ThCond(rho, T, phase)


# The adapter above must agree with the library's own class.
for T, p in [(620, 20), (620, 50), (300, 0.1), (450, 0.5)]:
    k = conductivity((_Region1 if p > _PSat_T(T) else _Region2)(T, p), T)
    assert abs(k/IAPWS97(T=T, P=p).k - 1) < 1e-12, (T, p)

states = "p_Pa,T_K,rho_kg_per_m3,h_J_per_kg,u_J_per_kg,s_J_per_kgK,cp_J_per_kgK," \
    "cv_J_per_kgK,w_m_per_s,expansivity_per_K,compressibility_per_Pa,mu_Pa_s,k_W_per_mK"

liquid = [(T0, 0.101325), (T0, PMAX), (T1, PMAX), (T1, _PSat_T(T1)*(1 + 1e-9)),
          (273.16, 0.0007), (277.127, 0.101325), (300, 3), (500, 3)]
while len(liquid) < 300:
    T = random.uniform(T0, T1)
    ps = _PSat_T(T)
    p = random.choice([random.uniform(ps, PMAX), ps*(PMAX/ps)**random.random()])
    if p > ps:
        liquid.append((T, p))
write("liquid.csv", "_Region1, _Viscosity, _ThCond", states,
      [derived(_Region1, T, p) for T, p in liquid])

steam = [(T0, 0.0006), (T1, 16.5), (T1, 0.001), (300, 0.0035), (373.15, 0.1)]
while len(steam) < 200:
    T = random.uniform(T0, T1)
    ps = _PSat_T(T)
    p = random.choice([random.uniform(0, ps), ps*random.random()**3])
    if 1e-6 < p < ps:
        steam.append((T, p))
write("steam.csv", "_Region2, _Viscosity, _ThCond", states,
      [derived(_Region2, T, p) for T, p in steam])

rows = []
for T in [T0, 273.16, 373.15, 623.149] + [random.uniform(T0, T1) for _ in range(146)]:
    p = _PSat_T(T)
    f, g = _Region1(T, p), _Region2(T, p)
    rows.append([T, p*1e6, 1/f["v"], 1/g["v"], f["h"]*1e3, g["h"]*1e3,
                 f["s"]*1e3, g["s"]*1e3, _Tension(T)])
write("saturation.csv", "_PSat_T, _Region1, _Region2, _Tension",
      "T_K,p_Pa,rho_f_kg_per_m3,rho_g_kg_per_m3,h_f_J_per_kg,h_g_J_per_kg,"
      "s_f_J_per_kgK,s_g_J_per_kgK,sigma_N_per_m", rows)

rows = []
for _ in range(100):
    p = PMIN*(22.064/PMIN)**random.random()
    rows.append([p*1e6, _TSat_P(p)])
write("boiling.csv", "_TSat_P", "p_Pa,T_K", rows)

rows = []
for _ in range(100):
    rho, T = random.choice([random.uniform(0, 1100), random.random()**4*300]), random.uniform(T0, 1173)
    rows.append([rho, T, _Viscosity(rho, T), _ThCond(rho, T)])
write("transport.csv", "_Viscosity, _ThCond (no critical enhancement)",
      "rho_kg_per_m3,T_K,mu_Pa_s,k_W_per_mK", rows)

write("melting.csv", "_Melting_Pressure", "T_K,p_Pa",
      [[T, _Melting_Pressure(T)*1e6] for T in [251.165, 273.16] +
       [random.uniform(251.165, 273.16) for _ in range(38)]])

rows = []
for T, p in liquid[2:60]:
    d = _Region1(T, p)
    rows.append([p*1e6, d["h"]*1e3, _Backward1_T_Ph(p, d["h"]),
                 d["s"]*1e3, _Backward1_T_Ps(p, d["s"])])
write("backward.csv", "_Backward1_T_Ph, _Backward1_T_Ps",
      "p_Pa,h_J_per_kg,T_from_h_K,s_J_per_kgK,T_from_s_K", rows)
