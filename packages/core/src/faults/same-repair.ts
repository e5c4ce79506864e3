/** Which states are one repair. */
import type { PlacedFault } from './fault.ts';

/** States are the same repair when they are of one family, of one nature, on one part, and buy the same.
 *  Several of the exchange of an alternator are one repair whatever broke inside it. */
export function sameRepair(a: PlacedFault, b: PlacedFault): boolean {
  return (
    a.id === b.id ||
    (a.part === b.part &&
      a.fault.family === b.fault.family &&
      a.fault.nature === b.fault.nature &&
      a.fault.buys.join() === b.fault.buys.join())
  );
}

/** Whether a state sits inside the alternator, so that exchanging the whole machine cures it. */
export function insideAlternator({ fault }: PlacedFault): boolean {
  return fault.family === 'alternator' && fault.nature === 'fault';
}
