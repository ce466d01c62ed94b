// From latitude and longitude to the square the map is drawn in, and from grid metres to that square.
// The square is Leaflet's EPSG:3857 scaled to 0..1: x grows to the east, y to the south; a pixel is x * 256 * 2^zoom.

const radians = Math.PI / 180;
// WGS 84 ellipsoid (EPSG:7030).
const semiMajor = 6378137, flattening = 1 / 298.257223563;
const eccentricitySquared = flattening * (2 - flattening);

/** Places on the unit square: `x` and `y` as Float64Array, from columns in degrees. */
export function toUnitSquare(latitude, longitude) {
  const count = latitude.length, x = new Float64Array(count), y = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    x[i] = (longitude[i] + 180) / 360;
    const sine = Math.sin(latitude[i] * radians);
    y[i] = 0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI);
  }
  return { x, y };
}

/** Latitude and longitude in degrees of a place on the unit square. */
export function fromUnitSquare(x, y) {
  return { latitude: Math.atan(Math.sinh(Math.PI * (1 - 2 * y))) / radians, longitude: x * 360 - 180 };
}

/**
 * How grid metres near one latitude lie on the unit square.
 * @param {number} latitude degrees
 * @param {number} convergence degrees; true bearing of CRS grid north, positive where it lies east of true north
 * @param {number} pointScale grid metres for one metre on the ellipsoid
 * @returns `perMetre`: unit-square length of one grid metre (mean of both directions, they differ by at most 0.7 %);
 *   `shift(east, north)`: the step on the square for an offset in grid metres
 */
export function gridMetres(latitude, convergence = 0, pointScale = 1) {
  const sine = Math.sin(latitude * radians), cosine = Math.cos(latitude * radians);
  const w = 1 - eccentricitySquared * sine * sine;
  const primeVertical = semiMajor / Math.sqrt(w);
  const meridian = semiMajor * (1 - eccentricitySquared) / (w * Math.sqrt(w));
  const perEast = 1 / (2 * Math.PI * primeVertical * cosine * pointScale);
  const perNorth = 1 / (2 * Math.PI * meridian * cosine * pointScale);
  const c = Math.cos(convergence * radians), s = Math.sin(convergence * radians);
  return {
    perMetre: Math.sqrt(perEast * perNorth),
    shift: (east, north) => [(east * c + north * s) * perEast, (east * s - north * c) * perNorth],
  };
}
