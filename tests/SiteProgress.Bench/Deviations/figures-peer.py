# The figures of a selection in NumPy: the peer of ./bench deviations. Reads rows of five doubles and a set-up number each from one
# binary file, works the figures out so many times, and prints the milliseconds of every time and then the figures.
import sys
import time
import numpy as np

path, times = sys.argv[1], int(sys.argv[2])
rows = np.fromfile(path, dtype=np.float64).reshape(-1, 6)
east, north, along, across, limit = (np.ascontiguousarray(rows[:, column]) for column in range(5))
set_up = rows[:, 5].astype(np.int64)


def figures():
    n = east.size
    axes = [(axis.mean(), axis.std(ddof=1), np.sqrt(np.mean(axis * axis))) for axis in (east, north, along, across)]
    radial = np.hypot(east, north)
    median, percentile = np.percentile(radial, [50, 95])
    within = radial <= limit + 1e-9
    share = within.mean()
    counts = np.bincount(set_up)
    groups = counts.size
    between = np.sum((np.bincount(set_up, weights=within) - share * counts) ** 2) * groups / (groups - 1) / (n * n)
    effective = min(n, n / max(1, between / (share * (1 - share) / n)))
    z = 1.959963984540054
    middle = (share + z * z / (2 * effective)) / (1 + z * z / effective)
    half = z / (1 + z * z / effective) * np.sqrt(share * (1 - share) / effective + z * z / (4 * effective * effective))
    values = np.linalg.eigvalsh(np.cov(east, north))
    nssda = np.sqrt(-2 * np.log(0.05)) * 0.5 * (axes[0][2] + axes[1][2])
    return [n, *[value for axis in axes for value in axis], np.sqrt(np.mean(radial * radial)), median, percentile, radial.max(), nssda,
            share, middle - half, middle + half, np.sqrt(values[1]), np.sqrt(values[0])]


for _ in range(times):
    begin = time.perf_counter()
    result = figures()
    print("ms", repr((time.perf_counter() - begin) * 1000))
print("figures", *[repr(float(value)) for value in result])
