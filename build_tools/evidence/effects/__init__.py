"""From what a paper prints to an estimate and its variance: pure functions on numbers.

``spread``     standard deviations and standard errors from t, p, intervals, groups
``quartiles``  mean and standard deviation from a median and quartiles or a range
``ratio``      log ratios of means, the scale the handbook pools on
``standard``   standardised and raw mean differences, to read and check what others report

Nothing here knows of studies or the catalog. What cannot be had is refused with
an ``EvidenceError`` that says why.
"""
