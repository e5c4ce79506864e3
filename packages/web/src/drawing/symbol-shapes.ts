/** Graphic symbols for diagrams after IEC 60617, upright, drawn about their centre in pixels, and where their
 *  terminals stand. Terminals are at least 44 px apart, so that a thumb meets one.
 */
import type { PartKindId } from '../work/contract.ts';

export type Side = 'top' | 'bottom' | 'left' | 'right';

export interface TerminalPlace {
  readonly x: number;
  readonly y: number;
  readonly side: Side;
}

export interface SymbolShape {
  /** Outline and inner lines. */
  readonly path: string;
  /** Filled bits: plates, contacts. */
  readonly filled?: string;
  /** Letter inside. */
  readonly letter?: string;
  readonly terminals: Readonly<Record<string, TerminalPlace>>;
}

const circle = (x: number, y: number, radius: number) =>
  `M${x - radius} ${y}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`;
const top: TerminalPlace = { x: 0, y: -44, side: 'top' };
const bottom: TerminalPlace = { x: 0, y: 44, side: 'bottom' };

export const symbolShapes: Readonly<Partial<Record<PartKindId, SymbolShape>>> = {
  alternator: {
    path: `${circle(0, 0, 30)}M0 30V44M-26 15L-46 24M26 -15L46 -24M26 15L46 24M-13 13C-9 5 -4 5 0 13S9 21 13 13`,
    letter: 'G',
    terminals: {
      'B+': bottom,
      case: { x: -46, y: 24, side: 'left' },
      F: { x: 46, y: -24, side: 'right' },
      'D+': { x: 46, y: 24, side: 'right' },
    },
  },
  regulator: {
    path: 'M-40 -38H40V38H-40ZM-56 -24H-40M-56 24H-40M-22 38V54M22 38V54M40 0H56',
    letter: 'U=',
    terminals: {
      F: { x: -56, y: -24, side: 'left' },
      supply: { x: -56, y: 24, side: 'left' },
      sense: { x: -22, y: 54, side: 'bottom' },
      ground: { x: 22, y: 54, side: 'bottom' },
      enable: { x: 56, y: 0, side: 'right' },
    },
  },
  battery: {
    path: 'M0 -44V-14M-28 -14H28M-14 -5H14M-28 5H28M-14 14H14M0 14V44M16 -30H26M21 -35V-25',
    terminals: { '+': top, '-': bottom },
  },
  fuse: {
    path: 'M0 -44V44M-10 -22H10V22H-10Z',
    terminals: { a: top, b: bottom },
  },
  selector: {
    path: `M0 -44V-18M0 -18L-20 12M-28 18V44M28 18V44${circle(0, -18, 3)}${circle(-28, 15, 3)}${circle(28, 15, 3)}`,
    terminals: {
      common: top,
      one: { x: -28, y: 44, side: 'bottom' },
      two: { x: 28, y: 44, side: 'bottom' },
    },
  },
  isolator: {
    path: 'M0 -44V-26M-28 -26H28M-28 -26V44M28 -26V44M-40 -6H-16L-28 14ZM-40 14H-16M16 -6H40L28 14ZM16 14H40M-48 -34H48V30H-48Z',
    terminals: {
      in: top,
      one: { x: -28, y: 44, side: 'bottom' },
      two: { x: 28, y: 44, side: 'bottom' },
    },
  },
  relay: {
    path: `M0 -44V-16L-14 12M0 18V44M-46 -10H-26V14H-46ZM-26 2H-9${circle(0, -16, 2)}`,
    terminals: { a: top, b: bottom },
  },
  starter: {
    path: `M0 -44V-26${circle(0, 0, 26)}M0 26V44`,
    letter: 'M',
    terminals: { post: top, case: bottom },
  },
  load: {
    path: 'M0 -44V-24M-14 -24H14V24H-14ZM0 24V44',
    terminals: { '+': top, '-': bottom },
  },
  source: {
    path: 'M0 -44V-26M-28 -26H28V26H-28ZM-28 26L28 -26M0 26V44M-20 -16H-8M10 14C13 10 15 10 17 14S21 18 24 14',
    terminals: { '+': top, '-': bottom },
  },
  lamp: {
    path: `M0 -44V-20${circle(0, 0, 20)}M-14 -14L14 14M14 -14L-14 14M0 20V44`,
    terminals: { a: top, b: bottom },
  },
  key: {
    path: `M0 -44V-14L-16 14M0 18V44M-30 0H-9M-30 -6V6${circle(0, -14, 2)}`,
    terminals: { in: top, out: bottom },
  },
  gauge: {
    path: `M0 -44V-22${circle(0, 0, 22)}M0 22V44`,
    letter: 'V',
    terminals: { '+': top, '-': bottom },
  },
};
