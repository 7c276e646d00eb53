import type { Bond } from '../../api/types.ts'

const never = { kind: 'never', reason: 'noTemperature' } as const
const milestone = {
  progress: { earliest: 0, expected: 0, conservative: 0 },
  readyAt: { earliest: never, expected: never, conservative: never },
  basis: 'dataSheet' as const,
}

const SHEET: Bond['sheet'] = {
  id: 'sh',
  revision: 'A',
  issuedOn: '2030-01-01',
  points: [{ temperatureC: 23, workTimeMinutes: 30, handlingTimeMinutes: 240, fullCureMinutes: 1440 }],
  applicationRangeC: { min: 15, max: 30 },
  lowestCureC: 10,
  highestCureC: 90,
  serviceRangeC: { min: -40, max: 120 },
  validFrom: null,
  recordedAt: '2031-01-01T12:00:00Z',
  recordedBy: 'P',
  recordedById: null,
  answered: [],
  approval: { at: '2031-01-01T13:00:00Z', by: 'Q', secondLook: false },
  documents: [],
  rejection: null,
}

/** For tests: applied at noon on a panel of 23 degC that stays so; 30 min work time, 4 h handling, 24 h full cure. */
export const NOON_MS = Date.parse('2031-05-04T12:00:00Z')

export function bondAtNoon(change: Partial<Bond> = {}): Bond {
  const at = (hours: number) => new Date(NOON_MS + hours * 3_600_000).toISOString()
  return {
    id: 'b',
    bayFrom: null,
    shopId: 's',
    jointId: 'j',
    jointName: 'Outer sill, left',
    repairOrderId: 'r',
    repairOrderNumber: 'R-1',
    vehicle: 'Van',
    attempt: 1,
    state: 'clamped',
    productName: 'Invented acrylic',
    wasLifted: false,
    toldLate: { appliedMinutes: null, clampedMinutes: null },
    countsFrom: change.appliedAt ?? at(0),
    sheet: SHEET,
    judgedBy: [change.sheet ?? SHEET],
    cartridgeId: 'c',
    cartridgeCode: 'C-1',
    lotNumber: 'L-1',
    bayId: 'bay',
    bayName: 'Bay 1',
    amountMl: 60,
    shortAmount: null,
    moreCartridges: [],
    appliedAt: at(0),
    appliedBy: 'T',
    slidAt: null,
    slidBy: null,
    clampedAt: null,
    clampedBy: null,
    releasedAt: null,
    releasedBy: null,
    abandonedAt: null,
    abandonReason: null,
    panelTauMinutes: null,
    chemistry: 'acrylic',
    place: { fallC: [0, 4], riseC: [0, 6] },
    readings: [{ at: at(0), temperatureC: 23, accuracyC: 0, source: 'metalProbe', by: 'T' }],
    measurements: [],
    forecast: Array.from({ length: 49 }, (_, hour) => ({ at: at(hour), expectedC: 23, lowC: 20, highC: 25 })),
    estimate: {
      asOf: at(0),
      workTime: milestone,
      handlingStrength: milestone,
      fullCure: milestone,
      notes: [],
    },
    moveCheck: { mayMove: false, asOf: at(0), readyAt: never, reasons: [] },
    incidents: [],
    ...change,
  }
}
