"""Quantiles of Student's t and the normal distribution, log-gamma, incomplete beta, exponential integral.

mpmath with 40 digits is the reference (SciPy 1.10 itself is off by up to 6e-10 in the t quantile); SciPy's value stands
beside it. The words of the generator sfc32 are worked out here in Python's unbounded integers.
"""

import mpmath
import numpy
import scipy
import scipy.optimize
from mpmath import mp, mpf
from scipy import special, stats

from common import write

mp.dps = 40


def t_cdf_upper(t, df):
    x = df / (df + t * t)
    return mpmath.betainc(df / 2, mpf("0.5"), 0, x, regularized=True) / 2


def t_quantile(p, df):
    p, df = mpf(p), mpf(df)
    tail = min(p, 1 - p)
    start = mpf(float(abs(stats.t.ppf(float(tail), float(df)))))
    t = mpmath.findroot(lambda t: mpmath.log(t_cdf_upper(t, df)) - mpmath.log(tail), (start, start * mpf("1.0000001")))
    return float(t if p > tail else -t)


ps = [0.975, 0.995, 0.95, 0.9, 0.6, 0.500001, 0.999, 0.999999, 0.025, 1e-6]
dfs = [1.0, 1.5, 2.0, 2.469, 3.0, 4.7, 7.0, 11.3, 20.0, 47.25, 120.0, 1234.5, 9999.0, 10000.0, 1e6]
student = [[p, df, t_quantile(p, df), float(stats.t.ppf(p, df))] for df in dfs for p in ps]

normal_ps = [1e-300, 1e-20, 1e-8, 0.001, 0.025, 0.075, 0.3, 0.5, 0.6, 0.924, 0.926, 0.95, 0.975, 0.99, 1 - 1e-9]
normal = []
for p in normal_ps:
    guess = float(stats.norm.ppf(p))
    exact = 0.0 if p == 0.5 else float(
        mpmath.findroot(lambda z: mpmath.log(mpmath.ncdf(z)) - mpmath.log(mpf(p)), mpf(guess))
        if p < 0.5
        else -mpmath.findroot(lambda z: mpmath.log(mpmath.ncdf(z)) - mpmath.log(1 - mpf(p)), mpf(-guess))
    )
    normal.append([p, exact, guess])

gammas = [[x, float(mpmath.loggamma(mpf(x))), float(special.gammaln(x))] for x in [1e-3, 0.25, 0.5, 1.0, 1.5, 2.0, 3.7, 11.99, 12.0, 60.5, 5000.25]]

betas = []
for a, b in [(0.5, 0.5), (0.5, 1.2345), (2.2, 0.5), (5.0, 3.5), (60.0, 0.5), (0.5, 600.0), (30.0, 45.0)]:
    for x in [1e-6, 0.01, 0.3, 0.5, 0.8, 0.99, 0.999999]:
        exact = mpmath.betainc(mpf(a), mpf(b), 0, mpf(x), regularized=True)
        betas.append([x, a, b, float(exact), float(special.betainc(a, b, x))])

e2 = [[x, float(mpmath.exp(mpf(x)) * mpmath.expint(2, mpf(x)))] for x in [1e-3, 0.1, 0.5, 0.999, 1.0, 1.001, 1.5, 3.0, 10.0, 27.3, 60.0, 150.0, 700.0]]


def sfc32(text, draws):
    mask = 0xFFFFFFFF

    def hashed(variant):
        h = 0x811C9DC5 ^ variant
        for unit in text.encode("utf-16-le")[::2]:
            h = ((h ^ unit) * 0x01000193) & mask
        h = ((h ^ (h >> 16)) * 0x85EBCA6B) & mask
        h = ((h ^ (h >> 13)) * 0xC2B2AE35) & mask
        return h ^ (h >> 16)

    a, b, c, counter = hashed(0), hashed(1), hashed(2), 1
    out = []
    for _ in range(12 + draws):
        word = (a + b + counter) & mask
        counter = (counter + 1) & mask
        a = b ^ (b >> 9)
        b = (c + (c << 3)) & mask
        c = ((((c << 21) & mask) | (c >> 11)) + word) & mask
        out.append(word)
    return [(word + 0.5) / 2**32 for word in out[12:]]


random = {"seeds": {seed: sfc32(seed, 6) for seed in ["1", "7/run a.txt/noise"]}}

# Welch–Satterthwaite through SciPy: the degrees of freedom of Welch's test are those of the difference of two means.
a, b = [12.1, 12.9, 12.4, 12.7], [11.2, 12.6, 11.9]
va, vb = numpy.var(a, ddof=1) / len(a), numpy.var(b, ddof=1) / len(b)
welch = stats.ttest_ind(a, b, equal_var=False)
pooled = stats.ttest_ind(a, b, equal_var=True)
# t = (mean a − mean b)/(s·√(1/n + 1/m)) solved for the pooled s.
s = abs((numpy.mean(a) - numpy.mean(b)) / pooled.statistic) / numpy.sqrt(1 / len(a) + 1 / len(b))
# p-value of Welch's test: the degrees of freedom that reproduce it.
df = scipy.optimize.brentq(lambda v: 2 * stats.t.sf(abs(welch.statistic), v) - welch.pvalue, 1, 50, xtol=1e-13)
two_groups = {"a": a, "b": b, "u_a": float(numpy.sqrt(va)), "u_b": float(numpy.sqrt(vb)), "welch_df": float(df), "pooled_deviation": float(s)}

write(
    "quantiles",
    {
        "student": {"columns": ["p", "df", "mpmath", "scipy"], "rows": student},
        "normal": {"columns": ["p", "mpmath", "scipy"], "rows": normal},
        "log_gamma": {"columns": ["x", "mpmath", "scipy"], "rows": gammas},
        "incomplete_beta": {"columns": ["x", "a", "b", "mpmath", "scipy"], "rows": betas},
        "scaled_e2": {"columns": ["x", "mpmath"], "rows": e2},
        "sfc32": random,
        "two_groups": two_groups,
    },
    [scipy, numpy, mpmath],
)
