"""Writes the reference figures beside this file. Needs Debian's python3-scipy (made with scipy 1.10.1).

    /usr/bin/python3 tests/Homestretch.Core.Tests/Reference/make.py
"""
import csv
import pathlib

import numpy as np
from scipy import stats

here = pathlib.Path(__file__).parent


def write(name, header, rows):
    with open(here / name, "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(header)
        out.writerows([[repr(v) if isinstance(v, float) else v for v in row] for row in rows])


write("binomial.csv", ["n", "p", "k", "chance"], [
    [n, p, k, float(stats.binom.pmf(k, n, p))]
    for n in (1, 3, 12, 60, 150, 1200)
    for p in (0.001, 0.25, 0.5, 0.675, 0.97)
    for k in sorted({0, 1, n // 4, n // 2, (3 * n) // 4, n})
])

write("beta-binomial.csv", ["n", "a", "b", "k", "chance"], [
    [n, a, b, k, float(stats.betabinom.pmf(k, n, a, b))]
    for n in (3, 12, 60)
    for a, b in ((2.0, 2.0), (3.0, 5.0), (12.0, 7.0))
    for k in range(0, n + 1, max(1, n // 6))
])


def poisson_binomial(ps):
    """By the discrete Fourier transform of the characteristic function (Hong 2013), not by convolution."""
    n = len(ps)
    t = np.exp(2j * np.pi * np.arange(n + 1) / (n + 1))
    phi = np.array([np.prod(1 - np.array(ps) + np.array(ps) * z) for z in t])
    return np.real(np.fft.fft(phi) / (n + 1))


rows = []
for case, ps in enumerate(([0.1, 0.5, 0.9], [0.25] * 4 + [0.6] * 5, [i / 41 for i in range(1, 41)])):
    for k, chance in enumerate(poisson_binomial(ps)):
        rows.append([case, " ".join(repr(p) for p in ps), k, float(max(chance, 0.0))])
write("poisson-binomial.csv", ["case", "p", "k", "chance"], rows)
