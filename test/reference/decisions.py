"""Distributions, comparisons, trends and correlations by SciPy, statsmodels, mpmath and plain enumeration.

Where a library has the quantity it is the library's value. Exact distributions of small samples are counted here over
every permutation or every deal, which needs no formula; mpmath works with 30 digits.
"""

import itertools
import math

import mpmath
import numpy
import scipy
import scipy.optimize
import statsmodels
import statsmodels.api as sm
from mpmath import mp, mpf
from scipy import special, stats
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.power import TTestIndPower
from statsmodels.stats.weightstats import CompareMeans, DescrStatsW

from common import write

mp.dps = 30


# Distribution functions ------------------------------------------------------------------------------------------------
def student_cdf(t, df):
    t, df = mpf(t), mpf(df)
    tail = mpmath.betainc(df / 2, mpf("0.5"), 0, df / (df + t * t), regularized=True) / 2
    return tail if t < 0 else 1 - tail


student = [[t, df, float(student_cdf(t, df))] for df in [0.5, 1.0, 2.469, 6.0, 47.25, 1234.5] for t in [-25.0, -3.1, -0.7, 1e-9, 0.2, 2.0, 9.5]]
normal = [[z, float(mpmath.ncdf(mpf(z)))] for z in [-37.0, -20.0, -8.3, -5.0, -3.0001, -2.9999, -1.5, -1e-8, 0.0, 0.3, 1.0, 1.96, 3.0, 3.5, 6.0, 9.0]]


def mean_over_scatter(f, df, upper=None):
    """Mean of f(u), u = s/σ with df degrees of freedom, by mpmath's Gauss–Legendre over pieces of u."""
    df = mpf(df)
    constant = mpmath.log(2) + df / 2 * mpmath.log(df / 2) - mpmath.loggamma(df / 2)
    density = lambda u: mpmath.exp(constant + (df - 1) * mpmath.log(u) - df * u * u / 2)
    width = 1 / mpmath.sqrt(2 * df)
    ends = sorted({mpf(0), *(max(mpf(0), 1 + k * width) for k in range(-12, 15))})
    if df < 30:
        ends = [mpf(0), *(mpf(k) / 8 for k in range(1, 9)), *(1 + k * width for k in range(1, 13))]
    if upper is not None:
        ends = [u for u in ends if u < upper] + [mpf(upper)]
    return mpmath.quad(lambda u: density(u) * f(u), ends) if len(ends) > 1 else mpf(0)


noncentral = []
for df in [1.0, 2.0, 4.5, 10.0, 38.0, 400.0]:
    for delta in [0.4, 2.8, -3.0, 12.0]:
        for t in [-1.0, 0.0, 2.2, 9.0]:
            exact = mean_over_scatter(lambda u: mpmath.ncdf(mpf(t) * u - mpf(delta)), df)
            noncentral.append([t, df, delta, float(exact), float(stats.nct.cdf(t, df, delta))])

# Power of the two-sided t test -------------------------------------------------------------------------------------------
power = []
solver = TTestIndPower()
for effect in [0.0, 0.4, 1.0, 2.0, 3.5]:
    for n in [2, 3, 6, 25]:
        power.append([effect, n, 0.05, float(solver.power(effect, n, 0.05))])
sizes = []
for effect in [0.3, 0.8, 1.0, 1.5, 2.0, 3.0]:
    for wanted in [0.8, 0.9]:
        sizes.append([effect, wanted, math.ceil(solver.solve_power(effect, None, 0.05, wanted))])

# Power of two one-sided tests: for each u the estimate must lie within ±(margin − t·u·se) --------------------------------
tost_power = []
for df in [1.0, 4.0, 10.0, 46.0, 300.0]:
    # SciPy's own quantile is off by up to 6e-10.
    t = mpmath.findroot(lambda t: student_cdf(-t, df) - mpf("0.05"), mpf(float(stats.t.isf(0.05, df))))
    for margin in [0.8, 2.0, 3.3, 6.0]:
        for shift in [0.0, 1.2]:
            def inside(u):
                half = margin - t * u
                return mpmath.ncdf(half - shift) - mpmath.ncdf(-half - shift)

            exact = mean_over_scatter(inside, df, mpf(margin) / t)
            tost_power.append([margin, shift, df, float(exact)])

# Dunnett: two nested integrals by composite Gauss–Legendre rules (NumPy's nodes, SciPy's distributions) -----------------------
def composite(ends, order):
    nodes, weights = numpy.polynomial.legendre.leggauss(order)
    pieces = [((a + b) / 2 + (b - a) / 2 * nodes, (b - a) / 2 * weights) for a, b in zip(ends[:-1], ends[1:])]
    return numpy.concatenate([p[0] for p in pieces]), numpy.concatenate([p[1] for p in pieces])


def dunnett_tails(q, lambdas, df):
    """Two-sided and one-sided."""
    z, weight_z = composite(numpy.linspace(-9, 9, 91), 12)
    weight_z = weight_z * stats.norm.pdf(z)
    if df == math.inf:
        u, weight_u = numpy.array([1.0]), numpy.array([1.0])
    else:
        chi, scale = stats.chi(df), math.sqrt(df)
        u, weight_u = composite(numpy.linspace(chi.ppf(1e-15) / scale, chi.isf(1e-15) / scale, 31), 20)
        weight_u = weight_u * chi.pdf(u * scale) * scale
    both, one = numpy.ones((len(u), len(z))), numpy.ones((len(u), len(z)))
    for value in lambdas:
        root = math.sqrt(1 - value**2)
        high = special.ndtr((q * u[:, None] - value * z) / root)
        both *= high - special.ndtr((-q * u[:, None] - value * z) / root)
        one *= high
    return [float(1 - weight_u @ product @ weight_z) for product in (both, one)]


dunnett = []
half = math.sqrt(0.5)
for lambdas, df in [
    ([half] * 2, 4),
    ([half] * 5, 12),
    ([0.632, 0.674, 0.5, 0.4], 13),
    ([0.95, 0.9, 0.8], 8),
    ([0.6, -0.3, 0.0], 20),
    ([0.99, 0.97], 6),
    ([half] * 3, math.inf),
    ([0.7] * 6, 1),
    ([half] * 7, 200),
]:
    for q in [0.4, 1.9, 2.6, 4.5]:
        dunnett.append([lambdas, None if df == math.inf else df, q, *dunnett_tails(q, lambdas, df)])

# Welch, Holm, two one-sided tests -------------------------------------------------------------------------------------------
welch = []
for a, b in [
    ([12.1, 12.9, 12.4, 12.7], [11.2, 12.6, 11.9]),
    ([31.2, 33.9, 29.8], [24.1, 24.6, 23.9, 24.4, 24.0]),
    ([5.0, 5.0, 5.0], [4.1, 4.9, 4.4]),
]:
    two = stats.ttest_ind(a, b, equal_var=False)
    less = stats.ttest_ind(a, b, equal_var=False, alternative="less")
    low, high = CompareMeans(DescrStatsW(a), DescrStatsW(b)).tconfint_diff(0.05, usevar="unequal")
    welch.append({"a": a, "b": b, "t": float(two.statistic), "p": float(two.pvalue), "p_less": float(less.pvalue), "low": float(low), "high": float(high)})

families = [[0.01, 0.04, 0.03], [0.2, 0.0004, 0.051, 0.013, 0.013, 0.9], [0.5], [1.0, 0.6, 0.0]]
holm = [[ps, [float(p) for p in multipletests(ps, method="holm")[1]]] for ps in families]

tost = []
for a, b, margin in [
    ([12.1, 12.9, 12.4, 12.7], [11.9, 12.6, 12.2], 1.0),
    ([31.2, 30.9, 29.8], [30.1, 31.6, 30.9], 1.0),
    ([31.2, 30.9, 31.8], [20.1, 21.6, 20.9], 3.0),
]:
    compared = CompareMeans(DescrStatsW(a), DescrStatsW(b))
    p, ((_, p1, df), (_, p2, _)) = compared.ttost_ind(-margin, margin, usevar="pooled")
    low, high = compared.tconfint_diff(0.10, usevar="pooled")
    difference = numpy.mean(a) - numpy.mean(b)
    tost.append({
        "estimate": float(difference),
        "se": float(compared.std_meandiff_pooledvar),
        "df": float(df),
        "margin": margin,
        "p": float(p),
        "p_outside": float(min(1 - p1, 1 - p2)),
        "low": float(low),
        "high": float(high),
    })

# Fieller: the ratios at which the t test of numerator − ratio·denominator just fails, found by root search -----------------
ratios = []
for a, u_a, b, u_b, covariance, df in [
    (18.0, 0.6, 20.0, 0.6, 0.0, 12),
    (3.0, 1.0, 8.0, 1.5, 0.4, 5),
    (-2.0, 0.5, 4.0, 0.9, -0.2, 9),
    (0.1, 0.5, 4.0, 0.9, 0.0, 9),
    (20.000001, 1e-6, 20.0, 2e-6, 0.0, 30),
]:
    t = stats.t.isf(0.025, df)
    test = lambda ratio: abs(a - ratio * b) / math.sqrt(u_a**2 - 2 * ratio * covariance + ratio**2 * u_b**2) - t
    ratio = a / b
    step = 20 * math.hypot(u_a, ratio * u_b) / abs(b)
    low = scipy.optimize.brentq(test, ratio - step, ratio, xtol=1e-15, rtol=1e-14)
    high = scipy.optimize.brentq(test, ratio, ratio + step, xtol=1e-15, rtol=1e-14)
    ratios.append({"numerator": {"value": a, "u": u_a}, "denominator": {"value": b, "u": u_b}, "covariance": covariance, "df": df, "low": low, "high": high})

# Trend: Kendall's S, Theil–Sen, Jonckheere -----------------------------------------------------------------------------------
def s_of(values):
    return sum(int(numpy.sign(b - a)) for a, b in itertools.combinations(values, 2))


def by_permutation(statistic, values):
    """Statistic of the values as they are, and its share of permutations at least as large and at most as small."""
    measured = statistic(values)
    every = [statistic(order) for order in itertools.permutations(values)]
    return measured, sum(v >= measured for v in every) / len(every), sum(v <= measured for v in every) / len(every)


trend_untied = []
for values in [
    [5.1, 7.9, 8.8, 9.3],
    [3.0, 1.0, 2.0, 5.0, 4.0, 7.0, 6.0],
    [9.0, 7.5, 8.0, 3.1, 2.2, 4.0, 1.0, 0.5, 0.9, 0.1, 0.3, 0.2],
    [round(0.2 * i + 9 * math.sin(7 * i), 4) for i in range(31)],
]:
    found = stats.kendalltau(range(len(values)), values, method="exact")
    trend_untied.append({"values": values, "tau": float(found.statistic), "p": float(found.pvalue), "s": s_of(values)})

trend_tied = []
for values in [[1.0, 2.0, 2.0, 3.0], [4.0, 4.0, 4.0, 9.0, 9.0], [1.0, 1.0, 2.0, 5.0, 2.0, 5.0, 6.0], [3.0, 2.0, 2.0, 2.0, 1.0, 1.0, 0.0, 3.0]]:
    s, up, down = by_permutation(s_of, values)
    trend_tied.append({"values": values, "s": s, "tau": float(stats.kendalltau(range(len(values)), values).statistic), "rising": up, "falling": down})


def half_pairs(groups):
    return sum(int(1 + numpy.sign(b - a)) for first, second in itertools.combinations(groups, 2) for a in first for b in second)


def deals(values, sizes):
    """Every way to deal numbered values out to groups of these sizes."""
    if not sizes:
        yield []
        return
    for chosen in itertools.combinations(range(len(values)), sizes[0]):
        rest = [v for i, v in enumerate(values) if i not in chosen]
        for others in deals(rest, sizes[1:]):
            yield [[values[i] for i in chosen], *others]


ordered = []
for groups in [
    [[9.8, 10.1], [10.0, 11.9], [12.0, 11.0]],
    [[4.0, 6.0, 5.0], [5.5, 7.0], [6.5, 8.0, 9.0]],
    [[5.0, 6.0, 6.0], [6.0, 7.0], [7.0, 7.0, 5.0]],
    [[1.0], [1.0, 2.0], [2.0, 2.0, 3.0], [1.0, 3.0]],
    [[3.0, 3.0], [2.0, 3.0], [1.0, 1.0, 2.0]],
]:
    measured = half_pairs(groups)
    every = [half_pairs(deal) for deal in deals([v for g in groups for v in g], [len(g) for g in groups])]
    labels = [i for i, g in enumerate(groups) for _ in g]
    ordered.append({
        "groups": groups,
        "j": measured / 2,
        "rising": sum(v >= measured for v in every) / len(every),
        "falling": sum(v <= measured for v in every) / len(every),
        "rising_best": sum(v == max(every) for v in every) / len(every),
        "asymptotic": float(stats.kendalltau(labels, [v for g in groups for v in g], method="asymptotic").pvalue),
    })

generator = numpy.random.default_rng(5)
x_many = [float(v) for v in numpy.round(generator.uniform(0, 50, 120), 1)]
y_many = [round(float(0.3 * v + e), 4) for v, e in zip(x_many, generator.normal(0, 4, 120))]
lines = []
for x, y in [([1.0, 3.0, 7.0, 28.0, 56.0], [8.1, 9.9, 12.0, 13.1, 13.0]), ([0.0, 1.0, 1.0, 2.0, 5.0, 6.0], [1.0, 3.0, 2.0, 4.5, 9.0, 30.0]), (x_many, y_many)]:
    separate = stats.theilslopes(y, x, 0.95, method="separate")
    joint = stats.theilslopes(y, x, 0.95, method="joint")
    lines.append({"x": x, "y": y, "slope": float(separate[0]), "separate": float(separate[1]), "joint": float(joint[1]), "low": float(separate[2]), "high": float(separate[3])})

# Level of the interval that leaves out the k flattest and k steepest slopes, over every order of the errors.
slope_levels = []
for x in [[1, 2, 3, 4], [1, 2, 3, 4, 5], [1, 1, 2, 3, 4, 4], [1, 2, 3, 4, 5, 6, 7]]:
    pairs = [(i, j) for i, j in itertools.combinations(range(len(x)), 2) if x[i] != x[j]]
    falling = [sum(e[j] < e[i] for i, j in pairs) for e in itertools.permutations(range(len(x)))]
    for left in range((len(pairs) + 1) // 2):
        level = 1 - sum(f <= left or f >= len(pairs) - left for f in falling) / len(falling)
        slope_levels.append({"x": x, "left": left, "level": level})

# Correlation ------------------------------------------------------------------------------------------------------------------
x9 = [12.1, 14.0, 15.2, 17.9, 18.3, 11.0, 16.6, 13.1]
y9 = [20.0, 26.5, 24.0, 33.0, 30.9, 22.2, 24.9, 21.0]
tied_x = [1.0, 2.0, 2.0, 3.0, 4.0, 4.0, 6.0]
tied_y = [2.0, 1.0, 3.0, 3.0, 5.0, 4.0, 5.0]
correlations = []
for x, y in [(x9, y9), (tied_x, tied_y), (x9[:5], y9[3:])]:
    r = stats.pearsonr(x, y)
    interval = r.confidence_interval(0.95)
    exact = {}
    for name, statistic in [("pearson", lambda v: stats.pearsonr(v, y).statistic), ("spearman", lambda v: stats.spearmanr(v, y).statistic)]:
        # Rounded, so that equal correlations in another order of summing stay equal.
        measured = round(abs(statistic(x)), 10)
        cached = numpy.array(list(itertools.permutations(stats.rankdata(x) if name == "spearman" else x)))
        other = numpy.array(stats.rankdata(y) if name == "spearman" else y)
        centred = other - other.mean()
        size = numpy.sqrt((centred**2).sum() * ((cached[0] - cached[0].mean()) ** 2).sum())
        every = numpy.round(numpy.abs((cached - cached[0].mean()) @ centred / size), 10)
        exact[name] = float((every >= measured).mean())
    correlations.append({
        "x": x,
        "y": y,
        "pearson": float(r.statistic),
        "low": float(interval.low),
        "high": float(interval.high),
        "spearman": float(stats.spearmanr(x, y).statistic),
        "p_pearson": exact["pearson"],
        "p_spearman": exact["spearman"],
    })

# Within groups: the partial correlation given the group from the t of a regression with a dummy per group; p over every
# permutation inside the groups.
ages = [1, 1, 1, 7, 7, 28, 28, 28]
hydrate = [10.0, 11.2, 10.7, 14.1, 15.0, 17.9, 18.8, 17.2]
strength = [20.0, 21.9, 22.0, 30.2, 31.5, 40.0, 39.0, 38.1]
dummies = numpy.column_stack([[float(a == age) for a in ages] for age in sorted(set(ages))] + [hydrate])
fitted = sm.OLS(strength, dummies).fit()
t = fitted.tvalues[-1]
partial = t / math.sqrt(t * t + fitted.df_resid)
n_effective = len(ages) - 2
z = math.atanh(partial)
reach = stats.norm.isf(0.025) / math.sqrt(n_effective - 3)


def centred_in_groups(values):
    values = numpy.array(values)
    return values - numpy.array([numpy.mean([v for v, b in zip(values, ages) if b == a]) for a in ages])


places = [[i for i, a in enumerate(ages) if a == age] for age in sorted(set(ages))]
a, b = centred_in_groups(hydrate), centred_in_groups(strength)
every = []
for orders in itertools.product(*[itertools.permutations(p) for p in places]):
    order = [i for part in orders for i in part]
    every.append(float(a @ b[order]))
within = {
    "groups": ages,
    "x": hydrate,
    "y": strength,
    "r": float(partial),
    "df": int(fitted.df_resid),
    "low": math.tanh(z - reach),
    "high": math.tanh(z + reach),
    "p": sum(abs(v) >= abs(float(a @ b)) - 1e-9 for v in every) / len(every),
    "permutations": len(every),
}

# Straight line ---------------------------------------------------------------------------------------------------------------------
x, y = [0.0, 0.48, 0.85, 1.45, 1.75], [8.1, 9.9, 12.0, 13.1, 13.9]
ols = sm.OLS(y, sm.add_constant(x)).fit()
predicted = ols.get_prediction(numpy.array([[1.0, 1.0], [1.0, 2.5]]))
line = {
    "x": x,
    "y": y,
    "slope": [float(ols.params[1]), float(ols.bse[1]), *map(float, ols.conf_int()[1])],
    "intercept": [float(ols.params[0]), float(ols.bse[0]), *map(float, ols.conf_int()[0])],
    "residual_deviation": float(math.sqrt(ols.mse_resid)),
    "r_squared": float(ols.rsquared),
    "at": [[1.0, 2.5][i] for i in range(2)],
    "line": [[float(m), float(s), float(i[0]), float(i[1])] for m, s, i in zip(predicted.predicted_mean, predicted.se_mean, predicted.conf_int())],
}

write(
    "decisions",
    {
        "student_cdf": {"columns": ["t", "df", "mpmath"], "rows": student},
        "normal_cdf": {"columns": ["z", "mpmath"], "rows": normal},
        "noncentral_t": {"columns": ["t", "df", "noncentrality", "mpmath", "scipy"], "rows": noncentral},
        "power": {"columns": ["effect in standard deviations", "n", "alpha", "statsmodels"], "rows": power},
        "sizes": {"columns": ["effect in standard deviations", "power", "statsmodels, rounded up"], "rows": sizes},
        "tost_power": {"columns": ["margin in standard errors", "true difference in standard errors", "df", "mpmath"], "rows": tost_power},
        "dunnett_tail": {"columns": ["lambda", "df (null: infinite)", "q", "scipy two-sided", "scipy one-sided"], "rows": dunnett},
        "welch": welch,
        "holm": {"columns": ["p", "statsmodels"], "rows": holm},
        "tost": tost,
        "fieller": ratios,
        "trend_untied": trend_untied,
        "trend_tied": trend_tied,
        "ordered": ordered,
        "theil_sen": lines,
        "theil_sen_levels": slope_levels,
        "correlations": correlations,
        "within": within,
        "line": line,
    },
    [scipy, numpy, mpmath, statsmodels],
)
