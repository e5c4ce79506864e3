/** The commands, their options, and where their output goes. Results to standard output, errors to standard error. */
import process from 'node:process';
import { Command, CommanderError } from 'commander';
import { variantIds } from '@ampwright/core';
import { jobWriter, serialiseJob, type ParsedJob } from '@ampwright/jobs';
import { checks } from './commands/checks.ts';
import { diagnose } from './commands/diagnose.ts';
import { faults } from './commands/faults.ts';
import { factHelp, newJobText, templateList, type NewOptions } from './commands/new.ts';
import { predict } from './commands/predict.ts';
import { jobAfterRepairs } from './commands/repaired.ts';
import { report } from './commands/report.ts';
import type { Result } from './commands/result.ts';
import { run as runBoat, type RunCommandOptions } from './commands/run.ts';
import { schema, schemaNames } from './commands/schema.ts';
import { validate } from './commands/validate.ts';
import { keptJob } from './commands/what-if.ts';
import { assertReportTarget, readJobFile, writeNewFile, writeReport, WrongUse } from './files.ts';
import { Interview } from './interview.ts';
import { talk } from './interview-run.ts';
import { problemsText } from './problems-text.ts';
import { remedyOf, shapeOfRemedy } from './remedy.ts';
import { plain } from './say.ts';
import { workOf, type Work } from './work.ts';

interface Common {
  readonly json?: boolean;
  readonly visit?: string;
  readonly repaired?: readonly string[];
}

interface RunExtras {
  readonly whatIf?: readonly string[] | true;
  readonly keep?: string;
  readonly out?: string;
}

/** Runs the command line; the exit code: 0 well, 1 problems in the job, 2 wrong use, 70 a fault of the program
 *  (EX_SOFTWARE of sysexits.h). */
export async function run(argv: readonly string[]): Promise<number> {
  let code = 0;
  const program = programWith((given) => (code = Math.max(code, given)));
  try {
    await program.parseAsync([...argv]);
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (error instanceof WrongUse) {
      process.stderr.write(`ampwright: ${plain(error.message)}\n`);
      return 2;
    }
    process.stderr.write(`ampwright: a fault of this program, not of the job\n${stackOf(error)}\n`);
    return 70;
  }
}

const stackOf = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);

function programWith(exit: (code: 0 | 1) => void): Command {
  const program = new Command('ampwright')
    .description('Why is this boat not charging? Readings in, odds and the next check out.')
    .version(jobWriter, '--version')
    .exitOverride()
    .configureHelp({ helpWidth: 80 })
    .showHelpAfterError('Run it with --help for its options.')
    .addHelpText('after', '\nExit codes: 0 well, 1 problems in the job, 2 wrong use.');
  const command = (spec: string, words: string): Command => program.command(spec).description(words);
  const put = (result: Result, options: Common): void => {
    process.stdout.write(`${options.json === true ? JSON.stringify(result.json, null, 2) : result.text}\n`);
    exit(result.code);
  };
  /** The work of a job file; undefined, with the problems told, when the file is not good. Whoever wants JSON gets
   *  the problems so as well (schema: validation). */
  const open = (path: string, { visit, json, repaired = [] }: Common): Work | undefined => {
    const parsed = readJobFile(path);
    const problems = parsed.kind === 'problems' ? parsed.problems : parsed.notes;
    if (problems.length > 0) process.stderr.write(`${problemsText(plain(path), problems)}\n\n`);
    if (parsed.kind === 'problems' || parsed.readOnly) exit(1);
    if (parsed.kind === 'job')
      return workOf(jobAfterRepairs(parsed.job, { repaired, ...(visit && { visit }) }, today()), visit);
    if (json === true) put(validate(path, parsed), { json });
    return undefined;
  };

  command('new', 'Write a new job file from a template and what is known of the boat')
    .requiredOption('-t, --template <template>', 'the usual boat that this one is like')
    .option('-f, --fact <name=value>', 'a fact of the boat; may be given again', collect, [])
    .option('--title <text>', 'title of the job')
    .option('--complaint <text>', 'what the owner complains of')
    .option('--skill <skill>', 'owner, apprentice or electrician: no check beyond it is proposed')
    .option('--id <id>', 'id of the job')
    .option('--date <date>', 'date of the visit, such as 2026-05-17; today when absent')
    .option('-o, --out <file>', 'file to write, which must not exist; standard output when absent')
    .addHelpText('after', () => `\nTemplates:\n${templateList()}\n\n${factHelp()}`)
    .action((options: NewOptions & { out?: string }) => {
      const text = newJobText(options, today());
      if (options.out === undefined) process.stdout.write(text);
      else writeNewFile(options.out, text);
    });

  command('validate <job>', 'Say whether a job file is good, and every problem where it is not')
    .option('--json', 'as JSON (schema: validation)')
    .action((path: string, options: Common) => {
      const parsed: ParsedJob = readJobFile(path);
      const result = validate(path, parsed);
      if (options.json === true || result.code === 0) put(result, options);
      else {
        process.stderr.write(`${result.text}\n`);
        exit(result.code);
      }
    });

  command('diagnose <job>', 'The four answers, the suspects with their why, the next check')
    .option('--visit <id>', 'the visit whose readings count; the last one when absent')
    .option(...repairedOption)
    .option('-o, --out <file>', 'write the job with the visit after that repair; must not exist')
    .option('--json', 'as JSON (schema: diagnosis)')
    .action((path: string, options: Common & { out?: string }) => {
      if (options.out !== undefined && options.repaired?.length === 0)
        throw new WrongUse('--out goes with --repaired.');
      const work = open(path, options);
      if (work === undefined) return;
      if (options.out !== undefined) writeNewFile(options.out, serialiseJob(work.job));
      put(diagnose(work), options);
    });

  command('predict <job>', 'Where every reading would lie if all were well')
    .option('--visit <id>', 'the visit whose readings narrow what is unknown; the last one when absent')
    .option('--json', 'as JSON (schema: prediction)')
    .action((path: string, options: Common) => {
      const work = open(path, options);
      if (work !== undefined) put(predict(work), options);
    });

  command('run <job>', 'The boat through time: how full and when, amps, stages, heat')
    .option('--phase <words>', 'such as "running 2h 900rpm" or "off 10h"; may be given again', collect, [])
    .option('--charge <bank=share>', 'state of charge at the start; may be given again', collect, [])
    .option('--days <count>', 'the phases are a day, repeated so often; the rest of it is spent off', days)
    .option('--bands', 'also over what nobody knows of the boat')
    .option('--what-if [name=size]', 'beside it, a changed boat; all that apply without a name', collectAll)
    .option('--keep <name=size>', 'write the job with that what-if made real; needs --out')
    .option('-o, --out <file>', 'file for --keep, which must not exist')
    .option('--json', 'as JSON (schema: run)')
    .addHelpText('after', () => `\nWhat-ifs: ${variantIds.join(', ')}.`)
    .action((path: string, options: Common & Omit<RunCommandOptions, 'whatIf'> & RunExtras) => {
      const { keep, out } = options;
      if ((keep === undefined) !== (out === undefined)) throw new WrongUse('--keep and --out go together.');
      const work = open(path, options);
      if (work === undefined) return;
      if (keep !== undefined && out !== undefined) {
        writeNewFile(out, keptJob(work, keep));
        if (work.job.visits.length > 0)
          process.stderr.write(
            `${plain(out)}: the changed boat, without visits: their readings are of the boat as it was.\n`,
          );
      }
      const { whatIf: _, ...rest } = options;
      put(runBoat(work, { ...rest, ...whatIfOf(options) }), options);
    });

  command('checks [job]', 'The checks that are known, or those of a boat as placed')
    .option('--json', 'as JSON (schema: checks)')
    .action((path: string | undefined, options: Common) => {
      const work = path === undefined ? undefined : open(path, options);
      if (path === undefined || work !== undefined) put(checks(work), options);
    });

  command('faults [job]', 'The faults and normal states that are known, or those of a boat')
    .option('--json', 'as JSON (schema: faults)')
    .action((path: string | undefined, options: Common) => {
      const work = path === undefined ? undefined : open(path, options);
      if (path === undefined || work !== undefined) put(faults(work), options);
    });

  command('report <job>', "The owner's report")
    .option('--visit <id>', 'the visit to report on; the last one when absent')
    .option('--html <file>', 'write it there as a page to print')
    .option('--pdf <file>', 'write it there as PDF; as text on standard output when neither is given')
    .option('--json', 'the diagnosis behind it, as JSON (schema: diagnosis)')
    .action(async (path: string, options: Common & { html?: string; pdf?: string }) => {
      const { html, pdf } = options;
      for (const target of [html, pdf]) if (target !== undefined) assertReportTarget(target, path);
      const work = open(path, options);
      if (work === undefined) return;
      const result = report(work);
      if (html !== undefined) writeReport(html, result.html());
      if (pdf !== undefined) writeReport(pdf, await result.pdf());
      if ((html === undefined && pdf === undefined) || options.json === true) put(result, options);
    });

  command(
    'interview <job>',
    'A dialogue of JSON lines: asks its best next check, is answered, ends with its verdict',
  )
    .option('--visit <id>', 'the visit whose readings it starts from; the last one when absent')
    .option(...repairedOption)
    .option('--max-asks <count>', 'asks after which it ends', wholeNumber, 40)
    .addHelpText('after', '\nSchemas: interview-out (what it writes), interview-in (what it reads).')
    .action(async (path: string, options: Common & { maxAsks: number }) => {
      const work = open(path, options);
      if (work === undefined) return;
      const interview = new Interview(work, {
        maxAsks: options.maxAsks,
        remedyOf: (verdict, readings) => shapeOfRemedy(remedyOf(work, verdict, readings), work.checks),
      });
      await talk(interview, process.stdin, process.stdout);
      // The other side may keep our input open; the verdict was the last word.
      process.stdin.destroy();
    });

  command('schema [name]', `A published JSON Schema: ${schemaNames.join(', ')}`)
    .option('--json', 'as JSON; a schema always is')
    .action((name: string | undefined, options: Common) => put(schema(name), options));

  return program;
}

const today = (): string => new Date().toISOString().slice(0, 10);

const collect = (value: string, previous: readonly string[]): readonly string[] => [...previous, value];

const repairedOption = [
  '--repaired <fault@part>',
  'put right since the last visit: what is still wrong? May be given again',
  collect,
  [],
] as const;

/** `--what-if` alone stands for all. */
const whatIfOf = ({
  whatIf,
}: {
  readonly whatIf?: readonly string[] | true;
}): { whatIf?: readonly string[] } => (whatIf === undefined ? {} : { whatIf: whatIf === true ? [] : whatIf });

const collectAll = (value: string, previous: readonly string[] | undefined): readonly string[] => [
  ...(previous ?? []),
  value,
];

function days(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1 || value > 1000)
    throw new WrongUse(`--days ${text}: a whole number from 1 to 1000 is allowed.`);
  return value;
}

function wholeNumber(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 0 || value > 1000) {
    throw new WrongUse(`--max-asks ${text}: a whole number from 0 to 1000 is allowed.`);
  }
  return value;
}
