"""Mean, standard deviation and 95 % t interval of small samples, for test/campaign/summarise.test.ts.

python3 campaign_intervals.py > campaign_intervals.json
"""
import json
import numpy
import scipy
from scipy import stats

samples = [[18.2, 19.2], [18.2, 19.2, 18.7], [4.12, 3.97, 4.31, 4.05], [21.7, 22.9, 20.8, 22.1, 21.3, 22.6, 21.9]]
cases = []
for sample in samples:
    n = len(sample)
    mean = numpy.mean(sample)
    sd = numpy.std(sample, ddof=1)
    u = sd / n**0.5
    low, high = stats.t.interval(0.95, n - 1, loc=mean, scale=stats.sem(sample))
    cases.append({"sample": sample, "mean": mean, "sd": sd, "u": u, "low": low, "high": high})
print(json.dumps({"scipy": scipy.__version__, "numpy": numpy.__version__, "cases": cases}, indent=2))
