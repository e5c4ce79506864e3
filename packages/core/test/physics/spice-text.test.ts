import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { alternatorCurrent, alternatorCurrentSpice } from '../../src/physics/alternator.ts';
import { diodeCurrent, diodeCurrentSpice, FET_ISOLATOR, ISOLATOR_DIODE } from '../../src/physics/diode.ts';
import { lampCurrent, lampCurrentSpice, lampOf } from '../../src/physics/excitation.ts';
import { fieldCurrent, fieldCurrentSpice } from '../../src/physics/field.ts';
import { regulatorDuty, regulatorDutySpice } from '../../src/physics/regulator.ts';
import { fitted, machineRivas } from './machines.ts';

const machine = fitted({ nominalVoltage: 12, ratedCurrent: 110 });
const out = { current: 0, dByVoltage: 0, dByFieldCurrent: 0, dByDuty: 0, duty: 0, dBySensed: 0 };

/** Each law as a function of two numbers, and as text in v(a) and v(b). */
const laws = {
  saturating: {
    value: (a: number, b: number) => (alternatorCurrent(machine, 250, b, a, 370, 0.8, out), out.current),
    text: alternatorCurrentSpice(machine, 250, 370, 0.8, { voltage: 'v(a)', fieldCurrent: 'v(b)' }),
  },
  straight: {
    value: (a: number, b: number) => (alternatorCurrent(machineRivas, 400, b, a, 300, 1, out), out.current),
    text: alternatorCurrentSpice(machineRivas, 400, 300, 1, { voltage: 'v(a)', fieldCurrent: 'v(b)' }),
  },
  duty: {
    value: (a: number) => (regulatorDuty(10, 14.3, a, 0.9, out), out.duty),
    text: regulatorDutySpice(10, 14.3, 0.9, 'v(a)'),
  },
  field: {
    value: (a: number, b: number) => (fieldCurrent(machine, b / 8, a, 350, 0.1, out), out.current),
    text: fieldCurrentSpice(machine, 350, 0.1, { duty: '(v(b)/8)', voltage: 'v(a)' }),
  },
  junction: {
    value: (a: number) => (diodeCurrent(ISOLATOR_DIODE, a / 12, out), out.current),
    text: diodeCurrentSpice(ISOLATOR_DIODE, 'v(a)/12'),
  },
  fet: {
    value: (a: number) => (diodeCurrent(FET_ISOLATOR, (a - 13) / 10, out), out.current),
    text: diodeCurrentSpice(FET_ISOLATOR, '(v(a)-13)/10'),
  },
  lamp: {
    value: (a: number) => (lampCurrent(lampOf(2, 12), a, out), out.current),
    text: lampCurrentSpice(lampOf(2, 12), 'v(a)'),
  },
} as const satisfies Record<string, { value: (a: number, b: number) => number; text: string }>;

/** ngspice arithmetic read as JavaScript. */
function evaluator(text: string): (a: number, b: number) => number {
  const script = text
    .replaceAll('v(a)', 'a')
    .replaceAll('v(b)', 'b')
    .replace(/\b(sqrt|exp|pow|min|max)\(/g, 'Math.$1(')
    .replace(/\bln\(/g, 'Math.log(');
  // eslint-disable-next-line @typescript-eslint/no-implied-eval -- our own text, read by a second reader
  return new Function('a', 'b', `return ${script}`) as (a: number, b: number) => number;
}

it.each(Object.entries(laws))('[law] the ngspice text of %s is the law', (_, { value, text }) => {
  const evaluate = evaluator(text);
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 20, noNaN: true }),
      fc.double({ min: 0, max: 6, noNaN: true }),
      (a, b) => {
        const expected = value(a, b);
        // 1e-9: two orders of rounding; ln(1 + x) in the text loses tails below 1e-16 of a width.
        expect(Math.abs(evaluate(a, b) - expected)).toBeLessThan(1e-9 * (1 + Math.abs(expected)));
      },
    ),
    { seed: 61, numRuns: 100 },
  );
});

const ngspice = findNgspice();

it.skipIf(!ngspice)('[rival] ngspice reads the texts and agrees', () => {
  const names = Object.keys(laws) as (keyof typeof laws)[];
  for (const [a, b] of [
    [13.8, 3.2],
    [12.1, 0.4],
    [14.27, 5],
  ] as const) {
    const sources = names.map((name, k) => `B${k} 0 n${k} I=${laws[name].text}\nR${k} n${k} 0 1`);
    const prints = names.map((_, k) => `print v(n${k})`);
    const deck = [
      'laws',
      `Va a 0 ${a}`,
      `Vb b 0 ${b}`,
      ...sources,
      '.control',
      'set numdgt=12',
      'op',
      ...prints,
      'quit 0',
      '.endc',
      '.end',
    ];
    const printed = execFileSync('ngspice', ['-b', '-n'], {
      input: `${deck.join('\n')}\n`,
      encoding: 'utf8',
    });
    names.forEach((name, k) => {
      const match = new RegExp(`v\\(n${k}\\) = (\\S+)`).exec(printed);
      const expected = laws[name].value(a, b);
      // 1e-6: ngspice adds gmin = 1e-12 S and stops its iteration at 1e-6 of the voltage.
      expect(Math.abs(Number(match?.[1]) - expected)).toBeLessThan(2e-6 * (1 + Math.abs(expected)));
    });
  }
});

function findNgspice(): boolean {
  try {
    execFileSync('ngspice', ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
