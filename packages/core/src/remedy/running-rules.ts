/** What hours of running ask: a rotor within its speed, and an engine space that stays cool. */
import {
  boatAt,
  chargingPaths,
  partsOfKind,
  type BoatDescription,
  type ChargingPath,
} from '../boat/index.ts';
import {
  hotAlternatorShare,
  insulationLifeRatio,
  ventilationAirFlow,
  type Citation,
} from '../handbook/index.ts';
import { formatQuantity } from '../units/index.ts';
import { judged, percent, unjudged, type RuleResult } from './rule.ts';

const RPM = (2 * Math.PI) / 60;
/** Shaft speeds that small claw-pole machines are built for, all day and at most [rad/s]. */
const ROTOR = { always: 10_000 * RPM, most: 15_000 * RPM } as const;
/** An engine space after an hour of running [K]: what cables and machines are rated for, and the hottest usual one. */
const SPACE = { rated: 323.15, hottest: 333.15 } as const;
/** Rise of the air that carries the heat away [K]; share of its rated power that an engine gives off to the space. */
const AIR_RISE = 15;
const ENGINE_HEAT = 0.06;
const LOADED_VOLTS = 14;
/** Efficiency at full load of a 14 V claw-pole machine, about a half: what it gives, it also heats with. */
const EFFICIENCY = 0.5;

const common = (clause: string, note = ''): Citation => ({
  source: 'COMMON',
  clause,
  edition: '',
  seen: 'M',
  note,
});

export function runningRules(description: BoatDescription): readonly RuleResult[] {
  return [
    ...chargingPaths(description).flatMap((path) => rotorRule(description, path)),
    ...partsOfKind(description, 'engine').map(({ id }) => spaceRule(description, id)),
  ];
}

function rotorRule(description: BoatDescription, path: ChargingPath): RuleResult[] {
  const words = 'Rotor speed at full throttle';
  const top = partsOfKind(description, 'engine').find(({ id }) => id === path.engine)?.quantities.rated_speed
    ?.value;
  const ratio = partsOfKind(description, 'alternator').find(({ id }) => id === path.alternator)?.quantities
    .pulley_ratio?.value;
  const missing = [
    ...(top === undefined ? ['the engine speed at full throttle'] : []),
    ...(ratio === undefined ? ['the pulley ratio'] : []),
  ];
  if (top === undefined || ratio === undefined)
    return [unjudged('rotor-speed', path.alternator, 'lasting', words, missing)];
  const value = top * ratio;
  const speed = (one: number): string => formatQuantity(one, 'speed');
  return [
    judged({
      rule: 'rotor-speed',
      part: path.alternator,
      question: 'lasting',
      words,
      standing: value <= ROTOR.always ? 'kept' : value <= ROTOR.most ? 'near' : 'broken',
      answer: {
        name: 'rotor speed at full throttle',
        value,
        dimension: 'speed',
        formula: 'rotor speed = pulley ratio · engine speed at full throttle',
        inputs: [
          { name: 'pulley ratio', value: ratio, dimension: 'ratio' },
          { name: 'engine speed at full throttle', value: top, dimension: 'speed' },
        ],
        citation: common(
          'small claw-pole machines: 10 000 rpm all day, 15 000 rpm at most',
          "The alternator maker's limit rules.",
        ),
        margin: (ROTOR.most - value) / ROTOR.most,
      },
      says: `${speed(value)} at full throttle; small machines stand ${speed(ROTOR.always)} all day and ${speed(ROTOR.most)} at most.`,
      advice:
        value <= ROTOR.most
          ? undefined
          : `Fit a larger pulley: a ratio of ${(ROTOR.most / top).toFixed(2)} at most, if it still charges at idle.`,
    }),
  ];
}

function spaceRule(description: BoatDescription, engine: string): RuleResult {
  const words = 'Air for the engine space';
  const part = partsOfKind(description, 'engine').find(({ id }) => id === engine);
  const space = part?.quantities.space_temperature?.value;
  const boat = boatAt(description);
  const power = boat.engines.find(({ id }) => id === engine)?.ratedPower ?? 0;
  const machines = boat.alternators.filter((one) => one.engine === engine);
  const volts = LOADED_VOLTS * (description.nominalVoltage / 12);
  const output = machines.reduce((sum, { ratedCurrent }) => sum + ratedCurrent * volts, 0);
  const heat = output * (1 / EFFICIENCY - 1) + ENGINE_HEAT * power;
  const flow = ventilationAirFlow({ heat, rise: AIR_RISE, inletTemperature: boat.ambient });
  const { low, high } = hotAlternatorShare;
  // The hot share is that of a space at 60 °C at best and 90 °C at worst, against 25 °C cold.
  const [least, most] = [(10 * (1 - high)) / 35, (10 * (1 - low)) / 65].sort((a, b) => a - b) as [
    number,
    number,
  ];
  const life = insulationLifeRatio(10).typical;
  const cost = `Ten degrees more cost ${percent(least)} to ${percent(most)} of the amps and leave ${percent(life)} of the windings' life.`;
  const air = `${formatQuantity(flow.value, 'volumeFlow')} of air carry ${formatQuantity(heat, 'power')} away at a rise of ${AIR_RISE} K.`;
  if (space === undefined) {
    const found = unjudged('engine-space', engine, 'lasting', words, [
      'the engine space after an hour of running',
    ]);
    return { ...found, says: `${found.says} ${air} ${cost}` };
  }
  return judged({
    rule: 'engine-space',
    part: engine,
    question: 'lasting',
    words,
    standing: space <= SPACE.rated ? 'kept' : space <= SPACE.hottest ? 'near' : 'broken',
    answer: {
      ...flow,
      inputs: [
        ...flow.inputs,
        { name: 'alternators at full output', value: output, dimension: 'power' },
        { name: 'engine power', value: power, dimension: 'power' },
      ],
      citation: common(
        `engine gives ${percent(ENGINE_HEAT)} of its power to the space, alternator as much as its output; space up to 50 °C, 60 °C at the hottest`,
      ),
      margin: (SPACE.rated - space) / SPACE.rated,
    },
    says: `The space stands at ${formatQuantity(space, 'temperature')} after an hour. ${air} ${cost}`,
    advice:
      space <= SPACE.rated
        ? undefined
        : `Bring in ${formatQuantity(flow.value, 'volumeFlow')} of cool air at the alternator and let as much out high up; ignition-protected where there is petrol.`,
  });
}
