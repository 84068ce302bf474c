"""Reference table of the standard atmosphere for the tests of this package.

Needs the general-purpose library fluids, version 1.0.22, whose class
ATMOSPHERE_1976 takes the geometric altitude; run as

    python3 atmosphere.py

in this directory. Numbers are written with all digits of a float64.
"""

import random

import fluids

assert fluids.__version__ == "1.0.22", fluids.__version__
random.seed(20261125)

heights = [-500, 0, 500, 1000, 1500, 2000, 2500, 3000, 4000, 5000, 11000]
heights += [random.uniform(-600, 11000) for _ in range(109)]
with open("atmosphere.csv", "w") as f:
    f.write("# source: U.S. Standard Atmosphere, 1976, as computed by python fluids 1.0.22, "
            "ATMOSPHERE_1976; made by atmosphere.py on 2026-11-25; status: computed\n")
    f.write("z_geometric_m,H_geopotential_m,T_K,p_Pa,rho_kg_per_m3,mu_Pa_s,k_W_per_mK,c_m_per_s\n")
    for z in heights:
        a = fluids.ATMOSPHERE_1976(z)
        row = [a.Z, a.H, a.T, a.P, a.rho, a.mu, a.k, a.v_sonic]
        f.write(",".join(repr(float(x)) for x in row) + "\n")
