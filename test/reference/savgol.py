"""Savitzky–Golay reference values: scipy.signal.savgol_filter(mode="interp") on a noisy sigmoid, ends included."""

import numpy
import scipy
from scipy.signal import savgol_filter

from common import write

step = 0.5
n = 250
rng = numpy.random.default_rng(20240601)
temperature = 60 + step * numpy.arange(n)
mass = 30 - 3.2 / (1 + numpy.exp(-(temperature - 118) / 9)) - 0.002 * (temperature - 60) + 0.01 * rng.standard_normal(n)

cases = []
for points in [5, 7, 11, 21, 51, 101]:
    for degree in [2, 3]:
        for derivative in [0, 1]:
            out = savgol_filter(mass, points, degree, deriv=derivative, delta=step, mode="interp")
            cases.append({"points": points, "degree": degree, "derivative": derivative, "values": out.tolist()})

write("savgol", {"step": step, "mass": mass.tolist(), "cases": cases}, [scipy, numpy])
