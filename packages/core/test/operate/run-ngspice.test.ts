/** A charge run against a transient of ngspice (oracle/transient-run.ts). */
import { describe, expect, it } from 'vitest';
import { chargeCases, ngspiceRun, ownRun } from '../oracle/transient-run.ts';
import { ngspiceTransient } from '../oracle/ngspice.ts';

describe('charge run', () => {
  it.each(chargeCases)(
    '[rival] a transient of ngspice goes the same way: $chemistry, $amps A, $ampHours Ah',
    (one) => {
      const run = ownRun(one);
      const { lines, vectors } = ngspiceRun(one);
      const rows = ngspiceTransient(lines, { stop: one.hours * 3600, step: 30, vectors });
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
        `ngspice transient, ${one.chemistry}: largest difference ${(1000 * volts).toFixed(1)} mV, ${ampsOff.toFixed(2)} A, ${(100 * share).toFixed(3)} % of charge, over ${run.steps} steps`,
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
