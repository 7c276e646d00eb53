/** The ledger counts whole microlitres, so that its sums are exact; people and the wire see millilitres. */
export function toUl(ml: number): number {
  return Math.round(ml * 1000)
}

export function toMl(ul: number | bigint): number {
  return Number(ul) / 1000
}
