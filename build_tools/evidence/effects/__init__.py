"""From what a paper prints to an estimate and its variance: pure functions on numbers.

``spread``     standard deviations and standard errors from t, p, intervals, groups
``quartiles``  mean and standard deviation from a median and quartiles
``ratio``      log ratios of means, the scale the handbook pools on

Nothing here knows of studies or the catalog. What cannot be had is refused with
an ``EvidenceError`` that says why.
"""
