/** The ten facts as they are asked: in words, with the usual answers one tap away. The sizes are common practice. */
import type { Change } from '../work/contract.ts';
import { optionWord } from './quantity-words.ts';
import type { Preferences } from '../state/preferences.ts';

export interface AskedQuantity {
  readonly key:
    'alternator_current' | 'bank_capacity' | 'cable_area' | 'cable_length' | 'idle_speed' | 'loads_current';
  readonly words: string;
  readonly note: string;
  readonly unit: string;
  readonly symbol: string;
  readonly usual: readonly number[];
  /** How a value is shown where it is not the number itself. */
  readonly shown?: Readonly<Record<number, string>>;
}

export interface AskedChoice {
  readonly key: 'regulator_place' | 'excitation' | 'bank_chemistry' | 'belt_section';
  readonly words: string;
  readonly note: string;
  readonly options: readonly (readonly [string, string])[];
}

export const changeWords: Readonly<Record<Change, string>> = {
  'alternator-uprated': 'Larger alternator',
  'alternator-replaced': 'Alternator replaced',
  'regulator-changed': 'Regulator changed',
  'batteries-replaced': 'Batteries replaced',
  'bank-enlarged': 'More batteries',
  'belt-replaced': 'Belt replaced',
  'engine-worked-on': 'Engine worked on',
  'wiring-altered': 'Wiring altered',
  'loads-added': 'Loads added',
  'charger-added': 'Charger or solar added',
  'laid-up': 'Laid up for a season',
};

export const complaints = [
  'The batteries do not charge',
  'Charges some days, not others',
  'Flat by the morning',
  'The charge lamp stays on',
  'The charge lamp never lights',
  'The gauge reads low',
  'The belt squeals or makes dust',
  'New parts fitted, no better',
] as const;

/** The answer to "What did the owner notice?" that a complaint is, so that it need not be asked again. */
export const noticedBy: Readonly<Partial<Record<string, string>>> = {
  'Charges some days, not others': 'comes-and-goes',
  'Flat by the morning': 'flat-soon',
  'The charge lamp stays on': 'lamp-on',
  'The gauge reads low': 'gauge-low',
  'The belt squeals or makes dust': 'squeals-or-dust',
};

export const alternatorAsked: AskedQuantity = {
  key: 'alternator_current',
  words: 'Alternator',
  note: 'amps on its nameplate',
  unit: 'A',
  symbol: 'A',
  usual: [35, 50, 60, 90, 120, 150],
};

export const regulatorAsked: AskedChoice = {
  key: 'regulator_place',
  words: 'Regulator',
  note: 'a separate box with a field wire is outside',
  options: worded('inside', 'outside'),
};

export const excitationAsked: AskedChoice = {
  key: 'excitation',
  words: 'What wakes the alternator',
  note: 'the thin wire at it',
  options: worded('lamp', 'ignition', 'none'),
};

export const bankAsked: AskedQuantity = {
  key: 'bank_capacity',
  words: 'Bank to be charged',
  note: 'the house bank where there are two',
  unit: 'Ah',
  symbol: 'Ah',
  usual: [100, 200, 300, 400, 600],
};

export const chemistryAsked: AskedChoice = {
  key: 'bank_chemistry',
  words: 'Its batteries',
  note: '',
  options: worded('flooded', 'agm', 'gel', 'lifepo4'),
};

export const beltAsked: AskedChoice = {
  key: 'belt_section',
  words: 'Belt',
  note: 'width across the top, or ribs',
  options: worded('v-10', 'v-13', 'two-v-13', 'ribbed-6', 'ribbed-8'),
};

export const idleAsked: AskedQuantity = {
  key: 'idle_speed',
  words: 'Engine idle',
  note: 'by its tachometer',
  unit: 'rpm',
  symbol: 'rpm',
  usual: [650, 750, 850, 950],
};

export const loadsAsked: AskedQuantity = {
  key: 'loads_current',
  words: 'Loads while charging',
  note: 'what is usually on',
  unit: 'A',
  symbol: 'A',
  usual: [2, 5, 10, 20, 40],
};

/** Cable size and length in the units of whoever asks. */
export function cableAsked({ area, length }: Preferences): readonly [AskedQuantity, AskedQuantity] {
  const size: AskedQuantity =
    area === 'AWG'
      ? {
          key: 'cable_area',
          words: 'Cable from the alternator’s stud',
          note: 'conductor size',
          unit: 'AWG',
          symbol: 'AWG',
          usual: [8, 6, 4, 2, 0, -1],
          shown: { 0: '1/0', [-1]: '2/0' },
        }
      : {
          key: 'cable_area',
          words: 'Cable from the alternator’s stud',
          note: 'conductor size',
          unit: 'mm2',
          symbol: 'mm²',
          usual: [6, 10, 16, 25, 35, 50],
        };
  const run: AskedQuantity =
    length === 'ft'
      ? {
          key: 'cable_length',
          words: 'Its length',
          note: 'one way',
          unit: 'ft',
          symbol: 'ft',
          usual: [3, 6, 10, 16],
        }
      : {
          key: 'cable_length',
          words: 'Its length',
          note: 'one way',
          unit: 'm',
          symbol: 'm',
          usual: [1, 2, 3, 5],
        };
  return [size, run];
}

function worded(...options: readonly string[]): AskedChoice['options'] {
  return options.map((option) => [option, optionWord(option)] as const);
}
