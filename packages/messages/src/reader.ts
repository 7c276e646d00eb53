import type { Language } from './languages.ts'

/** How a person reads: his language, his units, his clock. Only the zone is the shop's. */
export interface Reader {
  readonly language: Language
  readonly temperature: 'C' | 'F'
  readonly volume: 'mL' | 'flOz'
  readonly length: 'mm' | 'in'
  readonly clock: '24h' | '12h'
  /** 1 is Monday. */
  readonly firstDay: 1 | 2 | 3 | 4 | 5 | 6 | 7
  /** IANA; instants are shown on its clock. */
  readonly zone: string
  /** He has chosen no unit of temperature: where one is said to be its shop's, it is shown in that. */
  readonly unitOfShop?: true
}
