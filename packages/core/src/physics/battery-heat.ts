/** Warmth of a bank: one node, in the air of its place.
 *    C = m · c                  m = C20 · V_n / e             the mass that its kind needs for its energy
 *    G = h · A                  A = 5 · (m / ρ)^⅔             a cube that stands on its base
 *    C dT/dt = P − G · (T − T_place)                          P: overpotential times current, and what gassing leaves
 *  C [J/K]  m [kg]  c [J/(kg·K)]  V_n 2.0 V a lead-acid cell, 3.2 V a LiFePO4 cell  e [J/kg]  G [W/K]  h [W/(m²·K)]
 *  Source: heat balance. h = 8 W/(m²·K), still air and radiation (textbook, from memory; a closed box halves it, a fan
 *  doubles it). Mass, density and specific heat: data/batteries, from memory. A flooded bank of 500 Ah comes out at 0.15 K/W
 *  and some 6 h; [CERAOLO2000, from memory] has 0.2 K/W and 3 h.
 *  Valid: banks of 20 to 2000 Ah.  Leaves out: the reversible heat of the reaction, gradients inside, an engine space that
 *  warms a bank standing in it. */
import agm from '../../data/batteries/agm.json' with { type: 'json' };
import flooded from '../../data/batteries/flooded.json' with { type: 'json' };
import gel from '../../data/batteries/gel.json' with { type: 'json' };
import lifepo4 from '../../data/batteries/lifepo4.json' with { type: 'json' };

import type { BatteryChemistry } from './battery-law.ts';
import { requirePositive } from './guard.ts';

const THERMAL = {
  flooded: flooded.thermal,
  agm: agm.thermal,
  gel: gel.thermal,
  lifepo4: lifepo4.thermal,
} as const;
const FILM = 8; // W/(m²·K)
const JOULES_PER_WATT_HOUR = 3600;

export interface BatteryNode {
  /** [J/K]. */
  readonly capacity: number;
  /** To the air of its place [W/K]. */
  readonly conductance: number;
}

/** Node of a bank from what it is sold as: `charge` its C20 when new [C].
 *  Errors: RangeError for a charge or a number of cells that is not above 0. */
export function batteryNode(chemistry: BatteryChemistry, cells: number, charge: number): BatteryNode {
  requirePositive('batteryNode', 'charge', charge, 'C');
  requirePositive('batteryNode', 'cells', cells, '');
  const thermal = THERMAL[chemistry];
  const volts = cells * (chemistry === 'lifepo4' ? 3.2 : 2);
  const mass = (charge * volts) / (thermal.energy_Wh_per_kg * JOULES_PER_WATT_HOUR);
  const volume = mass / (thermal.density_kg_per_L * 1000);
  return {
    capacity: mass * thermal.specificHeat_J_per_kgK,
    conductance: FILM * 5 * volume ** (2 / 3),
  };
}
