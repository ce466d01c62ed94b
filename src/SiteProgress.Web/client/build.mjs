// Bundles the browser's part of the pages into wwwroot/dist, after fetching its packages when the lock file asks for others than are there.
// `dotnet build` calls this; several builds of one checkout may do so at once, so one works at a time and finished files are renamed into place.
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, renameSync, rmdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { markSheet } from './map/marks.js';

const here = dirname(fileURLToPath(import.meta.url));
const lock = join(here, '.building');
const staleAfter = 5 * 60_000; // milliseconds; a build that was killed leaves its lock behind

await takeLock();
try {
  restorePackages();
  await bundle();
} finally {
  rmdirSync(lock);
}

async function takeLock() {
  for (;;) {
    try { mkdirSync(lock); return; } catch (error) { if (error.code !== 'EEXIST') throw error; }
    if (Date.now() - (timeOf(lock) ?? Date.now()) > staleAfter) rmSync(lock, { recursive: true, force: true });
    await new Promise(resolve => setTimeout(resolve, 100));
  }
}

function timeOf(path) {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs;
}

function restorePackages() {
  const restored = join(here, 'node_modules', '.package-lock.json');
  if ((timeOf(restored) ?? 0) >= timeOf(join(here, 'package-lock.json'))) return;
  execFileSync('npm', ['ci', '--ignore-scripts', '--no-fund', '--no-audit', '--loglevel=error'], { cwd: here, stdio: 'inherit', shell: process.platform === 'win32' });
  utimesSync(restored, new Date(), new Date());
}

async function bundle() {
  const { build } = await import('esbuild');
  const work = join(here, 'node_modules', '.dist'), dist = join(here, '..', 'wwwroot', 'dist');
  rmSync(work, { recursive: true, force: true });
  await build({
    entryPoints: { map: join(here, 'map', 'index.js'), chart: join(here, 'chart', 'index.js'), log: join(here, 'log', 'index.js') },
    outdir: work,
    bundle: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    legalComments: 'eof',
    loader: { '.png': 'file' },
    assetNames: '[name]',
    logLevel: 'warning',
  });
  writeFileSync(join(work, 'marks.svg'), markSheet());
  mkdirSync(dist, { recursive: true });
  const made = readdirSync(work);
  for (const name of made) renameSync(join(work, name), join(dist, name));
  for (const name of readdirSync(dist)) if (!made.includes(name)) rmSync(join(dist, name), { recursive: true });
}
