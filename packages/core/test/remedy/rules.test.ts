import { describe, expect, it } from 'vitest';
import { boatFromTemplate, type BoatDescription, type TenFacts } from '../../src/boat/index.ts';
import { systemRules, type RuleId, type RuleResult } from '../../src/remedy/index.ts';
import { areaOfGauge, feet } from '../../src/units/index.ts';

const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'measured' }) as const;

function rulesOf(facts: TenFacts, more: (boat: BoatDescription) => BoatDescription = (boat) => boat) {
  const results = systemRules(more(boatFromTemplate('one-battery', facts)));
  return (rule: RuleId): RuleResult => results.find((one) => one.rule === rule)!;
}

const withQuantity = (kind: string, id: string, value: number) => (boat: BoatDescription) =>
  ({
    ...boat,
    parts: boat.parts.map((part) =>
      part.kind === kind ? { ...part, quantities: { ...part.quantities, [id]: told(value) } } : part,
    ),
  }) as BoatDescription;

describe('system rules', () => {
  it('[E11, 11.14.2.6] drop of a charging cable is judged against 3 % of 12 V, out and back', () => {
    // 6 AWG, 10 ft one way, 100 A: 20 ft of 0.3951 Ω/kft is 0.79 V at 20 °C, far over 0.36 V.
    const thin = rulesOf({
      alternatorCurrent: told(100),
      cableArea: told(areaOfGauge(6)),
      cableLength: told(feet(10)),
    })('charge-cable-drop');
    expect(thin.standing).toBe('broken');
    expect(thin.answer!.value).toBeGreaterThan(100 * 0.02 * 0.3951);
    // Hot copper at most 1.36 times as much: 105 °C insulation.
    expect(thin.answer!.value).toBeLessThan(100 * 0.02 * 0.3951 * 1.36);
    expect(thin.citation!.source).toBe('E11');
    expect(thin.advice).toMatch(/mm².*AWG/);
    const thick = rulesOf({
      alternatorCurrent: told(100),
      cableArea: told(areaOfGauge(-3)),
      cableLength: told(feet(10)),
    })('charge-cable-drop');
    expect(thick.standing).toBe('kept');
  });

  it('[CFR425, table 5] 6 AWG of 105 °C insulation carries 120 A, 0.85 of it in an engine space', () => {
    const facts = { cableArea: told(areaOfGauge(6)), cableLength: told(1) };
    const within = rulesOf({ ...facts, alternatorCurrent: told(100) })('charge-cable-ampacity');
    expect(within.answer!.value).toBeCloseTo(120 * 0.85, 6);
    expect(within.standing).toBe('kept');
    const beyond = rulesOf({ ...facts, alternatorCurrent: told(110) })('charge-cable-ampacity');
    expect(beyond.standing).toBe('broken');
  });

  it('[common practice] a 10 mm belt carries 70 to 80 A at 14 V', () => {
    const belt = (amps: number) =>
      rulesOf({ alternatorCurrent: told(amps), beltSection: 'v-10' })('belt').standing;
    expect(belt(60)).toBe('kept');
    expect(belt(75)).toBe('near');
    expect(belt(120)).toBe('broken');
  });

  it('[SHIG, effective friction 0.5123] a belt with a third of a turn carries four fifths of it', () => {
    const wrapped = (degrees: number) =>
      rulesOf(
        { alternatorCurrent: told(66), beltSection: 'v-10' },
        withQuantity('belt', 'wrap_angle', (degrees * Math.PI) / 180),
      )('belt');
    // 66 A of 70: within; at 120° it is as 66/0.8 = 83 A of 80.
    expect(wrapped(160).standing).toBe('kept');
    expect(wrapped(120).standing).toBe('broken');
    expect(wrapped(120).says).toMatch(/with 120° of wrap carries about 894 W/);
    expect(wrapped(120).answer?.margin).toBeLessThan(0);
    expect(wrapped(200).standing).toBe('kept');
  });

  it('[common practice] a 50 A machine is small for 400 Ah of AGM, right for 120 Ah', () => {
    const share = (ampHours: number) =>
      rulesOf({
        alternatorCurrent: told(50),
        bankCapacity: told(ampHours * HOUR),
        bankChemistry: 'agm',
        loadsCurrent: told(0),
      })('bank-share').standing;
    expect(share(400)).toBe('broken');
    expect(share(120)).toBe('kept');
  });

  it('[common practice] lithium on an alternator that nothing cools is not lasting; with a limit it is', () => {
    const facts: TenFacts = {
      alternatorCurrent: told(100),
      bankCapacity: told(400 * HOUR),
      bankChemistry: 'lifepo4',
    };
    expect(rulesOf(facts)('lithium-load').standing).toBe('broken');
    const limited = withQuantity('regulator', 'temperature_limit', 378);
    expect(rulesOf(facts, limited)('lithium-load').standing).toBe('kept');
    expect(rulesOf({ ...facts, bankChemistry: 'flooded' })('lithium-load')).toBeUndefined();
  });

  it('[common practice] a flooded bank wants 14.4 V or so: 13.8 V never fills it, 15.5 V boils it', () => {
    const set = (volts: number) =>
      rulesOf({ bankChemistry: 'flooded' }, withQuantity('regulator', 'setpoint', volts))('set-point');
    expect(set(14.4).standing).toBe('kept');
    expect(set(13.8).standing).toBe('broken');
    expect(set(13.8).question).toBe('enough');
    expect(set(15.5).standing).toBe('broken');
    expect(set(15.5).question).toBe('lasting');
  });

  it('[limit] a 35 A machine is nothing to a 30 hp engine at idle, a 150 A one is too much for 9 hp', () => {
    const share = (amps: number, horsepower: number) =>
      rulesOf({ alternatorCurrent: told(amps), idleSpeed: told(850 * (Math.PI / 30)) }, (boat) =>
        withQuantity(
          'engine',
          'rated_power',
          horsepower * 745.7,
        )(withQuantity('alternator', 'pulley_ratio', 2.8)(boat)),
      )('engine-share');
    expect(share(35, 30).standing).toBe('kept');
    expect(share(150, 9).standing).toBe('broken');
    // A third of the engine takes three times the share; shaft power is the same but for what the space of a larger engine
    // leaves of the copper's warmth: under a kelvin, 0.02 %.
    expect(share(150, 10).answer!.value / share(150, 30).answer!.value).toBeCloseTo(3, 3);
  });

  it('[law] what is not known is not judged, and says what is missing; every result defers to the local standard', () => {
    for (const result of systemRules(boatFromTemplate('two-alternators'))) {
      expect(result.standing, result.id).toBe('unknown');
      expect(result.missing.length, result.id).toBeGreaterThan(0);
      expect(result.caution).toMatch(/standard in force/);
    }
  });

  it('[common practice] a pulley that is good at idle may overspeed the rotor at full throttle', () => {
    const RPM = (2 * Math.PI) / 60;
    const rotor = (ratio: number) =>
      rulesOf({}, (boat) =>
        withQuantity(
          'engine',
          'rated_speed',
          4500 * RPM,
        )(withQuantity('alternator', 'pulley_ratio', ratio)(boat)),
      )('rotor-speed');
    expect(rotor(2).standing).toBe('kept');
    expect(rotor(3).standing).toBe('near');
    expect(rotor(3.5).standing).toBe('broken');
    expect(rotor(3.5).answer!.value / RPM).toBeCloseTo(15_750, 6);
  });

  it('[TEXTBOOK] air for the engine space: 1 kW at a rise of 15 K takes some 200 m³/h; ten degrees halve the life', () => {
    // 1000 W / (1.19 kg/m³ · 1006 J/(kg·K) · 15 K) = 0.0557 m³/s = 200 m³/h
    const space = (celsius: number) =>
      rulesOf(
        { alternatorCurrent: told(100) },
        withQuantity('engine', 'space_temperature', celsius + 273.15),
      )('engine-space');
    const { answer, says, standing } = space(65);
    const heat = answer!.inputs.find(({ name }) => name === 'heat')!.value;
    expect((answer!.value * 3600) / (heat / 1000)).toBeGreaterThan(190);
    expect((answer!.value * 3600) / (heat / 1000)).toBeLessThan(210);
    // A space at 60 to 90 °C leaves 90 to 75 % of the cold rating: 3 to 4 % for ten degrees.
    expect(says).toMatch(/cost 2\.9 % to 3\.8 % of the amps and leave 50 % of the windings/);
    expect([standing, space(55).standing, space(45).standing]).toEqual(['broken', 'near', 'kept']);
  });

  it('[common practice] the rule of the set-point says what a wrong one does in a season', () => {
    const set = (volts: number) =>
      rulesOf({ bankChemistry: 'flooded' }, withQuantity('regulator', 'setpoint', volts))('set-point').says;
    expect(set(13.5)).toMatch(/sulphates/);
    expect(set(15.5)).toMatch(/loses its water/);
    expect(set(14.5)).not.toMatch(/season/);
  });

  it('[SHIG, effective friction 0.5123] the belt rule says what wrap and tension do', () => {
    // tanh(0.5123 · π/3) / tanh(0.5123 · π/2) = 0.490 / 0.667; 1/64 of a metre is 15.6 mm.
    const { says } = rulesOf({ alternatorCurrent: told(60), beltSection: 'v-10' })('belt');
    expect(says).toMatch(/16 mm for each metre/);
    expect(says).toMatch(/it pulls 74 % of what/);
  });
});
