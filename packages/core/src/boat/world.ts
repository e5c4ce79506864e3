/** One possible boat for a vector of coordinates: what is known stays near what was told, what is unknown is drawn. */
import assumptions from './assumptions.json' with { type: 'json' };
import type { Boat } from './boat.ts';
import { partsOfKind, type BoatDescription } from './description.ts';
import { batteryAt } from './drawn-bank.ts';
import { alternatorAt, beltAt, engineAt, regulatorAt } from './drawn-machine.ts';
import { conductorAt, relayAt, selectorAt } from './drawn-wiring.ts';
import { Latent } from './latent.ts';

const CELSIUS = 273.15;

/** Names of the unknowns of a boat, one for each coordinate of `boatAt`. */
export function unknownsOf(description: BoatDescription): readonly string[] {
  const latent = new Latent();
  build(description, latent);
  return latent.names;
}

/** The boat at these standard-normal coordinates; without any, the median boat.
 *  Errors: RangeError when there are fewer coordinates than unknowns.
 */
export function boatAt(description: BoatDescription, coordinates?: Float64Array): Boat {
  return build(description, new Latent(coordinates));
}

function build(description: BoatDescription, latent: Latent): Boat {
  const volts = description.nominalVoltage / 12;
  const all = assumptions;
  const lithium = partsOfKind(description, 'battery').some((part) => part.choices.chemistry === 'lifepo4');
  const ambient =
    CELSIUS +
    all.battery.temperature_c +
    all.battery.temperature_spread_k * latent.normal('ambient temperature');
  const positiveJoints = Math.exp(all.cable.joint_spread * latent.normal('joints on the positive side'));
  const returnJoints = Math.exp(all.cable.joint_spread * latent.normal('joints on the return side'));
  const chargeCables = Math.exp(all.cable.size_spread * latent.normal('charging cable'));
  const engines = partsOfKind(description, 'engine').map((part) => engineAt(part, latent));
  const alternators = partsOfKind(description, 'alternator').map((part) =>
    alternatorAt(part, description, latent),
  );
  const greatest = Math.max(0, ...alternators.map((alternator) => alternator.ratedCurrent));
  return {
    nominalVoltage: description.nominalVoltage,
    engines,
    alternators,
    regulators: partsOfKind(description, 'regulator').map((part) =>
      regulatorAt(part, volts, lithium, latent),
    ),
    belts: partsOfKind(description, 'belt').map((part) => beltAt(part, alternators)),
    batteries: partsOfKind(description, 'battery').map((part) =>
      batteryAt(part, description, ambient, latent),
    ),
    conductors: partsOfKind(description, 'cable').map((part) =>
      conductorAt(part, { positiveJoints, returnJoints, chargeCables, greatest }),
    ),
    selectors: partsOfKind(description, 'selector').map((part) => selectorAt(part, latent)),
    isolators: partsOfKind(description, 'isolator').map((part) => ({
      id: part.id,
      type: (part.choices.type ?? 'diode') as 'diode' | 'fet',
      legOne: 'good',
      legTwo: 'good',
    })),
    relays: partsOfKind(description, 'relay').map((part) => relayAt(part, volts, latent)),
    fuses: partsOfKind(description, 'fuse').map((part) => ({
      id: part.id,
      rating: part.quantities.rating?.value ?? Infinity,
      resistance: 0.0004,
    })),
    loads: partsOfKind(description, 'load').map((part) => ({
      id: part.id,
      current: latent.positive(
        `${part.id}: current`,
        part.quantities.current,
        all.load.current_a / volts,
        all.load.spread,
        all.load.told_spread,
      ),
      always: true,
    })),
    sources: partsOfKind(description, 'source').map((part) => ({
      id: part.id,
      current: latent.positive(
        `${part.id}: current`,
        part.quantities.current,
        all.source.current_a,
        all.source.spread,
      ),
      setpoint:
        (part.quantities.setpoint?.value ?? all.source.setpoint_v * volts) +
        all.source.setpoint_spread_v *
          volts *
          (part.quantities.setpoint === undefined ? 1 : 0.3) *
          latent.normal(`${part.id}: set-point`),
      on: part.choices.state !== 'off',
    })),
    starters: partsOfKind(description, 'starter').map((part) => ({
      id: part.id,
      engine: part.serves ?? '',
      resistance: latent.positive(
        `${part.id}: cranking`,
        undefined,
        volts === 2 ? all.starter.cranking_ohm_24v : all.starter.cranking_ohm_12v,
        all.starter.spread,
      ),
    })),
    lamps: partsOfKind(description, 'lamp').map((part) => ({
      id: part.id,
      power: part.quantities.power?.value ?? assumptions.lamp.power_w,
      state: 'good',
    })),
    keys: partsOfKind(description, 'key').map((part) => ({
      id: part.id,
      engine: part.serves ?? '',
      contact: 0.02,
    })),
    gauges: partsOfKind(description, 'gauge').map((part) => ({
      id: part.id,
      plus: part.from ?? '',
      minus: part.to ?? '',
      error: all.gauge.error_v * volts * latent.normal(`${part.id}: error`),
    })),
    ambient,
    traits: { presence: 1, onset: 'none', heatSmell: false, deadTachometer: '' },
  };
}
