/** The appendix's charts with their figures. */
import { formatDuration, formatNumber, formatQuantity, metricPreference } from '../units/index.ts';
import type { ReportInput } from './report-input.ts';
import { named } from './report-words.ts';
import type { Block } from './report.ts';

export function charts(input: ReportInput): Block[] {
  const { rise, loop, preference = metricPreference } = input;
  const blocks: Block[] = [];
  if (rise !== undefined) {
    const band = (low: number, high: number): string =>
      Number.isFinite(low)
        ? `${formatNumber(low, { decimals: 2 })} to ${formatNumber(high, { decimals: 2 })}`
        : '–';
    blocks.push({
      kind: 'rise',
      caption: `Rise of the ${named(input, rise.battery)} at ${formatQuantity(rise.engineSpeed, 'speed', preference)}`,
      chart: rise,
      figures: {
        caption: 'The rise in figures [V]',
        head: ['Since start', 'If all were well', ...rise.suspects.map(({ words }) => words)],
        rows: rise.times.map((time, index) => [
          time === 0 ? 'engine off' : formatDuration(time),
          ...[rise.healthy, ...rise.suspects.map(({ bands }) => bands)].map((bands) => {
            const one = bands[index];
            return one === undefined ? '–' : band(one.low, one.high);
          }),
        ]),
      },
    });
  }
  if (loop !== undefined) {
    const volts = (value: number): string => formatNumber(value, { decimals: 2 });
    blocks.push({
      kind: 'loop',
      caption: `Potential along the loop, ${named(input, loop.alternator)} to ${named(input, loop.battery)} and back`,
      chart: loop,
      figures: {
        caption: 'The loop in figures, against battery negative [V]',
        head: ['', 'Terminal', 'If all were well', 'As it is likely now', 'Measured'],
        rows: loop.stations.map(({ words, healthy, now, measured }, index) => [
          String(index + 1),
          words,
          `${volts(healthy.low)} to ${volts(healthy.high)}`,
          `${volts(now.low)} to ${volts(now.high)}`,
          measured === undefined ? '–' : volts(measured),
        ]),
      },
    });
  }
  return blocks;
}
