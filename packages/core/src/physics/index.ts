export * from './alternator.ts';
export * from './alternator-fault.ts';
export * from './alternator-fit.ts';
export * from './conductor.ts';
export * from './diode.ts';
export * from './field.ts';
export * from './regulator.ts';
export * from './smooth.ts';
