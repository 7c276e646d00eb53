import type { BodyOf, productRoutes } from '@clampclock/contracts'

/** Invented products with invented figures: nothing of them stands on any cartridge. */
type NewProduct = BodyOf<typeof productRoutes.addProduct>

type Point = readonly [temperatureC: number, work: number, handling: number, full: number]

interface Sketch {
  readonly name: string
  readonly chemistry: NewProduct['chemistry']
  readonly form: string
  readonly ml: number
  readonly mix: string
  readonly openLifeDays: number
  readonly storage: readonly [min: number, max: number, label: number]
  readonly primer: boolean
  readonly cure: readonly [applicationMin: number, applicationMax: number, lowest: number, highest: number]
  readonly points: readonly Point[]
}

const SKETCHES: readonly Sketch[] = [
  {
    name: 'Snark Quick 20',
    chemistry: 'acrylic',
    form: 'side-by-side 50',
    ml: 50,
    mix: '10:1',
    openLifeDays: 60,
    storage: [5, 30, 23],
    primer: false,
    cure: [10, 35, 5, 80],
    points: [
      [10, 48, 130, 2880],
      [23, 20, 50, 1440],
      [35, 9, 22, 600],
    ],
  },
  {
    name: 'Snark Panel 90',
    chemistry: 'acrylic',
    form: 'side-by-side 200',
    ml: 200,
    mix: '10:1',
    openLifeDays: 90,
    storage: [5, 30, 23],
    primer: false,
    cure: [12, 35, 8, 85],
    points: [
      [12, 200, 620, 3600],
      [23, 90, 270, 1440],
      [35, 42, 120, 600],
      [60, 11, 30, 90],
    ],
  },
  {
    name: 'Snark Alloy 50',
    chemistry: 'acrylic',
    form: 'side-by-side 200',
    ml: 200,
    mix: '10:1',
    openLifeDays: 90,
    storage: [5, 30, 23],
    primer: false,
    cure: [12, 35, 8, 85],
    points: [
      [12, 115, 340, 3200],
      [23, 50, 150, 1440],
      [35, 23, 66, 620],
    ],
  },
  {
    name: 'Boojum Structural 60',
    chemistry: 'epoxy',
    form: 'side-by-side 200 wide',
    ml: 200,
    mix: '2:1',
    openLifeDays: 180,
    storage: [2, 27, 20],
    primer: true,
    cure: [15, 35, 12, 120],
    points: [
      [15, 120, 900, 14_400],
      [23, 60, 420, 10_080],
      [40, 18, 110, 720],
      [60, 6, 35, 120],
    ],
  },
  {
    name: 'Boojum Tough 120',
    chemistry: 'epoxy',
    form: 'side-by-side 400',
    ml: 400,
    mix: '2:1',
    openLifeDays: 180,
    storage: [2, 27, 20],
    primer: true,
    cure: [15, 35, 12, 120],
    points: [
      [15, 240, 1700, 20_160],
      [23, 120, 780, 10_080],
      [40, 38, 200, 1000],
      [80, 5, 22, 60],
    ],
  },
  {
    name: 'Boojum Impact 180',
    chemistry: 'epoxy',
    form: 'coaxial 220',
    ml: 220,
    mix: '2:1',
    openLifeDays: 120,
    storage: [2, 27, 20],
    primer: true,
    cure: [15, 35, 12, 150],
    points: [[23, 180, 1080, 10_080]],
  },
  {
    name: 'Bandersnatch Flange 45',
    chemistry: 'polyurethane',
    form: 'side-by-side 50',
    ml: 50,
    mix: '1:1',
    openLifeDays: 14,
    storage: [8, 25, 20],
    primer: true,
    cure: [10, 35, 5, 70],
    points: [
      [10, 95, 330, 2880],
      [23, 45, 150, 1440],
      [35, 22, 75, 720],
    ],
  },
  {
    name: 'Bandersnatch Seam 15',
    chemistry: 'polyurethane',
    form: 'coaxial 220',
    ml: 220,
    mix: '1:1',
    openLifeDays: 21,
    storage: [8, 25, 20],
    primer: true,
    cure: [10, 35, 5, 70],
    points: [
      [10, 32, 100, 1440],
      [23, 15, 45, 720],
      [35, 7, 20, 360],
    ],
  },
]

export const DEMO_PRODUCTS: readonly NewProduct[] = SKETCHES.map((sketch) => ({
  name: sketch.name,
  chemistry: sketch.chemistry,
  mixRatio: sketch.mix,
  cartridgeForm: sketch.form,
  cartridgeMl: sketch.ml,
  openLifeDays: sketch.openLifeDays,
  storageRangeC: { min: sketch.storage[0], max: sketch.storage[1] },
  labelStorageC: sketch.storage[2],
  storageQ10: 2,
  nozzleHoldUpMl: sketch.ml <= 50 ? 3 : 8,
  glassBeadMm: 0.25,
  toleratesPrimer: sketch.primer,
  sheet: {
    revision: 'B (invented)',
    issuedOn: '2025-03-01',
    points: sketch.points.map(([temperatureC, workTimeMinutes, handlingTimeMinutes, fullCureMinutes]) => ({
      temperatureC,
      workTimeMinutes,
      handlingTimeMinutes,
      fullCureMinutes,
    })),
    applicationRangeC: { min: sketch.cure[0], max: sketch.cure[1] },
    lowestCureC: sketch.cure[2],
    highestCureC: sketch.cure[3],
    serviceRangeC: { min: -40, max: 176.7 },
    confirmed: [],
    validFrom: null,
  },
}))
