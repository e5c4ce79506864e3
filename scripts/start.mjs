/** Builds the page and serves it on loopback until it is interrupted. Does its own set-up. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { assertNode, installModules, repository } from './setup.mjs';

const help = `Usage: ./start [--port N] [--host ADDRESS]

Builds the page and serves it at http://127.0.0.1:4170/ (or the next free port).
  --port N        first port to try
  --host ADDRESS  listen elsewhere than on loopback; others on that network can then open the page
`;

try {
  const { port, host } = chosenOptions();
  assertNode();
  installModules();
  buildPage();
  await servePage(port, host);
} catch (error) {
  console.error(error.message);
  process.exit(1);
}

function chosenOptions() {
  const { values } = parseArgs({
    options: {
      port: { type: 'string', default: '4170' },
      host: { type: 'string', default: '127.0.0.1' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  if (values.help) {
    console.log(help);
    process.exit(0);
  }
  if (!/^\d{1,5}$/.test(values.port) || Number(values.port) > 65_535) {
    throw new Error(`--port is ${values.port}; expected a whole number from 0 to 65535`);
  }
  return { port: Number(values.port), host: values.host };
}

function buildPage() {
  console.log('Building the page ...');
  const { status, stdout, stderr } = spawnSync('npm', ['run', '--silent', 'build', '-w', 'packages/web'], {
    cwd: repository,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (status !== 0)
    throw new Error(`${stdout ?? ''}${stderr ?? ''}\nThe page could not be built; see above.`);
}

async function servePage(port, host) {
  const { tsImport } = await import('tsx/esm/api');
  const { serve } = await tsImport('@ampwright/server', import.meta.url);
  const server = await serve({ root: join(repository, 'packages/web/dist'), port, host });
  if (server.taken.length > 0) console.log(`Taken already: port ${server.taken.join(', ')}.`);
  console.log(`Ampwright is at ${server.url}  (Ctrl+C stops it)`);
  for (const signal of ['SIGINT', 'SIGTERM']) {
    process.once(signal, async () => {
      await server.close();
      process.exit(0);
    });
  }
}
