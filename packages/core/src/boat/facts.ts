/** The ten facts that an electrician can learn about a charging system in a minute, each of which may stay unknown. */
import type { Change, Fact } from './description.ts';
import type { Chemistry } from './kinds.ts';

export interface TenFacts {
  readonly nominalVoltage?: 12 | 24;
  /** Amps on the alternator's nameplate. */
  readonly alternatorCurrent?: Fact;
  readonly regulatorPlace?: 'inside' | 'outside';
  readonly excitation?: 'lamp' | 'ignition' | 'none';
  /** Capacity of the bank to be charged (the house bank where there are two) [C]. */
  readonly bankCapacity?: Fact;
  readonly bankChemistry?: Chemistry;
  /** The cable from the alternator's stud. */
  readonly cableArea?: Fact;
  readonly cableLength?: Fact;
  readonly beltSection?: 'v-10' | 'v-13' | 'two-v-13' | 'ribbed-6' | 'ribbed-8';
  readonly idleSpeed?: Fact;
  /** Usual loads while charging [A]. */
  readonly loadsCurrent?: Fact;
  readonly changed?: readonly Change[];
}
