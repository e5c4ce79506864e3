/** What an owner noticed, the one thing that is named first.
 *  Each answer has a weight: what anybody may say, and more by how much of it the boat shows.
 *    P(answer) = (base + strength · shown) / Σ        shown 0..1, steps at the limits below
 *  Base and strength are estimates: owners notice lamps and silence, seldom volts, and one in five says nothing certain.
 */
import type { Answer, View } from './check.ts';
import { cranking, fast } from './conditions.ts';
import { row, step } from './outcomes.ts';

export const noticed: readonly Answer[] = [
  { id: 'lamp-on', words: 'The charge lamp stays on while the engine runs' },
  { id: 'gauge-low', words: 'The gauge shows too little while the engine runs' },
  { id: 'cranks-slowly', words: 'The engine cranks slowly' },
  { id: 'flat-soon', words: 'The batteries are flat by morning' },
  { id: 'never-full', words: 'It charges, but the batteries never get full' },
  { id: 'hot-or-boiling', words: 'A hot smell, boiling batteries, or lamps too bright' },
  { id: 'squeals-or-dust', words: 'A squealing belt or black dust' },
  { id: 'tachometer-dead', words: 'The tachometer is dead or jumps' },
  { id: 'comes-and-goes', words: 'It charges on some days only' },
  { id: 'nothing-certain', words: 'Nothing certain' },
];

export function noticedChances(view: View, out: Float64Array): void {
  const { boat } = view;
  const point = view.at(fast);
  const volts = boat.nominalVoltage / 12;
  const today = boat.traits.presence >= 1;
  const lit = Math.max(0, ...point.lamps.map(({ glow }) => step(glow, 0.15, 0.04)));
  const low = Math.max(
    0,
    ...boat.gauges.map(
      ({ id }) => 1 - step(view.read(point, { kind: 'gauge-volts', gauge: id }) / volts, 13, 0.2),
    ),
  );
  const starter = boat.starters[0];
  const turning =
    starter === undefined
      ? boat.nominalVoltage
      : view.read(view.at(cranking), {
          kind: 'dc-volts',
          plus: `${starter.id}.post`,
          minus: `${boat.engines[0]?.id ?? 'engine'}.block`,
        });
  const slow = 1 - step(turning / boat.nominalVoltage, 0.7, 0.04);
  let flat = 0;
  let starved = 0;
  let high = boat.traits.heatSmell ? 0.6 : 0;
  for (const battery of boat.batteries) {
    const now = point.batteries.find(({ id }) => id === battery.id);
    high = Math.max(high, step((now?.voltage ?? 0) / volts, 14.9, 0.15));
    if (battery.duty === 'start') continue;
    const worn = Math.max(
      1 - step(battery.health, 0.55, 0.05),
      battery.sulphation,
      battery.shortedCells > 0 ? 1 : 0,
    );
    flat = Math.max(flat, worn, 1 - step(battery.stateOfCharge, 0.35, 0.06));
    // Below a twentieth of its ampere-hours a bank takes longer than an owner runs the engine.
    const share = ((now?.current ?? 0) * 3600) / battery.capacity;
    starved = Math.max(
      starved,
      (1 - step(share, 0.05, 0.012)) * (1 - step(battery.stateOfCharge, 0.8, 0.05)),
    );
  }
  const slips = Math.max(0, ...point.alternators.map(({ slip }) => step(slip, 0.06, 0.015)));
  const dust = Math.max(0, ...boat.belts.map((belt) => belt.dust));
  const silent = point.alternators.some(({ excited, fieldCurrent }) => !excited || fieldCurrent < 0.1)
    ? 0.6
    : 0;
  row(
    out,
    0.02 + 1.1 * lit,
    0.04 + 0.5 * low,
    0.04 + 0.6 * slow,
    0.1 + 0.6 * flat,
    0.08 + 0.4 * starved,
    0.02 + 0.5 * high,
    0.02 + 0.6 * Math.max(slips, 0.7 * dust),
    0.01 + 0.8 * Math.max(silent, boat.traits.deadTachometer === '' ? 0 : 1),
    0.03 + (today ? 0 : 0.9),
    0.25,
  );
}
