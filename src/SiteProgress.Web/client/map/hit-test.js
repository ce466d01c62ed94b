// Which pile lies under the pointer, and which piles lie in view.

import KDBush from 'kdbush';

/** Index over places on the unit square; built when first asked, so that it does not delay the first picture. */
export class PlaceIndex {
  constructor(places) { this.places = places; }

  #tree() {
    if (this.tree) return this.tree;
    const { x, y } = this.places;
    const tree = new KDBush(x.length, 64, Float64Array);
    for (let i = 0; i < x.length; i++) tree.add(x[i], y[i]);
    return this.tree = tree.finish();
  }

  /** Nearest pile within `reach` (unit square) that `wanted(index)` accepts, or -1. */
  nearest(x, y, reach, wanted) {
    if (this.places.x.length === 0) return -1;
    let best = -1, bestSquared = Infinity;
    for (const i of this.#tree().within(x, y, reach)) {
      const squared = (this.places.x[i] - x) ** 2 + (this.places.y[i] - y) ** 2;
      if (squared < bestSquared && wanted(i)) { best = i; bestSquared = squared; }
    }
    return best;
  }

  /** All piles inside a rectangle of the unit square. */
  inside(minX, minY, maxX, maxY) {
    return this.places.x.length === 0 ? [] : this.#tree().range(minX, minY, maxX, maxY);
  }
}
