/** What a fresh machine lacks: Node's packages and Debian's. Uses nothing but Node itself, since it runs before any install. */
import { spawnSync } from 'node:child_process';
import { accessSync, constants, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

export const repository = fileURLToPath(new URL('..', import.meta.url));

const oldestNode = [20, 19];

/** Debian package, and the command that shows that it is there. */
const debianTools = [
  { name: 'chromium', command: 'chromium', needs: 'browser tests', override: 'CHROMIUM' },
  { name: 'ngspice', command: 'ngspice', needs: 'circuit checks against an outside solver' },
  { name: 'poppler-utils', command: 'pdftotext', needs: 'reading reports back' },
];

/** Throws a plain message when this Node is too old to run the project. */
export function assertNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major > oldestNode[0] || (major === oldestNode[0] && minor >= oldestNode[1])) return;
  throw new Error(`Node ${oldestNode.join('.')} or newer is needed; this is ${process.versions.node}.`);
}

/** Installs the packages of package-lock.json when they are missing or others are there. */
export function installModules() {
  if (modulesMatchLock()) return;
  console.log('Installing packages (npm ci) ...');
  const { status } = spawnSync('npm', ['ci', '--include=dev', '--no-audit', '--no-fund'], {
    cwd: repository,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (status !== 0) throw new Error('npm ci failed; see above. It needs the network once.');
}

/** Installs missing Debian packages as root; elsewhere throws the command to run. */
export function installDebianTools() {
  const missing = debianTools.filter(({ command, override }) => {
    const chosen = override === undefined ? undefined : process.env[override];
    if (chosen !== undefined && !isExecutable(chosen))
      throw new Error(`${override}=${chosen} is no program.`);
    return chosen === undefined && !isExecutable(command);
  });
  if (missing.length === 0) return;

  const names = missing.map(({ name }) => name);
  const why = missing.map(({ name, needs }) => `  ${name}: ${needs}`).join('\n');
  const install = `apt-get install -y --no-install-recommends ${names.join(' ')}`;
  if (process.getuid?.() !== 0 || !isExecutable('apt-get')) {
    throw new Error(
      `Missing on this machine:\n${why}\nOn Debian or Ubuntu run this, then try again:\n` +
        `  sudo apt-get update && sudo ${install}\nElsewhere install the same programs by your own means.`,
    );
  }
  console.log(`Installing from Debian: ${names.join(', ')} ...`);
  apt('update', '-qq');
  apt('install', '-y', '-qq', '--no-install-recommends', ...names);
}

/** True when node_modules holds exactly what package-lock.json asks for on this machine. */
function modulesMatchLock() {
  const wanted = lockedPackages(join(repository, 'package-lock.json'));
  const present = lockedPackages(join(repository, 'node_modules', '.package-lock.json'));
  if (wanted === undefined || present === undefined) return false;
  return Object.entries(wanted).every(([path, entry]) => {
    if (!path.includes('node_modules/')) return true;
    const installed = present[path];
    if (installed === undefined) return entry.optional === true || entry.peer === true;
    return installed.version === entry.version && installed.integrity === entry.integrity;
  });
}

function lockedPackages(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8')).packages;
  } catch {
    return undefined;
  }
}

function apt(...options) {
  const { status } = spawnSync('apt-get', ['-o', 'DPkg::Lock::Timeout=120', ...options], {
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (status !== 0) throw new Error(`apt-get ${options.join(' ')} failed; see above.`);
}

function isExecutable(command) {
  const candidates = command.includes('/')
    ? [command]
    : (process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, command));
  return candidates.some((path) => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    assertNode();
    installModules();
  } catch (error) {
    console.error(error.message);
    process.exit(1);
  }
}
