/** What-ifs of bank, charging cable and loads. */
import { boatAt, partsOfKind, type BoatDescription } from '../boat/index.ts';
import { chargingSetPoints, metricSizesInUse, type Citation } from '../handbook/index.ts';
import { chargeCableFor, chosenCable, leavesStud } from '../remedy/wiring-rules.ts';
import { formatQuantity } from '../units/index.ts';
import { bought, withChange, withPart } from './change.ts';
import { mainPath } from './machine-variants.ts';
import { notForThisBoat, variantWords, type VariantResult } from './variant.ts';

const AMP_HOUR = 3600;
/** Share of capacity that is used without harm; common practice, from memory. */
const USABLE = { lead: 0.5, lithium: 0.8 } as const;
/** Loads that thrift takes away, as a share; a choice. */
const THRIFT = 0.4;

const practice = (clause: string): Citation => ({ source: 'COMMON', clause, edition: '', seen: 'C' });

export function lithiumBank(description: BoatDescription, size?: number): VariantResult {
  const id = 'lithium-bank';
  const boat = boatAt(description);
  const path = mainPath(description, boat);
  const bank = boat.batteries.find((one) => one.id === path?.battery);
  if (path === undefined || bank === undefined)
    return notForThisBoat(id, 'No alternator of this boat reaches a bank.');
  if (bank.chemistry === 'lifepo4' && size === undefined)
    return notForThisBoat(id, 'The bank is lithium already.');
  const step = 10 * AMP_HOUR;
  const value =
    size ?? Math.max(step, Math.ceil((bank.capacity * USABLE.lead) / USABLE.lithium / step) * step);
  const volts = description.nominalVoltage / 12;
  const { absorption } = chargingSetPoints('lifepo4');
  const setpoint = ((absorption[0] + absorption[1]) / 2) * volts;
  const regulator = partsOfKind(description, 'regulator').find((one) => one.id === path.regulator);
  const settable = regulator?.choices.place === 'outside';
  let fitted = withPart(description, bank.id, {
    quantities: { capacity: bought(value), age: undefined },
    choices: { chemistry: 'lifepo4' },
  });
  if (settable)
    fitted = withPart(fitted, regulator.id, {
      quantities: { setpoint: bought(setpoint), compensation: bought(0) },
    });
  const joined = ['selector', 'relay', 'isolator'].some((kind) =>
    description.parts.some((part) => part.kind === kind),
  );
  return {
    kind: 'variant',
    variant: {
      id,
      name: `${variantWords[id]}: ${formatQuantity(value, 'charge')}`,
      part: bank.id,
      changes: [
        `${bank.id}: ${formatQuantity(value, 'charge')} LiFePO4 in place of ${formatQuantity(bank.capacity, 'charge')}; as much can be used without harm.`,
        ...(settable
          ? [`${regulator.id}: ${formatQuantity(setpoint, 'voltage')}, no temperature compensation.`]
          : []),
      ],
      removes: ['The long absorption: it takes nearly full current until it is full.'],
      asks: [
        'The alternator works at full output for hours: a temperature limit, and a way for its current to go when the protection switch opens.',
        ...(settable
          ? []
          : ['A charging voltage that suits it: a regulator inside the alternator cannot be set.']),
        ...(joined && boat.batteries.length > 1
          ? [
              'A start battery of lead beside it must not be joined for long: a converter between them, or apart.',
            ]
          : []),
        'No charging below freezing.',
      ],
      size: {
        words: 'capacity',
        dimension: 'charge',
        value,
        now: bank.capacity,
        low: 5 * AMP_HOUR,
        high: 5000 * AMP_HOUR,
      },
      sources: [practice('usable share 50 % of lead-acid, 80 % of LiFePO4')],
      description: withChange(fitted, 'batteries-replaced'),
    },
  };
}

export function thickerCable(description: BoatDescription, size?: number): VariantResult {
  const id = 'thicker-cable';
  const boat = boatAt(description);
  const path = mainPath(description, boat);
  const cable = path && partsOfKind(description, 'cable').find((one) => leavesStud(one, path.alternator));
  const now = boat.conductors.find((one) => one.id === cable?.id)?.area;
  if (path === undefined || cable === undefined || now === undefined)
    return notForThisBoat(id, 'No charging cable is known.');
  const wanted = chargeCableFor(description, path.alternator);
  const choice = wanted && chosenCable(wanted);
  const next = metricSizesInUse.find((area) => area > 1.1 * now);
  const value = size ?? (choice !== undefined && choice.area > 1.1 * now ? choice.area : next);
  if (value === undefined) return notForThisBoat(id, 'The cable is as thick as any that is listed.');
  return {
    kind: 'variant',
    variant: {
      id,
      name: `${variantWords[id]}: ${formatQuantity(value, 'area')}`,
      part: cable.id,
      changes: [
        `${cable.id}: ${formatQuantity(value, 'area')}, ${formatQuantity(now, 'area')} before; new terminals.`,
      ],
      removes: [],
      asks: ['The return as thick as the way out; a fuse that suits the new cable.'],
      size: { words: 'conductor size', dimension: 'area', value, now, low: 0.3e-6, high: 300e-6 },
      sources: choice === undefined ? [practice('next size up')] : [choice.dropHot.citation],
      description: withChange(
        withPart(description, cable.id, { quantities: { area: bought(value), resistance: undefined } }),
        'wiring-altered',
      ),
    },
  };
}

/** `size`: all loads together [A]. */
export function fewerLoads(description: BoatDescription, size?: number): VariantResult {
  const id = 'fewer-loads';
  const { loads } = boatAt(description);
  const now = loads.reduce((sum, { current }) => sum + current, 0);
  if (now < 0.5 && size === undefined) return notForThisBoat(id, 'There are hardly any loads.');
  const value = size ?? now * (1 - THRIFT);
  const share = now > 0 ? value / now : 1;
  return {
    kind: 'variant',
    variant: {
      id,
      name: `${variantWords[id]}: ${formatQuantity(value, 'current')}`,
      part: loads[0]?.id ?? 'loads',
      changes: [
        `Loads: ${formatQuantity(value, 'current')} on average, ${formatQuantity(now, 'current')} before.`,
      ],
      removes: [],
      asks: [
        'Finding what runs day and night: refrigerator, autopilot, anchor light, instruments, inverter.',
      ],
      size: { words: 'loads together, on average', dimension: 'current', value, now, low: 0, high: 1000 },
      sources: [practice('a choice, not a rule')],
      description: loads.reduce(
        (fitted, load) =>
          withPart(fitted, load.id, {
            quantities: { current: { value: load.current * share, origin: 'told' } },
          }),
        description,
      ),
    },
  };
}
