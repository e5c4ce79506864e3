/** The trade's usual fixed order, played with the rules that a technician would apply: crank, volts before and after,
 *  volts at the stud, drops, excitation, field volts, full field, and at the end "replace the alternator".
 *  Source: common practice. It uses the same checks on the same hidden boat, with the same meters.
 */
import { minutesOf, type PlacedCheck } from '../../packages/core/src/checks/index.ts';
import type { Outcome } from '../../packages/core/src/readings/index.ts';
import { chargingPaths, partsOfKind } from '../../packages/core/src/boat/index.ts';
import type { Play } from './game.ts';
import type { Truth } from './truth.ts';

export function playTradeOrder(truth: Truth): Play {
  const order = new TradeOrder(truth);
  const { named, ended } = order.run();
  return {
    named: named.map((id) => ({ id, probability: 1 })),
    nothingFits: 0,
    ended,
    readings: order.log.length,
    minutes: minutesOf(order.taken) + order.hindered,
    log: order.log,
    path: [],
    seconds: [],
    operatingPoints: 0,
    notConverged: 0,
  };
}

interface Found {
  readonly named: readonly string[];
  readonly ended: string;
}

const found = (...named: readonly string[]): Found => ({ named, ended: 'decided' });

class TradeOrder {
  readonly taken: PlacedCheck[] = [];
  hindered = 0;
  readonly log: string[] = [];
  private readonly byId: Map<string, PlacedCheck>;
  private readonly scale: number;

  constructor(private readonly truth: Truth) {
    this.byId = new Map(truth.checks.map((check) => [check.id, check]));
    this.scale = truth.told.nominalVoltage / 12;
  }

  run(): Found {
    const cranks = this.answer('listen-cranking');
    if (cranks === 'slow' || cranks === 'clicks') {
      const start = partsOfKind(this.truth.told, 'battery').find(
        ({ choices }) => choices.duty !== 'house',
      )?.id;
      const rest = this.volts(`battery-volts-rest@${start}`);
      if (rest !== undefined && rest < 12.2) return found(`battery-flat@${start}`);
      if (this.answer(`look-posts@${start}`) === 'bad') return found(`post-clamp-loose@${start}`);
    }
    // Two engines are gone through one after the other.
    let last: Found = found('all-well');
    for (const path of chargingPaths(this.truth.told)) {
      last = this.onePath(path);
      if (last.named[0] !== 'all-well' && !last.named[0]?.startsWith('battery-flat')) return last;
    }
    return last;
  }

  private onePath(path: ReturnType<typeof chargingPaths>[number]): Found {
    const { alternator, battery, belt, regulator, lamp } = path;
    const rest = this.volts(`battery-volts-rest@${battery}`);
    const run = this.volts(`battery-volts-fast@${battery}`);
    const outside = this.byId.has(`sense-volts@${alternator}`);
    if (run !== undefined) {
      if (run > 15.2) {
        return found(
          outside ? `regulator-stuck-full@${regulator}` : `internal-regulator-stuck-full@${regulator}`,
        );
      }
      if (run >= 13.5) return found('all-well');
      // It rises well: an empty bank takes what there is.
      if (rest !== undefined && run - rest > 0.5 && rest < 12.2)
        return found(`battery-flat@${battery}`, 'all-well');
    }
    const stud = this.volts(`stud-volts-fast@${alternator}`);
    if (stud !== undefined && run !== undefined && stud - run > 0.4) return this.drops(path);
    const looks = belt === undefined ? undefined : this.answer(`look-belt@${belt}`);
    if (looks === 'missing') return found(`belt-broken@${belt}`);
    if (looks === 'loose') return found(`belt-slipping@${belt}`);
    if (looks === 'dusty') return found(`belt-misaligned@${belt}`);
    if (rest !== undefined && run !== undefined && run - rest > 0.4) {
      return found(`diode-open@${alternator}`, `alternator-heat-soaked@${alternator}`);
    }
    if (lamp !== undefined) {
      const glows = this.answer(`look-lamp-key-on@${lamp}`);
      if (glows === 'dark') {
        const volts = this.volts(`excitation-volts-key@${alternator}`);
        return volts !== undefined && volts > 1
          ? found(`brushes-worn@${alternator}`)
          : found(`charge-lamp-blown@${lamp}`, ...this.lead('excitation-lead-open', path.alternator, 'D+'));
      }
    }
    if (this.byId.has(`enable-volts@${alternator}`)) {
      const enable = this.volts(`enable-volts@${alternator}`);
      if (enable !== undefined && enable < 10)
        return found(...this.lead('enable-lead-open', regulator, 'enable'));
    }
    if (this.byId.has(`field-volts@${alternator}`)) {
      const delay = this.answer(`charging-comes-in@${alternator}`);
      if (delay === 'later') return found(`regulator-start-delay@${regulator}`);
      const field = this.volts(`field-volts@${alternator}`);
      if (field !== undefined && field < 3) {
        const amps = this.number(`full-field-amps@${alternator}`);
        if (amps !== undefined && amps > 15) return found(`regulator-dead@${regulator}`);
      }
    }
    return found(`replace-alternator@${alternator}`);
  }

  /** The stud is well above the battery: where is it lost? */
  private drops(path: ReturnType<typeof chargingPaths>[number]): Found {
    const { told } = this.truth;
    const back = this.volts(`drop-return@${path.alternator}`);
    if (back !== undefined && Math.abs(back) > 0.3) return found(...this.any('return-resistive'));
    for (const fuse of partsOfKind(told, 'fuse')) {
      if (!path.outward.includes(`${fuse.id}.a`)) continue;
      if (this.answer(`look-fuse@${fuse.id}`) === 'blown') return found(`main-fuse-open@${fuse.id}`);
      const lost = this.volts(`drop-fuse@${fuse.id}`);
      if (lost !== undefined && Math.abs(lost) > 0.3) return found(`fuse-resistive@${fuse.id}`);
    }
    for (const { id } of partsOfKind(told, 'selector')) {
      if (!path.outward.includes(`${id}.common`)) continue;
      const stands = this.answer(`look-switch@${id}`);
      if (stands === 'off') return found(`switch-off@${id}`);
      if (stands === 'two') return found(`switch-wrong-bank@${id}`);
      const lost = this.volts(`drop-switch@${id}`);
      if (lost !== undefined && Math.abs(lost) > 0.3) return found(`switch-resistive@${id}`);
    }
    for (const { id } of partsOfKind(told, 'relay')) {
      if (this.answer(`look-relay@${id}`) === 'no') return found(`relay-never-closes@${id}`);
    }
    for (const { id } of partsOfKind(told, 'isolator')) {
      const lost = this.volts(`drop-isolator@${id}`);
      if (lost !== undefined && lost > 1.2) return found(`isolator-leg-open@${id}`);
    }
    if (this.answer(`look-posts@${path.battery}`) === 'bad') return found(`post-clamp-loose@${path.battery}`);
    const forward = this.volts(`drop-positive@${path.alternator}`);
    const thin = this.answer(`look-charge-cable@${path.alternator}`) === 'thin';
    const cable = partsOfKind(told, 'cable').find(({ from }) => from === `${path.alternator}.B+`)?.id;
    if (thin) return found(`charge-cable-undersized@${cable}`);
    return forward !== undefined && forward > 3
      ? found(`charge-cable-open@${cable}`)
      : found(`charge-cable-resistive@${cable}`, ...this.any('feed-cable-resistive'));
  }

  private lead(fault: string, part: string | undefined, terminal: string): string[] {
    const cable = partsOfKind(this.truth.told, 'cable').find(({ to }) => to === `${part}.${terminal}`);
    return cable === undefined ? [] : [`${fault}@${cable.id}`];
  }

  /** A technician finds the bad joint once he knows the side: he is given the right place. */
  private any(fault: string): string[] {
    const right = this.truth.faults.find((one) => one.fault.id === fault);
    return [right?.id ?? `${fault}@`];
  }

  private take(id: string): Outcome | undefined {
    const check = this.byId.get(id);
    if (check === undefined) return undefined;
    const outcome = this.truth.outcome(check);
    if (outcome.kind === 'could-not') this.hindered++;
    else this.taken.push(check);
    this.log.push(
      `${id}=${'value' in outcome ? outcome.value.toPrecision(4) : 'answer' in outcome ? outcome.answer : '-'}`,
    );
    return outcome;
  }

  private answer(id: string): string | undefined {
    const outcome = this.take(id);
    return outcome?.kind === 'answer' ? outcome.answer : undefined;
  }

  private number(id: string): number | undefined {
    const outcome = this.take(id);
    return outcome?.kind === 'number' ? outcome.value : undefined;
  }

  /** Volts as on a 12 V boat. */
  private volts(id: string): number | undefined {
    const value = this.number(id);
    return value === undefined ? undefined : value / this.scale;
  }
}
