/** What accepting a joint that departed from the rules asks for, by its class. */
export interface AskedOfDisposal {
  /** The inspector is qualified for the class. */
  readonly qualified: boolean
  readonly photo: boolean
  /** It counts once somebody else entitled has agreed. */
  readonly secondPerson: boolean
}

/**
 * Where a failing joint can hurt somebody (S1, S2) two people answer for it, and show it. Common practice, no source; that
 * who inspects is qualified for the class follows DIN 2304-1.
 */
export function asksOfDisposal(safetyClass: string): AskedOfDisposal {
  const isGrave = safetyClass === 'S1' || safetyClass === 'S2'
  return { qualified: isGrave, photo: isGrave, secondPerson: isGrave }
}
