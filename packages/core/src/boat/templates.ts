/** The usual boats, wired the usual way: alternator stud to starter post to battery switch to battery, and the
 *  engine block as the return. A template only says what is bolted to what; sizes stay unknown until told.
 *  Source: common practice.
 */
import type { BoatDescription, Fact, PartDescription, Terminal } from './description.ts';
import type { TenFacts } from './facts.ts';
import type { ChoiceId, PartKindId, QuantityId } from './kinds.ts';

export const templateIds = [
  'one-battery',
  'selector-switch',
  'combining-relay',
  'diode-isolator',
  'two-alternators',
  'twin-engines',
] as const;
export type TemplateId = (typeof templateIds)[number];

export const templateWords: Readonly<Record<TemplateId, string>> = {
  'one-battery': 'One engine, one battery bank',
  'selector-switch': 'House and start banks, selector switch',
  'combining-relay': 'House and start banks, combining relay',
  'diode-isolator': 'House and start banks, diode isolator',
  'two-alternators': 'Two alternators on one engine',
  'twin-engines': 'Twin engines, a bank each',
};

/** The boat that a template and what is known of it describe. */
export function boatFromTemplate(template: TemplateId, facts: TenFacts = {}): BoatDescription {
  const parts = new PartList();
  layouts[template](parts, facts);
  return {
    nominalVoltage: facts.nominalVoltage ?? 12,
    parts: parts.list,
    changed: facts.changed ?? [],
  };
}

type Layout = (parts: PartList, facts: TenFacts) => void;

class PartList {
  readonly list: PartDescription[] = [];

  part<K extends PartKindId>(
    kind: K,
    id: string,
    known: {
      quantities?: { [Q in QuantityId<K>]?: Fact | undefined };
      choices?: { [C in ChoiceId<K>]?: string | undefined };
      serves?: string;
      label?: string;
      from?: Terminal;
      to?: Terminal;
    } = {},
  ): void {
    const { quantities = {}, choices = {}, ...rest } = known;
    this.list.push({ kind, id, ...rest, quantities: present(quantities), choices: present(choices) });
  }

  cable(
    id: string,
    from: Terminal,
    to: Terminal,
    known: { area?: Fact | undefined; length?: Fact | undefined } = {},
    label?: string,
  ): void {
    this.part('cable', id, { from, to, quantities: known, ...(label === undefined ? {} : { label }) });
  }
}

function present<T extends object>(record: T): { [P in keyof T]?: Exclude<T[P], undefined> } {
  const kept = Object.entries(record).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as { [P in keyof T]?: Exclude<T[P], undefined> };
}

const assumed = (value: number): Fact => ({ value, origin: 'assumed' });

/** One engine with its starter, ignition key and alternator. */
function engineRoom(parts: PartList, facts: TenFacts, suffix = ''): void {
  const engine = `engine${suffix}`;
  const idle = facts.idleSpeed;
  parts.part('engine', engine, { quantities: { idle_speed: idle } });
  parts.part('starter', `starter${suffix}`, { serves: engine });
  parts.part('key', `key${suffix}`, { serves: engine });
  parts.cable(`key-feed${suffix}`, `starter${suffix}.post`, `key${suffix}.in`, {
    area: assumed(2.5e-6),
    length: assumed(3),
  });
  alternator(parts, facts, suffix, engine, `key${suffix}`);
}

/** An alternator with its belt, regulator and whatever starts its field. */
function alternator(
  parts: PartList,
  facts: TenFacts,
  suffix: string,
  engine: string,
  key: string,
  senseAt?: Terminal,
): void {
  const id = `alternator${suffix}`;
  const regulator = `regulator${suffix}`;
  const place = facts.regulatorPlace;
  parts.part('alternator', id, {
    serves: engine,
    quantities: { rated_current: facts.alternatorCurrent },
    choices: { excitation: facts.excitation },
  });
  parts.part('belt', `belt${suffix}`, { serves: id, choices: { section: facts.beltSection } });
  parts.part('regulator', regulator, { serves: id, choices: { place } });
  parts.cable(`alternator-return${suffix}`, `${id}.case`, `${engine}.block`, { length: assumed(0) });
  if (place === 'outside') {
    const lead = { area: assumed(1.5e-6), length: assumed(2) };
    parts.cable(`regulator-supply${suffix}`, `${id}.B+`, `${regulator}.supply`, lead);
    parts.cable(`field-lead${suffix}`, `${regulator}.F`, `${id}.F`, lead);
    parts.cable(`sense-lead${suffix}`, senseAt ?? `${id}.B+`, `${regulator}.sense`, lead);
    parts.cable(`enable-lead${suffix}`, `${key}.out`, `${regulator}.enable`, lead);
    parts.cable(`regulator-ground${suffix}`, `${regulator}.ground`, `${engine}.block`, lead);
  } else if (facts.excitation === 'ignition') {
    const lead = { area: assumed(1e-6), length: assumed(3) };
    parts.cable(`enable-lead${suffix}`, `${key}.out`, `${regulator}.enable`, lead);
  } else if (facts.excitation !== 'none') {
    const lead = { area: assumed(1e-6), length: assumed(3) };
    parts.part('lamp', `lamp${suffix}`);
    parts.cable(`lamp-feed${suffix}`, `${key}.out`, `lamp${suffix}.a`, lead);
    parts.cable(`excitation-lead${suffix}`, `lamp${suffix}.b`, `${id}.D+`, lead);
  }
}

function bank(parts: PartList, id: string, duty: 'house' | 'start' | 'both', facts?: TenFacts): void {
  parts.part('battery', id, {
    quantities: { capacity: facts?.bankCapacity },
    choices: { chemistry: facts?.bankChemistry, duty },
  });
}

/** Usual loads behind the panel, and the panel's voltmeter which reads through the panel's own wiring. */
function panel(parts: PartList, facts: TenFacts, feed: Terminal, back: Terminal): void {
  parts.part('load', 'loads', { quantities: { current: facts.loadsCurrent } });
  parts.cable('panel-feed', feed, 'loads.+', { area: assumed(10e-6), length: assumed(3) });
  parts.cable('panel-return', 'loads.-', back, { area: assumed(10e-6), length: assumed(3) });
  parts.part('gauge', 'panel-gauge', { from: 'loads.+', to: 'loads.-' });
}

const heavy = { area: assumed(50e-6), length: assumed(1.5) };
const chargeCable = (facts: TenFacts) => ({ area: facts.cableArea, length: facts.cableLength });

const layouts: Readonly<Record<TemplateId, Layout>> = {
  'one-battery': (parts, facts) => {
    engineRoom(parts, facts);
    bank(parts, 'battery', 'both', facts);
    parts.part('selector', 'switch', { choices: { position: 'one' } });
    parts.part('fuse', 'main-fuse');
    parts.cable('charge-cable', 'alternator.B+', 'starter.post', chargeCable(facts));
    parts.cable('start-cable', 'starter.post', 'switch.common', heavy);
    parts.cable('switch-cable', 'switch.one', 'main-fuse.a', heavy);
    parts.cable('fuse-cable', 'main-fuse.b', 'battery.+', { ...heavy, length: assumed(0.3) });
    parts.cable('return-cable', 'battery.-', 'engine.block', heavy);
    panel(parts, facts, 'switch.common', 'battery.-');
  },
  'selector-switch': (parts, facts) => {
    engineRoom(parts, facts);
    bank(parts, 'house', 'house', facts);
    bank(parts, 'start', 'start');
    parts.part('selector', 'switch');
    parts.part('fuse', 'main-fuse');
    parts.cable('charge-cable', 'alternator.B+', 'starter.post', chargeCable(facts));
    parts.cable('start-cable', 'starter.post', 'switch.common', heavy);
    parts.cable('house-cable', 'switch.one', 'main-fuse.a', heavy);
    parts.cable('fuse-cable', 'main-fuse.b', 'house.+', { ...heavy, length: assumed(0.3) });
    parts.cable('start-battery-cable', 'switch.two', 'start.+', heavy);
    parts.cable('return-cable', 'house.-', 'engine.block', heavy);
    parts.cable('start-return', 'start.-', 'house.-', { ...heavy, length: assumed(0.5) });
    panel(parts, facts, 'switch.common', 'house.-');
  },
  'combining-relay': (parts, facts) => {
    engineRoom(parts, facts);
    bank(parts, 'house', 'house', facts);
    bank(parts, 'start', 'start');
    parts.part('relay', 'relay');
    parts.part('fuse', 'main-fuse');
    parts.cable('charge-cable', 'alternator.B+', 'starter.post', chargeCable(facts));
    parts.cable('start-battery-cable', 'starter.post', 'start.+', heavy);
    parts.cable('relay-start-cable', 'start.+', 'relay.a', { area: assumed(25e-6), length: assumed(1) });
    parts.cable('relay-house-cable', 'relay.b', 'main-fuse.a', { area: assumed(25e-6), length: assumed(1) });
    parts.cable('fuse-cable', 'main-fuse.b', 'house.+', { ...heavy, length: assumed(0.3) });
    parts.cable('return-cable', 'start.-', 'engine.block', heavy);
    parts.cable('house-return', 'house.-', 'start.-', heavy);
    panel(parts, facts, 'main-fuse.a', 'house.-');
  },
  'diode-isolator': (parts, facts) => {
    engineRoom(parts, facts);
    bank(parts, 'house', 'house', facts);
    bank(parts, 'start', 'start');
    parts.part('isolator', 'isolator', { choices: { type: 'diode' } });
    parts.part('fuse', 'main-fuse');
    parts.cable('charge-cable', 'alternator.B+', 'isolator.in', chargeCable(facts));
    parts.cable('isolator-house-cable', 'isolator.one', 'main-fuse.a', {
      area: assumed(25e-6),
      length: assumed(1.5),
    });
    parts.cable('isolator-start-cable', 'isolator.two', 'start.+', {
      area: assumed(25e-6),
      length: assumed(1.5),
    });
    parts.cable('fuse-cable', 'main-fuse.b', 'house.+', { ...heavy, length: assumed(0.3) });
    parts.cable('start-cable', 'start.+', 'starter.post', heavy);
    parts.cable('return-cable', 'start.-', 'engine.block', heavy);
    parts.cable('house-return', 'house.-', 'start.-', heavy);
    panel(parts, facts, 'main-fuse.a', 'house.-');
  },
  'two-alternators': (parts, facts) => {
    engineRoom(parts, { excitation: 'lamp', ...(facts.idleSpeed ? { idleSpeed: facts.idleSpeed } : {}) });
    bank(parts, 'house', 'house', facts);
    bank(parts, 'start', 'start');
    alternator(
      parts,
      { regulatorPlace: 'outside', excitation: 'ignition', ...facts },
      '-house',
      'engine',
      'key',
      facts.regulatorPlace === 'inside' ? undefined : 'house.+',
    );
    parts.part('fuse', 'main-fuse');
    parts.cable('start-charge-cable', 'alternator.B+', 'starter.post');
    parts.cable('start-cable', 'starter.post', 'start.+', heavy);
    parts.cable('charge-cable', 'alternator-house.B+', 'main-fuse.a', chargeCable(facts));
    parts.cable('fuse-cable', 'main-fuse.b', 'house.+', { ...heavy, length: assumed(0.3) });
    parts.cable('return-cable', 'start.-', 'engine.block', heavy);
    parts.cable('house-return', 'house.-', 'engine.block', heavy);
    panel(parts, facts, 'house.+', 'house.-');
  },
  'twin-engines': (parts, facts) => {
    engineRoom(parts, facts, '-port');
    engineRoom(parts, facts, '-starboard');
    bank(parts, 'house', 'both', facts);
    bank(parts, 'start', 'both', facts);
    parts.part('selector', 'parallel-switch', { choices: { position: 'off' } });
    parts.part('fuse', 'main-fuse');
    parts.cable('charge-cable', 'alternator-port.B+', 'starter-port.post', chargeCable(facts));
    parts.cable(
      'charge-cable-starboard',
      'alternator-starboard.B+',
      'starter-starboard.post',
      chargeCable(facts),
    );
    parts.cable('start-cable-port', 'starter-port.post', 'main-fuse.a', heavy);
    parts.cable('fuse-cable', 'main-fuse.b', 'house.+', { ...heavy, length: assumed(0.3) });
    parts.cable('start-cable-starboard', 'starter-starboard.post', 'start.+', heavy);
    parts.cable('parallel-port', 'house.+', 'parallel-switch.common', heavy);
    parts.cable('parallel-starboard', 'start.+', 'parallel-switch.one', heavy);
    parts.cable('return-cable', 'house.-', 'engine-port.block', heavy);
    parts.cable('start-return', 'start.-', 'engine-starboard.block', heavy);
    parts.cable('common-return', 'engine-port.block', 'engine-starboard.block', heavy);
    panel(parts, facts, 'house.+', 'house.-');
  },
};
