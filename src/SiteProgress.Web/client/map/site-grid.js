// Site grid under the pointer. The site grid is a turned and scaled projected CRS; over one site its coordinates are a very smooth function of
// latitude and longitude, so the server fits a polynomial in both and states the largest error it found. The page only evaluates it.

const edge = 1 + 1e-9; // the border itself belongs to the area, whatever rounding says

/**
 * @param {object} fit the preamble's `siteGrid`: centre, spans, terms, bounds and largest error; README.md describes it
 * @returns `toSite(latitude, longitude)` in metres or null outside the fitted area, `toGeographic(first, second)` by Newton's method
 */
export function siteGridFrom(fit) {
  if (!fit) return null;
  const evaluate = (terms, u, v) => {
    let sum = 0, at = 0;
    for (let degree = 0; at < terms.length; degree++)
      for (let power = 0; power <= degree; power++) sum += terms[at++] * u ** (degree - power) * v ** power;
    return sum;
  };
  const slope = (terms, u, v) => {
    const step = 1e-4;
    return [
      (evaluate(terms, u + step, v) - evaluate(terms, u - step, v)) / (2 * step),
      (evaluate(terms, u, v + step) - evaluate(terms, u, v - step)) / (2 * step),
    ];
  };
  const anywhere = (latitude, longitude) => {
    const u = (longitude - fit.centreLongitude) / fit.spanLongitude, v = (latitude - fit.centreLatitude) / fit.spanLatitude;
    return [evaluate(fit.first, u, v), evaluate(fit.second, u, v)];
  };
  return {
    axes: fit.axes,
    largestErrorMetres: fit.largestErrorMetres,
    anywhere,
    toSite(latitude, longitude) {
      const inside = Math.abs(longitude - fit.centreLongitude) <= fit.spanLongitude * edge
        && Math.abs(latitude - fit.centreLatitude) <= fit.spanLatitude * edge;
      return inside ? anywhere(latitude, longitude) : null;
    },
    toGeographic(first, second) {
      let u = 0, v = 0;
      for (let round = 0; round < 6; round++) {
        const a = first - evaluate(fit.first, u, v), b = second - evaluate(fit.second, u, v);
        const [fu, fv] = slope(fit.first, u, v), [su, sv] = slope(fit.second, u, v);
        const determinant = fu * sv - fv * su;
        u += (a * sv - b * fv) / determinant;
        v += (b * fu - a * su) / determinant;
        if (Math.hypot(a, b) < 1e-7) break;
      }
      return { latitude: fit.centreLatitude + v * fit.spanLatitude, longitude: fit.centreLongitude + u * fit.spanLongitude };
    },
  };
}
