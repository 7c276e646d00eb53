/**
 * What follows each GS1 application identifier: facts of the GS1 General Specifications, as the GS1 syntax dictionary
 * tells them (gs1/gs1-syntax-dictionary, commit ff2eb4b). A part is a set of characters and a length: `N6` six digits,
 * `X..20` up to twenty; then `c` ends in a check digit, `d` is a date whose day may be 00, `D` one whose day may not, `?` may be absent.
 */
const FORMATS: Readonly<Record<string, string>> = {
  N18c: '00 8017 8018',
  N14c: '01 02 03',
  'X..20': '10 21 22 243 254 420 4318 7020-7022 710-717 7240 8002 8012',
  N6d: '11-13 15-17',
  N2: '20 7241',
  'X..28': '235',
  'X..30': '240 241 250 251 400 401 403 4308 4319 7002 7023 8004 90',
  'N..6': '242',
  'N13c X..17?': '253',
  'N13c N..12?': '255',
  'N..8': '30 37',
  N6: '3100-3105 3110-3115 3120-3125 3130-3135 3140-3145 3150-3155 3160-3165 3200-3205 3210-3215 3220-3225 3230-3235 3240-3245 3250-3255 3260-3265 3270-3275 3280-3285 3290-3295 3300-3305 3310-3315 3320-3325 3330-3335 3340-3345 3350-3355 3360-3365 3370-3375 3400-3405 3410-3415 3420-3425 3430-3435 3440-3445 3450-3455 3460-3465 3470-3475 3480-3485 3490-3495 3500-3505 3510-3515 3520-3525 3530-3535 3540-3545 3550-3555 3560-3565 3570-3575 3600-3605 3610-3615 3620-3625 3630-3635 3640-3645 3650-3655 3660-3665 3670-3675 3680-3685 3690-3695 3950-3955 8005',
  'N..15': '3900-3909 3920-3929',
  'N3 N..15': '3910-3919 3930-3939',
  N4: '3940-3943 8111',
  N17c: '402',
  N13c: '410-417',
  'N3 X..9': '421',
  N3: '422 424 426',
  'N3 N3? N3? N3? N3?': '423 425',
  'X..3': '427 7008',
  'X..35': '4300 4301 4310 4311 4320',
  'X..70': '4302-4306 4312-4316 7257 8110 8112 8200',
  X2: '4307 4317',
  'N10 N10': '4309',
  N1: '4321-4323 7252',
  'N6d N4': '4324 4325',
  N6D: '4326 7006',
  'N6 X1?': '4330-4333',
  N13: '7001',
  'N6D N4': '7003',
  'N..4': '7004',
  'X..12': '7005',
  'N6D N6D?': '7007',
  'X..10': '7009 7255',
  'X..2': '7010',
  'N6D N4?': '7011',
  'N3 X..27': '7030-7039',
  'N1 X1 X1 X1': '7040',
  'X..4': '7041',
  'X2 X..28': '7230-7239',
  'X..25': '7242 8013 8014 8020',
  N8: '7250',
  'N8 N4': '7251',
  'X..40': '7253 7254 7259',
  'X..90': '7256 91-99',
  X3: '7258',
  'N4 N5 N3 N1 N1': '8001',
  'N1 N13c X..16?': '8003',
  'N14c N4': '8006 8026',
  'X..34': '8007',
  'N6D N2 N2? N2?': '8008',
  'X..50': '8009',
  'Y..30': '8010',
  'N..12': '8011',
  'N..10': '8019',
  'Z..90': '8030',
  N15: '8040 8041',
  N32: '8042',
  'N18 N..2?': '8043',
}

/** After these two digits the length is known, so that no separator is needed (General Specifications, predefined lengths). */
const PREDEFINED = new Set([
  '00',
  '01',
  '02',
  '03',
  '04',
  '11',
  '12',
  '13',
  '14',
  '15',
  '16',
  '17',
  '18',
  '19',
  '20',
  '31',
  '32',
  '33',
  '34',
  '35',
  '36',
  '41',
])

export interface Part {
  readonly characters: 'N' | 'X' | 'Y' | 'Z'
  readonly min: number
  readonly max: number
  readonly check: boolean
  readonly date: 'dayMayBeZero' | 'dayNeeded' | null
  readonly optional: boolean
}

export interface ApplicationIdentifier {
  readonly ai: string
  readonly parts: readonly Part[]
  /** No separator is needed after it. */
  readonly predefined: boolean
}

const TABLE: ReadonlyMap<string, ApplicationIdentifier> = new Map(
  Object.entries(FORMATS).flatMap(([format, identifiers]) => {
    const parts = format.split(' ').map(toPart)
    return identifiers
      .split(' ')
      .flatMap(spread)
      .map((ai) => [ai, { ai, parts, predefined: PREDEFINED.has(ai.slice(0, 2)) }] as const)
  }),
)

export function applicationIdentifier(ai: string): ApplicationIdentifier | undefined {
  return TABLE.get(ai)
}

/** The identifier that a text begins with. None begins with another one, so there is at most one. */
export function leadingIdentifier(text: string): ApplicationIdentifier | undefined {
  for (const length of [2, 3, 4]) {
    const found = TABLE.get(text.slice(0, length))
    if (found && text.length >= length) return found
  }
  return undefined
}

function spread(range: string): string[] {
  const [from = '', to] = range.split('-')
  if (to === undefined) return [from]
  return Array.from({ length: Number(to) - Number(from) + 1 }, (_, i) =>
    String(Number(from) + i).padStart(from.length, '0'),
  )
}

function toPart(text: string): Part {
  const match = /^([NXYZ])(\.\.)?(\d+)([cdD]?)(\??)$/.exec(text)
  if (!match) throw new Error(`the table of application identifiers is wrong at ${text}`)
  const [, characters, upTo, length, mark, optional] = match
  return {
    characters: characters as Part['characters'],
    min: upTo ? 1 : Number(length),
    max: Number(length),
    check: mark === 'c',
    date: mark === 'd' ? 'dayMayBeZero' : mark === 'D' ? 'dayNeeded' : null,
    optional: optional === '?',
  }
}
