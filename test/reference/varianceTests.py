"""F distribution, analysis of variance, Cochran's and Levene's tests.

mpmath with 40 digits is the reference for the F distribution; the analysis of variance is worked out in exact fractions
from the binary numbers that the published decimals become, which shows what double precision can give; Levene's test and
the p values are SciPy's. Cochran's critical values come three ways: through SciPy's F quantile; exactly, for three values
a group, where the statistic is Fisher's g (Proc R Soc A 125:54-59, 1929): P(g > c) = sum (-1)^(j+1) C(k,j) (1-jc)^(k-1);
and by drawing two million sets with NumPy.
"""

import json
from fractions import Fraction
from pathlib import Path

import mpmath
import numpy
import scipy
import scipy.optimize
from mpmath import mp, mpf
from scipy import stats

from common import write

mp.dps = 40


def f_tail(f, d1, d2):
    f, d1, d2 = mpf(f), mpf(d1), mpf(d2)
    return mpmath.betainc(d2 / 2, d1 / 2, 0, d2 / (d2 + d1 * f), regularized=True)


def f_quantile(p, d1, d2):
    start = mpf(float(stats.f.ppf(p, d1, d2)))
    upper = p > 0.5
    tail = 1 - mpf(p) if upper else mpf(p)
    error = lambda f: mpmath.log(f_tail(f, d1, d2) if upper else 1 - f_tail(f, d1, d2)) - mpmath.log(tail)
    return float(mpmath.findroot(error, (start, start * mpf("1.0000001"))))


dfs = [(1, 1), (1, 5), (2, 2), (2, 10), (3, 4.7), (5, 2), (8, 180), (20, 20), (30, 2.5), (60, 1000)]
quantiles = [[p, *df, f_quantile(p, *df), float(stats.f.ppf(p, *df))] for df in dfs for p in [0.001, 0.05, 0.5, 0.9, 0.95, 0.99, 1 - 1e-6]]
tails = [[f, *df, float(f_tail(f, *df)), float(stats.f.sf(f, *df))] for df in dfs for f in [1e-6, 0.1, 0.9, 1.5, 4.0, 25.0, 1e4]]


def exact_anova(groups):
    groups = [[Fraction(value) for value in group] for group in groups]
    n = sum(map(len, groups))
    grand = sum(map(sum, groups)) / n
    means = [sum(group) / len(group) for group in groups]
    between = sum(len(group) * (mean - grand) ** 2 for group, mean in zip(groups, means))
    within = sum((value - mean) ** 2 for group, mean in zip(groups, means) for value in group)
    f = (between / (len(groups) - 1)) / (within / (n - len(groups)))
    return {"between": float(between), "within": float(within), "f": float(f), "p": float(f_tail(mpf(f.numerator) / f.denominator, len(groups) - 1, n - len(groups)))}


problems = json.loads(Path(__file__).with_name("nistStrd.json").read_text())["problems"]
exact = {name: exact_anova(problem["groups"]) for name, problem in problems.items()}

# Invented indices of specimens, g per 100 g, groups of different size.
groups = [[12.1, 12.9, 12.4, 12.7], [20.2, 22.9, 18.4], [7.1, 7.4, 7.2, 6.9, 7.7], [3.3, 2.1, 4.0, 3.6]]
one = stats.f_oneway(*groups)
anova = {"groups": groups, "f": float(one.statistic), "p": float(one.pvalue)}
levene = []
for centre in ["median", "mean"]:
    for logarithms in [False, True]:
        result = stats.levene(*[numpy.log(group) if logarithms else group for group in groups], center=centre)
        levene.append({"centre": centre, "logarithms": logarithms, "f": float(result.statistic), "p": float(result.pvalue)})


def by_quantile(k, n, alpha):
    return 1 / (1 + (k - 1) / stats.f.isf(alpha / k, n - 1, (k - 1) * (n - 1)))


def fisher(c, k):
    return sum((-1) ** (j + 1) * mpmath.binomial(k, j) * (1 - j * mpf(c)) ** (k - 1) for j in range(1, k + 1) if j * c < 1)


random = numpy.random.default_rng(5725)
cochran = []
for k, n in [(2, 2), (2, 3), (3, 2), (3, 3), (5, 3), (8, 3), (12, 3), (6, 4), (10, 2), (20, 3), (4, 6)]:
    draws = random.chisquare(n - 1, (2_000_000, k))
    shares = draws.max(axis=1) / draws.sum(axis=1)
    for alpha in [0.05, 0.01]:
        row = {"k": k, "n": n, "significance": alpha, "scipy": float(by_quantile(k, n, alpha)), "drawn": float(numpy.quantile(shares, 1 - alpha))}
        if n == 3:
            row["fisher"] = float(scipy.optimize.brentq(lambda c: float(fisher(c, k)) - alpha, 1 / k, 1 - 1e-12, xtol=1e-15))
        cochran.append(row)

write(
    "varianceTests",
    {
        "f_quantile": {"columns": ["p", "numerator", "denominator", "mpmath", "scipy"], "rows": quantiles},
        "f_probability": {"columns": ["f", "numerator", "denominator", "mpmath", "scipy"], "rows": tails},
        "anova_of_the_binary_numbers": exact,
        "anova": anova,
        "levene": levene,
        "cochran": cochran,
    },
    [scipy, numpy, mpmath],
)
