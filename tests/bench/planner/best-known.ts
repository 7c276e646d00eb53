/** best-known.csv: a header with `instance` and `best_known`, one instance a line. */
export function readBestKnown(csv: string): Map<string, number> {
  const [header, ...lines] = csv
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(',').map((cell) => cell.trim()))
  const name = header?.indexOf('instance') ?? -1
  const best = header?.indexOf('best_known') ?? -1
  if (name < 0 || best < 0) throw new Error('best-known.csv: give it the columns instance and best_known')
  return new Map(lines.map((cells) => [cells[name]!, Number(cells[best])]))
}
