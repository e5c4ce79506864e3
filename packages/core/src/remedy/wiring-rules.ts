/** Charging cable and its fuse, held against the alternator's full output.
 *  Laying that is taken where nobody said: 105 °C insulation, in the engine space, not bundled; the return as long and
 *  as thick as the way out.
 */
import { chargingPaths, partsOfKind, type BoatDescription, type PartDescription } from '../boat/index.ts';
import {
  ampacityOf,
  conductorFor,
  conductorTemperature,
  dropClasses,
  engineSpaceAmbient,
  fuseWindow,
  usualLaying,
  voltageDropHot,
  type Ampacity,
  type ConductorAnswer,
  type ConductorChoice,
} from '../handbook/index.ts';
import { celsius, formatQuantity } from '../units/index.ts';
import { amps, judged, percent, unjudged, type RuleResult } from './rule.ts';

const critical = dropClasses.find(({ id }) => id === 'critical');
const DROP_SHARE = critical?.share ?? 0.03;

/** Rules of the wires between each alternator and its bank. */
export function wiringRules(description: BoatDescription): readonly RuleResult[] {
  return chargingPaths(description).flatMap((path) => {
    const alternator = partsOfKind(description, 'alternator').find(({ id }) => id === path.alternator);
    const rated = alternator?.quantities.rated_current?.value;
    const cable = partsOfKind(description, 'cable').find((one) => leavesStud(one, path.alternator));
    const fuse = partsOfKind(description, 'fuse').find(({ id }) => path.outward.includes(`${id}.a`));
    return [
      ...(cable === undefined ? [] : cableRules(description, cable, rated)),
      ...(fuse === undefined ? [] : [fuseRule(description, fuse, cable, rated)]),
    ];
  });
}

/** The conductor for an alternator's rated amps over its cable's length, both ways round; undefined when either is
 *  unknown. */
export function chargeCableFor(
  description: BoatDescription,
  alternatorId: string,
): ConductorAnswer | undefined {
  const rated = partsOfKind(description, 'alternator').find(({ id }) => id === alternatorId)?.quantities
    .rated_current?.value;
  const length = partsOfKind(description, 'cable').find((one) => leavesStud(one, alternatorId))?.quantities
    .length?.value;
  if (rated === undefined || length === undefined || length <= 0) return undefined;
  return conductorFor({
    current: rated,
    lengthRoundTrip: 2 * length,
    nominalVoltage: description.nominalVoltage,
    dropShare: DROP_SHARE,
    ...usualLaying,
  });
}

/** "70 mm² or 2/0 AWG", both that keep the drop when hot; in words when no listed size does. */
export function sizesOf(answer: ConductorAnswer): string {
  const label = (side: ConductorAnswer['awg']): string | undefined =>
    side.kind === 'ok' ? (side.choiceKeepingDropHot ?? side.choice).label : undefined;
  const both = [label(answer.metric), label(answer.awg)].filter((one) => one !== undefined);
  return both.length === 0 ? 'conductors in parallel, or a shorter run' : both.join(' or ');
}

/** The metric choice, or the AWG one; that which keeps the drop when hot where there is one. */
export function chosenCable({ metric, awg }: ConductorAnswer): ConductorChoice | undefined {
  const side = metric.kind === 'ok' ? metric : awg;
  return side.kind === 'ok' ? (side.choiceKeepingDropHot ?? side.choice) : undefined;
}

/** Whether a cable carries charge away from an alternator. */
export function leavesStud(cable: PartDescription<'cable'>, alternator: string): boolean {
  // Control leads also leave the stud; they are thin, or end at a regulator.
  const stud = `${alternator}.B+`;
  if (cable.from !== stud && cable.to !== stud) return false;
  const far = cable.from === stud ? cable.to : cable.from;
  return !(far ?? '').endsWith('.supply') && !(far ?? '').endsWith('.sense');
}

function cableRules(
  description: BoatDescription,
  cable: PartDescription<'cable'>,
  rated: number | undefined,
): RuleResult[] {
  const area = cable.quantities.area?.value;
  const length = cable.quantities.length?.value;
  const dropWords = 'Voltage lost in the charging cable at full output';
  const ampacityWords = 'Amps that the charging cable may carry';
  const missing = [
    ...(rated === undefined ? ["the alternator's amps"] : []),
    ...(area === undefined ? ["the charging cable's size"] : []),
  ];
  if (rated === undefined || area === undefined) {
    const both = length === undefined ? [...missing, "the charging cable's length"] : missing;
    return [
      unjudged('charge-cable-drop', cable.id, 'arriving', dropWords, both),
      unjudged('charge-cable-ampacity', cable.id, 'lasting', ampacityWords, missing),
    ];
  }
  const carried = ampacityOf(area);
  const ampacity =
    carried === undefined
      ? unjudged('charge-cable-ampacity', cable.id, 'lasting', ampacityWords, ['a listed cable size'])
      : ampacityRule(description, cable, rated, carried, ampacityWords);
  if (length === undefined || length <= 0) {
    return [
      unjudged('charge-cable-drop', cable.id, 'arriving', dropWords, ["the charging cable's length"]),
      ampacity,
    ];
  }
  const answer = voltageDropHot({
    current: rated,
    lengthRoundTrip: 2 * length,
    nominalVoltage: description.nominalVoltage,
    dropShare: DROP_SHARE,
    area,
    temperature: conductorTemperature({
      ambient: engineSpaceAmbient,
      insulationRating: celsius(usualLaying.insulationClass),
      current: Math.min(rated, carried?.value ?? rated),
      ampacity: carried?.value ?? rated,
    }),
  });
  const share = answer.value / description.nominalVoltage;
  const margin = answer.margin ?? 0;
  const better = chargeCableFor(description, alternatorOf(cable));
  const drop = judged({
    rule: 'charge-cable-drop',
    part: cable.id,
    question: 'arriving',
    words: dropWords,
    standing: margin >= 0 ? 'kept' : share <= 0.05 ? 'near' : 'broken',
    answer: critical === undefined ? answer : { ...answer, citation: critical.citation },
    says: `${formatQuantity(answer.value, 'voltage')} (${percent(share)}) lost at ${amps(rated)}, out and back, hot; ${percent(DROP_SHARE)} is allowed.`,
    advice: margin >= 0 || better === undefined ? undefined : `Fit ${sizesOf(better)}.`,
  });
  return [drop, ampacity];
}

function ampacityRule(
  description: BoatDescription,
  cable: PartDescription<'cable'>,
  rated: number,
  carried: Ampacity,
  words: string,
): RuleResult {
  const margin = (carried.value - rated) / carried.value;
  const better = chargeCableFor(description, alternatorOf(cable));
  return judged({
    rule: 'charge-cable-ampacity',
    part: cable.id,
    question: 'lasting',
    words,
    standing: margin >= 0 ? 'kept' : 'broken',
    answer: { ...carried, margin },
    says: `It may carry ${amps(carried.value)} in an engine space with 105 °C insulation; the alternator is rated ${amps(rated)}.`,
    advice:
      margin >= 0 ? undefined : better === undefined ? 'Fit a thicker cable.' : `Fit ${sizesOf(better)}.`,
  });
}

function fuseRule(
  description: BoatDescription,
  fuse: PartDescription<'fuse'>,
  cable: PartDescription<'cable'> | undefined,
  rated: number | undefined,
): RuleResult {
  const words = 'Fuse between alternator and bank';
  const rating = fuse.quantities.rating?.value;
  const area = thinnestBeside(description, fuse.id) ?? cable?.quantities.area?.value;
  const carried = area === undefined ? undefined : ampacityOf(area);
  const missing = [
    ...(rating === undefined ? ["the fuse's rating"] : []),
    ...(rated === undefined ? ["the alternator's amps"] : []),
    ...(carried === undefined ? ['the size of the cable that it protects'] : []),
  ];
  if (rating === undefined || rated === undefined || carried === undefined)
    return unjudged('fuse', fuse.id, 'lasting', words, missing);
  const window = fuseWindow({ loadCurrent: rated, ampacity: carried.value, hotSpace: true });
  const citation = window.kind === 'ok' ? window.rating.citation : window.citation;
  const tooSmall = rating < window.least * (1 - 1e-9);
  const tooLarge = rating > window.most * (1 + 1e-9);
  const range = `${amps(window.least)} or more for the alternator, ${amps(window.most)} at most for the cable`;
  return judged({
    rule: 'fuse',
    part: fuse.id,
    question: 'lasting',
    words,
    standing: tooLarge || rating < rated ? 'broken' : tooSmall ? 'near' : 'kept',
    answer: {
      name: 'fuse or breaker rating',
      value: rating,
      dimension: 'current',
      formula: 'load / 0.75 ≤ rating ≤ the largest standard rating that the conductor allows',
      inputs: [
        { name: 'rated output', value: rated, dimension: 'current' },
        { name: 'conductor ampacity', value: carried.value, dimension: 'current' },
      ],
      citation,
      margin: Math.min((rating - window.least) / window.least, (window.most - rating) / window.most),
    },
    says: `${amps(rating)} fitted; ${range}.`,
    advice:
      !tooLarge && !tooSmall
        ? undefined
        : window.kind === 'ok'
          ? `Fit ${amps(window.rating.value)}, able to break what the bank can deliver.`
          : 'No rating fits this cable: a thicker cable comes first.',
  });
}

/** Thinnest cable of known size on either side of a part. */
function thinnestBeside(description: BoatDescription, part: string): number | undefined {
  const areas = partsOfKind(description, 'cable').flatMap(({ from, to, quantities }) => {
    const touches = [from, to].some((terminal) => terminal?.startsWith(`${part}.`));
    return touches && quantities.area !== undefined && quantities.area.origin !== 'assumed'
      ? [quantities.area.value]
      : [];
  });
  return areas.length === 0 ? undefined : Math.min(...areas);
}

const alternatorOf = (cable: PartDescription<'cable'>): string =>
  [cable.from, cable.to].find((terminal) => terminal?.endsWith('.B+'))?.split('.')[0] ?? '';
