/** Random circuits of the shape of a boat: a machine with regulator, trees of cables, banks, loads, isolators. */
import { buildCircuit, currentLoad, powerLoad, resistor } from '../../src/circuit/index.ts';
import type { Circuit, Element } from '../../src/circuit/index.ts';
import type { AlternatorMachine } from '../../src/physics/index.ts';
import { sampleBattery, sampleDiode, sampleMachine, sampleRegulator } from './sample-parts.ts';

export type Random = () => number;

/** Mulberry32, uniform in [0, 1); public-domain generator. */
export function randomSource(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const between = (random: Random, low: number, high: number): number => low + (high - low) * random();

export const logBetween = (random: Random, low: number, high: number): number =>
  low * Math.pow(high / low, random());

/** A charging circuit. `extraNodes` lengthens it: each extra node is a joint in a chain or a branch to a load. */
export function randomBoatCircuit(seed: number, extraNodes = 4, faulty = true): Circuit {
  const random = randomSource(seed);
  const nodes = ['post−', 'stud', 'case', 'field', 'sense', 'bus', 'post+', 'engine'];
  const elements: Element[] = [];
  const cable = (name: string, from: number, to: number, low = 50e-6, high = 20e-3): void => {
    const open = faulty && random() < 0.04;
    const resistance = open ? logBetween(random, 10, 1e7) : logBetween(random, low, high);
    elements.push(resistor({ name, from, to, resistance }));
  };
  elements.push(
    sampleMachine('machine', [1, 2, 3], randomMachine(random), between(random, 150, 700)),
    sampleRegulator('regulator', [1, 3, 4, 2], {
      setVoltage: between(random, 13.6, 14.6),
      gain: between(random, 5, 20),
      resistance: 0.04,
    }),
    sampleBattery('house', 6, 0, randomBattery(random)),
  );
  cable('charge cable', 1, 5);
  cable('bus to post', 5, 6);
  cable('sense lead', 4, random() < 0.5 ? 6 : 1, 5e-3, 0.2);
  cable('bracket', 2, 7);
  cable('return', 7, 0);
  const anchors = [1, 5, 6];
  for (let extra = 0; extra < extraNodes; extra++) {
    const from = anchors[Math.floor(random() * anchors.length)]!;
    const node = nodes.push(`x${extra}`) - 1;
    const choice = random();
    if (choice < 0.15) {
      elements.push(sampleDiode(`isolator ${extra}`, from, node, logBetween(random, 1e-10, 1e-7)));
      elements.push(sampleBattery(`bank ${extra}`, node, 0, randomBattery(random)));
    } else {
      cable(`feed ${extra}`, from, node);
      if (random() < 0.5) anchors.push(node);
    }
    if (choice > 0.8) {
      elements.push(
        powerLoad({
          name: `drive ${extra}`,
          from: node,
          to: 0,
          power: between(random, 5, 150),
          limitVoltage: 6,
        }),
      );
    } else if (choice > 0.6) {
      elements.push(
        currentLoad({
          name: `lamp ${extra}`,
          from: node,
          to: 0,
          current: between(random, 0.2, 15),
          fadeVoltage: 3,
        }),
      );
    } else if (choice > 0.5) {
      elements.push(
        resistor({ name: `heater ${extra}`, from: node, to: 0, resistance: between(random, 0.5, 30) }),
      );
    } else if (choice > 0.42) {
      cable(`second path ${extra}`, node, anchors[Math.floor(random() * anchors.length)]!);
    }
  }
  return buildCircuit(nodes, elements);
}

function randomMachine(random: Random): AlternatorMachine {
  return {
    polePairs: 6,
    fluxPerAmp: between(random, 4e-3, 8e-3),
    saturationCurrent: between(random, 4, 8),
    residualFlux: 1e-4,
    synchronousInductance: between(random, 80e-6, 250e-6),
    statorResistance20: between(random, 0.015, 0.05),
    fieldResistance20: between(random, 2.5, 4.5),
    diodeDrop: 0.75,
    brushDrop: 0.6,
  };
}

function randomBattery(random: Random): {
  emf: number;
  resistance: number;
  bend: number;
  bendCurrent: number;
} {
  return {
    emf: between(random, 11.6, 13),
    resistance: logBetween(random, 2e-3, 15e-3),
    bend: between(random, 0.02, 0.15),
    bendCurrent: between(random, 0.5, 5),
  };
}
