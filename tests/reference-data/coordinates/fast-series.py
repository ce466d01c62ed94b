"""Makes the polynomials of src/SiteProgress.Core/Coordinates/Projections/FastSeries.cs.

Each function is interpolated at the Chebyshev nodes of its interval with 60 digits, in the square of its argument, and rounded to
double precision. Needs Debian's python3-mpmath. Run: python3 tests/reference-data/coordinates/fast-series.py
"""
from mpmath import mp, mpf, cos, sin, sinh, cosh, atan, atanh, pi, sqrt

mp.dps = 60


def fit(function, largest, terms):
    """Coefficients c0..c(terms-1) with function(u) = sum c_k u^k for 0 <= u <= largest, and the largest error found."""
    nodes = [largest / 2 * (1 + cos(pi * (2 * k + 1) / (2 * terms))) for k in range(terms)]
    values = [function(u) for u in nodes]
    rows = mp.matrix([[u ** j for j in range(terms)] for u in nodes])
    solved = mp.lu_solve(rows, mp.matrix(values))
    coefficients = [float(c) for c in solved]
    error = max(abs(sum(mpf(c) * u ** j for j, c in enumerate(coefficients)) - function(u))
                for u in (largest * k / 400 for k in range(1, 401)))
    return coefficients, error


def show(name, function, largest_argument, terms):
    coefficients, error = fit(function, mpf(largest_argument) ** 2, terms)
    print(f"{name}: error {mp.nstr(error, 2)}")
    print("    [" + ", ".join(repr(c) for c in coefficients) + "];")


root = lambda f: (lambda u: f(sqrt(u)))
show("Sine of up to pi/4 over its argument", root(lambda x: sin(x) / x), pi / 4, 7)
show("(1 - cosine of up to pi/4) over its argument squared", root(lambda x: 2 * sin(x / 2) ** 2 / x ** 2), pi / 4, 7)
show("Sine of up to 0.36 over its argument", root(lambda x: sin(x) / x), 0.36, 6)
show("(1 - cosine of up to 0.36) over its argument squared", root(lambda x: 2 * sin(x / 2) ** 2 / x ** 2), 0.36, 6)
show("Hyperbolic sine of up to 0.37 over its argument", root(lambda x: sinh(x) / x), 0.37, 6)
show("(hyperbolic cosine of up to 0.37 - 1) over its argument squared", root(lambda x: 2 * sinh(x / 2) ** 2 / x ** 2), 0.37, 6)
show("Inverse hyperbolic tangent of up to 0.35 over its argument", root(lambda x: atanh(x) / x), 0.35, 11)
show("Inverse tangent of up to 0.375 over its argument", root(lambda x: atan(x) / x), 0.375, 11)
show("Inverse tangent of up to 0.04 over its argument", root(lambda x: atan(x) / x), 0.04, 5)
