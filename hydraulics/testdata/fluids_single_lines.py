# Writes fluids_explicit.csv, fluids_coil.csv and fluids_lines.csv with the
# general-purpose library fluids. Run in this directory: python3 fluids_single_lines.py
import math

import fluids
from fluids import friction as fr

head = "# source: fluids %s, 2026-11-25; %s; status: computed\n"

with open("fluids_explicit.csv", "w") as out:
    out.write(head % (fluids.__version__, "explicit Darcy factors; serghides is Serghides_1, chen is Chen_1979"))
    out.write("Re,k,haaland,churchill,serghides,chen\n")
    for re in (4e3, 1e4, 5e4, 2e5, 1e6, 1e8):
        for k in (1e-6, 1e-4, 1e-3, 1e-2, 5e-2):
            out.write("%r,%r,%.12g,%.12g,%.12g,%.12g\n" % (
                re, k, fr.Haaland(re, k), fr.Churchill_1977(re, k), fr.Serghides_1(re, k), fr.Chen_1979(re, k)))

with open("fluids_coil.csv", "w") as out:
    out.write(head % (fluids.__version__, "Darcy factors of coils; d and D in m; empty where the correlation is of the other regime; schmidt and mandal_nigam multiply Colebrook's smooth factor"))
    out.write("Re,d,D,white,mori_nakayama_laminar,schmidt_laminar,mori_nakayama,schmidt,mandal_nigam,critical_ito,critical_schmidt\n")
    for d, D in ((0.02, 0.1), (0.0127, 0.4), (0.0134, 0.4064), (0.01, 0.6)):
        for re in (50, 250, 2000, 5000):
            out.write("%r,%r,%r,%.12g,%.12g,%.12g,,,,%.12g,%.12g\n" % (
                re, d, D, fr.helical_laminar_fd_White(re, d, D), fr.helical_laminar_fd_Mori_Nakayama(re, d, D),
                fr.helical_laminar_fd_Schmidt(re, d, D), fr.helical_transition_Re_Ito(d, D), fr.helical_transition_Re_Schmidt(d, D)))
        for re in (12000, 21999, 22000, 40000, 140000):
            fs = fr.Colebrook(re, 0)
            schmidt = fr.helical_turbulent_fd_Schmidt(re, d, D) / fr.friction_factor(re, 0) * fs
            mandal = fr.helical_turbulent_fd_Mandal_Nigam(re, d, D) / fr.friction_factor(re, 0) * fs
            out.write("%r,%r,%r,,,,%.12g,%.12g,%.12g,%.12g,%.12g\n" % (
                re, d, D, fr.helical_turbulent_fd_Mori_Nakayama(re, d, D), schmidt, mandal,
                fr.helical_transition_Re_Ito(d, D), fr.helical_transition_Re_Schmidt(d, D)))

# Single lines: water cold, at room temperature and hot, and two thick liquids, in
# laminar, near-critical and turbulent flow. Properties are inputs, not results.
liquids = (
    ("water 45 F", 999.9, 1.43e-3),
    ("water 20 C", 998.2, 1.0016e-3),
    ("water 180 F", 970.3, 3.47e-4),
    ("soap 20 cP", 1020.0, 20e-3),
    ("oil 100 cSt", 880.0, 88e-3),
)
gpm = 231 * 0.0254**3 / 60
with open("fluids_lines.csv", "w") as out:
    out.write(head % (fluids.__version__, "pressure lost in one straight line; Darcy-Weisbach, 64/Re below Re 2000 and Colebrook by Lambert W from 4000; rows between are left out because no law is right there"))
    out.write("liquid,density_kg_m3,viscosity_Pa_s,flow_gpm,bore_in,length_ft,roughness_um,Re,drop_Pa\n")
    for name, rho, mu in liquids:
        for q in (0.02, 0.5, 3.7, 6.3, 30.0):
            for bore in (0.25, 0.375, 0.5, 0.75, 2.067):
                for rough in (0.0, 45.0):
                    d = bore * 0.0254
                    v = q * gpm / (math.pi / 4 * d * d)
                    re = rho * v * d / mu
                    if 2000 < re < 4000:
                        continue
                    f = 64 / re if re <= 2000 else fr.Colebrook(re, rough * 1e-6 / d)
                    dp = f * (100 * 0.3048) / d * rho * v * v / 2
                    check = fluids.one_phase_dP(q * gpm * rho, rho, mu, d, roughness=rough * 1e-6, L=100 * 0.3048,
                                                Method="Colebrook" if re > 2000 else None)
                    assert abs(check / dp - 1) < 1e-6, (check, dp, re)
                    out.write("%s,%r,%r,%r,%r,100,%r,%.8g,%.12g\n" % (name, rho, mu, q, bore, rough, re, dp))
