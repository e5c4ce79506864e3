export * from './job.ts';
export { parseJob, type ParsedJob } from './parse.ts';
export { serialiseJob } from './serialise.ts';
export { newJob, type NewJobOptions } from './new-job.ts';
export {
  baselineVisits,
  descriptionOf,
  evidenceOf,
  findPlacedCheck,
  readingsOf,
  type FoundCheck,
  type VisitEvidence,
} from './description.ts';
export { boatChanged, boatOfDescription, boatOfFacts, factProblems } from './facts.ts';
export { factTable, type FactEntry } from './fact-table.ts';
export { pricesOf } from './prices.ts';
export { factOf, quantityOf, quantityProblem, rangeWords } from './quantities.ts';
export { isPlausible, outcomeWords, readingProblems, repairProblem } from './visit-problems.ts';
export { pointerOf, problemKinds, shown, type Problem, type ProblemKind } from './problem.ts';
export { deepestJob, largestJob, readJson, tooLarge, type ReadText } from './text.ts';
export { jobFileSchema } from './schema.ts';
export { jobSchema, publishedSchema } from './json-schema.ts';
export { z } from './z.ts';
