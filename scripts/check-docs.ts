/** Checks what the type checker cannot: links between documents, names of machines, and the way into each folder. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

const repository = fileURLToPath(new URL('..', import.meta.url));

/** Folders that exist on one machine only. */
const machinePath = /(?<![\w.~/-])\/(?:work|root|home|Users|tmp)\/[\w.-]/;
const lockedHost = /"resolved": "[a-z+]+:\/\//;
const binary = /\.(?:png|jpe?g|webp|ico|pdf|woff2?|ttf|otf|wav|gz|zip)$/;
const layerFile = /^packages\/core\/src\/([^/]+)\/[^/]+\.ts$/;

/** Every complaint about the files below a folder; paths are relative to it, with forward slashes. */
export function complaints(folder: string, files: readonly string[]): string[] {
  const texts = new Map(
    files
      .filter((file) => !binary.test(file) && existsSync(join(folder, file)))
      .map((file) => [file, readFileSync(join(folder, file), 'utf8')]),
  );
  return [
    ...[...texts].flatMap(([file, text]) => (file.endsWith('.md') ? brokenLinks(folder, file, text) : [])),
    ...[...texts].flatMap(([file, text]) => namedMachines(file, text)),
    ...missingWaysIn(files),
  ];
}

function brokenLinks(folder: string, file: string, text: string): string[] {
  const targets = [...withoutCode(text).matchAll(/\]\(<?([^)\s>]+)>?(?:\s+"[^"]*")?\)/g)];
  return targets.flatMap(([, target = '']) => {
    if (/^[a-z+]+:/.test(target)) return [];
    const [path = '', anchor] = decodeURI(target).split('#');
    const linked = path === '' ? file : posix.join(dirname(file), path);
    const onDisk = join(folder, linked);
    if (linked.startsWith('..') || !existsSync(onDisk)) return [`${file}: link to ${target} leads nowhere`];
    if (anchor === undefined || !linked.endsWith('.md') || statSync(onDisk).isDirectory()) return [];
    const known = headingAnchors(readFileSync(onDisk, 'utf8')).includes(anchor);
    return known ? [] : [`${file}: no heading for ${target}`];
  });
}

function withoutCode(markdown: string): string {
  return markdown.replace(/^(```|~~~)[\s\S]*?^\1/gm, '').replace(/`[^`\n]*`/g, '');
}

/** The anchors that a heading gets when a document is shown: lower case, no punctuation, hyphens for blanks. */
function headingAnchors(markdown: string): string[] {
  const titles = [...markdown.replace(/^```[\s\S]*?^```/gm, '').matchAll(/^#{1,6}\s+(.+)$/gm)];
  return titles.map(([, title = '']) =>
    title
      .trim()
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .replace(/\s/g, '-'),
  );
}

function namedMachines(file: string, text: string): string[] {
  return text.split('\n').flatMap((line, index) => {
    const place = `${file}:${index + 1}`;
    if (file.endsWith('package-lock.json')) {
      return lockedHost.test(line) ? [`${place}: the lock file names a host; npm install again`] : [];
    }
    return machinePath.test(line) ? [`${place}: names a folder of one machine`] : [];
  });
}

/** Each layer of the core is entered by its README.md and its index.ts. */
function missingWaysIn(files: readonly string[]): string[] {
  const layers = new Set(
    files.map((file) => layerFile.exec(file)?.[1]).filter((layer) => layer !== undefined),
  );
  const present = new Set(files);
  return [...layers]
    .flatMap((layer) => ['README.md', 'index.ts'].map((name) => `packages/core/src/${layer}/${name}`))
    .filter((file) => !present.has(file))
    .map((file) => `${file} is missing`);
}

/** The commands that the README promises are the ones that are run. */
function brokenPromises(): string[] {
  const readme = readFileSync(join(repository, 'README.md'), 'utf8');
  const ci = readFileSync(join(repository, '.ci/run'), 'utf8');
  const command = /^exec (.+)$/m.exec(ci)?.[1];
  const promised =
    command !== undefined && readme.split('\n').some((line) => line.split('#')[0]?.trim() === command);
  return promised ? [] : ['README.md: does not show the test command of .ci/run'];
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const listed = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
    cwd: repository,
    encoding: 'utf8',
  });
  const files = listed.split('\0').filter((file) => file !== '');
  const found = [...complaints(repository, files), ...brokenPromises()];
  for (const complaint of found) console.error(complaint);
  console.log(`${files.length} files, ${found.length} complaints`);
  process.exit(found.length === 0 && files.length > 0 ? 0 : 1);
}
