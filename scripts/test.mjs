/** Runs every check and test in order, after installing what they need, and closes with one line of counts. */
import { spawnSync } from 'node:child_process';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { assertNode, installDebianTools, installModules, repository } from './setup.mjs';

const help = `Usage: ./test [--quick]

Runs every check and test; installs npm and Debian packages first where they are missing.
  --quick  only what is worth running before each commit: format, lint, types, imports, unused code, documents
`;

/** In order. A step is skipped when the step it needs did not pass. */
const steps = [
  { name: 'Format', npm: 'format:check', quick: true },
  { name: 'Lint', npm: 'lint', quick: true },
  { name: 'Types', npm: 'typecheck', quick: true },
  { name: 'Import rules', npm: 'imports', quick: true },
  { name: 'Unused code', npm: 'unused', quick: true },
  { name: 'Documents', npm: 'docs', quick: true },
  { name: 'Unit tests', npm: 'test:unit' },
  { name: 'Build', npm: 'build' },
  { name: 'Weight of the page', npm: 'weight', needs: 'Build' },
  { name: 'Browser tests', npm: 'test:browser', needs: 'Build' },
];

const { values } = parseArgs({
  options: { quick: { type: 'boolean', default: false }, help: { type: 'boolean', short: 'h' } },
});
if (values.help) {
  console.log(help);
  process.exit(0);
}

const results = [];
record('Set-up', () => {
  assertNode();
  installModules();
});
// Without its packages nothing can run; without a Debian tool only the tests that use it fail.
if (results[0].outcome === 'passed') {
  if (!values.quick) record('Debian packages', installDebianTools);
  for (const step of steps.filter(({ quick }) => quick || !values.quick)) {
    const blocker = results.find(({ name, outcome }) => name === step.needs && outcome !== 'passed');
    if (blocker === undefined) record(step.name, () => runScript(step.npm));
    else results.push({ name: step.name, outcome: 'skipped', seconds: 0 });
  }
}
summarise();

function record(name, action) {
  console.log(`\n== ${name}`);
  const started = performance.now();
  let outcome = 'passed';
  try {
    action();
  } catch (error) {
    console.error(error.message);
    outcome = 'failed';
  }
  results.push({ name, outcome, seconds: (performance.now() - started) / 1000 });
}

function runScript(script) {
  const { status, signal } = spawnSync('npm', ['run', '--silent', script], {
    cwd: repository,
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, BUILT: '1' },
  });
  if (status !== 0) throw new Error(`npm run ${script} failed (${signal ?? `exit code ${status}`})`);
}

function summarise() {
  console.log('\n== Summary');
  for (const { name, outcome, seconds } of results) {
    console.log(`${outcome.padEnd(8)}${seconds.toFixed(1).padStart(7)} s  ${name}`);
  }
  const count = (wanted) => results.filter(({ outcome }) => outcome === wanted).length;
  const skipped = count('skipped');
  const tail = skipped > 0 ? `, ${skipped} skipped` : '';
  console.log(`\n${count('passed')} passed, ${count('failed')} failed${tail}`);
  process.exitCode = count('failed') > 0 ? 1 : 0;
}
