export * from './check.ts';
export { checkCatalogue, placedChecks } from './catalogue.ts';
export { fastSpeed, idleSpeed } from './conditions.ts';
export { conditionsLeft, minutesOf, waitFor } from './waiting.ts';
