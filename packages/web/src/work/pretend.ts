import type { CheckView } from './check-view.ts';
import type { BoatDescription, Condition, LoopChart, Reading, RiseChart, Verdict } from './core-for-now.ts';

const RPM = (2 * Math.PI) / 60;
const off: Condition = {
  engine: 'off',
  engineSpeed: 0,
  sinceStart: 0,
  rested: 28800,
  loads: 'usual',
  testLoad: 0,
  field: 'regulated',
  excitation: 'as-wired',
  revved: false,
  otherSources: 'off',
};
const running: Condition = {
  ...off,
  engine: 'running',
  engineSpeed: 1500 * RPM,
  sinceStart: 300,
  revved: true,
};

function bankOf(boat: BoatDescription): string {
  return boat.parts.find((part) => part.kind === 'battery')?.id ?? 'battery';
}

export function pretendChecks(boat: BoatDescription): readonly CheckView[] {
  const bank = bankOf(boat);
  const volts = (
    id: string,
    words: string,
    plus: string,
    minus: string,
    condition: Condition,
  ): CheckView => ({
    id,
    part: bank,
    condition,
    text: {
      id: id.split('@')[0]!,
      way: 'measure',
      words,
      minutes: 2,
      tools: ['multimeter'],
      skill: 'owner',
      risk: condition.engine === 'running' ? 1 : 0,
      cautions:
        condition.engine === 'running'
          ? ['Keep hands, leads and sleeves clear of the belt and the fan.']
          : ['Batteries give off hydrogen: no sparks or flames near them.'],
      steps: [
        'Set the meter to DC volts.',
        'Red lead on the positive post itself, black on the negative post, not on the clamps.',
        'Wait until the figure stands still.',
      ],
      needs: [],
    },
    outcome: {
      kind: 'number',
      dimension: 'voltage',
      unit: 'V',
      probe: { kind: 'dc-volts', plus: plus as `a.b`, minus: minus as `a.b` },
      range: [0, 18],
    },
  });
  const ask = (id: string, words: string, question: string, answers: [string, string][]): CheckView => ({
    id,
    part: undefined,
    condition: off,
    text: {
      id,
      way: 'ask',
      words,
      minutes: 1,
      tools: [],
      skill: 'owner',
      risk: 0,
      cautions: [],
      steps: [question],
      needs: [],
    },
    outcome: { kind: 'answers', question, answers: answers.map(([key, said]) => ({ id: key, words: said })) },
  });
  return [
    volts(`battery-volts-rest@${bank}`, 'Volts at the battery, engine off', `${bank}.+`, `${bank}.-`, off),
    volts(
      `battery-volts-running@${bank}`,
      'Volts at the battery, engine running',
      `${bank}.+`,
      `${bank}.-`,
      running,
    ),
    volts(
      'stud-volts-running@alternator',
      'Volts at the alternator stud, engine running',
      'alternator.B+',
      'alternator.case',
      running,
    ),
    volts(
      'positive-drop@alternator',
      'Volts lost from stud to battery positive',
      'alternator.B+',
      `${bank}.+`,
      running,
    ),
    {
      ...volts(
        'full-field@alternator',
        'Full field: feed the field by hand',
        'alternator.B+',
        'alternator.case',
        { ...running, field: 'full' },
      ),
      text: {
        id: 'full-field',
        way: 'intervene',
        words: 'Full field: feed the field by hand',
        minutes: 8,
        tools: ['multimeter', 'jumper lead with a 10 A fuse'],
        skill: 'electrician',
        risk: 3,
        cautions: [
          'The voltage is not limited while you do this: hold it for seconds only and stop at 15 V.',
          'Keep hands, leads and sleeves clear of the belt and the fan.',
          'Switch electronics off first.',
        ],
        steps: [
          'Engine at a fast idle.',
          'Bridge battery positive to the field terminal with the fused lead.',
          'Read the volts at the stud within five seconds and take the bridge away.',
        ],
        needs: ['A field terminal that can be reached'],
      },
    },
    ask('cranks', 'How does it crank?', 'Does the engine crank as it always did?', [
      ['normally', 'Yes, as always'],
      ['slowly', 'Slowly'],
      ['not', 'Not at all'],
    ]),
    ask('belt-dust', 'Look for belt dust', 'Is there black dust round the belt?', [
      ['none', 'None'],
      ['some', 'Some'],
      ['heavy', 'Everything is covered'],
    ]),
  ];
}

export function pretendVerdict(boat: BoatDescription, readings: readonly Reading[]): Verdict {
  const started = performance.now();
  while (performance.now() - started < 120);
  const bank = bankOf(boat);
  const known = Math.min(1, readings.length / 4);
  const band = (low: number, high: number) => ({ low, middle: (low + high) / 2, high });
  const evidence = (reading: string, check: string, factor: number, words: string) => ({
    reading,
    check,
    factor,
    words,
  });
  return {
    wrong: 0.5 + 0.45 * known,
    answers: [
      {
        question: 'making',
        yes: 0.6 - 0.5 * known,
        error: 0.01,
        words: 'Very likely not: the field gets nothing',
      },
      { question: 'arriving', yes: 0.93, error: 0.01, words: 'Very likely: no volts are lost on the way' },
      { question: 'enough', yes: 0.55, error: 0.02, words: 'Not known yet' },
      { question: 'lasting', yes: 0.8, error: 0.02, words: 'Probably' },
    ],
    suspects: [
      {
        id: 'brushes@alternator',
        fault: 'brushes',
        part: 'alternator',
        family: 'alternator',
        nature: 'fault',
        question: 'making',
        words: 'Brushes worn out',
        ownerWords: 'The small carbon contacts inside the alternator are worn.',
        probability: 0.2 + 0.44 * known,
        error: 0.01,
        prior: 0.1,
        why: readings.map((r) => evidence(r.id, r.check, 4.2, 'speaks for it: the volts did not rise')),
      },
      {
        id: 'excitation-wire@excitation-lead',
        fault: 'excitation-wire',
        part: 'excitation-lead',
        family: 'excitation',
        nature: 'fault',
        question: 'making',
        words: 'Excitation wire open',
        ownerWords: 'The thin wire that wakes the alternator is broken.',
        probability: 0.15,
        error: 0.01,
        prior: 0.06,
        why: [],
      },
      {
        id: 'flat-bank@' + bank,
        fault: 'flat-bank',
        part: bank,
        family: 'battery',
        nature: 'normal',
        question: 'none',
        words: 'Bank is empty and nothing is wrong',
        ownerWords: 'It charges; the batteries were very empty.',
        probability: 0.1,
        error: 0.01,
        prior: 0.2,
        why: [],
      },
    ],
    nothingFits: 0.01,
    cleared:
      readings.length > 1
        ? [
            {
              id: 'start-cable@start-cable',
              words: 'Cable from starter post',
              by: evidence(readings[1]!.id, readings[1]!.check, 0.02, 'no volts are lost there'),
              probability: 0.001,
            },
          ]
        : [],
    readings: readings.map((r) => ({
      reading: r.id,
      check: r.check,
      healthy:
        r.outcome.kind === 'number'
          ? r.check.includes('running')
            ? band(13.6, 14.5)
            : band(12.1, 12.8)
          : undefined,
      expected: undefined,
      healthyChance: undefined,
      stands: r.outcome.kind === 'number' ? 'low' : 'usual',
      slip: 0.02,
    })),
    next: pretendChecks(boat)
      .filter((c) => !readings.some((r) => r.check === c.id))
      .map((c, i) => ({
        check: c.id,
        words: c.text.words,
        minutes: c.text.minutes,
        risk: c.text.risk,
        bits: 0.9 - 0.1 * i,
        bitsPerMinute: 0.4 - 0.05 * i,
        healthy: c.outcome.kind === 'number' ? band(13.6, 14.5) : undefined,
        previews:
          c.outcome.kind === 'number'
            ? [
                {
                  outcome: 'low',
                  words: 'Below 13.6 V',
                  chance: 0.62,
                  then: 'Brushes worn out',
                  thenProbability: 0.81,
                },
                {
                  outcome: 'in',
                  words: '13.6 to 14.5 V',
                  chance: 0.3,
                  then: 'Bank is empty and nothing is wrong',
                  thenProbability: 0.5,
                },
                {
                  outcome: 'high',
                  words: 'Above 14.5 V',
                  chance: 0.08,
                  then: 'Regulator stuck full',
                  thenProbability: 0.9,
                },
              ]
            : c.outcome.answers.map((a) => ({
                outcome: a.id,
                words: a.words,
                chance: 0.33,
                then: 'Brushes worn out',
                thenProbability: 0.4,
              })),
      })),
    conclusion: { kind: 'go-on' },
    amps: [{ battery: bank, band: band(-3, 2) }],
    assumed: ['Cable from the stud: 16 to 35 mm², 2 m', 'Battery temperature near 20 °C'],
    reliability: { draws: 512, operatingPoints: 20000, notConverged: 3, effectiveDraws: 140, error: 0.02 },
  };
}

export function pretendRise(readings: readonly Reading[]): RiseChart {
  const times = [0, 30, 60, 120, 180, 300, 450, 600];
  const curve = (top: number, spread: number) =>
    times.map((t) => {
      const m = 12.3 + (top - 12.3) * (1 - Math.exp(-t / 150));
      return { low: m - spread, middle: m, high: m + spread };
    });
  return {
    battery: 'house',
    engineSpeed: 1500 * RPM,
    times,
    healthy: curve(14, 0.25),
    suspects: [
      { id: 'a', words: 'Brushes worn out', bands: curve(12.2, 0.1) },
      { id: 'b', words: 'Bank is empty and nothing is wrong', bands: curve(13.1, 0.3) },
    ],
    points: readings.flatMap((r) =>
      r.outcome.kind === 'number'
        ? [{ sinceStart: r.check.includes('rest') ? 0 : 300, value: r.outcome.value, reading: r.id }]
        : [],
    ),
  };
}

export function pretendLoop(): LoopChart {
  const band = (m: number, s: number) => ({ low: m - s, middle: m, high: m + s });
  const rows: [string, string, number, number, number | undefined][] = [
    ['alternator.B+', 'Alternator stud', 14.2, 13.6, 13.55],
    ['starter.post', 'Starter post', 14.1, 13.4, undefined],
    ['switch.common', 'Battery switch, in', 14.05, 12.5, 12.5],
    ['switch.one', 'Battery switch, out', 14.02, 12.4, undefined],
    ['battery.+', 'Battery positive post', 14, 12.3, 12.3],
    ['battery.-', 'Battery negative post', 0, 0, 0],
    ['engine.block', 'Engine block', -0.05, -0.06, undefined],
    ['alternator.case', 'Alternator case', -0.06, -0.07, -0.06],
  ];
  return {
    alternator: 'alternator',
    battery: 'battery',
    stations: rows.map(([terminal, words, healthy, now, measured]) => ({
      terminal,
      words,
      healthy: band(healthy, 0.1),
      now: band(now, 0.15),
      measured,
    })),
  };
}
