import { describe, expect, it } from 'vitest';
import { boatFromTemplate } from '../../src/boat/index.ts';
import { minutesOf, placedChecks, waitFor } from '../../src/checks/index.ts';

const checks = placedChecks(boatFromTemplate('diode-isolator', {}));
const check = (id: string): (typeof checks)[number] => checks.find((one) => one.id === id)!;
const rest = check('battery-volts-rest@house');
const idle = check('battery-volts-idle@house');
const fast = check('battery-volts-fast@house');
const drop = check('drop-positive@alternator');

describe('minutes of checks', () => {
  it('[common practice] readings under one condition share its wait', () => {
    expect(waitFor(fast, [])).toBe(6);
    expect(waitFor(drop, [fast.condition])).toBe(0);
    expect(minutesOf([fast, drop])).toBe(6 + fast.text.minutes + drop.text.minutes);
  });

  it('[common practice] from idling to speed only the rest of the time is waited for', () => {
    expect(waitFor(fast, [idle.condition])).toBe(2.5);
  });

  it('[common practice] a bank is read at rest before the engine runs, or waited for', () => {
    expect(waitFor(rest, [])).toBe(0);
    expect(waitFor(rest, [fast.condition])).toBe(15);
    expect(minutesOf([rest, fast])).toBeLessThan(minutesOf([fast, rest]));
  });

  it('[common practice] a test load is put on once, a bank is filled once', () => {
    const [output, drop] = [check('output-amps@alternator'), check('drop-positive-loaded@alternator')];
    expect(waitFor(drop, [output.condition])).toBe(0);
    expect(waitFor(output, [fast.condition])).toBeGreaterThan(waitFor(drop, [output.condition]));
    const [night, test] = [check('filled-rest-volts@house'), check('filled-load-test@house')];
    expect(waitFor(night, [rest.condition])).toBeGreaterThanOrEqual(30);
    expect(waitFor(test, [night.condition])).toBe(0);
  });
});
