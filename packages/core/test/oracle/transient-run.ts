/** The circuit of a charge run for a transient of ngspice. It is exported as it stands with the machine awake; the bank's main
 *  branch is written anew, with charge and polarisation as integrators, from the equations in the docstrings of battery.ts,
 *  battery-polarisation.ts and lead-acid.ts. Windings are held at ambient on both sides; the engine's
 *  governor droops in ours only, which is most of what the two differ by. */
import agm from '../../data/batteries/agm.json' with { type: 'json' };
import lifepo4 from '../../data/batteries/lifepo4.json' with { type: 'json' };
import { boatAt, boatFromTemplate, type BoatDescription } from '../../src/boat/index.ts';
import { netlist, spiceElement, spiceNode } from '../../src/circuit/index.ts';
import { asFound, chargeRunOf, Operator, type ChargeRun } from '../../src/operate/index.ts';
import { prepareBattery, type BatteryState } from '../../src/physics/battery.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const ENGINE_SPEED = 1600 * RPM;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

/** A boat with one bank, how full it is, and for how long the engine runs. */
export interface ChargeCase {
  readonly chemistry: 'agm' | 'lifepo4';
  /** [A] of the alternator, [A h] of the bank. */
  readonly amps: number;
  readonly ampHours: number;
  readonly from: number;
  readonly hours: number;
}

export const chargeCases: readonly ChargeCase[] = [
  { chemistry: 'agm', amps: 60, ampHours: 200, from: 0.35, hours: 5 },
  { chemistry: 'lifepo4', amps: 80, ampHours: 200, from: 0.2, hours: 1.5 },
];

/** The run as the product computes it. */
export const ownRun = (one: ChargeCase): ChargeRun =>
  chargeRunOf(boat(one), [{ duration: one.hours * HOUR, engine: 'running', engineSpeed: ENGINE_SPEED }], {
    stateOfCharge: { battery: one.from },
    heat: 'held',
  });

/** The same boat for ngspice: netlist lines; volts at both posts of the bank, amps into it and its charge are the vectors. */
export function ngspiceRun(one: ChargeCase): {
  readonly lines: readonly string[];
  readonly vectors: readonly string[];
} {
  const world = boatAt(boat(one));
  for (const battery of world.batteries) {
    battery.stateOfCharge = one.from;
    battery.surfaceVoltage = 0;
  }
  const operator = new Operator(world);
  const states = operator.statesBefore();
  operator.at(
    { ...asFound, engine: 'running', engineSpeed: ENGINE_SPEED, sinceStart: HOUR },
    {
      batteries: states,
      elapsed: 60,
      windings: world.alternators.map(() => world.ambient),
      spaces: world.engines.map(() => world.ambient),
      setpointShifts: [0],
      relays: [],
    },
  );
  const { circuit, batteries } = operator.plant;
  const { main, plus: post, pole, minus } = batteries[0]!;
  const index = circuit.elements.indexOf(main);
  const own = new Set(
    main.spiceLines({ node: (node) => spiceNode(circuit, node), element: spiceElement(circuit, index) }),
  );
  const plus = spiceNode(circuit, post);
  const back = spiceNode(circuit, minus);
  return {
    lines: [
      ...netlist(circuit).filter((line) => !own.has(line)),
      ...bankInTime(operator, states[0]!, { plus: spiceNode(circuit, pole), minus: back }),
    ],
    vectors: [`v(${plus})`, `v(${back})`, 'i(vbank)', 'v(soc)'],
  };
}

function boat({ chemistry, amps, ampHours }: ChargeCase): BoatDescription {
  const found = boatFromTemplate('one-battery', {
    alternatorCurrent: told(amps),
    bankCapacity: told(ampHours * HOUR),
    bankChemistry: chemistry,
    loadsCurrent: told(5),
  });
  // No wait after the start: ngspice begins with the machine awake.
  return {
    ...found,
    parts: found.parts.map((part) =>
      part.kind === 'regulator' ? { ...part, quantities: { start_delay: told(0) } } : part,
    ),
  };
}

const table = (xs: readonly number[], ys: readonly number[], of: string): string =>
  `pwl(${of},${xs.map((x, k) => `${x},${ys[k]!}`).join(',')})`;

/** Lines of the bank's main branch in time. */
function bankInTime(
  operator: Operator,
  state: BatteryState,
  nodes: { plus: string; minus: string },
): string[] {
  const law = operator.lawOf(0);
  const prepared = prepareBattery(law, state, 0);
  const lithium = law.chemistry === 'lifepo4';
  const { openCircuit, polarisation } = lithium ? lifepo4 : agm;
  const volts = openCircuit.voltage_V.map((v) => (v / openCircuit.cellsInTable) * law.cells);
  const soc = 'V(soc)';
  const current = 'I(Vbank)';
  const positive = `max(${current}*${prepared.perAmpere},0)`;
  const negative = `max(-(${current})*${prepared.perAmpere},0)`;
  const chargeConstant = `(0.48/pow(max(0.002,1-${soc}),1.2)+0.036)`;
  const dischargeConstant = `(0.27/pow(pow(${soc},4)+${0.02 ** 4},0.375)+0.02)`;
  // Charging current alone is compared: the corner between both slopes is left out.
  const settled = lithium
    ? `(${prepared.linearResistance}*${current})`
    : `(${prepared.chargeScale}*${positive}*(6/(1+pow(${positive}+1e-12,0.86))+${chargeConstant})` +
      `-${prepared.dischargeScale}*${negative}*(4/(1+pow(${negative}+1e-12,1.3))+${dischargeConstant}))`;
  const memories = [
    [polarisation.quickShare, polarisation.quickTime_s, state.polarisation],
    [polarisation.slowShare, polarisation.slowTime_s, state.slowPolarisation],
    [polarisation.surfaceShare, polarisation.surfaceTime_s, state.surfaceCharge],
  ] as const;
  const remembered = memories.map(([share], k) => `+${share}*V(u${k})`).join('');
  return [
    `Vbank ${nodes.plus} bankx 0`,
    `Bbank bankx ${nodes.minus} V=${table(openCircuit.stateOfCharge, volts, soc)}+${prepared.ohmicResistance}*${current}` +
      `+${polarisation.immediateShare}*V(q)${remembered}`,
    `Bq q 0 V=${settled}-${prepared.ohmicResistance}*${current}`,
    'Rq q 0 1',
    ...memories.flatMap(([, time, start], k) => [
      `Bu${k} 0 u${k} I=(V(q)-V(u${k}))/${time}`,
      `Cu${k} u${k} 0 1`,
      `.ic V(u${k})=${start}`,
    ]),
    `Bsoc 0 soc I=${current}/${law.capacity}`,
    'Csoc soc 0 1',
    `.ic V(soc)=${state.stateOfCharge}`,
  ];
}
