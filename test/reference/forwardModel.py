"""Mass of a few samples through programmes with holds, several rates and cooling, by a stiff-safe integrator.

dα/dt = A·exp(−E/RT)·(1 − α)ⁿ is integrated leg by leg with scipy.integrate.solve_ivp (DOP853, rtol 1e-12): it shares
nothing with the closed form under test.
"""

import math

import numpy
import scipy
from scipy import constants
from scipy.integrate import solve_ivp

from common import write

cases = [
    {
        "name": "one first-order reaction, one rate",
        "programme": {"start_C": 25, "segments": [{"to_C": 600, "rate_K_per_min": 10}]},
        "reactions": [{"loss_pct": 20, "ln_A_per_min": 25, "E_kJ_mol": 81}],
    },
    {
        "name": "orders from 0.5 to 3",
        "programme": {"start_C": 25, "segments": [{"to_C": 800, "rate_K_per_min": 20}]},
        "reactions": [
            {"loss_pct": 5, "ln_A_per_min": 22, "E_kJ_mol": 75, "order": 0.5},
            {"loss_pct": 7, "ln_A_per_min": 28, "E_kJ_mol": 120, "order": 1.5},
            {"loss_pct": 6, "ln_A_per_min": 30, "E_kJ_mol": 160, "order": 2},
            {"loss_pct": 4, "ln_A_per_min": 24, "E_kJ_mol": 150, "order": 3},
        ],
    },
    {
        "name": "holds in the middle of a step, two rates",
        "programme": {
            "start_C": 30,
            "segments": [
                {"to_C": 105, "rate_K_per_min": 10, "hold_min": 45},
                {"to_C": 240, "rate_K_per_min": 2.5, "hold_min": 10},
                {"to_C": 900, "rate_K_per_min": 15},
            ],
        },
        "reactions": [
            {"loss_pct": 11, "ln_A_per_min": 26, "E_kJ_mol": 90},
            {"loss_pct": 5, "ln_A_per_min": 30, "E_kJ_mol": 140, "order": 1.3},
            {"loss_pct": 3, "ln_A_per_min": 20, "E_kJ_mol": 190},
        ],
    },
    {
        "name": "cooling and heating again",
        "programme": {
            "start_C": 25,
            "segments": [
                {"to_C": 130, "rate_K_per_min": 10},
                {"to_C": 60, "rate_K_per_min": 5},
                {"to_C": 400, "rate_K_per_min": 10},
            ],
        },
        "reactions": [{"loss_pct": 15, "ln_A_per_min": 25, "E_kJ_mol": 82}, {"loss_pct": 4, "ln_A_per_min": 27, "E_kJ_mol": 130, "order": 2}],
    },
]


def legs_of(programme):
    T, t, legs = programme["start_C"] + 273.15, 0.0, []
    for segment in programme["segments"]:
        to = segment["to_C"] + 273.15
        duration = abs(to - T) / segment["rate_K_per_min"]
        legs.append((t, t + duration, T, (to - T) / duration))
        t, T = t + duration, to
        hold = segment.get("hold_min", 0)
        if hold:
            legs.append((t, t + hold, T, 0.0))
            t += hold
    return legs


for case in cases:
    legs = legs_of(case["programme"])
    end = legs[-1][1]
    minutes = numpy.linspace(0, end, 41)
    # The ends of the legs as well: that is where conversion is handed over.
    minutes = numpy.unique(numpy.concatenate([minutes, [leg[1] for leg in legs]]))
    lost = numpy.zeros(len(minutes))
    for reaction in case["reactions"]:
        n = reaction.get("order", 1)
        left, values = 1.0, {0.0: 1.0}
        for t0, t1, T0, rate in legs:

            def slope(t, y):
                k = math.exp(reaction["ln_A_per_min"] - reaction["E_kJ_mol"] * 1000 / (constants.R * (T0 + rate * (t - t0))))
                return [-k * max(y[0], 0.0) ** n]

            wanted = [t for t in minutes if t0 < t <= t1]
            solution = solve_ivp(slope, (t0, t1), [left], method="DOP853", rtol=1e-12, atol=1e-14, t_eval=wanted if wanted[-1] == t1 else [*wanted, t1], max_step=0.25)
            values.update(zip(solution.t, solution.y[0]))
            left = max(solution.y[0][-1], 0.0)
        lost += reaction["loss_pct"] * (1 - numpy.array([max(values[t], 0.0) for t in minutes]))
    case["minutes"] = minutes.tolist()
    case["mass_pct"] = (100 - lost).tolist()

write("forwardModel", {"cases": cases}, [scipy, numpy])
