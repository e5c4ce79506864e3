/** A diagnosis on a terminal: the four questions first, then the suspects, then what to do next. */
import { checkText } from '../check-text.ts';
import type { DiagnosisShape } from '../outputs.ts';
import { factorWords, figure, percent, plain, wrapped } from '../say.ts';

const questionWords = {
  making: 'Making?    ',
  arriving: 'Arriving?  ',
  enough: 'Enough?    ',
  lasting: 'Lasting?   ',
} as const;

export function diagnosisText(diagnosis: DiagnosisShape): string {
  return [
    headText(diagnosis),
    answersText(diagnosis),
    suspectsText(diagnosis),
    readingsText(diagnosis),
    conclusionText(diagnosis),
    remedyText(diagnosis),
    nextText(diagnosis),
    assumedText(diagnosis),
  ]
    .filter((block) => block !== '')
    .join('\n\n');
}

function headText({ job }: DiagnosisShape): string {
  const lines = [wrapped(job.title ?? job.id)];
  if (job.complaint !== null) lines.push(wrapped(job.complaint, 'Complaint: '));
  return lines.join('\n');
}

function answersText({ answers }: DiagnosisShape): string {
  return answers
    .map((answer) => wrapped(`${answer.words} (yes: ${percent(answer.yes)})`, questionWords[answer.question]))
    .join('\n');
}

function suspectsText({ suspects, nothing_fits: nothingFits, cleared }: DiagnosisShape): string {
  const lines = ['Suspects'];
  suspects.slice(0, 5).forEach((suspect, index) => {
    const nature = suspect.nature === 'normal' ? ' (nothing is broken)' : '';
    lines.push(
      wrapped(
        `${suspect.words}${nature}: ${suspect.odds}, ${percent(suspect.probability)}`,
        ` ${index + 1}. `,
      ),
    );
    for (const evidence of suspect.why.slice(0, index === 0 ? 4 : 2)) {
      lines.push(wrapped(`${evidence.words} (${factorWords(evidence.factor)})`, '      - '));
    }
  });
  if (suspects.length > 5) lines.push(`    and ${suspects.length - 5} less likely`);
  if (nothingFits > 0.01) lines.push(wrapped(`Nothing that is known fits: ${percent(nothingFits)}`, '    '));
  if (cleared.length > 0) {
    lines.push('', 'Cleared');
    for (const item of cleared.slice(0, 6)) lines.push(wrapped(`${item.words}: ${item.by.words}`, '  - '));
    if (cleared.length > 6) lines.push(`    and ${cleared.length - 6} more`);
  }
  return lines.join('\n');
}

function readingsText({ readings }: DiagnosisShape): string {
  if (readings.length === 0) return 'No readings yet.';
  const lines = ['Readings, and where they would lie if all were well'];
  for (const reading of readings) {
    const taken =
      reading.value === null
        ? (reading.answer ?? 'could not do')
        : `${figure(reading.value)} ${reading.unit ?? ''}`;
    const { healthy } = reading;
    const band =
      healthy === null ? '' : `; healthy ${figure(healthy.low)} to ${figure(healthy.high)} ${healthy.unit}`;
    const stands = standsWords[reading.stands];
    const slip = reading.slip > 0.3 ? '; may be a slip: take it again' : '';
    lines.push(wrapped(`${reading.words}: ${taken}${band}${stands}${slip}`, '  - '));
  }
  return lines.join('\n');
}

const standsWords = {
  in: '; as it should be',
  low: '; LOW',
  high: '; HIGH',
  usual: '; as it should be',
  unusual: '; not as it should be',
  none: '',
} as const;

function conclusionText({ conclusion, suspects }: DiagnosisShape): string {
  const name = (id: string | undefined) => suspects.find((suspect) => suspect.id === id)?.words ?? id ?? '';
  const repeat = typeof conclusion.repeat === 'string' ? ` Take this one again: ${conclusion.repeat}.` : '';
  switch (conclusion.kind) {
    case 'decided':
      return wrapped(`Decided: ${name(conclusion.suspect)}.`);
    case 'nothing-wrong':
      return wrapped('Nothing is wrong.');
    case 'no-check-worth-it':
      return wrapped(
        `No further check is worth its minutes. It is one of: ${(conclusion.suspects ?? []).map(name).join('; ')}.`,
      );
    case 'nothing-fits':
      return wrapped(`Nothing that is known fits these readings.${repeat}`);
    case 'readings-contradict':
      return wrapped(`These readings contradict each other.${repeat}`);
    case 'go-on':
      return '';
  }
}

function remedyText({ remedy }: DiagnosisShape): string {
  if (remedy === null) return '';
  const lines = [wrapped(remedy.words, 'To do: ')];
  for (const cause of remedy.causes) lines.push(wrapped(cause, '  Why it failed: '));
  for (const also of remedy.also_check) lines.push(wrapped(also, '  Look also at: '));
  return lines.join('\n');
}

function nextText({ next, conclusion }: DiagnosisShape): string {
  const first = next[0];
  if (first === undefined || conclusion.kind === 'decided' || conclusion.kind === 'nothing-wrong') return '';
  const lines = ['Next check', checkText(first)];
  if (first.healthy !== null) {
    lines.push(
      `  If all is well: ${figure(first.healthy.low)} to ${figure(first.healthy.high)} ${first.healthy.unit}`,
    );
  }
  for (const preview of first.previews) {
    lines.push(
      wrapped(`${preview.words}: then ${preview.then} (${percent(preview.then_probability)})`, '  - '),
    );
  }
  const others = next.slice(1, 4).map((check) => `${check.words} [${check.check}]`);
  if (others.length > 0) lines.push(wrapped(others.join('; '), 'Or: '));
  return lines.join('\n');
}

function assumedText({ assumed }: DiagnosisShape): string {
  if (assumed.length === 0) return '';
  return ['Assumed, since nobody said', ...assumed.map((words) => wrapped(plain(words), '  - '))].join('\n');
}
