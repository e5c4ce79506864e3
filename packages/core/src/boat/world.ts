/** One possible boat for a vector of coordinates: what is known stays near what was told, what is unknown is drawn. */
import assumptions from './assumptions.json' with { type: 'json' };
import type {
  Alternator,
  Battery,
  Belt,
  Boat,
  Conductor,
  Engine,
  Regulator,
  Relay,
  Selector,
} from './boat.ts';
import { beltPractice } from '../handbook/index.ts';
import { partsOfKind, type BoatDescription, type PartDescription } from './description.ts';
import type { Chemistry } from './kinds.ts';
import { Latent } from './latent.ts';
import { toldCurve } from './told-curve.ts';

const RPM = (2 * Math.PI) / 60;
const AMP_HOUR = 3600;
const CELSIUS = 273.15;
/** Resistivity of annealed copper at 20 °C [Ω·m]. Source: IEC 60028. */
const COPPER = 1.7241e-8;

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

/** A selector that nobody told the position of stands on both banks, or on the first alone. Source: estimate. */
function selectorAt(part: PartDescription<'selector'>, latent: Latent): Selector {
  const told = part.choices.position as Selector['position'] | undefined;
  const usual = told === undefined && latent.normal(`${part.id}: position`) > 0.25 ? 'one' : 'both';
  return { id: part.id, position: told ?? usual, contact: 0.0003 };
}

/** Both thresholds of a relay are off together, as its reference is. */
function relayAt(part: PartDescription<'relay'>, volts: number, latent: Latent): Relay {
  const all = assumptions.relay;
  const known = part.quantities;
  const spread = all.threshold_spread_v * volts * (known.close_voltage === undefined ? 1 : 0.3);
  const shift = spread * latent.normal(`${part.id}: thresholds`);
  return {
    id: part.id,
    closeVoltage: (known.close_voltage?.value ?? all.close_v * volts) + shift,
    openVoltage: (known.open_voltage?.value ?? all.open_v * volts) + shift,
    closeDelay: known.close_delay?.value ?? all.close_delay_s,
    contact: 0.0005,
    state: 'good',
  };
}

function engineAt(part: PartDescription<'engine'>, latent: Latent): Engine {
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

function alternatorAt(
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

function regulatorAt(
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

function beltAt(part: PartDescription<'belt'>, alternators: readonly Alternator[]): Belt {
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

function batteryAt(
  part: PartDescription<'battery'>,
  description: BoatDescription,
  ambient: number,
  latent: Latent,
): Battery {
  const all = assumptions.battery;
  const known = part.quantities;
  const volts = description.nominalVoltage / 12;
  const chemistry = (part.choices.chemistry ?? 'flooded') as Chemistry;
  const starts = part.choices.duty === 'start';
  const told = known.state_of_charge;
  const middle =
    told === undefined ? (starts ? all.start_charge_middle : all.charge_middle) : chargeMiddle(told.value);
  const spread =
    told === undefined
      ? starts
        ? all.start_charge_spread
        : all.charge_spread
      : told.origin === 'measured'
        ? 0.12
        : 0.4;
  // A bank that also cranks has cranked: the engine of these readings runs.
  const least = part.choices.duty === 'house' ? 0.03 : 0.12;
  const share = normalShare(middle + spread * latent.normal(`${part.id}: state of charge`));
  const charge = told === undefined ? least + (1 - least) * share : share;
  return {
    id: part.id,
    chemistry,
    duty: (part.choices.duty ?? 'both') as Battery['duty'],
    cells: (chemistry === 'lifepo4' ? 4 : 6) * volts,
    capacity: latent.positive(
      `${part.id}: capacity`,
      known.capacity,
      ((starts ? all.start_ah : all.house_ah) * AMP_HOUR) / volts,
      all.capacity_spread,
    ),
    health: Math.min(
      1.05,
      Math.max(0.5, all.health + all.health_spread * latent.normal(`${part.id}: capacity left`)),
    ),
    stateOfCharge: charge,
    temperature: known.temperature?.value ?? ambient,
    resistanceFactor:
      all.resistance_by_duty[(part.choices.duty ?? 'both') as Battery['duty']] *
      Math.exp(all.resistance_spread * latent.normal(`${part.id}: resistance`)),
    // The trade's rule (a quarter of the ampere-hours) and the two published laws lie a factor of five apart.
    acceptance:
      chemistry === 'lifepo4'
        ? 1
        : all.acceptance * Math.exp(all.acceptance_spread * latent.normal(`${part.id}: acceptance`)),
    sulphation: 0,
    shortedCells: 0,
    protection: 'closed',
    surfaceVoltage:
      (all.surface_v + all.surface_spread_v * latent.normal(`${part.id}: surface charge`)) * volts,
  };
}

interface Joints {
  readonly positiveJoints: number;
  readonly returnJoints: number;
  readonly chargeCables: number;
  readonly greatest: number;
}

function conductorAt(part: PartDescription<'cable'>, joints: Joints): Conductor {
  const all = assumptions.cable;
  const { area, length, resistance } = part.quantities;
  const back =
    /return|ground|common/.test(part.id) || part.from?.endsWith('.-') || part.to?.endsWith('.block');
  const usual = all.area_by_amps_mm2.find(([amps]) => joints.greatest <= (amps ?? 0))?.[1] ?? 70;
  const section = area?.value ?? usual * 1e-6;
  const vague =
    area === undefined || length === undefined || area.origin === 'assumed' ? joints.chargeCables : 1;
  const ends = (section < 5e-6 ? all.small_joint_mohm : all.joint_mohm) * 2e-3;
  return {
    id: part.id,
    from: part.from ?? '',
    to: part.to ?? '',
    resistance: resistance?.value ?? ((COPPER * (length?.value ?? all.length_m)) / section) * vague,
    joints: resistance === undefined ? ends * (back ? joints.returnJoints : joints.positiveJoints) : 0,
    area: section,
    length: length?.value ?? all.length_m,
    sized: area !== undefined && area.origin !== 'assumed',
    leakage: Infinity,
  };
}

/** Share of charge for a normal coordinate, logistic: 1/(1 + e^(-1.7 x)), close to Φ and cheap to invert. */
const normalShare = (x: number): number => 0.01 + 0.99 / (1 + Math.exp(-1.7 * x));
const chargeMiddle = (share: number): number => {
  const inner = Math.min(0.995, Math.max(0.005, (share - 0.01) / 0.99));
  return -Math.log(1 / inner - 1) / 1.7;
};
