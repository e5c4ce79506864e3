/** A diagnosis on a terminal: the four questions first, then the suspects, then what to do next. */
import { faultById } from '@ampwright/core';
import { checkText } from '../check-text.ts';
import type { DiagnosisShape } from '../outputs.ts';
import { figure, percent, plain, span, wrapped } from '../say.ts';

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

function headText({ job, repaired }: DiagnosisShape): string {
  const lines = [wrapped(job.title ?? job.id)];
  if (job.complaint !== null) lines.push(wrapped(job.complaint, 'Complaint: '));
  if (repaired.length > 0)
    lines.push(
      wrapped(
        `${repaired.map(repairWords).join('; ')}. What follows is about what is still wrong.`,
        'Put right: ',
      ),
    );
  return lines.join('\n');
}

const repairWords = (id: string): string => `${faultById(id.split('@')[0] ?? id).words} [${id}]`;

function answersText({ answers }: DiagnosisShape): string {
  return answers
    .map((answer) => wrapped(`${answer.words} (yes: ${percent(answer.yes)})`, questionWords[answer.question]))
    .join('\n');
}

function suspectsText({ suspects, nothing_fits: nothingFits, cleared: allCleared }: DiagnosisShape): string {
  const lines = ['Suspects'];
  const shown = suspects.slice(0, 5);
  const cleared = allCleared.filter(({ id }) => !shown.some((suspect) => suspect.id === id));
  shown.forEach((suspect, index) => {
    const nature = suspect.nature === 'normal' ? ' (nothing is broken)' : '';
    lines.push(
      wrapped(
        `${suspect.words}${nature}: ${suspect.odds}, ${percent(suspect.probability)} [${suspect.id}]`,
        ` ${index + 1}. `,
      ),
    );
    for (const evidence of suspect.why.slice(0, index === 0 ? 4 : 2)) {
      lines.push(wrapped(evidence.words, '      - '));
    }
  });
  if (suspects.length > 5) lines.push(`    and ${suspects.length - 5} less likely`);
  if (nothingFits > 0.01) lines.push(wrapped(`Nothing that is known fits: ${percent(nothingFits)}`, '    '));
  if (cleared.length > 0) {
    lines.push('', 'Cleared');
    for (const item of cleared.slice(0, 6))
      lines.push(wrapped(`${item.words} [${item.id}]: ${item.by.words}`, '  - '));
    if (cleared.length > 6) lines.push(`    and ${cleared.length - 6} more`);
  }
  return lines.join('\n');
}

function readingsText({ readings, repaired }: DiagnosisShape): string {
  if (readings.length === 0) return 'No readings yet.';
  const lines = ['Readings, and where they would lie if all were well'];
  for (const reading of readings) {
    const { words, check, value, unit, answer, healthy, stands, slip } = reading;
    const part = check.split('@')[1];
    const taken = value === null ? (answer ?? 'could not do') : `${figure(value, unit ?? '')} ${unit ?? ''}`;
    const band = healthy === null ? '' : `; healthy ${span(healthy)}`;
    const again = slip > 0.3 ? '; may be a slip: take it again' : '';
    const before = reading.after_repair_of.length < repaired.length ? ', before the repair' : '';
    const name = `${partly(words, part)}${before}`;
    lines.push(wrapped(`${name}: ${taken.trim()}${band}${standsWords[stands]}${again}`, '  - '));
  }
  return lines.join('\n');
}

const partly = (words: string, part: string | undefined): string =>
  part === undefined ? words : `${words} (${part})`;

const standsWords = {
  in: '; as it should be',
  low: '; LOW',
  high: '; HIGH',
  usual: '; as it should be',
  unusual: '; not as it should be',
  none: '',
} as const;

function conclusionText({ conclusion, suspects, readings }: DiagnosisShape): string {
  const name = (id: string | undefined) => suspects.find((suspect) => suspect.id === id)?.words ?? id ?? '';
  const odd = readings.find(({ reading }) => reading === conclusion.repeat);
  const repeat = odd ? ` Take this one again: ${partly(odd.words, odd.check.split('@')[1])}.` : '';
  switch (conclusion.kind) {
    case 'decided':
      return wrapped(`Decided: ${name(conclusion.suspect)}.`);
    case 'look-again':
      return wrapped(`The verdict hangs on one reading.${repeat}`);
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

/** What to do, once something is decided; rules that are broken are told in any case. */
function remedyText({ remedy, conclusion }: DiagnosisShape): string {
  const lines: string[] = [];
  if (conclusion.kind === 'decided' || conclusion.kind === 'nothing-wrong') {
    lines.push('To do', ...remedy.cautions.map((caution) => wrapped(caution, '  CAUTION  ')));
    if (remedy.work.length === 0) lines.push(wrapped(remedy.words, '  '));
    // How to be safe is said above.
    const steps = remedy.work.filter(({ act }) => act !== 'make-safe');
    steps.forEach(({ words }, index) => lines.push(wrapped(words, `  ${index + 1}. `)));
    const causes = remedy.why_it_failed.join('; ');
    if (causes !== '') lines.push(wrapped(causes, '  Why it may have failed: ', '    '));
    for (const { words, checks } of remedy.look_also) {
      const by = checks.length === 0 ? '' : ` (${checks.join(', ')})`;
      lines.push(wrapped(words + by, '  Look also for: ', '    '));
    }
    for (const { words, size } of remedy.parts) {
      lines.push(wrapped(size === null ? words : `${words}, ${size}`, '  Part: ', '    '));
    }
    for (const { check, words, healthy, answer } of remedy.proof) {
      const goal = healthy === null ? (answer ?? '') : span(healthy);
      lines.push(wrapped(`${partly(words, check.split('@')[1])}: ${goal}`, '  Proves it: ', '    '));
    }
  }
  for (const { battery, hours_to_full: hours } of remedy.hours) {
    lines.push(
      wrapped(
        hours === null
          ? `${battery}: never full like this`
          : `${battery}: about ${figure(hours)} hours to full`,
        '  ',
      ),
    );
  }
  if (remedy.rules.length > 0) {
    lines.push('', 'Rules for the whole system that are broken, or nearly');
    for (const rule of remedy.rules) lines.push(wrapped(`${rule.says} ${rule.advice ?? ''}`, '  - '));
  }
  return lines.join('\n').replace(/^\n+/, '');
}

/** Conclusions after which no check is proposed. */
const ended = new Set<DiagnosisShape['conclusion']['kind']>([
  'decided',
  'nothing-wrong',
  'no-check-worth-it',
]);

function nextText({ next, conclusion }: DiagnosisShape): string {
  const first = next[0];
  if (first === undefined || ended.has(conclusion.kind)) return '';
  const lines = [conclusion.kind === 'look-again' ? 'And then' : 'Next check', checkText(first)];
  if (first.healthy !== null) lines.push(`  If all is well: ${span(first.healthy)}`);
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
