// Reads the reports of all test projects and prints failures, the ten slowest tests and the closing count.
//   node scripts/sum-up-tests.mjs FOLDER [PROJECT_THAT_BROKE_OFF...]
// FOLDER holds one NAME.ctrf.json for each project (Common Test Report Format). A project that broke off counts as one
// failure, as its remaining tests are unknown. Ends with status 0 only when something passed and nothing failed.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const [folder, ...brokenOff] = process.argv.slice(2);

function readTests(file) {
  const project = file.replace(/\.ctrf\.json$/, '');
  const report = JSON.parse(readFileSync(join(folder, file), 'utf8'));
  return report.results.tests.map(test => ({ ...test, project }));
}

const tests = readdirSync(folder).filter(name => name.endsWith('.ctrf.json')).sort().flatMap(readTests);
const failures = tests.filter(test => test.status === 'failed');
const passed = tests.filter(test => test.status === 'passed').length;
const failed = failures.length + brokenOff.length;
const skipped = tests.length - passed - failures.length;

const slowest = [...tests].sort((a, b) => (b.duration ?? 0) - (a.duration ?? 0)).slice(0, 10);
if (slowest.length > 0) {
  console.log('\nThe slowest tests:');
  for (const test of slowest) {
    console.log(`  ${((test.duration ?? 0) / 1000).toFixed(2).padStart(7)} s  ${test.project}: ${test.name}`);
  }
}
if (failed > 0) {
  console.log('\nFailed:');
  for (const test of failures) {
    console.log(`  ${test.project}: ${test.name}`);
    const message = (test.message ?? '').trim();
    if (message) console.log(message.split('\n').slice(0, 12).map(line => `      ${line}`).join('\n'));
  }
  for (const project of brokenOff) console.log(`  ${project}: broke off before it could report`);
}
if (tests.length === 0) console.log('\nNo test ran.');
console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
