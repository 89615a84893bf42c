"""Writes second_opinion_input.json and second_opinion_scipy.json.

Command: /usr/bin/python3 second_opinion.py   (Debian 12 packages python3-scipy, python3-numpy)
"""
import json
import platform

import numpy
import scipy
from scipy import stats

dice = numpy.random.default_rng(20261125)


def series(n, slope, places, gaps):
    time = numpy.sort(dice.choice(numpy.arange(1, 3 * n + 1), n, replace=False) if gaps else numpy.arange(1, n + 1))
    value = numpy.round(slope * time + dice.standard_normal(n), places)
    wild = dice.choice(n, max(1, n // 15), replace=False)
    value[wild] = numpy.round(value[wild] + 12, places)
    return {"time": [int(t) for t in time], "value": [float(v) for v in value]}


inputs = [series(*spec) for spec in [(8, 0.3, 6, False), (10, 0, 6, True), (25, 0.05, 1, True), (60, -0.03, 0, False), (150, 0.01, 3, True)]]
answers = []
for one in inputs:
    tau = stats.kendalltau(one["time"], one["value"], method="auto")
    normal = stats.kendalltau(one["time"], one["value"], method="asymptotic")
    line = stats.theilslopes(one["value"], one["time"], 0.9)
    answers.append({"tau_b": tau.statistic, "p_asymptotic": normal.pvalue, "slope": line[0], "intercept": line[1],
                    "lower90": line[2], "upper90": line[3],
                    **({"p_exact": stats.kendalltau(one["time"], one["value"], method="exact").pvalue} if len(one["time"]) <= 10 else {})})
functions = {
    "normal_upper": [[z, stats.norm.sf(z)] for z in [-3, -0.5, 0, 1, 1.96, 3.9, 4.1, 6, 9, 13, 30]],
    "normal_quantile": [[p, stats.norm.ppf(p)] for p in [0.001, 0.025, 0.1, 0.5, 0.8, 0.9, 0.975, 0.9995]],
    "t_cdf": [[t, df, stats.t.cdf(t, df)] for t in [-4, -1, 0, 0.5, 2.5, 6] for df in [1, 3, 10, 200]],
    "t_quantile": [[p, df, stats.t.ppf(p, df)] for p in [0.025, 0.3, 0.9, 0.975] for df in [1, 3, 10, 200]],
    "chi_square_upper": [[x, df, stats.chi2.sf(x, df)] for x in [0, 0.1, 3, 11, 25] for df in [1, 5, 11]],
}
versions = {"python": platform.python_version(), "numpy": numpy.__version__, "scipy": scipy.__version__}
with open("second_opinion_input.json", "w") as file:
    json.dump(inputs, file)
with open("second_opinion_scipy.json", "w") as file:
    json.dump({"versions": versions, "series": answers, "functions": functions}, file)
