/** Engine, alternator, regulator and belt of a possible boat, drawn from what is known of them. */
import assumptions from './assumptions.json' with { type: 'json' };
import { beltPractice } from '../handbook/index.ts';
import type { Alternator, Belt, Engine, Regulator } from './boat.ts';
import { partsOfKind, type BoatDescription, type PartDescription } from './description.ts';
import type { Latent } from './latent.ts';
import { toldCurve } from './told-curve.ts';

const RPM = (2 * Math.PI) / 60;
const CELSIUS = 273.15;

export function engineAt(part: PartDescription<'engine'>, latent: Latent): Engine {
  const all = assumptions.engine;
  const known = part.quantities;
  const idle = known.idle_speed?.value ?? all.idle_rpm * RPM;
  // What a tachometer or a trained ear says of the speed is a few per cent off.
  const speedError = Math.exp(
    (known.idle_speed === undefined ? all.idle_spread : all.tachometer_spread) *
      latent.normal(`${part.id}: speed`),
  );
  const space = known.space_temperature;
  return {
    id: part.id,
    idleSpeed: idle,
    cruiseSpeed: known.cruise_speed?.value ?? all.cruise_rpm * RPM,
    ratedSpeed: known.rated_speed?.value ?? all.rated_rpm * RPM,
    ratedPower: known.rated_power?.value ?? all.rated_power_kw * 1000,
    speedError,
    spaceTemperature:
      (space?.value ?? CELSIUS + all.space_c) +
      all.space_spread_k * (space === undefined ? 1 : 0.3) * latent.normal(`${part.id}: engine space`),
    ventilation: known.ventilation?.value,
  };
}

export function alternatorAt(
  part: PartDescription<'alternator'>,
  description: BoatDescription,
  latent: Latent,
): Alternator {
  const all = assumptions.alternator;
  const known = part.quantities;
  const volts = description.nominalVoltage / 12;
  const regulator = partsOfKind(description, 'regulator').find((candidate) => candidate.serves === part.id);
  const outside = regulator?.choices.place === 'outside';
  const rated = latent.positive(
    `${part.id}: rated current`,
    known.rated_current,
    all.rated_current_a / volts,
    all.rated_spread,
  );
  const fieldMedian = volts === 2 ? all.field_ohm_24v : all.field_ohm_12v;
  return {
    id: part.id,
    engine: part.serves ?? '',
    ratedCurrent: rated,
    cutInSpeed: latent.positive(
      `${part.id}: cut-in speed`,
      known.cut_in_speed,
      all.cut_in_rpm * RPM,
      all.cut_in_spread,
    ),
    cutInTold: known.cut_in_speed !== undefined,
    curve: toldCurve(known, rated),
    pulleyRatio: latent.positive(
      `${part.id}: pulley ratio`,
      known.pulley_ratio,
      all.pulley_ratio,
      all.pulley_spread,
    ),
    health: Math.min(
      1.1,
      Math.max(0.6, all.health + all.health_spread * latent.normal(`${part.id}: output against nameplate`)),
    ),
    fieldResistance: latent.positive(
      `${part.id}: field resistance`,
      known.field_resistance,
      fieldMedian,
      all.field_spread,
    ),
    brushResistance: all.brush_ohm * volts,
    excitation: outside ? 'ignition' : ((part.choices.excitation ?? 'lamp') as Alternator['excitation']),
    fieldSwitching: (part.choices.field_switching ?? 'positive') as Alternator['fieldSwitching'],
    residual: 1,
    windingFault: 'none',
    windingSeverity: 0,
    rotorShortedShare: 0,
    fieldDiodes: 'good',
    heatFactor: 1,
  };
}

export function regulatorAt(
  part: PartDescription<'regulator'>,
  volts: number,
  lithium: boolean,
  latent: Latent,
): Regulator {
  const all = assumptions.regulator;
  const known = part.quantities;
  const place = part.choices.place === 'outside' ? 'outside' : 'inside';
  const median = (lithium ? all.setpoint_lithium_v : all.setpoint_v) * volts;
  const spread = all.setpoint_spread_v * volts * (known.setpoint === undefined ? 1 : 0.3);
  const delay =
    place === 'outside'
      ? latent.positive(
          `${part.id}: start delay`,
          known.start_delay,
          all.outside_delay_s,
          all.outside_delay_spread,
        )
      : (known.start_delay?.value ?? all.inside_delay_s);
  return {
    id: part.id,
    alternator: part.serves ?? '',
    place,
    state: 'good',
    setpoint: (known.setpoint?.value ?? median) + spread * latent.normal(`${part.id}: set-point`),
    compensation: known.compensation?.value ?? (lithium ? 0 : all.compensation_v_per_k * volts),
    gain: all.gain_per_v / volts,
    startDelay: delay,
    ramp: place === 'outside' ? all.ramp_s : 1,
    fieldCap: 1,
    temperatureLimit: known.temperature_limit?.value ?? Infinity,
    ownTemperatureLimit: Infinity,
  };
}

export function beltAt(part: PartDescription<'belt'>, alternators: readonly Alternator[]): Belt {
  const rated = alternators.find((alternator) => alternator.id === part.serves)?.ratedCurrent ?? 70;
  const usual = rated <= 75 ? 'v-10' : rated <= 110 ? 'v-13' : rated <= 180 ? 'ribbed-6' : 'ribbed-8';
  return {
    id: part.id,
    alternator: part.serves ?? '',
    section: (part.choices.section ?? usual) as Belt['section'],
    wrap: part.quantities.wrap_angle?.value ?? beltPractice.usualWrap,
    grip: 1,
    dust: 0,
    misaligned: false,
  };
}
