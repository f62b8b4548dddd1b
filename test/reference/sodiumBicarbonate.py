"""DTG peak of sodium bicarbonate from its published kinetics, by root finding.

Wu and Shih, Thermochim Acta 223:177–186 (1993), doi 10.1016/0040-6031(93)80132-t: first order, E = 105.8 kJ/mol,
A = 6.7e12 1/min, heated at 1.25, 2.5 and 5 K/min. The rate is largest where d(ln rate)/dT = E/(RT²) − k(T)/β = 0, which
is exact for first order; the peak is also found on the rate itself, integrated numerically.
"""

import numpy
import scipy
from scipy import constants, integrate, optimize

from common import write

E = 105.8e3
A = 6.7e12
start = 298.15


def rate(T, beta):
    """dα/dT in 1/K, conversion by quadrature."""
    k = A * numpy.exp(-E / (constants.R * T))
    g = integrate.quad(lambda t: A / beta * numpy.exp(-E / (constants.R * t)), start, T, epsabs=0, epsrel=1e-12)[0]
    return k / beta * numpy.exp(-g)


peaks = []
for beta in [1.25, 2.5, 5.0]:
    peak = optimize.brentq(lambda T: E / (constants.R * T * T) - A / beta * numpy.exp(-E / (constants.R * T)), 330, 480, xtol=1e-12)
    direct = optimize.minimize_scalar(lambda T: -rate(T, beta), bounds=(peak - 20, peak + 20), method="bounded", options={"xatol": 1e-8}).x
    assert abs(direct - peak) < 1e-3, (direct, peak)
    peaks.append({"rate_K_per_min": beta, "peak_C": peak - 273.15, "direct_C": direct - 273.15})

write("sodiumBicarbonate", {"E_kJ_mol": E / 1000, "A_per_min": A, "peaks": peaks}, [scipy, numpy])
