export * from './charging.ts';
export * from './boat.ts';
export * from './description.ts';
export * from './facts.ts';
export * from './kinds.ts';
export * from './templates.ts';
export { boatAt, unknownsOf } from './world.ts';
export { partInside, partWords, terminalWords } from './terminal-words.ts';
