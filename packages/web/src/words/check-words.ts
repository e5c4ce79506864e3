/** How a check's condition and probe are said. */
import { formatDuration, formatQuantity } from '../work/contract.ts';
import type { Condition, Job, Probe, UnitPreference } from '../work/contract.ts';
import { partInSentence, partName, terminalName } from './part-words.ts';

/** "Engine running at 1500 rpm, 5 min after the start, usual loads." */
export function conditionWords(condition: Condition, units: UnitPreference): string {
  const words: string[] = [];
  const {
    engine,
    engineSpeed,
    sinceStart,
    loads,
    testLoad,
    testBank,
    field,
    excitation,
    revved,
    otherSources,
    filled,
  } = condition;
  if (filled && engine === 'off') return 'Bank filled by a charger, rested for a night, its leads off.';
  if (filled) words.push('Banks filled by a charger first');
  if (engine === 'off') words.push('Engine off');
  if (engine === 'key-on') words.push('Key on, engine not running');
  if (engine === 'cranking') words.push('Engine cranking');
  if (engine === 'running') {
    words.push(`Engine running at ${formatQuantity(engineSpeed, 'speed', units)}`);
    if (sinceStart > 0) words.push(`${formatDuration(sinceStart)} after the start`);
    if (revved) words.push('revved once first');
  }
  words.push(
    loads === 'off'
      ? 'loads off'
      : loads === 'usual'
        ? 'usual loads on'
        : testBank === undefined
          ? `usual loads and ${formatQuantity(testLoad, 'current', units)} more on`
          : `a test load of ${formatQuantity(testLoad, 'current', units)} at the posts`,
  );
  if (field === 'full') words.push('field fed in full by hand');
  if (excitation === 'jumpered') words.push('excitation fed by hand');
  if (otherSources === 'off') words.push('other chargers off');
  return `${words.join(', ')}.`;
}

export interface ProbeWords {
  readonly what: string;
  /** Where the red and the black lead go, for volts. */
  readonly red?: string;
  readonly black?: string;
}

export function probeWords(probe: Probe, job: Job, units: UnitPreference): ProbeWords {
  switch (probe.kind) {
    case 'dc-volts':
      return { what: 'DC volts', red: terminalName(probe.plus, job), black: terminalName(probe.minus, job) };
    case 'ac-volts':
      return { what: 'AC volts', red: terminalName(probe.plus, job), black: terminalName(probe.minus, job) };
    case 'alternator-amps':
      return { what: `Amps out of the stud of ${partInSentence(probe.alternator, job)}, by clamp` };
    case 'battery-amps':
      return { what: `Amps into ${partInSentence(probe.battery, job)}, by clamp; minus when it gives` };
    case 'field-ohms':
      return {
        what: `Ohms through brushes and rotor of ${partInSentence(probe.alternator, job)}, leads off`,
      };
    case 'field-amps':
      return { what: `Field amps of ${partInSentence(probe.alternator, job)}` };
    case 'gauge-volts':
      return { what: `Volts that ${partInSentence(probe.gauge, job)} shows` };
    case 'label-amps':
      return { what: `Amps on the label of ${partInSentence(probe.alternator, job)}` };
    case 'label-amp-hours':
      return { what: `Ampere-hours on the labels of ${partInSentence(probe.battery, job)}, added up` };
    case 'gauge-error':
      return { what: `What ${partInSentence(probe.gauge, job)} shows, less the meter on its terminals` };
    case 'filled-volts':
      return {
        what:
          probe.amps === 0
            ? `Volts at the posts of ${partInSentence(probe.battery, job)}`
            : `Volts at the posts of ${partInSentence(probe.battery, job)} after ${formatDuration(probe.seconds)} at ${formatQuantity(probe.amps, 'current', units)}, the load still on`,
      };
    case 'case-temperature':
      return { what: `Temperature of the case of ${partInSentence(probe.alternator, job)}` };
    case 'belt-slip':
      return { what: `Slip of the belt of ${partInSentence(probe.alternator, job)}` };
    case 'pulley-ratio':
      return { what: `Engine pulley over alternator pulley, ${partName(probe.alternator, job)}` };
    case 'shaft-speed':
      return { what: `Shaft speed of ${partInSentence(probe.alternator, job)}` };
    case 'gravity-spread':
      return {
        what: `Spread of specific gravity between the cells of ${partInSentence(probe.battery, job)}`,
      };
  }
}

/** What stands on a label is read under any condition, and its check's name says what it is. */
export const isLabel = ({ kind }: Probe): boolean => kind === 'label-amps' || kind === 'label-amp-hours';

export const riskWords = [
  'no risk of note',
  'moving or hot parts near',
  'live work, engine running',
  'can do damage if done wrongly',
] as const;
export const wayWords = {
  ask: 'Ask',
  look: 'Look',
  listen: 'Listen',
  measure: 'Measure',
  intervene: 'Try',
} as const;
export const skillWords = {
  owner: 'anyone aboard',
  apprentice: 'an apprentice',
  electrician: 'an electrician',
} as const;
