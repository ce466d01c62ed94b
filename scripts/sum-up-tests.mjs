// Reads the reports of all test projects and prints failures, the ten slowest tests and the closing count.
//   node scripts/sum-up-tests.mjs FOLDER PROJECT=EXIT_STATUS...
// FOLDER holds one PROJECT.ctrf.json for each (Common Test Report Format). A project whose exit status its report does not
// explain counts as one failure. Ends with status 0 only when something passed and nothing failed.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

// Exit statuses of Microsoft.Testing.Platform.
const allPassed = 0, someFailed = 2, noneChosen = 8;

const [folder, ...outcomes] = process.argv.slice(2);
const projects = outcomes.map(outcome => {
  const [name, status] = outcome.split('=');
  return { name, status: Number(status), tests: readTests(name) };
});

function readTests(project) {
  const file = join(folder, `${project}.ctrf.json`);
  if (!existsSync(file)) return null;
  try {
    // The report writer leaves control characters of test names as they are, which JSON does not allow.
    const text = readFileSync(file, 'utf8').replace(/[\u0000-\u001f]/g, ' ');
    return JSON.parse(text).results.tests.map(test => ({ ...test, project }));
  } catch {
    return null;
  }
}

// The names of cases carry their arguments, which may be whole records.
function short(name) {
  return name.length <= 200 ? name : `${name.slice(0, 197)}...`;
}

function unexplained({ status, tests }) {
  if (status === noneChosen) return null;
  if (status !== allPassed && status !== someFailed) return `broke off with status ${status}`;
  if (tests === null) return 'ended without a report';
  const failures = tests.some(test => test.status === 'failed');
  if (status === someFailed && !failures) return 'failed outside its tests, in a fixture or when cleaning up';
  return null;
}

const tests = projects.flatMap(project => project.tests ?? []);
const failures = tests.filter(test => test.status === 'failed');
const breaks = projects.map(project => ({ name: project.name, reason: unexplained(project) })).filter(entry => entry.reason);
const passed = tests.filter(test => test.status === 'passed').length;
const failed = failures.length + breaks.length;
const skipped = tests.length - passed - failures.length;

const slowest = [...tests].sort((a, b) => (b.duration ?? 0) - (a.duration ?? 0)).slice(0, 10);
if (slowest.length > 0) console.log('\nThe slowest tests:');
for (const test of slowest) {
  console.log(`  ${((test.duration ?? 0) / 1000).toFixed(2).padStart(7)} s  ${short(test.name)}`);
}

if (failed > 0) console.log('\nFailed:');
for (const test of failures) {
  console.log(`  ${short(test.name)}`);
  const message = (test.message ?? '').trim();
  if (message) console.log(message.split('\n').slice(0, 12).map(line => `      ${line}`).join('\n'));
}
for (const { name, reason } of breaks) console.log(`  ${name} ${reason}; see ${join(folder, name)}.log`);
if (tests.length === 0) console.log('\nNo test ran.');
console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
