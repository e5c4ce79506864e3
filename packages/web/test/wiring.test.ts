import { describe, expect, it } from 'vitest';
import { templateIds } from '@ampwright/core';
import { newJob } from '@ampwright/jobs';
import { wiringOf } from '../src/drawing/routing.ts';

const places = ['inside', 'outside'] as const;
const boats = templateIds.flatMap((template) =>
  places.map((place) => {
    const facts = { regulator_place: place, excitation: 'ignition' };
    return [
      `${template}, regulator ${place}`,
      newJob({ template, facts, ids: { job: 'job' } }).boat,
    ] as const;
  }),
);

describe.each(boats)('%s', (_name, boat) => {
  const wiring = wiringOf(boat.parts);

  it('[law] draws every cable, from its one terminal to its other', () => {
    const drawn = new Map(wiring.cables.map(({ part, points }) => [part?.id, points]));
    const at = new Map(wiring.terminals.map(({ terminal, x, y }) => [terminal, { x, y }]));
    for (const { id, kind, from, to } of boat.parts) {
      if (kind !== 'cable') continue;
      const points = drawn.get(id);
      expect(points, id).toBeDefined();
      // An end on an engine's block may land anywhere along its bar.
      if (from?.endsWith('.block') === false) expect(points?.[0], id).toEqual(at.get(from));
      if (to?.endsWith('.block') === false) expect(points?.at(-1), id).toEqual(at.get(to));
    }
  });

  it('[law] runs every line square', () => {
    for (const { part, points } of wiring.cables) {
      for (const [index, point] of points.entries()) {
        const next = points[index + 1];
        if (next) expect(point.x === next.x || point.y === next.y, part?.id).toBe(true);
      }
    }
  });

  it('[rule] keeps terminals a thumb apart and inside the drawing', () => {
    for (const [index, one] of wiring.terminals.entries()) {
      expect(one.x).toBeGreaterThan(0);
      expect(one.x).toBeLessThan(wiring.width);
      expect(one.y).toBeLessThan(wiring.height);
      for (const other of wiring.terminals.slice(index + 1)) {
        const apart = Math.hypot(one.x - other.x, one.y - other.y);
        expect(apart, `${one.terminal} and ${other.terminal}`).toBeGreaterThanOrEqual(44);
      }
    }
  });
});
