import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { largestJob, parseJob, type Problem } from '../src/index.ts';

const folder = new URL('./bad/', import.meta.url);

/** For each file of the folder, named `<kind>.<what>.json`: where the problem is, part of the value shown, and part
 *  of what is allowed. */
const expected: Readonly<Record<string, readonly [pointerOrPlace: string, value: string, allowed: string]>> =
  {
    'bad-date.words': ['/created', 'last Tuesday', '2026-05-17'],
    'bad-id.space': ['/boat/parts/6/id', 'my loads', 'letters, digits'],
    'cable-to-itself.same-terminal': ['/boat/parts/6/to', 'battery.+', 'another terminal'],
    'cable-to-nowhere.loose-end': ['/boat/parts/6/to', 'nothing', 'a terminal'],
    'cable-to-nowhere.no-such-part': ['/boat/parts/6/to', 'bow-thruster.+', 'a terminal'],
    'cable-to-nowhere.no-such-terminal': ['/boat/parts/6/from', 'alternator.B', 'alternator.B+'],
    'duplicate-id.part': ['/boat/parts/6/id', 'battery', 'part 3 of the list'],
    'duplicate-id.reading': ['/visits/0/readings/1/id', 'r1', 'no other has'],
    'duplicate-key.title': ['line 1, column 60', 'title', 'once'],
    'forbidden-key.proto': ['line 1, column 83', '__proto__', 'any other name'],
    'implausible-reading.1400-volts': ['/visits/0/readings/0/value', '1400 V', ' V'],
    'loop-without-resistance.three-cables': [
      '/boat/parts/9',
      'one (alternator.B+ to load.+), two (load.+ to battery.+)',
      'at least one cable',
    ],
    'loop-without-resistance.zero-length-pair': [
      '/boat/parts/7',
      'one (alternator.B+ to battery.+)',
      'a length',
    ],
    'missing.boat': ['/boat', 'nothing', 'an object'],
    'missing.template': ['/boat/template', 'nothing', 'diode-isolator'],
    'newer-version.changed-shape': ['/version', '7', 'up to 1'],
    'no-outcome.nothing-entered': ['/visits/0/readings/0/value', 'nothing', ' V'],
    'not-a-job.list': ['the whole file', 'a list', 'an object'],
    'not-a-job.other-format': ['/format', 'shopping-list', 'ampwright-job'],
    'not-json.cut-short': ['line 4, column 16', 'the end of the line', 'closing double quote'],
    'not-json.empty': ['line 1, column 1', 'the end of the file', 'a value'],
    'not-json.not-a-number': ['line 4, column 52', 'NaN', 'a number'],
    'not-json.trailing-comma': ['line 4, column 1', '}', 'a name in double quotes'],
    'out-of-range.area': ['/boat/parts/6/quantities/area', '70 m2', 'm2'],
    'out-of-range.infinite': ['/boat/facts/bank_capacity/value', 'Infinity', 'a finite number'],
    'out-of-range.negative-length': ['/boat/facts/cable_length', '-3 m', '0 to 100 m'],
    'out-of-range.nominal-voltage': ['/boat/nominal_voltage', '13.8 V', '12 V or 24 V'],
    'serves-nothing.no-such-engine': ['/boat/parts/6/serves', 'generator', 'engine'],
    'too-deep.nested': ['line 1, column 115', 'levels', 'at most 64'],
    'too-long.title': ['/title', 'xxx', 'at most 200 characters'],
    'two-outcomes.value-and-could-not': ['/visits/0/readings/0/value', '12.6', 'one of value'],
    'unknown-check.misspelt': [
      '/visits/0/readings/0/check',
      'batery-volts-rest@battery',
      'battery-volts-rest@battery',
    ],
    'unknown-choice.chemistry': ['/boat/facts/bank_chemistry', 'lifepo', 'lifepo4'],
    'unknown-choice.kind': ['/boat/parts/6/kind', 'alternater', 'alternator'],
    'unknown-choice.template': ['/boat/template', 'one-batery', 'one-battery'],
    'unknown-fault.misspelt': ['/visits/1/repairs/0', 'belt-brokn@belt', 'belt-broken@belt'],
    'unknown-unit.length': ['/boat/facts/cable_length/unit', 'metrs', 'm, cm'],
    'unknown-unit.reading': ['/visits/0/readings/0/unit', 'Amp', 'V, mV'],
    'unknown-unit.volts-for-amps': ['/boat/facts/alternator_current/unit', 'V', 'A, mA'],
    'unknown-version.text': ['/version', 'one', '0 to 1'],
    'wrong-type.parts': ['/boat/parts', 'many', 'a list'],
    'wrong-type.text-for-number': ['/boat/facts/bank_capacity/value', '400', 'a number'],
  };

describe('bad job files', () => {
  const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

  it('[rule] every file of the folder is expected, and every expectation has its file', () => {
    expect(names.sort()).toEqual(Object.keys(expected).sort());
  });

  it.each(names)('[rule] %s: the message names the place, the value and what is allowed', (name) => {
    const problem = firstProblem(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
    const [place, value, allowed] = expected[name]!;
    expect(problem.kind).toBe(name.split('.')[0]);
    expect([problem.pointer, problem.place]).toContain(place);
    expect(problem.place).not.toBe('');
    expect(problem.value).toContain(value);
    expect(problem.allowed).toContain(allowed);
    expect(problem.advice).not.toBe('');
  });

  it('[rule] 100 MB of text is refused by its size, at once', () => {
    const text = `{"format":"ampwright-job","note":"${'x'.repeat(100_000_000)}"}`;
    const problem = firstProblem(text);
    expect(problem).toMatchObject({
      kind: 'too-large',
      value: '100 MB',
      allowed: `at most ${largestJob / 1e6} MB of text`,
    });
  });

  it('[rule] a forbidden key pollutes nothing', () => {
    parseJob(readFileSync(new URL('forbidden-key.proto.json', folder), 'utf8'));
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });

  it('[rule] a mistyped unit, choice, terminal, check and fault are answered with the nearest', () => {
    const nearest = (name: string) =>
      firstProblem(readFileSync(new URL(`${name}.json`, folder), 'utf8')).nearest?.[0];
    expect(nearest('unknown-unit.length')).toBe('m');
    expect(nearest('unknown-choice.template')).toBe('one-battery');
    expect(nearest('cable-to-nowhere.no-such-terminal')).toBe('alternator.B+');
    expect(nearest('unknown-check.misspelt')).toBe('battery-volts-rest@battery');
    expect(nearest('unknown-fault.misspelt')).toBe('belt-broken@belt');
  });
});

function firstProblem(text: string): Problem {
  const parsed = parseJob(text);
  if (parsed.kind !== 'problems') throw new Error('the file was accepted');
  return parsed.problems[0]!;
}
