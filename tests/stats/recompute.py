#!/usr/bin/python3
"""Values that tests/stats expects, recomputed with SciPy (Debian python3-scipy); prints them. Not run by the tests."""

from itertools import combinations, product

import numpy as np
from scipy import fft, stats

series = np.array([1.9, 2.4, 1.1, 0.7, 1.6, 3.1, 2.8, 2.2, 1.4, 0.9, 1.8, 2.0, 2.7, 3.3])
cosines = fft.dct(series, type=2, norm="ortho")[1:4]
variance = np.mean(cosines**2)
error = np.sqrt(variance / len(series))
print("long-run variance", repr(variance), "mean", repr(series.mean()), "error", repr(error))
print("interval", series.mean() + np.array([-1, 1]) * stats.t.ppf(0.975, 3) * error,
      "share", repr(2 * stats.t.sf(series.mean() / error, 3)))

print("t quantile", [repr(stats.t.ppf(0.975, df)) for df in (1, 3, 3.7, 10, 250.5)], repr(stats.t.ppf(0.9, 2.2)))


def power(delta, se, df):
    limit = stats.t.ppf(0.975, df)
    return stats.nct.sf(limit, df, delta / se) + stats.nct.cdf(-limit, df, delta / se)


print("power", repr(power(2, (2 / 3) ** 0.5, 4)), repr(power(1, (2 / 20) ** 0.5, 38)), repr(power(5, 1, 2.5)))
print("Clopper-Pearson", [stats.binomtest(x, n).proportion_ci() for x, n in ((7, 20), (0, 12), (12, 12))])
print("Fisher", [stats.fisher_exact(t)[1] for t in ([[3, 1], [1, 3]], [[18, 2], [11, 9]], [[7, 12], [0, 5]])])

first, second = [4, 5, 3, 5], [2, 3, 1, 3, 2]
both = np.array(first + second)
middle = both.sum() * len(first) / len(both)
sums = [both[list(c)].sum() for c in combinations(range(len(both)), len(first))]
print("permutation", np.mean([abs(s - middle) >= abs(sum(first) - middle) - 1e-9 for s in sums]))
pairs = [(5, 3), (4, 4), (3, 1), (5, 2), (4, 3), (2, 3)]
middle = sum(a + b for a, b in pairs) / 2
sums = [sum(p[i] for p, i in zip(pairs, swap)) for swap in product((0, 1), repeat=len(pairs))]
print("in pairs", np.mean([abs(s - middle) >= abs(sum(a for a, _ in pairs) - middle) - 1e-9 for s in sums]))
