/**
 * JSON with the keys of every object in order and no space: equal values give equal bytes, whoever wrote them and in
 * which order. Dates become ISO 8601 in UTC; what is undefined is left out.
 *
 * @throws {TypeError} For a number that JSON cannot hold.
 */
export function canonicalJson(value: unknown): string {
  if (value instanceof Date) return JSON.stringify(value.toISOString())
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new TypeError(`${value} cannot be written down: JSON has no such number`)
  if (typeof value !== 'object' || value === null) return JSON.stringify(value ?? null)
  if (Array.isArray(value)) return `[${value.map((each) => canonicalJson(each)).join(',')}]`
  const entries = Object.entries(value)
    .filter(([, each]) => each !== undefined)
    // By code unit: the order must not depend on a locale.
    .toSorted(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
  return `{${entries.map(([key, each]) => `${JSON.stringify(key)}:${canonicalJson(each)}`).join(',')}}`
}
