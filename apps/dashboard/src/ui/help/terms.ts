/** What is explained: here beside the thing, and on the page of all terms. The meanings are those of docs/words.md. */
export const TERMS = [
  'handlingStrength',
  'workTime',
  'fullCure',
  'bondLine',
  'skimCoat',
  'careful',
  'expected',
  'estimated',
  'safetyClass',
  'printedExpiry',
  'openLife',
  'onHold',
  'quarantined',
  'suspect',
  'gate',
  'incident',
] as const

export type Term = (typeof TERMS)[number]
