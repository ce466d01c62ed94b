import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { fixed, geographic } from '../format.js';
import { gridMetres, fromUnitSquare, toUnitSquare } from '../mercator.js';
import { siteGridFrom } from '../site-grid.js';

// UTM coordinates computed by PROJ; see the head of the file and make-utm-points.sh.
const points = readFileSync(new URL('utm-points.csv', import.meta.url), 'utf8').split('\n')
  .filter(line => /^\d+km,/.test(line)).map(line => line.split(',')).map(([site, ...numbers]) => [site, ...numbers.map(Number)]);

// An invented site grid, turned 31 degrees against the CRS, 40 parts per million larger.
const turn = 31 * Math.PI / 180, factor = 1.00004;
const toSite = (easting, northing) => {
  const e = easting - 524000, n = northing - 4818500;
  return [5000 + factor * (e * Math.cos(turn) - n * Math.sin(turn)), 2000 + factor * (e * Math.sin(turn) + n * Math.cos(turn))];
};

/** Least squares by normal equations, as the server makes the fit, on every second point of the grid. */
function fitTo(site, degree) {
  const own = points.filter(([name]) => name === site), [, a, b] = own[0], [, c, d] = own.at(-1);
  const fit = { axes: ['X', 'Y'], centreLatitude: (a + c) / 2, centreLongitude: (b + d) / 2, spanLatitude: (c - a) / 2, spanLongitude: (d - b) / 2 };
  const termsAt = (latitude, longitude) => {
    const u = (longitude - fit.centreLongitude) / fit.spanLongitude, v = (latitude - fit.centreLatitude) / fit.spanLatitude, terms = [];
    for (let k = 0; k <= degree; k++) for (let p = 0; p <= k; p++) terms.push(u ** (k - p) * v ** p);
    return terms;
  };
  const used = own.filter((_, i) => i % 2 === 0), rows = used.map(([, latitude, longitude]) => termsAt(latitude, longitude));
  for (const axis of [0, 1])
    fit[axis === 0 ? 'first' : 'second'] = solve(rows, used.map(([, , , easting, northing]) => toSite(easting, northing)[axis]));
  return { grid: siteGridFrom(fit), own };
}

function solve(rows, values) {
  const size = rows[0].length;
  const matrix = Array.from({ length: size }, (_, i) => [...Array.from({ length: size }, (_, j) => rows.reduce((sum, row) => sum + row[i] * row[j], 0)),
    rows.reduce((sum, row, k) => sum + row[i] * values[k], 0)]);
  for (let i = 0; i < size; i++) {
    const pivot = matrix.slice(i).reduce((best, row, k) => (Math.abs(row[i]) > Math.abs(matrix[best][i]) ? i + k : best), i);
    [matrix[i], matrix[pivot]] = [matrix[pivot], matrix[i]];
    for (let r = 0; r < size; r++) {
      if (r === i) continue;
      const share = matrix[r][i] / matrix[i][i];
      for (let k = i; k <= size; k++) matrix[r][k] -= share * matrix[i][k];
    }
  }
  return matrix.map((row, i) => row[size] / row[i]);
}

for (const [site, degree, limit] of [['3km', 2, 0.0001], ['20km', 3, 0.001]]) {
  test(`a ${site} site: degree ${degree} stays within ${limit * 1000} mm of PROJ, also between the fitted points`, () => {
    const { grid, own } = fitTo(site, degree);
    const worst = Math.max(...own.map(([, latitude, longitude, easting, northing]) => {
      const [x, y] = grid.toSite(latitude, longitude), [a, b] = toSite(easting, northing);
      return Math.hypot(x - a, y - b);
    }));
    assert.ok(worst < limit, `${worst} m`);
  });
}

test('from the site grid and back the place is the same', () => {
  const { grid, own } = fitTo('3km', 2);
  for (const [, latitude, longitude] of own) {
    const back = grid.toGeographic(...grid.toSite(latitude, longitude));
    assert.ok(Math.abs(back.latitude - latitude) < 1e-11 && Math.abs(back.longitude - longitude) < 1e-11);
  }
});

test('outside the fitted area there is no site coordinate', () => {
  const { grid } = fitTo('3km', 2);
  assert.equal(grid.toSite(43.6, 141.3), null);
  assert.equal(siteGridFrom(null), null);
});

test('an offset in grid metres lies where PROJ puts it', () => {
  // The middle point and the point 7 rows north of it in the 3 km grid: the step back, in grid metres, must return to the middle.
  const own = points.filter(([name]) => name === '3km'), middle = own[112], north = own[112 + 15], east = own[113];
  // Convergence of UTM 54N there from the grid itself: bearing of the meridian against grid north, negated.
  const [, latitude, longitude, e0, n0] = middle;
  const convergence = Math.atan2(-(north[3] - e0), north[4] - n0) * 180 / Math.PI;
  const pointScale = 0.9996 * (1 + ((e0 - 500000) / 6378137) ** 2 / 2); // USGS Professional Paper 1395, equation 8-11, first term
  const metres = gridMetres(latitude, convergence, pointScale);
  for (const target of [north, east]) {
    const [dx, dy] = metres.shift(target[3] - e0, target[4] - n0);
    const start = toUnitSquare([latitude], [longitude]), place = fromUnitSquare(start.x[0] + dx, start.y[0] + dy);
    const metresOff = Math.hypot((place.latitude - target[1]) * 111100, (place.longitude - target[2]) * 80600);
    assert.ok(metresOff < 0.05, `${metresOff} m at ${Math.hypot(target[3] - e0, target[4] - n0)} m`); // curvature of Mercator over 214 m
  }
});

test('numbers are written for people', () => {
  assert.equal(fixed(-1234.5678, 3), '\u22121\u2009234.568');
  assert.equal(fixed(-0.0001, 2), '0.00');
  assert.equal(fixed(NaN, 2), '\u2003\u2014');
  assert.equal(geographic(-43.5, 141.25), '43.50000000° S, 141.25000000° E');
});
