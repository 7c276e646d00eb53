/** Properties near room temperature. */
export interface Material {
  readonly densityKgPerM3: number
  readonly heatCapacityJPerKgK: number
  /** Through the thickness, for fibre composites. */
  readonly conductivityWPerMK: number
  readonly source: string
}

/**
 * What body panels are made of. Within a family alloys differ by some 10 %, fibre composites by more: a time
 * constant fitted to a logged run (`fitTimeConstant`) beats any of these.
 */
export const MATERIALS = {
  mildSteel: {
    densityKgPerM3: 7832,
    heatCapacityJPerKgK: 434,
    conductivityWPerMK: 63.9,
    source:
      'carbon steel AISI 1010 at 300 K: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, table A.1',
  },
  highStrengthSteel: {
    densityKgPerM3: 7850,
    heatCapacityJPerKgK: 460,
    conductivityWPerMK: 45,
    source: 'from memory',
  },
  stainlessSteel: {
    densityKgPerM3: 7900,
    heatCapacityJPerKgK: 477,
    conductivityWPerMK: 14.9,
    source: 'AISI 304 at 300 K, from memory',
  },
  aluminium5xxx: {
    densityKgPerM3: 2670,
    heatCapacityJPerKgK: 900,
    conductivityWPerMK: 125,
    source: 'from memory',
  },
  aluminium6xxx: {
    densityKgPerM3: 2700,
    heatCapacityJPerKgK: 896,
    conductivityWPerMK: 167,
    source: 'from memory',
  },
  glassFibre: {
    densityKgPerM3: 1900,
    heatCapacityJPerKgK: 1100,
    conductivityWPerMK: 0.3,
    source: 'from memory',
  },
  carbonFibre: {
    densityKgPerM3: 1550,
    heatCapacityJPerKgK: 1000,
    conductivityWPerMK: 0.6,
    source: 'from memory',
  },
  curedAdhesive: {
    densityKgPerM3: 1400,
    heatCapacityJPerKgK: 1800,
    conductivityWPerMK: 0.2,
    source: 'from memory',
  },
} as const satisfies Readonly<Record<string, Material>>

export type MaterialName = keyof typeof MATERIALS
