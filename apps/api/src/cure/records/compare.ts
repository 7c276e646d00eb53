import { message, type Message } from '@clampclock/messages'
import type { RecordEntryKind } from '@clampclock/contracts'
import { endOfDayMs } from '@clampclock/quantities'
import { figuresOf } from '../../work/index.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { toUl } from '../../foundation/database/volumes.ts'
import { saidIn } from './chain.ts'
import { compareAttachment, compareWithdrawal } from './compare-attachment.ts'
import { differing, type Comparison, notInTable } from './differing.ts'
import {
  dispositionKey,
  incidentKey,
  inspectionKey,
  movementKey,
  readingKey,
  rowsToTell,
  takenBackKey,
  type ToldBond,
} from './tables.ts'

type Facts = Readonly<Record<string, unknown>>
type Entry = ToldBond['bondRecordEntries'][number]

type Comparer = (entry: Entry, facts: Facts, bond: ToldBond) => Comparison

/**
 * What the entries of each kind say, against what the tables hold. A kind that is not here is chained and verified by its
 * hash as any other; its facts are compared with nothing, and the verifier says so.
 */
export const COMPARERS: Readonly<Partial<Record<RecordEntryKind | (string & {}), Comparer>>> = {
  applied: compareApplication,
  readingWithdrawn: compareTakenBack,
  reading: (entry, facts, bond) => compareReading(entry.at, facts, bond),
  slid: compareSlide,
  placed: (entry, facts, bond) => ({
    rows: ['bond.bay_from'],
    differences: differing('bond', [
      ['bay_from', entry.at, bond.bayFrom],
      ['bay_id', facts['bayId'], bond.bayId],
    ]),
  }),
  clamped: (entry, facts, bond) => ({
    rows: ['bond.clamped_at'],
    differences: differing('bond', [
      ['clamped_at', entry.at, bond.clampedAt],
      ['clamped_by', facts['by'], bond.clampedBy],
      ['clamped_recorded_at', facts['recordedAt'], bond.clampedRecordedAt?.toISOString() ?? null],
    ]),
  }),
  released: (entry, facts, bond) => ({
    rows: ['bond.released_at'],
    differences: differing('bond', [
      ['released_at', entry.at, bond.releasedAt],
      ['released_by', facts['by'], bond.releasedBy],
    ]),
  }),
  abandoned: (entry, facts, bond) => ({
    rows: ['bond.abandoned_at'],
    differences: differing('bond', [
      ['abandoned_at', entry.at, bond.abandonedAt],
      ['abandoned_by', facts['by'], bond.abandonedBy],
      ['abandon_reason', facts['reason'], bond.abandonReason],
    ]),
  }),
  incident: compareIncident,
  inspection: compareInspection,
  disposition: compareDisposition,
  // The vehicle is held against the last entry that names it, over all of them.
  vehicleCorrected: () => ({ rows: [], differences: [] }),
  photoAdded: (entry, facts, bond) => compareAttachment('photo', entry.at, facts, bond),
  noteAdded: (entry, facts, bond) => compareAttachment('note', entry.at, facts, bond),
  attachmentWithdrawn: (entry, facts, bond) => compareWithdrawal(entry.at, facts, bond),
}

/** Every difference between a bond's entries and its tables, and every row that no entry tells of. */
export function differencesOf(bond: ToldBond): Message[] {
  const told = new Set<string>()
  const differences: Message[] = []
  for (const entry of bond.bondRecordEntries) {
    const compared = COMPARERS[entry.kind]?.(entry, factsOf(entry.payload), bond)
    for (const row of compared?.rows ?? []) told.add(row)
    differences.push(...(compared?.differences ?? []))
  }
  for (const row of rowsToTell(bond))
    if (!told.has(row)) differences.push(message('record-fault.notInRecord', { where: row }))
  differences.push(...vehicleDifferences(bond), ...expiryDifferences(bond))
  // Where an entry or a row is missing, the state follows from that.
  return differences.length > 0 ? differences : stateDifference(bond)
}

function compareApplication(entry: Entry, facts: Facts, bond: ToldBond): Comparison {
  const [procedure, product, panel, air, amount, rows] = [
    'procedure',
    'product',
    'panel',
    'air',
    'amount',
    'rows',
  ].map((name) => within(facts[name])) as [Facts, Facts, Facts, Facts, Facts, Facts]
  const cartridges = (Array.isArray(facts['cartridges']) ? facts['cartridges'] : []).map(within)
  const amounts = cartridges.map(({ amountMl }) => (typeof amountMl === 'number' ? toUl(amountMl) : 0))
  const reading = compareReading(entry.at, { ...panel, by: facts['by'], reading: facts['reading'] }, bond)
  const hasRows = facts['rows'] !== undefined
  const booked = cartridges.filter(({ bookedMl }) => bookedMl !== 0)
  return {
    rows: ['bond.applied_at', ...reading.rows, ...booked.map(({ code }) => movementKey(String(code)))],
    differences: [
      ...differing('bond', [
        ['applied_at', entry.at, bond.appliedAt],
        ['applied_by', facts['by'], bond.appliedBy],
        ['applied_recorded_at', facts['recordedAt'], bond.appliedRecordedAt.toISOString()],
        // Of a program that applied it there is no person.
        ['applied_by_id', facts['personId'], bond.appliedById ?? facts['personId']],
        ['counts_not_before', facts['countsNotBefore'], bond.countsNotBefore?.toISOString() ?? null],
        ['attempt', facts['attempt'], bond.attempt],
        ['amount_ul', amounts.reduce((sum, each) => sum + each, 0), bond.amountUl],
        ['amount_needed_ul', ulOf(amount['neededMl']), bond.amountNeededUl],
        ['short_amount_reason', amount['shortBecause'], bond.shortAmountReason],
        ['air_temperature_c', air['temperatureC'], bond.airTemperatureC],
        ['relative_humidity_percent', air['relativeHumidityPercent'], bond.relativeHumidityPercent],
        ['dew_point_c', air['dewPointC'], bond.dewPointC],
        ['procedure_document', procedure['document'] ?? null, bond.procedureDocument],
        ['procedure_revision', procedure['revision'] ?? null, bond.procedureRevision],
        ['procedure_looked_up_on', procedure['lookedUpOn'] ?? null, day(bond.procedureLookedUpOn)],
        ['joint_id', rows['jointId'], bond.jointId],
        ['sheet_id', rows['sheetId'], bond.sheetId],
        ['dispenser_id', rows['dispenserId'], bond.dispenserId],
        // Told later, it is in an entry of its own.
        ['bay_id', rows['bayId'], bond.bayFrom === null ? bond.bayId : null],
        ['hygrometer_id', rows['hygrometerId'], bond.hygrometerId],
        ['air_read_with', rows['airReadWith'], bond.airReadWith],
        ['panel_tau_minutes', rows['panelTauMinutes'], bond.panelTauMinutes],
      ]),
      ...differing('joint', [
        ['name', facts['jointName'], bond.joint.name],
        ['safety_class', facts['safetyClass'], bond.joint.safetyClass],
        ['repair_order_id', rows['repairOrderId'], bond.joint.repairOrderId],
        ['panel_material', rows['panelMaterial'], bond.joint.panelMaterial],
        ['panel_thickness_mm', rows['panelThicknessMm'], bond.joint.panelThicknessMm],
      ]),
      ...differing('product_sheet', [
        ['revision', product['sheetRevision'], bond.sheet.revision],
        ['issued_on', product['sheetIssuedOn'], day(bond.sheet.issuedOn)],
        ...approvalOf(product, bond),
        ...(hasRows ? [['figures', rows['sheet'], figuresOf(bond.sheet)] as const] : []),
      ]),
      ...reading.differences,
      ...booked.flatMap((each) => compareCartridge(each, bond)),
    ],
  }
}

/** The table holds the last slide that was written down; the ones before are in the record alone. */
function compareSlide(entry: Entry, facts: Facts, bond: ToldBond): Comparison {
  const isLast = bond.bondRecordEntries.findLast(({ kind }) => kind === 'slid') === entry
  return {
    rows: ['bond.slid_at'],
    differences: isLast
      ? differing('bond', [
          ['slid_at', entry.at, bond.slidAt],
          ['slid_by', facts['by'], bond.slidBy],
        ])
      : [],
  }
}

/** As it stood when it was told: a sheet that nobody had approved then may have been approved since. */
function approvalOf(product: Facts, { sheet: { decision } }: ToldBond): [string, unknown, unknown][] {
  if (!product['sheetApproval']) return []
  const { at, by } = within(product['sheetApproval'])
  return [
    ['approved_by', by, decision?.decidedByName],
    ['approved_at', at, decision?.decidedAt.toISOString()],
  ]
}

function compareCartridge(told: Facts, bond: ToldBond): readonly Message[] {
  const code = String(told['code'])
  const movement = bond.stockMovements.find(({ cartridge }) => cartridge?.code === code)
  if (!movement?.cartridge) return notInTable(movementKey(code)).differences
  const { lot } = movement.cartridge
  const bookedMl = told['bookedMl'] ?? told['amountMl']
  const amount = typeof bookedMl === 'number' ? -toUl(bookedMl) : undefined
  return [
    ...differing(`stock_movement of cartridge ${code}`, [
      ['volume_change_ul', amount, movement.volumeChangeUl],
    ]),
    ...differing(`lot of cartridge ${code}`, [
      ['lot_number', told['lotNumber'], lot.lotNumber],
      ['printed_expiry', told['printedExpiry'], day(lot.printedExpiry)],
    ]),
  ]
}

function compareReading(at: Date, facts: Facts, bond: ToldBond): Comparison {
  const key = readingKey(at, Number(facts['temperatureC']))
  // One that says the same, or else the one of that instant: what differs is then named by its field.
  const ofInstant = bond.panelReadings.filter((each) => each.at.getTime() === at.getTime())
  const row = ofInstant.find((each) => each.temperatureC === facts['temperatureC']) ?? ofInstant[0]
  if (!row) return notInTable(key)
  const instrument = facts['instrument'] === null ? undefined : within(facts['instrument'])
  const judged = within(facts['reading'])
  return {
    rows: [key],
    differences: differing(key, [
      ['temperature_c', facts['temperatureC'], row.temperatureC],
      ['accuracy_c', facts['accuracyC'], row.accuracyC],
      ['source', facts['source'], row.source],
      ['recorded_by', facts['by'], row.recordedBy],
      ['recorded_by_id', judged['recordedById'], row.recordedById],
      ['recorded_at', judged['recordedAt'], row.recordedAt?.toISOString() ?? null],
      ['findings', judged['findings'], row.findings],
      ['quality', qualityNow(judged['quality'], row, bond), row.quality],
      ['calibrated_until', instrument?.['calibratedUntil'], day(row.calibratedUntil)],
    ]),
  }
}

/** What became of the quality that a reading went in with: borne out by a later one. */
function qualityNow(first: unknown, row: ToldBond['panelReadings'][number], bond: ToldBond): unknown {
  // That one was taken back has to be told by an entry of its own: see `rowsToTell`.
  if (first === undefined || row.quality === 'withdrawn' || row.quality === 'replaced') return undefined
  const at = row.at.toISOString()
  const isIt = (named: Facts) => named['at'] === at && named['temperatureC'] === row.temperatureC
  const isBorneOut = bond.bondRecordEntries.some(({ payload }) => {
    const { bearsOut } = factsOf(payload)
    return Array.isArray(bearsOut) && bearsOut.map(within).some(isIt)
  })
  return isBorneOut ? 'good' : first
}

function compareTakenBack(_entry: Entry, facts: Facts, bond: ToldBond): Comparison {
  const at = new Date(String(facts['readAt']))
  const key = takenBackKey(at, Number(facts['temperatureC']))
  const row = bond.panelReadings.find(
    (each) => each.at.getTime() === at.getTime() && each.temperatureC === facts['temperatureC'],
  )
  if (!row) return notInTable(key)
  return {
    rows: [key],
    differences: differing(key, [
      ['quality', facts['quality'], row.quality],
      ['decided_by', facts['by'], row.decidedBy],
      ['decision_reason', facts['reason'], row.decisionReason],
      ['recorded_by', facts['readBy'], row.recordedBy],
    ]),
  }
}

function compareIncident(entry: Entry, facts: Facts, bond: ToldBond): Comparison {
  const key = incidentKey(String(facts['incidentId']))
  const row = bond.incidents.find(({ id }) => id === facts['incidentId'])
  if (!row) return notInTable(key)
  return {
    rows: [key],
    differences: differing(key, [
      ['at', entry.at, row.at],
      ['kind', facts['incident'], row.kind],
      ['recorded_by', facts['by'], row.recordedBy],
      ['reason', facts['reason'], row.reason],
      ['said', saidIn(facts) ?? null, row.said],
      ['fraction_reached', facts['fractionReached'], row.fractionReached],
    ]),
  }
}

function compareInspection(entry: Entry, facts: Facts, bond: ToldBond): Comparison {
  const key = inspectionKey(String(facts['incidentId']), entry.at)
  const row = bond.incidents
    .find(({ id }) => id === facts['incidentId'])
    ?.inspections.find(({ at }) => at.getTime() === entry.at.getTime())
  if (!row) return notInTable(key)
  return {
    rows: [key],
    differences: differing(key, [
      ['inspector_name', facts['inspector'], row.inspectorName],
      ['method', facts['method'], row.method],
      ['result', facts['result'], row.result],
      ['photo_sha256', facts['photoSha256'], row.photoSha256],
      ['recorded_by', facts['by'], row.recordedBy],
    ]),
  }
}

function compareDisposition(entry: Entry, facts: Facts, bond: ToldBond): Comparison {
  const key = dispositionKey(String(facts['incidentId']))
  const row = bond.incidents.find(({ id }) => id === facts['incidentId'])?.disposition
  if (!row) return notInTable(key)
  return {
    rows: [key],
    differences: differing(key, [
      ['at', entry.at, row.at],
      ['kind', facts['disposition'], row.kind],
      ['recorded_by', facts['by'], row.recordedBy],
      ['reason', facts['reason'], row.reason],
      ['said', saidIn(facts) ?? null, row.said],
    ]),
  }
}

/** What the last entry that names the car says, against the repair order. */
function vehicleDifferences({ bondRecordEntries: entries, joint }: ToldBond): Message[] {
  const naming = entries.findLast(({ kind }) => kind === 'vehicleCorrected' || kind === 'applied')
  if (!naming) return []
  const facts = factsOf(naming.payload)
  const told = naming.kind === 'applied' ? facts : within(facts['is'])
  const applied = factsOf(entries.find(({ kind }) => kind === 'applied')?.payload ?? '{}')
  const { number, vehicle, vin, plate } = joint.repairOrder
  return differing('repair_order', [
    ['number', applied['repairOrderNumber'], number],
    ['vehicle', told['vehicle'], vehicle],
    ['vin', told['vin'], vin],
    ['plate', told['plate'], plate],
  ])
}

/** A day beside the world's furthest zones: a cartridge's day ends on the clock of the shop where it lay. */
const ZONES_MS = 14 * 3_600_000

/** Whatever shortens a life is kept beside the cartridge; nothing makes it longer than what is printed on it. */
function expiryDifferences({ stockMovements }: ToldBond): Message[] {
  return stockMovements.flatMap(({ cartridge }) => {
    if (!cartridge) return []
    const printed = isoDate(cartridge.lot.printedExpiry)
    const isLonger = cartridge.expiresAt.getTime() > endOfDayMs(printed, 'UTC') + ZONES_MS
    return isLonger
      ? [
          message('record-fault.afterPrinted', {
            where: `cartridge ${cartridge.code}.expires_at`,
            at: cartridge.expiresAt.toISOString(),
            printed,
          }),
        ]
      : []
  })
}

function stateDifference({ bondRecordEntries: entries, state }: ToldBond): Message[] {
  const last = entries.findLast(({ kind }) => ['applied', 'clamped', 'released', 'abandoned'].includes(kind))
  return last ? differing('bond', [['state', last.kind, state]]) : []
}

const ulOf = (ml: unknown) => (typeof ml === 'number' ? toUl(ml) : undefined)

const day = (date: Date | null) => date && isoDate(date)

function within(value: unknown): Facts {
  return typeof value === 'object' && value !== null ? (value as Facts) : {}
}

/** An entry that somebody meddled with is told by its hash; its facts are then what can still be read. */
export function factsOf(payload: string): Facts {
  try {
    return within(JSON.parse(payload))
  } catch {
    return {}
  }
}
