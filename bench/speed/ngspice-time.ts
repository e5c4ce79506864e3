/** How long ngspice takes: for many operating points of one circuit in one process, and for transients. Processor times. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  createSolution,
  netlist,
  solveOperatingPoint,
  spiceElement,
} from '../../packages/core/src/circuit/index.ts';
import type { Circuit, Resistor } from '../../packages/core/src/circuit/index.ts';
import { ended, endOfRun, inFolder } from '../../packages/core/test/oracle/ngspice.ts';

/** Milliseconds after which a run is given up. */
const NGSPICE_TIME_MAXIMUM = 20_000;

/** A resistor and its resistance at every point [Ω]. */
export interface Change {
  readonly resistor: Resistor;
  readonly values: Float64Array;
}

export interface NgspiceRun {
  /** [s] per point; NaN when it did not end within its time. */
  readonly time: number;
  /** Points on which plain Newton failed and slow methods were tried. */
  readonly rescued: number;
  readonly failed: number;
}

/** Time of one point in ngspice [s], start-up of the process spread over all points. */
export function ngspiceTime(
  circuit: Circuit,
  changes: readonly Change[],
  options: string,
  points: number,
): NgspiceRun {
  apply(changes, 0);
  const solution = solveOperatingPoint(circuit, createSolution(circuit));
  return inFolder((folder) => {
    const startVoltages = solution.voltages.map((voltage) => Number(voltage.toFixed(3)));
    writeFileSync(
      join(folder, 'circuit.cir'),
      [...netlist(circuit, { startVoltages }), options, '.end', ''].join('\n'),
    );
    const commands = ['* points', '.control', 'optran 1 0 0 0 0 0', `source ${join(folder, 'circuit.cir')}`];
    for (let point = 0; point < points; point++) {
      for (const { resistor, values } of changes) {
        const name = `r${spiceElement(circuit, circuit.elements.indexOf(resistor))}`;
        commands.push(`alter ${name} = ${values[point]}`);
      }
      commands.push('op', 'destroy all');
    }
    commands.push(...endOfRun);
    const main = join(folder, 'main.cir');
    writeFileSync(main, commands.join('\n'));
    const { output, seconds } = timed(main);
    // Too slow or stopped early: no time to compare with.
    if (Number.isNaN(seconds)) return { time: Number.NaN, rescued: points, failed: points };
    const time = seconds / points;
    const occurrences = (text: string): number => output.split(text).length - 1;
    return {
      time,
      rescued: occurrences('Starting dynamic gmin'),
      failed: occurrences('simulation(s) aborted'),
    };
  });
}

/** Sets all changed resistances to those of a point. */
export function apply(changes: readonly Change[], point: number): void {
  for (let index = 0; index < changes.length; index++) {
    const change = changes[index]!;
    change.resistor.resistance = change.values[point]!;
  }
}

/** Time of a transient from its initial conditions [s], `repeats` of them in one process, nothing printed. Steps and tolerances are
 *  ngspice's own: no step is held below the whole. */
export function ngspiceTransientTime(lines: readonly string[], stop: number, repeats: number): number {
  return inFolder((folder) => {
    const main = join(folder, 'main.cir');
    const once = [`tran ${stop / 50} ${stop} 0 ${stop}`, 'destroy all'];
    writeFileSync(
      main,
      [
        ...lines,
        '.options method=gear',
        '.control',
        ...Array.from({ length: repeats }, () => once).flat(),
        ...endOfRun,
      ].join('\n'),
    );
    return timed(main).seconds / repeats;
  });
}

/** Output of a run of ngspice and its processor time [s]; NaN when it did not end, or not within its time. */
function timed(main: string): { readonly output: string; readonly seconds: number } {
  const run = spawnSync('bash', ['-c', 'TIMEFORMAT="PROCESSOR %U %S"; time ngspice -b "$0"', main], {
    encoding: 'utf8',
    maxBuffer: 1 << 30,
    timeout: NGSPICE_TIME_MAXIMUM,
  });
  const output = `${run.stdout}${run.stderr}`;
  const total = /PROCESSOR ([\d.]+) ([\d.]+)/.exec(output);
  const isWhole = run.error === undefined && total !== null && ended(output);
  return { output, seconds: isWhole ? Number(total[1]) + Number(total[2]) : Number.NaN };
}
