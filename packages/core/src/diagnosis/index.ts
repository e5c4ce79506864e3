export * from './verdict.ts';
export * from './charts.ts';
export { createSession, diagnose, type Session, type SessionOptions } from './session.ts';
export { riseChart, loopChart } from './chart-data.ts';
export { sureness } from './sureness.ts';
export type { JoinProblem } from './readings-as-evidence.ts';
