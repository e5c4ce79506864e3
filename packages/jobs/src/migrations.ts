/** Steps from each format version to the next. Append only; each step has an old file as its fixture. */
import { jobVersion } from './job.ts';

type Plain = Record<string, unknown>;

/** `migrations[n]` turns a file of version n into one of version n + 1. */
const migrations: readonly ((file: Plain) => Plain)[] = [
  // 0 → 1: the voltage became a quantity, readings moved into visits, `skipped` became `could_not`.
  (file) => {
    const { readings, date, ...rest } = file;
    const { system_volts: volts, ...boat } = isPlain(file.boat) ? file.boat : {};
    const list = Array.isArray(readings) ? (readings as unknown[]) : [];
    return {
      ...rest,
      version: 1,
      boat: {
        ...boat,
        ...(typeof volts === 'number'
          ? { nominal_voltage: { value: volts, unit: 'V', origin: 'told' } }
          : {}),
      },
      visits: [
        {
          id: 'visit-1',
          ...(date === undefined ? {} : { date }),
          readings: list.map((entry) => {
            if (!isPlain(entry)) return entry;
            const { skipped, ...reading } = entry;
            return skipped === true ? { ...reading, could_not: true } : reading;
          }),
        },
      ],
    };
  },
];

/** The file in today's version; the file itself when it is of today's version or newer. */
export function migrated(file: Plain, version: number): Plain {
  let current = file;
  for (let from = version; from < jobVersion; from++) current = migrations[from]!(current);
  return current;
}

const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
