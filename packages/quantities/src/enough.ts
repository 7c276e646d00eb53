/**
 * What is taken from a cartridge that holds `heldMl` when `askedMl` is asked for. People and forms write whole mL,
 * rounded up: who asks 53 of 52.97 takes what there is. More than that is asked in earnest, and stays.
 */
export function takenMl(askedMl: number, heldMl: number): number {
  return askedMl > heldMl && askedMl <= Math.ceil(heldMl) ? heldMl : askedMl
}

/** Whether an amount is what is needed, both in whole mL rounded up, as they are written and read. */
export function isEnoughMl(amountMl: number, neededMl: number): boolean {
  return wholeMl(amountMl) >= wholeMl(neededMl)
}

/** A need as it is shown: rounded up, but not for a microlitre, which is less than the ledger counts. */
export function wholeMl(ml: number): number {
  return Math.ceil(ml - 0.0005)
}
