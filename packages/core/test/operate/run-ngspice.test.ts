/** A charge run against a transient of ngspice. The circuit is exported as it stands with the machine awake; the bank's
 *  main branch is written anew for ngspice, with charge and polarisation as integrators, from the equations in the
 *  docstrings of battery.ts, battery-polarisation.ts and lead-acid.ts. Windings are held at ambient on both sides. */
import { describe, expect, it } from 'vitest';
import agm from '../../data/batteries/agm.json' with { type: 'json' };
import lifepo4 from '../../data/batteries/lifepo4.json' with { type: 'json' };
import { boatAt, boatFromTemplate, type BoatDescription } from '../../src/boat/index.ts';
import { netlist, spiceElement, spiceNode } from '../../src/circuit/index.ts';
import { asFound, chargeRunOf, Operator } from '../../src/operate/index.ts';
import { prepareBattery, type BatteryState } from '../../src/physics/battery.ts';
import { ngspiceTransient } from '../oracle/ngspice.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

function boat(chemistry: 'agm' | 'lifepo4', amps: number, ampHours: number): BoatDescription {
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

describe('charge run', () => {
  it.each([
    ['agm', 60, 200, 0.35, 5],
    ['lifepo4', 80, 200, 0.2, 1.5],
  ] as const)(
    '[rival] a transient of ngspice goes the same way: %s, %d A, %d Ah',
    (chemistry, amps, ampHours, from, hours) => {
      const description = boat(chemistry, amps, ampHours);
      const stop = hours * HOUR;
      const speed = 1600 * RPM;
      const run = chargeRunOf(description, [{ duration: stop, engine: 'running', engineSpeed: speed }], {
        stateOfCharge: { battery: from },
        heat: 'held',
      });
      const world = boatAt(description);
      for (const battery of world.batteries) {
        battery.stateOfCharge = from;
        battery.surfaceVoltage = 0;
      }
      const operator = new Operator(world);
      const states = operator.statesBefore();
      operator.at(
        { ...asFound, engine: 'running', engineSpeed: speed, sinceStart: HOUR },
        {
          batteries: states,
          elapsed: 60,
          windings: world.alternators.map(() => world.ambient),
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
      const step = 30;
      const rows = ngspiceTransient(
        [
          ...netlist(circuit).filter((line) => !own.has(line)),
          ...bankInTime(operator, states[0]!, { plus: spiceNode(circuit, pole), minus: back }),
        ],
        { stop, step, vectors: [`v(${plus})`, `v(${back})`, 'i(vbank)', 'v(soc)'] },
      );
      const { voltage, current, stateOfCharge } = run.batteries[0]!;
      let [volts, ampsOff, share] = [0, 0, 0];
      // Both at the times of our own steps; the first three minutes hold the ramp that ngspice does not have.
      run.times.forEach((time, k) => {
        if (time < 180) return;
        const at = rows.findIndex(([t]) => t! >= time - 1e-6);
        const [after, before] = [rows[at]!, rows[Math.max(0, at - 1)]!];
        const part = after[0]! > before[0]! ? (time - before[0]!) / (after[0]! - before[0]!) : 1;
        const there = (column: number) => before[column]! + (after[column]! - before[column]!) * part;
        volts = Math.max(volts, Math.abs(voltage[k]! - (there(1) - there(2))));
        ampsOff = Math.max(ampsOff, Math.abs(current[k]! - there(3)));
        share = Math.max(share, Math.abs(stateOfCharge[k]! - there(4)));
      });
      console.log(
        `ngspice transient, ${chemistry}: largest difference ${(1000 * volts).toFixed(1)} mV, ${ampsOff.toFixed(2)} A, ${(100 * share).toFixed(3)} % of charge, over ${run.steps} steps`,
      );
      // A run is to be good to 1 % of charge time: 0.3 % of charge; 30 mV and 1 A are what a good
      // meter and clamp are off themselves.
      expect(share).toBeLessThan(3e-3);
      expect(volts).toBeLessThan(0.03);
      expect(ampsOff).toBeLessThan(1);
    },
    60_000,
  );
});
