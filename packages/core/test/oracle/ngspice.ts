/** ngspice as an independent judge: many operating points in one process.
 *  ngspice is a free circuit simulator, packaged by Debian as `ngspice`. When it is missing the tests fail and say
 *  so: a comparison that was not made must not look like one that passed.
 *  Options: reltol 1e-9, abstol 1e-15 A, vntol 1e-12 V, gmin 1e-15 S (the defaults err by 0.25 mV on these circuits). */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spiceElement, spiceNode } from '../../src/circuit/index.ts';
import type { Circuit } from '../../src/circuit/index.ts';

export const NGSPICE_OPTIONS = '.options reltol=1e-9 abstol=1e-15 vntol=1e-12 gmin=1e-15 itl1=200';

/** Written by a run that went through to its end. */
const END = 'END-OF-POINTS';
export const ended = (output: string): boolean => output.includes(END);
/** What closes the commands of a run. */
export const endOfRun: readonly string[] = [`echo ${END}`, 'quit 0', '.endc', '.end', ''];

/** A folder for the files of a run, gone when it is over. */
export function inFolder<T>(use: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'ngspice-'));
  try {
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export interface NgspiceCircuit {
  /** Netlist lines without analysis and `.end`. */
  readonly lines: readonly string[];
  /** Vectors to print besides all node voltages, such as `@b1[i]`. */
  readonly vectors?: readonly string[];
  /** Points: each a list of `alter` commands before `op`. Default: one point without changes. */
  readonly points?: readonly (readonly string[])[];
}

/** Values by lower-case vector name; empty when ngspice did not find an operating point. */
export type NgspicePoint = ReadonlyMap<string, number>;

/** The operating points of all circuits, in order, from one ngspice process.
 *  Throws when ngspice is missing, ends early, or prints another number of points than asked for. */
export function ngspicePoints(circuits: readonly NgspiceCircuit[], print = true): NgspicePoint[][] {
  return inFolder((folder) => {
    const commands = [
      '* operating points',
      '.control',
      'set numdgt=15',
      'set nomoremode',
      'set width=500',
      'optran 1 1 1 0 0 0',
    ];
    circuits.forEach(({ lines, vectors = [], points = [[]] }, index) => {
      const file = join(folder, `circuit-${index}.cir`);
      writeFileSync(file, [...lines, NGSPICE_OPTIONS, '.end', ''].join('\n'));
      commands.push(`source ${file}`);
      points.forEach((alterations, point) => {
        commands.push(...alterations, 'op', `echo POINT ${index} ${point}`);
        if (print) commands.push(`print all ${vectors.join(' ')}`);
      });
      commands.push('destroy all', 'remcirc');
    });
    commands.push(...endOfRun);
    const main = join(folder, 'main.cir');
    writeFileSync(main, commands.join('\n'));
    return parsePoints(runNgspice(main), circuits);
  });
}

/** A transient of one circuit from its initial conditions (`.ic` lines): rows of time and the wanted vectors, at most
 *  `step` seconds apart.   Throws when ngspice is missing or ends early. */
export function ngspiceTransient(
  lines: readonly string[],
  {
    stop,
    step,
    vectors,
  }: { readonly stop: number; readonly step: number; readonly vectors: readonly string[] },
): number[][] {
  return inFolder((folder) => {
    const table = join(folder, 'table.txt');
    const main = join(folder, 'main.cir');
    writeFileSync(
      main,
      [
        ...lines,
        // Steps of a tenth of what is printed, so that the rows are not read between coarse points.
        '.options reltol=1e-6 abstol=1e-9 vntol=1e-9 gmin=1e-15 method=gear',
        '.control',
        'set numdgt=15',
        'set wr_singlescale',
        `tran ${step} ${stop} 0 ${step / 10}`,
        `wrdata ${table} ${vectors.join(' ')}`,
        ...endOfRun,
      ].join('\n'),
    );
    runNgspice(main);
    return readFileSync(table, 'utf8')
      .trim()
      .split('\n')
      .map((line) => line.trim().split(/\s+/).map(Number));
  });
}

function runNgspice(file: string): string {
  const run = spawnSync('ngspice', ['-b', file], { encoding: 'utf8', maxBuffer: 1 << 30 });
  if (run.error !== undefined) {
    throw new Error(
      `ngspice could not be started (${run.error.message}); install the Debian package "ngspice"`,
    );
  }
  if (!ended(run.stdout)) {
    throw new Error(
      `ngspice ended early (status ${run.status}): ${run.stderr.slice(-2000)} ${run.stdout.slice(-2000)}`,
    );
  }
  return run.stdout;
}

function parsePoints(output: string, circuits: readonly NgspiceCircuit[]): NgspicePoint[][] {
  const found = circuits.map(({ points = [[]] }) => points.map(() => new Map<string, number>()));
  let current: Map<string, number> | undefined;
  let count = 0;
  for (const line of output.split('\n')) {
    const header = /^POINT (\d+) (\d+)/.exec(line);
    if (header !== null) {
      current = found[Number(header[1])]?.[Number(header[2])];
      count++;
      continue;
    }
    const value = /^(\S+) = (\S+)$/.exec(line.trim());
    if (value?.[1] !== undefined) current?.set(value[1].toLowerCase(), Number(value[2]));
  }
  const wanted = found.reduce((sum, points) => sum + points.length, 0);
  if (count !== wanted) throw new Error(`ngspice printed ${count} points, ${wanted} were asked for`);
  return found;
}

/** Names of the vectors that hold the current into the terminals of each element, in order of the terminals;
 *  two-terminal elements give the first only, the second carries the opposite. */
export function currentVectors(circuit: Circuit): string[][] {
  return circuit.elements.map((element, index) => {
    const names = { node: (node: number) => spiceNode(circuit, node), element: spiceElement(circuit, index) };
    const wanted = element.terminals.length === 2 ? 1 : element.terminals.length;
    // The lines of the terminals come first, those of inner nodes after them.
    return element
      .spiceLines(names)
      .slice(0, wanted)
      .map((line) => {
        const device = (line.split(' ')[0] ?? '').toLowerCase();
        return device.startsWith('v') ? `${device}#branch` : `@${device}[i]`;
      });
  });
}
