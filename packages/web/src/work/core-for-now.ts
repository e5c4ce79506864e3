export * from '../../../core/src/boat/index.ts';
export * from '../../../core/src/units/index.ts';
export * from '../../../core/src/operate/condition.ts';
export * from '../../../core/src/operate/probe.ts';
export * from '../../../core/src/readings/index.ts';
export * from '../../../core/src/checks/check.ts';
export * from '../../../core/src/faults/fault.ts';
export * from '../../../core/src/diagnosis/verdict.ts';
export * from '../../../core/src/diagnosis/charts.ts';
import type { BoatDescription } from '../../../core/src/boat/index.ts';
import type { Reading } from '../../../core/src/readings/index.ts';
import { pretendChecks, pretendLoop, pretendRise, pretendVerdict } from './pretend.ts';
export const placedChecks = pretendChecks as any;
export const createSession = (boat: BoatDescription) => ({
  diagnose: (readings: readonly Reading[]) => pretendVerdict(boat, readings),
  riseChart: (readings: readonly Reading[]) => pretendRise(readings),
  loopChart: () => pretendLoop(),
});
