/** Everything in a run that changes by itself, but charge stages: combining relays, protection switches, fuses, engines that
 *  stall. */
import type { Boat } from '../boat/index.ts';
import type { HeldState } from './held-state.ts';
import { alternatorsWithoutBank } from './load-dump.ts';
import type { Plant } from './plant.ts';
import type { RunEvent } from './run-plan.ts';
import { advanceFuses, fuseKeepers, stepToMelting, untilMelted, type FuseKeeper } from './run-fuses.ts';
import type { Moment } from './run-moment.ts';
import {
  advanceProtections,
  protectionKeepers,
  stepToProtection,
  untilProtection,
  type ProtectionKeeper,
} from './run-protection.ts';
import { advanceRelays, relayKeepers, stepToCrossing, untilRelay, type RelayKeeper } from './run-relay.ts';
import { advanceEngines, engineKeepers, stepToStall, type EngineKeeper } from './run-stall.ts';

/** Output from which a machine that loses its bank is said to lose its load [A]. */
const DUMPED = 2;

export class RunSwitches {
  private readonly relays: RelayKeeper[];
  private readonly protections: ProtectionKeeper[];
  private readonly fuses: FuseKeeper[];
  private readonly engines: EngineKeeper[];
  /** By alternator: that it works without a bank has been told. */
  private readonly told: boolean[];
  /** Machines without a bank that takes charge. */
  private alone: readonly boolean[] = [];

  constructor(
    private readonly boat: Boat,
    private readonly plant: Plant,
  ) {
    this.relays = relayKeepers(boat);
    this.protections = protectionKeepers(boat);
    this.fuses = fuseKeepers(boat);
    this.engines = engineKeepers(boat);
    this.told = boat.alternators.map(() => false);
  }

  /** Positions for the operator. */
  held(): Pick<HeldState, 'relays' | 'gates' | 'stalled'> {
    const relays = this.relays.map(({ state }) => state.closed);
    const stalled = this.stalled();
    if (this.protections.length === 0) return { relays, stalled };
    const gates = this.boat.batteries.map((_, i) => this.protections.find(({ bank }) => bank === i)?.state);
    return { relays, stalled, gates };
  }

  /** Which engines have stalled, in their order. */
  stalled(): boolean[] {
    return this.engines.map(({ stalled }) => stalled);
  }

  /** Starts the engines that had stalled. */
  restart(): void {
    for (const keeper of this.engines) keeper.stalled = false;
  }

  /** Time to the next change by the clock [s]. */
  until({ relays, cells, fuses }: Moment): number {
    return Math.min(
      untilRelay(this.relays, relays),
      untilProtection(this.protections, cells),
      untilMelted(this.fuses, fuses),
    );
  }

  /** A shorter step that ends where something changes; undefined when nothing does within this one. */
  stepToChange(from: Moment, to: Moment, step: number): number | undefined {
    const relay = stepToCrossing(this.relays, from.relays, to.relays, step);
    const protection = stepToProtection(this.protections, from.cells, to.cells, step);
    const fuse = stepToMelting(this.fuses, from.fuses, to.fuses, step);
    const stall = stepToStall(this.engines, from.engineShares, to.engineShares, step);
    const first = Math.min(...[relay, protection, fuse, stall].map((one) => one ?? Infinity));
    return first === Infinity ? undefined : first;
  }

  /** Moves everything on by a step that was taken; what happened. The plant stands solved at its end. */
  advance(from: Moment, to: Moment, step: number, time: number): RunEvent[] {
    const relays = advanceRelays(this.relays, from.relays, to.relays, step).map(
      ({ index, state }): RunEvent => ({
        time,
        part: this.boat.relays[index]?.id ?? '',
        kind: state.closed ? 'relay-closed' : 'relay-opened',
      }),
    );
    const protections = advanceProtections(this.protections, to.cells, step).flatMap(
      ({ keeper: { id, bank, state, limits }, was }) => {
        const event = (kind: RunEvent['kind']): RunEvent => ({ time, part: id, kind });
        const opened = (kind: RunEvent['kind'], way: 'charge' | 'discharge'): RunEvent => {
          if (state.tripped !== way || was.tripped === way) return { ...event(kind), reason: state.reason };
          const { most, assumed } = limits[way];
          const current = Math.abs(to.cells.currents[bank] ?? 0);
          return {
            ...event(kind),
            reason: 'over-current',
            current,
            ...(assumed ? { assumedLimit: most } : {}),
          };
        };
        return [
          ...(state.chargeOpen && !was.chargeOpen ? [opened('charging-opened', 'charge')] : []),
          ...(state.dischargeOpen && !was.dischargeOpen ? [opened('discharging-opened', 'discharge')] : []),
          ...(was.chargeOpen && !state.chargeOpen ? [event('charging-closed')] : []),
          ...(was.dischargeOpen && !state.dischargeOpen ? [event('discharging-closed')] : []),
        ];
      },
    );
    const melted = advanceFuses(this.fuses, this.plant, from.fuses, to.fuses, step).map(
      ({ id, index, rating, assumed }): RunEvent => ({
        time,
        part: id,
        kind: 'fuse-melted',
        current: to.fuses[index] ?? 0,
        ...(assumed ? { assumedLimit: rating } : {}),
      }),
    );
    const stalled = advanceEngines(this.engines, to.engineShares).map(({ id, index }): RunEvent => ({
      time,
      part: id,
      kind: 'engine-stalls',
      share: to.engineShares[index] ?? 0,
    }));
    return [...relays, ...protections, ...melted, ...stalled];
  }

  /** Machines that charged in the moment before a change and have no bank that takes charge after it. */
  loadDumps({ point: { alternators } }: Moment, time: number): RunEvent[] {
    const was = this.alone;
    this.look();
    return alternators.flatMap(({ id, output }, i): RunEvent[] => {
      if (this.alone[i] !== true) this.told[i] = false;
      if (this.alone[i] !== true || was[i] === true || output <= DUMPED) return [];
      this.told[i] = true;
      return [{ time, part: id, kind: 'load-dump', current: output }];
    });
  }

  /** Machines that have come to work without a bank that takes charge. */
  workingAlone({ point: { alternators } }: Moment, time: number): RunEvent[] {
    return alternators.flatMap(({ id, output }, i): RunEvent[] => {
      if (this.alone[i] !== true || this.told[i] === true || output <= DUMPED) return [];
      this.told[i] = true;
      return [{ time, part: id, kind: 'without-bank', current: output }];
    });
  }

  /** Sees which machines have a bank, the plant standing as it is. */
  look(): void {
    this.alone = alternatorsWithoutBank(this.plant, (bank) => {
      const keeper = this.protections.find((one) => one.bank === bank);
      if (keeper !== undefined) return !keeper.state.chargeOpen;
      return this.boat.batteries[bank]?.protection !== 'open';
    });
  }
}
