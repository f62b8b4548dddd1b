"""Heights, areas and half widths of Fraser-Suzuki peaks, and the distribution of the number of runs.

The peak is written as published (Fraser and Suzuki, Anal Chem 41:37-39, 1969), with height h, width parameter w and skew s;
its area is integrated by mpmath, not taken from a formula. Mean and standard deviation of the number of runs come from
every arrangement of the signs.
"""

import itertools

import mpmath
from mpmath import mp, mpf

from common import write

mp.dps = 30


def published(x, position, w, s):
    if s == 0:
        return mpmath.exp(-mpmath.log(2) * (2 * (x - position) / w) ** 2)
    z = 1 + 2 * s * (x - position) / w
    return mpmath.exp(-mpmath.log(2) * (mpmath.log(z) / s) ** 2) if z > 0 else mpf(0)


peaks = []
for position, width, skew in [(120, 30, 0), (120, 30, -0.3), (250, 42.5, 0.5), (90, 12, -1), (100, 20, 1e-5)]:
    s = mpf(skew)
    w = mpf(width) if s == 0 else mpf(width) * s / mpmath.sinh(s)
    end = mpf("inf") if s == 0 else position - w / (2 * s)
    low, high = (-mpf("inf"), mpf("inf")) if s == 0 else ((end, mpf("inf")) if s > 0 else (-mpf("inf"), end))
    breaks = [low, *[position + k * width for k in (-8, -4, -2, -1, -0.5, 0, 0.5, 1, 2, 4, 8) if low < position + k * width < high], high]
    area = mpmath.quad(lambda x: published(x, position, w, s), breaks)
    points = [position + k * mpf(width) for k in (-1.25, -0.5, -0.1, 0, 0.2, 0.5, 1.1)]
    bracket = lambda side: (position + side * mpf(width) / 50, position + side * mpf(width) * 95 / 100 if s == 0 or side * s > 0 else position + side * min(mpf(width) * 95 / 100, abs(end - position) * 99 / 100))
    half = [mpmath.findroot(lambda x: published(x, position, w, s) - mpf("0.5"), bracket(side), solver="anderson") for side in (-1, 1)]
    peaks.append(
        {
            "position": position,
            "width": width,
            "asymmetry": skew,
            "x": [float(x) for x in points],
            "height": [float(published(x, position, w, s) / area) for x in points],
            "half_height_at": [float(x) for x in half],
        }
    )

runs = []
for plus, minus in [(5, 5), (5, 8), (7, 6)]:
    counts = []
    for places in itertools.combinations(range(plus + minus), plus):
        signs = [1 if i in places else -1 for i in range(plus + minus)]
        counts.append(1 + sum(a != b for a, b in zip(signs, signs[1:])))
    mean = mpf(sum(counts)) / len(counts)
    deviation = mpmath.sqrt(sum((count - mean) ** 2 for count in counts) / len(counts))
    runs.append({"plus": plus, "minus": minus, "mean": float(mean), "deviation": float(deviation)})

write("peaks", {"fraser_suzuki": peaks, "runs": runs}, [mpmath])
