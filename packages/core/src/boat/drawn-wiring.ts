/** Cables, switches and relays of a possible boat, drawn from what is known of them. */
import assumptions from './assumptions.json' with { type: 'json' };
import type { Conductor, Relay, Selector } from './boat.ts';
import type { PartDescription } from './description.ts';
import type { Latent } from './latent.ts';

/** Resistivity of annealed copper at 20 °C [Ω·m]. Source: IEC 60028. */
const COPPER = 1.7241e-8;

/** A selector that nobody told the position of stands on both banks, or on the first alone. Source: estimate. */
export function selectorAt(part: PartDescription<'selector'>, latent: Latent): Selector {
  const told = part.choices.position as Selector['position'] | undefined;
  const usual = told === undefined && latent.normal(`${part.id}: position`) > 0.25 ? 'one' : 'both';
  return { id: part.id, position: told ?? usual, contact: 0.0003 };
}

/** Both thresholds of a relay are off together, as its reference is. */
export function relayAt(part: PartDescription<'relay'>, volts: number, latent: Latent): Relay {
  const all = assumptions.relay;
  const known = part.quantities;
  const spread = all.threshold_spread_v * volts * (known.close_voltage === undefined ? 1 : 0.3);
  const shift = spread * latent.normal(`${part.id}: thresholds`);
  return {
    id: part.id,
    closeVoltage: (known.close_voltage?.value ?? all.close_v * volts) + shift,
    openVoltage: (known.open_voltage?.value ?? all.open_v * volts) + shift,
    closeDelay: known.close_delay?.value ?? all.close_delay_s,
    contact: 0.0005,
    state: 'good',
  };
}

export interface Joints {
  readonly positiveJoints: number;
  readonly returnJoints: number;
  readonly chargeCables: number;
  readonly greatest: number;
}

export function conductorAt(part: PartDescription<'cable'>, joints: Joints): Conductor {
  const all = assumptions.cable;
  const { area, length, resistance } = part.quantities;
  const back =
    /return|ground|common/.test(part.id) || part.from?.endsWith('.-') || part.to?.endsWith('.block');
  const usual = all.area_by_amps_mm2.find(([amps]) => joints.greatest <= (amps ?? 0))?.[1] ?? 70;
  const section = area?.value ?? usual * 1e-6;
  const vague =
    area === undefined || length === undefined || area.origin === 'assumed' ? joints.chargeCables : 1;
  const ends = (section < 5e-6 ? all.small_joint_mohm : all.joint_mohm) * 2e-3;
  return {
    id: part.id,
    from: part.from ?? '',
    to: part.to ?? '',
    resistance: resistance?.value ?? ((COPPER * (length?.value ?? all.length_m)) / section) * vague,
    joints: resistance === undefined ? ends * (back ? joints.returnJoints : joints.positiveJoints) : 0,
    area: section,
    length: length?.value ?? all.length_m,
    sized: area !== undefined && area.origin !== 'assumed',
    leakage: Infinity,
  };
}
