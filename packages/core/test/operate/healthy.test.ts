import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, templateIds } from '../../src/boat/index.ts';
import { asFound, Operator } from '../../src/operate/index.ts';

const fast = { ...asFound, engine: 'running', engineSpeed: 157, sinceStart: 300 } as const;

describe.each(templateIds)('a healthy boat, %s', (template) => {
  it.each([
    ['lamp', 'inside'],
    ['ignition', 'inside'],
    ['none', 'inside'],
    ['ignition', 'outside'],
  ] as const)('[common practice] charges at 1500 rpm: %s, regulator %s', (excitation, regulatorPlace) => {
    const operator = new Operator(boatAt(boatFromTemplate(template, { excitation, regulatorPlace })));
    const point = operator.at(fast);
    expect(point.converged).toBe(true);
    // A machine on a full start bank gives a few amperes only; a dead one gives none.
    for (const { id, output } of point.alternators) expect(output, id).toBeGreaterThan(3);
    expect(point.batteries[0]?.current).toBeGreaterThan(5);
  });
});

it.each(templateIds)(
  '[TM 9-6140-200-14 p. 2-4] an engine charges well from 1000 to 1200 rpm: %s',
  (template) => {
    const boat = boatAt(boatFromTemplate(template, { excitation: 'ignition' }));
    for (const battery of boat.batteries) battery.stateOfCharge = 0.4;
    const operator = new Operator(boat);
    const outputAt = (rpm: number): number =>
      operator.at({ ...fast, engineSpeed: (rpm * Math.PI) / 30, loads: 'off' }).alternators[0]!.output;
    const rated = boat.alternators[0]!.ratedCurrent;
    // "Well" is taken as half of what it can give; below that speed it falls away.
    expect(outputAt(1100) / rated).toBeGreaterThan(0.5);
    expect(outputAt(700) / rated).toBeLessThan(0.5);
  },
);

it('[common practice] the stud behind a diode isolator is dead while the engine is off', () => {
  const boat = boatFromTemplate('diode-isolator', { excitation: 'ignition' });
  const operator = new Operator(boatAt(boat));
  const { voltages } = operator.at(asFound);
  const stud = operator.plant.nodeOf('alternator.B+') ?? 0;
  expect(Math.abs(voltages[stud] ?? NaN)).toBeLessThan(0.5);
});
