/** Processor time, and how it is written. */
/** Processor time of this process [s]: unlike the clock, it does not count what other programs take. */
export function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

export function micro(seconds: number): string {
  if (Number.isNaN(seconds)) return '     –   ';
  return `${(seconds * 1e6).toPrecision(3).padStart(7)} µs`;
}
