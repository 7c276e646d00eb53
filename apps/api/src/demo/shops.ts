/** Four invented shops: how they are heated decides how a joint cures in them over night. */
export interface DemoShop {
  readonly name: string
  readonly timeZone: string
  readonly temperatureUnit: 'C' | 'F'
  readonly bays: readonly string[]
  readonly oven: string
  readonly dispensers: readonly { readonly name: string; readonly cartridgeForms: readonly string[] }[]
  readonly clampSets: readonly { readonly name: string; readonly capacity: number }[]
  readonly places: readonly string[]
  /** Bay air by day, how far it falls at night, and how much warmer or cooler it is from one day to the next, degC. */
  readonly climate: {
    readonly dayC: number
    readonly nightDropC: number
    readonly driftC: number
    readonly humidity: number
  }
}

const BOTH_SMALL = ['side-by-side 50', 'side-by-side 200', 'side-by-side 200 wide']

export const DEMO_SHOPS: readonly DemoShop[] = [
  {
    name: 'Harbour Lane',
    timeZone: 'America/New_York',
    temperatureUnit: 'F',
    bays: ['Bay 1 (lift)', 'Bay 2', 'Bay 3 (frame bench)'],
    oven: 'Bake booth',
    dispensers: [
      { name: 'Battery gun, grey', cartridgeForms: BOTH_SMALL },
      { name: 'Air gun, long', cartridgeForms: ['side-by-side 400', 'coaxial 220'] },
    ],
    clampSets: [{ name: 'Panel clamps, sets of 20', capacity: 3 }],
    places: ['Cabinet by the counter', 'Shelf over the mixing room'],
    climate: { dayC: 21, nightDropC: 5, driftC: 1.5, humidity: 48 },
  },
  {
    name: 'Mill Yard',
    timeZone: 'America/New_York',
    temperatureUnit: 'F',
    bays: ['North bay', 'Middle bay', 'South bay'],
    oven: 'Oven',
    dispensers: [
      { name: 'Gun 1', cartridgeForms: BOTH_SMALL },
      { name: 'Gun 2', cartridgeForms: ['side-by-side 400'] },
      { name: 'Gun 3, coaxial', cartridgeForms: ['coaxial 220'] },
    ],
    clampSets: [{ name: 'Clamp trolley', capacity: 2 }],
    places: ['Flammables cabinet', 'Refrigerator'],
    climate: { dayC: 19, nightDropC: 7, driftC: 2, humidity: 55 },
  },
  {
    name: 'Prairie Cross',
    timeZone: 'America/Chicago',
    temperatureUnit: 'F',
    bays: ['Bay A', 'Bay B', 'Bay C (aluminium)'],
    oven: 'Combination booth',
    dispensers: [
      { name: 'Yellow gun', cartridgeForms: BOTH_SMALL },
      { name: 'Big gun', cartridgeForms: ['side-by-side 400', 'coaxial 220'] },
    ],
    clampSets: [{ name: 'Clamp cases', capacity: 4 }],
    places: ['Parts cage', 'Van shelf'],
    climate: { dayC: 22, nightDropC: 4, driftC: 1, humidity: 42 },
  },
  {
    name: 'High Mesa',
    timeZone: 'America/Denver',
    temperatureUnit: 'C',
    bays: ['Stall 1', 'Stall 2', 'Stall 3'],
    oven: 'Panel oven',
    // No gun here takes the wide or the big cartridge.
    dispensers: [
      { name: 'Hand gun', cartridgeForms: ['side-by-side 50', 'side-by-side 200'] },
      { name: 'Coaxial gun', cartridgeForms: ['coaxial 220'] },
    ],
    clampSets: [{ name: 'Clamp rack', capacity: 2 }],
    places: ['Heated cabinet', 'Back shelf'],
    climate: { dayC: 18, nightDropC: 9, driftC: 2.5, humidity: 35 },
  },
]
