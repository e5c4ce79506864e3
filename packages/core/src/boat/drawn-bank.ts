/** A bank of a possible boat, drawn from what is known of it. */
import assumptions from './assumptions.json' with { type: 'json' };
import type { Battery } from './boat.ts';
import type { BoatDescription, PartDescription } from './description.ts';
import type { Chemistry } from './kinds.ts';
import type { Latent } from './latent.ts';

const AMP_HOUR = 3600;

export function batteryAt(
  part: PartDescription<'battery'>,
  description: BoatDescription,
  ambient: number,
  latent: Latent,
): Battery {
  const all = assumptions.battery;
  const known = part.quantities;
  const volts = description.nominalVoltage / 12;
  const chemistry = (part.choices.chemistry ?? 'flooded') as Chemistry;
  const starts = part.choices.duty === 'start';
  const told = known.state_of_charge;
  const middle =
    told === undefined ? (starts ? all.start_charge_middle : all.charge_middle) : chargeMiddle(told.value);
  const spread =
    told === undefined
      ? starts
        ? all.start_charge_spread
        : all.charge_spread
      : told.origin === 'measured'
        ? 0.12
        : 0.4;
  // A bank that also cranks has cranked: the engine of these readings runs.
  const least = part.choices.duty === 'house' ? 0.03 : 0.12;
  const share = normalShare(middle + spread * latent.normal(`${part.id}: state of charge`));
  const charge = told === undefined ? least + (1 - least) * share : share;
  return {
    id: part.id,
    chemistry,
    duty: (part.choices.duty ?? 'both') as Battery['duty'],
    cells: (chemistry === 'lifepo4' ? 4 : 6) * volts,
    capacity: latent.positive(
      `${part.id}: capacity`,
      known.capacity,
      ((starts ? all.start_ah : all.house_ah) * AMP_HOUR) / volts,
      all.capacity_spread,
    ),
    health: Math.min(
      1.05,
      Math.max(0.5, all.health + all.health_spread * latent.normal(`${part.id}: capacity left`)),
    ),
    stateOfCharge: charge,
    temperature: known.temperature?.value ?? ambient,
    resistanceFactor:
      all.resistance_by_duty[(part.choices.duty ?? 'both') as Battery['duty']] *
      Math.exp(all.resistance_spread * latent.normal(`${part.id}: resistance`)),
    acceptance: chemistry === 'lifepo4' ? 1 : acceptanceAt(latent.normal(`${part.id}: acceptance`)),
    sulphation: 0,
    shortedCells: 0,
    protection: 'closed',
    chargeLimit: known.charge_limit?.value,
    dischargeLimit: known.discharge_limit?.value,
    cellSpread: known.cell_spread?.value,
    surfaceVoltage:
      (all.surface_v + all.surface_spread_v * latent.normal(`${part.id}: surface charge`)) * volts,
  };
}

/** Acceptance of a lead bank, in those of its law. Of the two published laws one takes as little as the trade's rule (a quarter of the
 *  ampere-hours), the other four times that: the middle is the rule, and the spread is wider above it. */
function acceptanceAt(x: number): number {
  const { acceptance, acceptance_spread_below, acceptance_spread_above } = assumptions.battery;
  return acceptance * Math.exp((x < 0 ? acceptance_spread_below : acceptance_spread_above) * x);
}

/** Share of charge for a normal coordinate, logistic: 1/(1 + e^(-1.7 x)), close to Φ and cheap to invert. */
const normalShare = (x: number): number => 0.01 + 0.99 / (1 + Math.exp(-1.7 * x));
const chargeMiddle = (share: number): number => {
  const inner = Math.min(0.995, Math.max(0.005, (share - 0.01) / 0.99));
  return -Math.log(1 / inner - 1) / 1.7;
};
