/** House and start banks taken apart: the parts that joined them are out, one alternator is left, and nothing charges
 *  yet. The three ways to charge both (second alternator, relay, isolator) are built upon it.
 */
import {
  boatAt,
  chargingPaths,
  partInside,
  partsOfKind,
  type BoatDescription,
  type PartDescription,
  type Terminal,
} from '../boat/index.ts';
import { leavesStud } from '../remedy/wiring-rules.ts';
import { cablesAt, partNamed, withoutParts, withPart } from './change.ts';
import { mainPath } from './machine-variants.ts';

type Joint = 'selector' | 'relay' | 'isolator' | 'second-alternator';

export interface BanksApart {
  readonly description: BoatDescription;
  readonly joint: Joint;
  readonly house: string;
  readonly start: string;
  /** Where charge enters the house side and the start side. */
  readonly houseSide: Terminal;
  readonly startSide: Terminal;
  /** The alternator that is left, and its charging cable as it was, both ends loose. */
  readonly alternator: string;
  readonly cable: PartDescription<'cable'>;
  /** Where that cable ended, when that is still there. */
  readonly cableEnd: Terminal | undefined;
  /** Parts taken out, in words. */
  readonly removed: readonly string[];
}

export type ApartResult =
  ({ readonly kind: 'apart' } & BanksApart) | { readonly kind: 'cannot'; readonly why: string };

const cannot = (why: string): ApartResult => ({ kind: 'cannot', why });

export function banksApart(description: BoatDescription): ApartResult {
  const batteries = partsOfKind(description, 'battery');
  const start = batteries.find(({ choices }) => choices.duty === 'start');
  const house = batteries.find(({ id, choices }) => id !== start?.id && choices.duty !== 'start');
  if (batteries.length < 2) return cannot('It has one bank; a house and a start bank come first.');
  if (partsOfKind(description, 'engine').length > 1)
    return cannot('It has an engine and an alternator for each bank already.');
  if (start === undefined || house === undefined)
    return cannot('Its banks are not told apart into house and start.');
  const path = mainPath(description, boatAt(description));
  const cable = path && partsOfKind(description, 'cable').find((one) => leavesStud(one, path.alternator));
  if (path === undefined || cable === undefined) return cannot('No charging cable is known.');
  const joints = description.parts.filter(({ kind }) => ['selector', 'relay', 'isolator'].includes(kind));
  if (joints.length > 1) return cannot('Its banks are joined in more than one place.');
  const joint = joints[0];
  const split =
    joint === undefined
      ? withoutSecond(description, path.alternator, house.id, start.id)
      : withoutJoint(description, joint, house.id, start.id);
  if (split === undefined) return cannot('Its wiring between the banks is not one that can be taken apart.');
  const loose = { ...split.description, parts: split.description.parts.filter(({ id }) => id !== cable.id) };
  const far = cable.from === `${path.alternator}.B+` ? cable.to : cable.from;
  const ended = far === undefined ? undefined : partNamed(loose, far.split('.')[0] ?? '');
  return {
    kind: 'apart',
    ...split,
    description: loose,
    joint: (joint?.kind ?? 'second-alternator') as Joint,
    house: house.id,
    start: start.id,
    alternator: path.alternator,
    cable,
    cableEnd: joint !== undefined && ended !== undefined ? far : undefined,
  };
}

type Split = Pick<BanksApart, 'description' | 'houseSide' | 'startSide' | 'removed'>;

const legsOf: Readonly<Record<string, readonly [string, string]>> = {
  selector: ['one', 'two'],
  relay: ['a', 'b'],
  isolator: ['one', 'two'],
};

function withoutJoint(
  description: BoatDescription,
  joint: PartDescription,
  house: string,
  start: string,
): Split | undefined {
  const ends = (legsOf[joint.kind] ?? []).map((leg) => {
    const terminal = `${joint.id}.${leg}`;
    const cable = cablesAt(description, terminal)[0];
    return cable && (cable.from === terminal ? cable.to : cable.from);
  });
  let bare = withoutParts(description, new Set([joint.id]));
  const houseSide = ends.find((end) => end !== undefined && reaches(bare, end, `${house}.+`));
  const startSide = ends.find((end) => end !== undefined && reaches(bare, end, `${start}.+`));
  if (houseSide === undefined || startSide === undefined || houseSide === startSide) return undefined;
  // What hung on the common terminal of a switch: loads go to the house side, the engine to the start side.
  const common = `${joint.id}.common`;
  for (const cable of cablesAt(description, common)) {
    const other = cable.from === common ? cable.to : cable.from;
    const kind = partNamed(description, other?.split('.')[0] ?? '')?.kind;
    const side = kind === 'load' || kind === 'source' ? houseSide : startSide;
    const end = cable.from === common ? { from: side } : { to: side };
    bare = withPart({ ...bare, parts: [...bare.parts, cable] }, cable.id, end);
  }
  return { description: bare, houseSide, startSide, removed: [partInside(description, joint.id)] };
}

/** The alternator that is not the main one goes, with all that belongs to it. */
function withoutSecond(
  description: BoatDescription,
  kept: string,
  house: string,
  start: string,
): Split | undefined {
  const others = chargingPaths(description).filter(({ alternator }) => alternator !== kept);
  const other = others[0];
  if (other === undefined || others.length > 1) return undefined;
  const cable = partsOfKind(description, 'cable').find((one) => leavesStud(one, kept));
  const far = cable?.from === `${kept}.B+` ? cable.to : cable?.from;
  if (far === undefined || !reaches(description, far, `${house}.+`)) return undefined;
  const gone = [other.alternator, other.regulator, other.belt, other.lamp].filter((id) => id !== undefined);
  return {
    description: withoutParts(description, new Set(gone)),
    houseSide: far,
    startSide: `${start}.+`,
    removed: [`${other.alternator}, with its belt, regulator and cable`],
  };
}

/** Whether cables and fuses lead from one terminal to another. */
function reaches(description: BoatDescription, from: string, to: string): boolean {
  const seen = new Set([from]);
  const queue = [from];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    if (at === to) return true;
    const id = at.split('.')[0] ?? '';
    const fuse = partNamed(description, id)?.kind === 'fuse' ? [`${id}.a`, `${id}.b`] : [];
    const next = cablesAt(description, at).map((cable) => (cable.from === at ? cable.to : cable.from));
    for (const one of [...next, ...fuse]) {
      if (one === undefined || seen.has(one)) continue;
      seen.add(one);
      queue.push(one);
    }
  }
  return false;
}
