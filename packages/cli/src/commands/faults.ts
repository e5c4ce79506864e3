/** `faults [JOB]`: every fault and normal state that is known, and the parts of a boat that can have it. */
import { boatFromTemplate, faultCatalogue, templateIds } from '@ampwright/core';
import type { Fault } from '@ampwright/core';
import type { FaultsShape } from '../outputs.ts';
import { plain, wrapped } from '../say.ts';
import { headOfJob } from '../shapes.ts';
import type { Work } from '../work.ts';
import type { Result } from './result.ts';

/** The faults; those of a job's boat with the parts that can have them, without a job with the parts of the usual boats. */
export function faults(work: Work | undefined): Result {
  const boats =
    work === undefined
      ? templateIds.flatMap((template) => [
          boatFromTemplate(template),
          boatFromTemplate(template, { regulatorPlace: 'outside', excitation: 'ignition' }),
        ])
      : [work.description];
  const rows = faultCatalogue
    .map((fault) => ({ fault, places: [...new Set(boats.flatMap((boat) => fault.places(boat)))] }))
    .filter(({ places }) => work === undefined || places.length > 0);
  const json: FaultsShape = {
    format: 'ampwright-faults',
    version: 1,
    job: work === undefined ? null : headOfJob(work.job),
    faults: rows.map(({ fault, places }) => shapeOfFault(fault, places)),
  };
  const title = `${json.faults.length} faults and normal states${work === undefined ? '' : ` on ${plain(work.job.title ?? 'this boat')}`}`;
  const lines = json.faults.map((fault) =>
    [
      wrapped(`${fault.words} [${fault.id}]`),
      wrapped(
        `${fault.nature === 'normal' ? 'nothing wrong' : `${fault.family}, answers "${fault.question}?" with no`}; on ${fault.placed_on.map((part) => part || 'the whole boat').join(', ')}`,
        '  ',
      ),
    ].join('\n'),
  );
  return { json, text: [title, ...lines].join('\n\n'), code: 0 };
}

function shapeOfFault(fault: Fault, places: readonly string[]): FaultsShape['faults'][number] {
  return {
    id: fault.id,
    words: fault.words,
    family: fault.family,
    nature: fault.nature,
    question: fault.question,
    prior: fault.prior,
    owner_words: fault.ownerWords,
    remedy: fault.remedy,
    placed_on: [...places],
  };
}
