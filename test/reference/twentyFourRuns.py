"""Noise-free step and area indices of 24 simulated runs, by quadrature, from parameters drawn here.

The parameters stand in the JSON and drive the simulation in the test; nothing else is shared with the code under test.
Conversion: g(T) = A/β·∫exp(−E/RT)dT from the start by adaptive quadrature (scipy.integrate.quad), α in closed form.
step = m(T1) − m(T2); area = step − ½(s1 + s2)(T2 − T1), s the slope −dm/dT of the straight line fitted by least squares to
the noise-free TG over 10 °C centred on the edge (continuous fit: 12/w³·∫(T − c)·m dT); index = 100·loss/mean of m over
945–955 °C.
"""

import math

import numpy
import scipy
from scipy import constants
from scipy.integrate import quad

from common import write

rng = numpy.random.default_rng(24)
start_C, end_C, beta = 25.0, 1000.0, 10.0
windows = [["aft-afm", 50, 220], ["ah3", 220, 350], ["ch-range", 400, 500], ["carbonate", 600, 850], ["bound-water", 50, 550]]
nodes, weights = numpy.polynomial.legendre.leggauss(16)


def place(loss, peak_C, width, order=1.0):
    """Kinetics of a peak: E from the width of a first-order peak (2.446·RT²/E at half height), A from Kissinger."""
    T = peak_C + 273.15
    E = 2.446 * constants.R * T * T / width
    ln_A = math.log(beta * E / (constants.R * T * T)) + E / (constants.R * T)
    reaction = {"loss_pct": round(loss, 4), "ln_A_per_min": round(ln_A, 6), "E_kJ_mol": round(E / 1000, 5)}
    if order != 1.0:
        reaction["order"] = round(order, 3)
    return reaction


def draw():
    """A hydrated sulfoaluminate paste: ranges as wide as ages and regimes make them (invented)."""
    u = rng.uniform
    aft = u(4, 13)
    return [
        place(u(0.2, 1.2), u(62, 85), u(40, 60)),
        place(aft * 24 / 30, u(105, 122), u(36, 50), u(0.8, 1.4)),
        place(aft * 6 / 30, u(170, 230), u(90, 140)),
        place(u(0.3, 2.5), u(180, 200), u(40, 55)),
        place(u(1, 3), u(140, 200), u(150, 220)),
        place(u(1.5, 6), u(255, 285), u(36, 55), u(0.8, 1.3)),
        place(u(0.1, 0.6), u(480, 530), u(70, 110)),
        place(u(0.3, 3), u(680, 750), u(55, 90)),
    ]


def mass_function(sample_mg, reactions):
    def g(T_C, reaction):
        E = reaction["E_kJ_mol"] * 1000 / constants.R
        scale = reaction["ln_A_per_min"] - math.log(beta)
        low, high = start_C + 273.15, T_C + 273.15
        cuts = numpy.unique(numpy.concatenate([numpy.arange(low, high, 25.0), [high]]))
        return sum(
            quad(lambda T: math.exp(scale - E / T), a, b, epsabs=0, epsrel=1e-13)[0] for a, b in zip(cuts[:-1], cuts[1:])
        )

    def mass(T_C):
        lost = 0.0
        for reaction in reactions:
            n, reached = reaction.get("order", 1.0), g(T_C, reaction)
            if n == 1.0:
                left = math.exp(-reached)
            else:
                base = 1 - (1 - n) * reached
                left = base ** (1 / (1 - n)) if base > 0 else 0.0
            lost += reaction["loss_pct"] * (1 - left)
        return sample_mg * (1 - lost / 100)

    return mass


def over(mass, centre, width, weight):
    """∫ weight(T − centre)·m(T) dT over centre ± width/2, Gauss–Legendre with 16 points."""
    return sum(w * weight(x * width / 2) * mass(centre + x * width / 2) for x, w in zip(nodes, weights)) * width / 2


runs = []
for i in range(24):
    sample_mg = round(float(rng.uniform(15, 40)), 3)
    reactions = draw()
    mass = mass_function(sample_mg, reactions)
    ignited = over(mass, 950.0, 10.0, lambda d: 1.0) / 10.0

    def slope(edge):
        return -12 / 10.0**3 * over(mass, edge, 10.0, lambda d: d)

    indices = {}
    for name, low, high in windows:
        step = mass(low) - mass(high)
        area = step - 0.5 * (slope(low) + slope(high)) * (high - low)
        indices[name] = {"step": 100 * step / ignited, "area": 100 * area / ignited}
    temperatures = [25.0, 90.0, 118.0, 220.0, 271.0, 500.0, 715.0, 1000.0]
    runs.append(
        {
            "sample_mg": sample_mg,
            "reactions": reactions,
            "ignited_mg": ignited,
            "indices": indices,
            "temperatures_C": temperatures,
            "masses_mg": [mass(T) for T in temperatures],
        }
    )

write(
    "twentyFourRuns",
    {
        "programme": {"start_C": start_C, "segments": [{"to_C": end_C, "rate_K_per_min": beta}]},
        "windows": windows,
        "runs": runs,
    },
    [scipy, numpy],
)
