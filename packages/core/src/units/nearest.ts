/** Names close to a mistyped one, so that an error can offer them. */

/** The names nearest to the text, closest first; case is ignored.
 *    Edit distance (insert, delete, replace, each 1); kept when it is at most half the longer length, rounded up.
 *  Source: V. I. Levenshtein 1966 (distance).   Leaves out: swapped letters count as two edits
 *  Errors: none; an empty list when nothing is close */
export function nearestNames(text: string, names: Iterable<string>, limit = 3): string[] {
  const wanted = text.toLowerCase();
  const ranked: { name: string; distance: number }[] = [];
  for (const name of new Set(names)) {
    const candidate = name.toLowerCase();
    const distance = editDistance(wanted, candidate);
    if (distance <= Math.ceil(Math.max(wanted.length, candidate.length) / 2)) ranked.push({ name, distance });
  }
  ranked.sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : 1));
  return ranked.slice(0, limit).map((entry) => entry.name);
}

function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const replace = previous[column - 1]! + (a[row - 1] === b[column - 1] ? 0 : 1);
      current.push(Math.min(replace, previous[column]! + 1, current[column - 1]! + 1));
    }
    previous = current;
  }
  return previous[b.length]!;
}
