/** Words shared by every battery law: what is given, what moves, what the hot functions need.
 *  Current is positive into the positive terminal, so charging is positive. */

export type BatteryChemistry = 'flooded' | 'agm' | 'gel' | 'lifepo4';

/** What does not change within a run. */
export interface BatteryLaw {
  readonly chemistry: BatteryChemistry;
  /** Which description to compute with; `rival` is a second, independent one. Default `main`. */
  readonly family?: 'main' | 'rival';
  /** Cells in series: 6 for 12 V and 12 for 24 V lead-acid, 4 or 8 for LiFePO4. */
  readonly cells: number;
  /** C20 as it is now, after any loss by age [C]. 100 Ah = 360 000 C. */
  readonly capacity: number;
  /** Resistance against new, 1 = new [–]. */
  readonly resistanceFactor: number;
  /** Charging current that it takes at a voltage, against the law's own [–]; default 1. The main lead-acid law only: the others
   *  have no part of their own for charging. */
  readonly acceptance?: number;
  /** 0 = none, 1 = heavily sulphated [–]. Lead-acid only. */
  readonly sulphation: number;
  /** Cells that are shorted inside [count]. */
  readonly shortedCells: number;
  /** Electrolyte or cell temperature [K]. */
  readonly temperature: number;
}

/** What a run moves. The three memories are voltages of the whole battery: see battery-polarisation.ts. */
export interface BatteryState {
  /** 0..1 [–] */
  stateOfCharge: number;
  /** Quick memory of the polarisation, minutes [V]. */
  polarisation: number;
  /** Slow memory of the polarisation, most of an hour [V]. */
  slowPolarisation: number;
  /** Memory that decays over hours of rest: surface charge when positive [V]. */
  surfaceCharge: number;
}

/** Constants of one battery in one state, t seconds after a change of current. Plain numbers only. */
export interface PreparedBattery {
  /** 0 Copetti lead-acid, 1 linear (both lithium laws), 2 Jackey lead-acid. */
  family: number;
  /** Rest voltage E [V]. */
  emf: number;
  /** Slope of E over state of charge [V per 1]; what an implicit step in time needs. */
  emfSlope: number;
  /** What is left of the polarisation before the change [V]. */
  offset: number;
  /** R, acts at once [Ω]. */
  ohmicResistance: number;
  /** g, settled share of f∞ − R·I [–]. */
  share: number;
  /** Family 0: i = perAmpere·|I|, amperes of a battery with C10 = 100 Ah [–]. */
  perAmpere: number;
  chargeScale: number;
  chargeConstant: number;
  dischargeScale: number;
  dischargeConstant: number;
  slopeStep: number;
  /** Families 1 and 2, the whole steady resistance [Ω]. */
  linearResistance: number;
  /** Family 2: further resistance of the charge side [Ω] and the width of its onset [A]. */
  rampResistance: number;
  rampWidth: number;
  /** Gassing, 0 cells = none. */
  gassingCells: number;
  gassingConductance: number;
}

export interface VoltageOut {
  /** [V] */
  voltage: number;
  /** [Ω] */
  dByCurrent: number;
}

export interface CurrentOut {
  /** [A] */
  current: number;
  /** [S] */
  dByVoltage: number;
}

/** What a hot voltage law reads, current [A], and writes. One object, since a number that is handed on is boxed. */
export interface VoltageAt extends VoltageOut {
  current: number;
}

/** What a hot current law reads, voltage [V], and writes. */
export interface CurrentAt extends CurrentOut {
  voltage: number;
}

export interface BatteryStep {
  /** Charge kept, at the rest voltage: the mean of before and after [J]. */
  stored: number;
  /** Energy lost in the main branch, negative while stored polarisation is given back [J]. */
  mainLoss: number;
  /** Energy taken by gassing: gas and heat together [J]. */
  gassingLoss: number;
  /** What of both warms the battery: water that is split and vents takes 1.48 V per cell away [J]. */
  heat: number;
  /** Charge that could not be stored because the battery was full, or given because it was empty [C]. */
  clippedCharge: number;
}
