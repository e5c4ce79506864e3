/** How sure, in words: the same scale everywhere. The thresholds are ours; where it matters, the figure stands beside its word. */
export function sureness(chance: number): string {
  if (chance >= 0.97) return 'almost certainly';
  if (chance >= 0.85) return 'very likely';
  if (chance >= 0.65) return 'probably';
  if (chance >= 0.35) return 'perhaps';
  if (chance >= 0.1) return 'possibly';
  return 'hardly';
}
