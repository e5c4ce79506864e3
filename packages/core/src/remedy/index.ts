export * from './remedy.ts';
export { remedyFor, type RemedyOptions } from './remedy-for.ts';
export { systemRules } from './system-rules.ts';
export { chargingHours, hoursByHand, type ChargingHours } from './charging-hours.ts';
export { ruleIds, type RuleId, type RuleResult, type RuleStanding } from './rule.ts';
export { repairedDescription } from './repaired.ts';
export { sparesFor, type Spare, type SparesRequest } from './spares.ts';
