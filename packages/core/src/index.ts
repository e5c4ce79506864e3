/** Ampwright's core: a boat described by a few facts becomes a circuit; every fault predicts every reading; Bayes ranks
 *  the suspects. Pure: no clock, no I/O, no unseeded randomness. */
export * from './units/index.ts';
export * from './boat/index.ts';
export * from './operate/index.ts';
export * from './readings/index.ts';
export * from './faults/index.ts';
export * from './checks/index.ts';
export * from './diagnosis/index.ts';
export * from './remedy/index.ts';
export * from './planning/index.ts';
export * from './report/index.ts';
