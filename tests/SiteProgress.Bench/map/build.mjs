// Bundles the three contenders into the folder named on the command line.
import { build } from 'esbuild';
import { copyFileSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url)), target = process.argv[2];
mkdirSync(target, { recursive: true });
await build({
  entryPoints: ['ours.js', 'circle-markers.js', 'glify.js'].map(name => join(here, name)),
  outdir: target, bundle: true, minify: true, format: 'esm', target: 'es2022', logLevel: 'warning',
  // One copy of Leaflet in each bundle, whichever folder asks for it.
  alias: { leaflet: join(here, 'node_modules', 'leaflet') },
});
copyFileSync(join(here, 'page.html'), join(target, 'page.html'));
copyFileSync(join(here, 'node_modules', 'leaflet', 'dist', 'leaflet.css'), join(target, 'leaflet.css'));
