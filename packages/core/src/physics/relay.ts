/** Combining relay: joins two banks while either is being charged. A pure step of its state.
 *    open → closed   when the higher bank has been above V_close for the close delay
 *    closed → open   when both have been below V_open for the open delay
 *  V [V], delays [s]. Thresholds per 12 V are common practice: 13.3 V and 12.8 V; delays from seconds to minutes.
 *  Leaves out: relays worked by the ignition (a switch), one-way sensing (give the other bank as −Infinity), chatter. */

export interface RelayRules {
  readonly closeVoltage: number;
  readonly openVoltage: number;
  readonly closeDelay: number;
  readonly openDelay: number;
  /** Closed contacts [Ω]. */
  readonly contactResistance: number;
}

export interface RelayState {
  readonly closed: boolean;
  /** How long the threshold for a change has been met without a break [s]. */
  readonly waited: number;
}

/** Closes above 13.3 V for 20 s, opens below 12.8 V for 20 s, per 12 V. Common practice. */
export function typicalRelay(nominalVoltage: 12 | 24): RelayRules {
  const times = nominalVoltage / 12;
  return {
    closeVoltage: 13.3 * times,
    openVoltage: 12.8 * times,
    closeDelay: 20,
    openDelay: 20,
    contactResistance: 5e-4,
  };
}

/** The state `seconds` later, with the voltages held over that time. */
export function nextRelayState(
  rules: RelayRules,
  state: RelayState,
  firstVoltage: number,
  secondVoltage: number,
  seconds: number,
): RelayState {
  const highest = Math.max(firstVoltage, secondVoltage);
  const met = state.closed ? highest < rules.openVoltage : highest >= rules.closeVoltage;
  if (!met) return { closed: state.closed, waited: 0 };
  const waited = state.waited + seconds;
  const delay = state.closed ? rules.openDelay : rules.closeDelay;
  return waited >= delay ? { closed: !state.closed, waited: 0 } : { closed: state.closed, waited };
}
