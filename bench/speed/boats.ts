/** What the product asks of the solver: operating points of whole boats, and charge runs. */
import { boatAt, boatFromTemplate, unknownsOf } from '../../packages/core/src/boat/index.ts';
import { asFound, chargeRunOf, Operator, type Condition } from '../../packages/core/src/operate/index.ts';
import { randomSource } from '../../packages/core/test/circuit/random-circuit.ts';
import { chargeCases, ngspiceRun, ownRun } from '../../packages/core/test/oracle/transient-run.ts';
import { ngspiceTransientTime } from './ngspice-time.ts';
import { micro, processorSeconds } from './processor.ts';

/** Operating points as the diagnosis asks for them: a new world each time (`set`), then the points of it (`at`). */
export function wholePoints(): void {
  const [worlds, rounds] = [300, 1500];
  console.log(
    '\nBoats: a new world each time, solved under three conditions, point records included; charge run',
  );
  for (const template of ['one-battery', 'selector-switch', 'diode-isolator'] as const) {
    const description = boatFromTemplate(template);
    const random = randomSource(7);
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const count = unknownsOf(description).length;
    const boats = Array.from({ length: worlds }, () =>
      boatAt(description, Float64Array.from({ length: count }, normal)),
    );
    const operator = new Operator(boatAt(description));
    let solves = 0;
    const run = (times: number): number => {
      solves = 0;
      const start = processorSeconds();
      for (let round = 0; round < times; round++) {
        operator.set(boats[round % worlds]!);
        for (const condition of CONDITIONS) solves += operator.at(condition).solves;
      }
      return (processorSeconds() - start) / times / CONDITIONS.length;
    };
    run(rounds);
    const time = run(rounds);
    const plan = [{ duration: 10 * 3600, engine: 'running' }] as const;
    const hours = (): void => void chargeRunOf(description, plan, { stateOfCharge: { battery: 0.3 } });
    for (let k = 0; k < 3; k++) hours();
    const start = processorSeconds();
    for (let k = 0; k < 5; k++) hours();
    const runTime = (processorSeconds() - start) / 5;
    console.log(
      `  ${template.padEnd(16)} ${micro(time)} a point, ${(solves / rounds / CONDITIONS.length).toFixed(2)} solutions each; ` +
        `ten-hour run ${(1000 * runTime).toFixed(1)} ms, ${(10 / runTime).toFixed(0)} simulated hours a second`,
    );
  }
}

const CONDITIONS: readonly Condition[] = [
  { ...asFound, loads: 'off' },
  { ...asFound, engine: 'running', engineSpeed: 84, sinceStart: 180 },
  { ...asFound, engine: 'running', engineSpeed: 157, sinceStart: 300 },
];

/** Charge runs side by side with transients of ngspice of the same boats, its own choice of steps and tolerances. */
export function chargeRuns(): void {
  const [ownRuns, itsRuns] = [200, 20];
  console.log(
    '\nCharge runs: simulated hours a second, ours and a transient of ngspice at its default tolerance',
  );
  for (const one of chargeCases) {
    const run = (times: number): void => {
      for (let k = 0; k < times; k++) ownRun(one);
    };
    run(ownRuns / 4);
    const start = processorSeconds();
    run(ownRuns);
    const ours = (processorSeconds() - start) / ownRuns;
    const theirs = ngspiceTransientTime(ngspiceRun(one).lines, one.hours * 3600, itsRuns);
    console.log(
      `  ${one.chemistry.padEnd(8)} ${String(one.hours).padStart(3)} h  ours ${(one.hours / ours).toFixed(0)}, ngspice ` +
        `${(one.hours / theirs).toFixed(0)}; ratio ${(theirs / ours).toFixed(1)}`,
    );
  }
}
