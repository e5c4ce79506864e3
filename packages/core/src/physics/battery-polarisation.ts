/** How the overpotential of a battery follows a change of current.
 *    q(I) = f∞(I) − R·I                      settled polarisation, beyond the ohmic drop
 *    P    = a0·q + a1·u1 + a2·u2 + a3·u3       a0 + a1 + a2 + a3 = 1
 *    u_k' = (q − u_k)/τ_k                      k: 1 quick, 2 slow, 3 surface charge
 *  For constant current t after a change, from memories u_k:
 *    P(t) = g·q + Σ a_k·e^(−t/τ_k)·u_k,   g(t) = 1 − Σ a_k·e^(−t/τ_k)
 *  With u1 = u2 = u3 = P_before this is P(t) = g·q + (1 − g)·P_before; g(0) = a0, the charge transfer.
 *  q, u_k, P [V, whole battery]  t, τ_k [s]  a_k [–]
 *  While discharging, positive surface charge is also stripped by the charge that leaves:
 *    1/τ3 + |I|/(strip·C20).
 *  Source: shares and times are estimates, with their reasons in data/batteries/*.json.
 *  Leaves out: dependence of τ on temperature and acid stratification; hours-long tails of gel. */

import agm from '../../data/batteries/agm.json' with { type: 'json' };
import flooded from '../../data/batteries/flooded.json' with { type: 'json' };
import gel from '../../data/batteries/gel.json' with { type: 'json' };
import lifepo4 from '../../data/batteries/lifepo4.json' with { type: 'json' };

import type { BatteryLaw, BatteryState } from './battery-law.ts';

export interface PolarisationShares {
  readonly immediateShare: number;
  readonly quickShare: number;
  readonly slowShare: number;
  readonly surfaceShare: number;
  readonly quickTime_s: number;
  readonly slowTime_s: number;
  readonly surfaceTime_s: number;
  readonly surfaceStrip_ratioOfC20: number;
}

const SHARES: Readonly<Record<BatteryLaw['chemistry'], PolarisationShares>> = {
  flooded: flooded.polarisation,
  agm: agm.polarisation,
  gel: gel.polarisation,
  lifepo4: lifepo4.polarisation,
};

/** Shares and time constants of a chemistry. */
export function polarisationShares(chemistry: BatteryLaw['chemistry']): PolarisationShares {
  return SHARES[chemistry];
}

/** g(t), share of the settled polarisation that has arrived t seconds after a change of current [0..1]. */
export function settledShare(shares: PolarisationShares, elapsed: number): number {
  return (
    1 -
    shares.quickShare * Math.exp(-elapsed / shares.quickTime_s) -
    shares.slowShare * Math.exp(-elapsed / shares.slowTime_s) -
    shares.surfaceShare * Math.exp(-elapsed / shares.surfaceTime_s)
  );
}

/** What is left of the polarisation before the change, t seconds after it [V, whole battery]. */
export function rememberedPolarisation(
  shares: PolarisationShares,
  state: BatteryState,
  elapsed: number,
): number {
  if (elapsed === Infinity) return 0;
  return (
    shares.quickShare * Math.exp(-elapsed / shares.quickTime_s) * state.polarisation +
    shares.slowShare * Math.exp(-elapsed / shares.slowTime_s) * state.slowPolarisation +
    shares.surfaceShare * Math.exp(-elapsed / shares.surfaceTime_s) * state.surfaceCharge
  );
}

/** Move the three memories of `state` in time, in place: exact for a constant settled polarisation.
 *  settled = q [V]  current = main-branch current [A]  capacity = C20 [C]  duration [s] */
export function relaxPolarisation(
  shares: PolarisationShares,
  state: BatteryState,
  settled: number,
  current: number,
  capacity: number,
  duration: number,
): void {
  const quick = Math.exp(-duration / shares.quickTime_s);
  const slow = Math.exp(-duration / shares.slowTime_s);
  const stripping =
    state.surfaceCharge > 0 && current < 0 ? -current / (shares.surfaceStrip_ratioOfC20 * capacity) : 0;
  const surface = Math.exp(-duration * (1 / shares.surfaceTime_s + stripping));
  state.polarisation = settled + (state.polarisation - settled) * quick;
  state.slowPolarisation = settled + (state.slowPolarisation - settled) * slow;
  state.surfaceCharge = settled + (state.surfaceCharge - settled) * surface;
}
