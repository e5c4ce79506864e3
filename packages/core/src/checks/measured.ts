/** What a meter can be put to. */
import { chargingPaths, partsOfKind, type BoatDescription, type PartDescription } from '../boat/index.ts';
import type { Condition, Probe } from '../operate/index.ts';
import type { CheckOutcome, Placement } from './check.ts';
import {
  chargersOff,
  cranking,
  fast,
  fastSpeed,
  idleSpeed,
  idling,
  idlingAwake,
  keyOn,
  off,
  openCircuit,
  running,
} from './conditions.ts';
import { measuredFilled } from './measured-filled.ts';
import { measuredLoaded } from './measured-loaded.ts';
import { measuredOtherwise } from './measured-otherwise.ts';
import {
  acrossBanks,
  amps,
  ampsBetweenBanks,
  ampsNearCutIn,
  chargingAmps,
  drop,
  ripple,
  volts,
} from './outcomes.ts';
import { fieldReachable, forEachPath, isOutside, number } from './placing.ts';
import { bankTestLoad } from './test-load.ts';

/** What a battery law may be off by [V at 12 V], at rest, under small loads, on charge, while it cranks, and under a load tester: by what
 *  the two published lead-acid laws of physics/ differ over random boats, rest voltages and acceptance put equal
 *  (bench/diagnosis-calibration.ts). Acceptance itself is an unknown of the boat. */
const BATTERY_AT_REST = 0.15;
const BATTERY_LOADED = 0.18;
const BATTERY_CHARGING = 0.2;
const BATTERY_CRANKING = 0.65;
const BATTERY_TESTED = 0.9;
/** Of mean field volts. */
const FIELD = 0.8;

type ConditionOf = (description: BoatDescription) => Condition;

/** Volts across each bank under a condition. `model`: what the battery law may be off by [V at 12 V]. */
function bankVolts(condition: ConditionOf, model: number): Placement {
  return {
    on: 'battery',
    sites: (description) =>
      partsOfKind(description, 'battery').map(({ id }) => ({
        part: id,
        condition: condition(description),
        outcome: volts(description, `${id}.+`, `${id}.-`, model),
      })),
  };
}

const studVolts = (condition: ConditionOf, model: number): Placement =>
  forEachPath((description, path) => ({
    condition: condition(description),
    outcome: volts(description, `${path.alternator}.B+`, `${path.alternator}.case`, model),
  }));

/** Volts lost across a two-stud part. */
function across(
  kind: 'selector' | 'fuse' | 'relay' | 'isolator',
  from: string,
  to: string,
  outcome: typeof drop = drop,
): Placement {
  return {
    on: kind,
    sites: (description) =>
      partsOfKind(description, kind).map(({ id }) => ({
        part: id,
        condition: fast,
        outcome: outcome(description, `${id}.${from}`, `${id}.${to}`),
      })),
  };
}

/** An open switch shows what its banks differ by. */
const acrossSelector: typeof drop = (description, plus, minus) => {
  const switchOf = partsOfKind(description, 'selector').find(({ id }) => plus.startsWith(`${id}.`));
  return (switchOf?.choices.position === 'off' ? acrossBanks : drop)(description, plus, minus);
};

const machineAmps = (condition: ConditionOf, outcome: (probe: Probe) => CheckOutcome): Placement =>
  forEachPath((description, { alternator }) => ({
    condition: condition(description),
    outcome: outcome({ kind: 'alternator-amps', alternator }),
  }));

const bankAmps = (
  condition: ConditionOf,
  outcome: (probe: Probe, description: BoatDescription) => CheckOutcome,
): Placement => ({
  on: 'battery',
  sites: (description) =>
    partsOfKind(description, 'battery').map(({ id }) => ({
      part: id,
      condition: condition(description),
      outcome: outcome({ kind: 'battery-amps', battery: id }, description),
    })),
});

/** Whether a switch may join the banks with the engine off. */
const mayJoinBanks = (description: BoatDescription): boolean =>
  partsOfKind(description, 'battery').length > 1 &&
  partsOfKind(description, 'selector').some(({ choices: { position = 'both' } }) => position === 'both');

const heavyTerminals: Readonly<Record<string, readonly string[]>> = {
  alternator: ['B+', 'case'],
  starter: ['post'],
  selector: ['common', 'one', 'two'],
  fuse: ['a', 'b'],
  isolator: ['in', 'one', 'two'],
  relay: ['a', 'b'],
  battery: ['+', '-'],
  engine: ['block'],
};

/** Cables between the heavy terminals: those that carry the charging current. */
function heavyCables(description: BoatDescription): readonly PartDescription<'cable'>[] {
  const heavy = (terminal: string | undefined): boolean => {
    const [part = '', point = ''] = terminal?.split('.') ?? [];
    const kind = description.parts.find(({ id }) => id === part)?.kind ?? '';
    return heavyTerminals[kind]?.includes(point) ?? false;
  };
  return partsOfKind(description, 'cable').filter(({ from, to }) => heavy(from) && heavy(to));
}

/** Volts at one side of a charge lamp, key on. */
function lampVolts(side: 'a' | 'b'): Placement {
  return {
    on: 'lamp',
    sites: (description) =>
      chargingPaths(description).flatMap(({ lamp, engine }) =>
        lamp === undefined
          ? []
          : [
              {
                part: lamp,
                condition: keyOn,
                outcome: volts(
                  description,
                  `${lamp}.${side}`,
                  `${engine}.block`,
                  side === 'a' ? BATTERY_LOADED : 0.5,
                ),
              },
            ],
      ),
  };
}

/** Placements by check, volts and amps; other instruments are in measured-otherwise.ts. */
export const measured: Readonly<Record<string, Placement>> = {
  ...measuredOtherwise,
  ...measuredLoaded,
  ...measuredFilled,
  'battery-volts-rest': bankVolts(() => off, BATTERY_AT_REST),
  'battery-volts-idle': bankVolts(idling, BATTERY_CHARGING),
  'battery-volts-fast': bankVolts(() => fast, BATTERY_CHARGING),
  'battery-volts-late': bankVolts((description) => running(idleSpeed(description), 300), BATTERY_CHARGING),
  'battery-volts-loads-off': bankVolts(() => running(fastSpeed, 330, { loads: 'off' }), BATTERY_CHARGING),
  'battery-volts-cranking': bankVolts(() => cranking, BATTERY_CRANKING),
  'battery-volts-open': bankVolts(() => openCircuit, BATTERY_AT_REST),
  'battery-load-test': {
    on: 'battery',
    sites: (description) =>
      partsOfKind(description, 'battery').map((bank) => ({
        part: bank.id,
        condition: { ...chargersOff, loads: 'test', testLoad: bankTestLoad(bank), testBank: bank.id },
        outcome: volts(description, `${bank.id}.+`, `${bank.id}.-`, BATTERY_TESTED),
      })),
  },
  'gravity-spread': {
    on: 'battery',
    sites: (description) =>
      partsOfKind(description, 'battery')
        .filter(({ choices }) => (choices.chemistry ?? 'flooded') === 'flooded')
        .map(({ id }) => ({
          part: id,
          condition: off,
          outcome: number({
            kind: 'number',
            dimension: 'ratio',
            unit: '1',
            probe: { kind: 'gravity-spread', battery: id },
            meterSigma: () => 0.005,
            modelSigma: (value) => 0.006 + 0.3 * Math.abs(value),
            range: [0, 0.3],
          }),
        })),
  },
  'stud-volts-off': studVolts(() => off, BATTERY_AT_REST),
  'stud-volts-idle': studVolts(idling, BATTERY_CHARGING),
  'stud-volts-fast': studVolts(() => fast, BATTERY_CHARGING),
  'drop-positive': forEachPath((description, { alternator, battery }) =>
    battery === undefined
      ? undefined
      : { condition: fast, outcome: drop(description, `${alternator}.B+`, `${battery}.+`) },
  ),
  'drop-return': forEachPath((description, { alternator, battery }) =>
    battery === undefined
      ? undefined
      : { condition: fast, outcome: drop(description, `${battery}.-`, `${alternator}.case`) },
  ),
  'drop-switch': across('selector', 'common', 'one', acrossSelector),
  'drop-switch-second': {
    on: 'selector',
    sites: (description) =>
      across('selector', 'common', 'two', acrossBanks)
        .sites(description)
        .filter(({ part }) =>
          partsOfKind(description, 'cable').some(({ from, to }) => [from, to].includes(`${part}.two`)),
        ),
  },
  'drop-fuse': across('fuse', 'a', 'b'),
  'drop-isolator': across('isolator', 'in', 'one'),
  'drop-relay': across('relay', 'a', 'b'),
  'drop-cable': {
    on: 'cable',
    sites: (description) =>
      heavyCables(description).map(({ id, from, to }) => ({
        part: id,
        condition: fast,
        outcome: drop(description, from ?? '', to ?? ''),
      })),
  },
  'lamp-volts-in': lampVolts('a'),
  'lamp-volts-out': lampVolts('b'),
  'regulator-supply-volts': forEachPath((description, path) =>
    isOutside(description, path)
      ? {
          condition: keyOn,
          outcome: volts(description, `${path.regulator}.supply`, `${path.regulator}.ground`, BATTERY_LOADED),
        }
      : undefined,
  ),
  'regulator-field-volts': forEachPath((description, path) =>
    isOutside(description, path)
      ? {
          condition: idling(description),
          outcome: volts(description, `${path.regulator}.F`, `${path.regulator}.ground`, FIELD),
        }
      : undefined,
  ),
  'field-volts-fast': forEachPath((description, path) =>
    fieldReachable(description, path)
      ? {
          condition: fast,
          outcome: volts(description, `${path.alternator}.F`, `${path.alternator}.case`, FIELD),
        }
      : undefined,
  ),
  'field-volts': forEachPath((description, path) =>
    fieldReachable(description, path)
      ? {
          condition: idling(description),
          outcome: volts(description, `${path.alternator}.F`, `${path.alternator}.case`, FIELD),
        }
      : undefined,
  ),
  'enable-volts': forEachPath((description, { regulator, engine }) =>
    description.parts.some((part) => part.to === `${regulator}.enable`)
      ? {
          condition: keyOn,
          outcome: volts(description, `${regulator}.enable`, `${engine}.block`, BATTERY_LOADED),
        }
      : undefined,
  ),
  'sense-volts': forEachPath((description, path) =>
    isOutside(description, path)
      ? {
          condition: fast,
          outcome: volts(
            description,
            `${path.regulator}.sense`,
            `${path.regulator}.ground`,
            BATTERY_CHARGING,
          ),
        }
      : undefined,
  ),
  'excitation-volts-key': forEachPath((description, { alternator, lamp }) =>
    lamp === undefined
      ? undefined
      : { condition: keyOn, outcome: volts(description, `${alternator}.D+`, `${alternator}.case`, 0.5) },
  ),
  'excitation-volts-running': forEachPath((description, { alternator, lamp }) =>
    lamp === undefined
      ? undefined
      : { condition: fast, outcome: volts(description, `${alternator}.D+`, `${alternator}.case`, 0.3) },
  ),
  ripple: forEachPath((description, { alternator }) => ({
    condition: fast,
    outcome: ripple(description, alternator),
  })),
  'alternator-amps-idle': machineAmps(idlingAwake, ampsNearCutIn),
  'alternator-amps-fast': machineAmps(() => fast, chargingAmps),
  'battery-amps-fast': bankAmps(() => fast, chargingAmps),
  'battery-amps-off': bankAmps(
    () => off,
    (probe, description) => (mayJoinBanks(description) ? ampsBetweenBanks(probe) : amps(probe, 500)),
  ),
  'battery-amps-drain': bankAmps(
    () => ({ ...chargersOff, loads: 'off' }),
    (probe) => amps(probe, 500),
  ),
};
