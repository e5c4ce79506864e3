/** What a boat is made of: each kind of part, its terminals, and what may be known of it.
 *  One table feeds the job file's schema and its messages, the forms of the page, and the assumptions made
 *  for what nobody knows. `low` and `high` are in SI and mark what a job file may hold, not what is likely.
 */
import type { Dimension } from '../units/index.ts';

export interface QuantityKind {
  readonly dimension: Dimension;
  readonly low: number;
  readonly high: number;
  readonly words: string;
}

export interface ChoiceKind {
  readonly options: readonly string[];
  readonly words: string;
}

export interface PartKind {
  readonly words: string;
  readonly terminals: readonly string[];
  readonly quantities: Readonly<Record<string, QuantityKind>>;
  readonly choices: Readonly<Record<string, ChoiceKind>>;
}

const RPM = (2 * Math.PI) / 60;
const AMP_HOUR = 3600;
const CELSIUS = 273.15;
const DEGREE = Math.PI / 180;

const quantity = (dimension: Dimension, low: number, high: number, words: string): QuantityKind => ({
  dimension,
  low,
  high,
  words,
});

/** Shaft speeds of the points of an alternator's curve that may be told [rad/s], by rising speed. 1800 min⁻¹ is the low point
 *  of a test bench [ISO8854, from memory]; 1800, 3000 and 6000 are those of an efficiency test [EU785]. */
export const curveSpeeds = [
  ['low_speed_current', 1800 * RPM],
  ['middle_speed_current', 3000 * RPM],
] as const;

/** Chemistries of a bank. Ids are frozen. */
export const chemistries = ['flooded', 'agm', 'gel', 'lifepo4'] as const;
export type Chemistry = (typeof chemistries)[number];

export const partKinds = {
  engine: {
    words: 'Engine',
    terminals: ['block'],
    quantities: {
      idle_speed: quantity('speed', 300 * RPM, 2000 * RPM, 'idle speed'),
      cruise_speed: quantity('speed', 500 * RPM, 6000 * RPM, 'usual cruising speed'),
      rated_speed: quantity('speed', 1000 * RPM, 7000 * RPM, 'speed at full throttle'),
      rated_power: quantity('power', 1000, 1_000_000, 'rated power'),
      hours_per_day: quantity('time', 0, 86_400, 'engine hours a day'),
      space_temperature: quantity(
        'temperature',
        CELSIUS - 20,
        CELSIUS + 120,
        'engine space after an hour of running',
      ),
      ventilation: quantity('volumeFlow', 0, 2, 'air through the engine space'),
    },
    choices: {},
  },
  alternator: {
    words: 'Alternator',
    terminals: ['B+', 'case', 'F', 'D+'],
    quantities: {
      rated_current: quantity('current', 10, 600, 'amps on the nameplate'),
      cut_in_speed: quantity('speed', 500 * RPM, 2500 * RPM, 'shaft speed at which output begins'),
      low_speed_current: quantity('current', 1, 500, 'amps at 1800 rpm of its own shaft'),
      middle_speed_current: quantity('current', 1, 580, 'amps at 3000 rpm of its own shaft'),
      pulley_ratio: quantity('ratio', 0.8, 6, 'alternator turns for each engine turn'),
      field_resistance: quantity('resistance', 0.5, 40, 'rotor resistance, cold'),
    },
    choices: {
      excitation: { options: ['lamp', 'ignition', 'none'], words: 'what starts the field' },
      field_switching: { options: ['positive', 'negative'], words: 'side of the field that is switched' },
      field_reach: { options: ['reachable', 'hidden'], words: 'field terminal' },
    },
  },
  regulator: {
    words: 'Regulator',
    terminals: ['supply', 'F', 'sense', 'enable', 'ground'],
    quantities: {
      setpoint: quantity('voltage', 12, 32, 'charging voltage it holds'),
      start_delay: quantity('time', 0, 600, 'wait after start before it drives the field'),
      compensation: quantity(
        'voltagePerKelvin',
        -0.1,
        0.1,
        'change of the charging voltage with temperature',
      ),
      temperature_limit: quantity(
        'temperature',
        CELSIUS + 40,
        CELSIUS + 200,
        'alternator temperature it allows',
      ),
    },
    choices: { place: { options: ['inside', 'outside'], words: 'where the regulator is' } },
  },
  belt: {
    words: 'Belt',
    terminals: [],
    quantities: {
      age: quantity('time', 0, 40 * 31_557_600, 'age of the belt'),
      wrap_angle: quantity('angle', 60 * DEGREE, 270 * DEGREE, 'wrap round the alternator pulley'),
    },
    choices: {
      section: {
        options: ['v-10', 'v-13', 'two-v-13', 'ribbed-6', 'ribbed-8'],
        words: 'belt section',
      },
    },
  },
  battery: {
    words: 'Battery bank',
    terminals: ['+', '-'],
    quantities: {
      capacity: quantity('charge', 5 * AMP_HOUR, 5000 * AMP_HOUR, 'capacity (20-hour rating)'),
      age: quantity('time', 0, 40 * 31_557_600, 'age'),
      state_of_charge: quantity('ratio', 0, 1, 'state of charge before the engine was started'),
      temperature: quantity('temperature', CELSIUS - 40, CELSIUS + 70, 'battery temperature'),
      charge_limit: quantity('current', 1, 2000, 'charging amps that its protection allows (lithium)'),
      discharge_limit: quantity('current', 1, 5000, 'discharging amps that its protection allows (lithium)'),
      cell_spread: quantity(
        'charge',
        0,
        1000 * AMP_HOUR,
        'charge between its fullest and its emptiest cell (lithium)',
      ),
    },
    choices: {
      chemistry: { options: chemistries, words: 'chemistry' },
      duty: { options: ['house', 'start', 'both'], words: 'what it serves' },
    },
  },
  cable: {
    words: 'Cable',
    terminals: ['a', 'b'],
    quantities: {
      area: quantity('area', 0.3e-6, 300e-6, 'conductor size'),
      length: quantity('length', 0, 100, 'length, one way'),
      resistance: quantity('resistance', 0, 100, 'resistance, ends included'),
    },
    choices: {},
  },
  fuse: {
    words: 'Fuse',
    terminals: ['a', 'b'],
    quantities: { rating: quantity('current', 1, 1000, 'fuse rating') },
    choices: {},
  },
  selector: {
    words: 'Battery switch',
    terminals: ['common', 'one', 'two'],
    quantities: {},
    choices: { position: { options: ['off', 'one', 'two', 'both'], words: 'position' } },
  },
  isolator: {
    words: 'Isolator',
    terminals: ['in', 'one', 'two'],
    quantities: {},
    choices: { type: { options: ['diode', 'fet'], words: 'type' } },
  },
  relay: {
    words: 'Combining relay',
    terminals: ['a', 'b'],
    quantities: {
      close_voltage: quantity('voltage', 10, 32, 'voltage at which it closes'),
      open_voltage: quantity('voltage', 10, 32, 'voltage at which it opens'),
      close_delay: quantity('time', 0, 600, 'delay before it closes'),
    },
    choices: {},
  },
  load: {
    words: 'Loads',
    terminals: ['+', '-'],
    quantities: { current: quantity('current', 0, 1000, 'usual current') },
    choices: {},
  },
  source: {
    words: 'Another charging source',
    terminals: ['+', '-'],
    quantities: {
      current: quantity('current', 0, 1000, 'current it can give'),
      setpoint: quantity('voltage', 12, 32, 'charging voltage it holds'),
    },
    choices: { state: { options: ['on', 'off'], words: 'as found' } },
  },
  starter: { words: 'Starter', terminals: ['post', 'case'], quantities: {}, choices: {} },
  lamp: {
    words: 'Charge lamp',
    terminals: ['a', 'b'],
    quantities: { power: quantity('power', 0.1, 20, 'lamp power') },
    choices: {},
  },
  key: { words: 'Ignition key', terminals: ['in', 'out'], quantities: {}, choices: {} },
  gauge: { words: 'Panel voltmeter', terminals: ['+', '-'], quantities: {}, choices: {} },
} as const satisfies Record<string, PartKind>;

export type PartKindId = keyof typeof partKinds;
export const partKindIds = Object.keys(partKinds) as PartKindId[];

export type QuantityId<K extends PartKindId> = keyof (typeof partKinds)[K]['quantities'] & string;
export type ChoiceId<K extends PartKindId> = keyof (typeof partKinds)[K]['choices'] & string;
