import { create } from '/dist/map.js';

const query = new URL(location.href).searchParams;
const handle = create(document.getElementById('map'), {
  dataUrl: `/piles.bin?count=${query.get('count') ?? 6000}`,
  drawingUrl: '/drawing.json',
  pileAddress: '/piles/',
  panel: query.get('panel') !== 'none',
});
await handle.ready;
