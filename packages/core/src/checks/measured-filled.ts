/** What a bank tells by itself once a charger has filled it. Found flat, a sound bank and a worn one look alike. */
import { partsOfKind, type PartDescription } from '../boat/index.ts';
import type { Placement } from './check.ts';
import { fastFilled, filled } from './conditions.ts';
import { volts } from './outcomes.ts';
import { number } from './placing.ts';
import { bankTestLoad, labelledAmpHours } from './test-load.ts';

/** Rest volts a night after the charger ended [V at 12 V]. */
const FILLED_AT_REST = 0.1;
const FILLED_UNDER_TEST = 0.5;
const FILLED_CHARGING = 0.3;
/** After hours of a tenth of the capacity an hour: near empty the laws differ more. */
const FILLED_DRAWN = 0.6;

/** A tenth of the capacity on the label for five hours: half of what a new bank holds. */
const DISCHARGE_HOURS = 5;

const banks = (
  wanted: (bank: PartDescription<'battery'>) => boolean,
  drawn: (bank: PartDescription<'battery'>) => { amps: number; seconds: number },
  model: number,
): Placement => ({
  on: 'battery',
  sites: (description) =>
    partsOfKind(description, 'battery')
      .filter(wanted)
      .map((bank) => {
        const like = volts(description, `${bank.id}.+`, `${bank.id}.-`, model);
        return {
          part: bank.id,
          condition: filled,
          outcome: number({
            ...like,
            kind: 'number',
            probe: { kind: 'filled-volts', battery: bank.id, ...drawn(bank) },
          }),
        };
      }),
});

const isLead = ({ choices }: PartDescription<'battery'>): boolean => choices.chemistry !== 'lifepo4';

export const measuredFilled: Readonly<Record<string, Placement>> = {
  // A full bank takes little, so the regulator alone says how high the volts go.
  'filled-volts-fast': {
    on: 'battery',
    sites: (description) =>
      partsOfKind(description, 'battery').map(({ id }) => ({
        part: id,
        condition: fastFilled,
        outcome: volts(description, `${id}.+`, `${id}.-`, FILLED_CHARGING),
      })),
  },
  'filled-rest-volts': banks(isLead, () => ({ amps: 0, seconds: 0 }), FILLED_AT_REST),
  'filled-load-test': banks(isLead, (bank) => ({ amps: bankTestLoad(bank), seconds: 15 }), FILLED_UNDER_TEST),
  'filled-discharge': banks(
    () => true,
    (bank) => ({ amps: labelledAmpHours(bank) / 10, seconds: DISCHARGE_HOURS * 3600 }),
    FILLED_DRAWN,
  ),
};
