import { toldOf } from '../../foundation/words/kept.ts'
import { message } from '@clampclock/messages'
import type { Bond, BondState, Chemistry, Incident, PanelMeasurement } from '@clampclock/contracts'
import { toldLateMinutes, UNKNOWN_PLACE, type MilestoneEstimate, type PlaceLimits } from '@clampclock/cure'
import { asksOfDisposal, toSheet } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toMl } from '../../foundation/database/volumes.ts'
import type { BondRow } from './bond-store.ts'
import { toldFindings } from '../temperature/findings.ts'
import { countsFromOf, isCounted, type Estimated } from './history.ts'
import { keptEstimateOf, lookForCauses } from './kept-estimate.ts'
import { slowerSentence } from './judging-sheets.ts'
import { moveCheckOf, toReady } from './move-check.ts'
import { noteSentence } from './notes.ts'

/** A bond as it is told over HTTP, with its estimate as of `now`. */
export async function toBond(tx: Tx, row: BondRow, timeZone: string, now: Date): Promise<Bond> {
  const estimated = await keptEstimateOf(tx, row, timeZone, now)
  const { repairOrder } = row.joint
  const [first, ...more] = row.stockMovements
  return {
    id: row.id,
    shopId: row.shopId,
    jointId: row.jointId,
    jointName: row.joint.name,
    repairOrderId: repairOrder.id,
    repairOrderNumber: repairOrder.number,
    vehicle: repairOrder.vehicle,
    attempt: row.attempt,
    state: row.state as BondState,
    productName: row.sheet.product.name,
    sheet: toSheet(row.sheet),
    judgedBy: estimated.judgedBy.map(toSheet),
    cartridgeId: row.cartridgeId,
    cartridgeCode: row.cartridge.code,
    lotNumber: row.cartridge.lot.lotNumber,
    moreCartridges: (first ? more : []).map(({ cartridge, volumeChangeUl }) => ({
      cartridgeId: cartridge.id,
      cartridgeCode: cartridge.code,
      lotNumber: cartridge.lot.lotNumber,
      amountMl: toMl(-volumeChangeUl),
    })),
    bayId: row.bayId,
    bayFrom: row.bayFrom,
    bayName: row.bay?.name ?? null,
    amountMl: toMl(row.amountUl),
    shortAmount:
      row.shortAmountReason !== null && row.amountNeededUl !== null
        ? { neededMl: toMl(row.amountNeededUl), by: row.appliedBy, reason: row.shortAmountReason }
        : null,
    appliedAt: row.appliedAt,
    appliedBy: row.appliedBy,
    slidAt: row.slidAt,
    slidBy: row.slidBy,
    clampedAt: row.clampedAt,
    clampedBy: row.clampedBy,
    releasedAt: row.releasedAt,
    releasedBy: row.releasedBy,
    abandonedAt: row.abandonedAt,
    abandonReason: row.abandonReason,
    wasLifted: row.wasLifted,
    toldLate: {
      appliedMinutes: appliedLateMinutes(row),
      clampedMinutes:
        row.clampedAt && row.clampedRecordedAt
          ? toldLateMinutes(row.clampedAt.getTime(), row.clampedRecordedAt.getTime())
          : null,
    },
    countsFrom: countsFromOf(row),
    panelTauMinutes: row.panelTauMinutes,
    chemistry: row.sheet.product.chemistry as Chemistry,
    place: toPlace(estimated.history.place),
    readings: estimated.history.readings.map(({ atMs, ...reading }) => ({
      at: new Date(atMs),
      ...reading,
      by:
        row.panelReadings.find((reading) => isCounted(reading) && reading.at.getTime() === atMs)
          ?.recordedBy ?? message('record.thermometerOfBay'),
    })),
    measurements: row.panelReadings.map((reading) =>
      toMeasurement(reading, repairOrder.shop.temperatureUnit as 'C' | 'F'),
    ),
    forecast: estimated.history.forecast.map(({ atMs, ...band }) => ({ at: new Date(atMs), ...band })),
    estimate: withSlower(row, estimated, timeZone),
    moveCheck: moveCheckOf(row, estimated, timeZone),
    incidents: row.incidents.map((incident) => toIncident(incident, row.joint.safetyClass)),
  }
}

function toPlace({ fallC, riseC }: PlaceLimits = UNKNOWN_PLACE): Bond['place'] {
  return { fallC: [...fallC], riseC: [...riseC] }
}

/** With a word on the revision that holds it back, where a later one does. */
function withSlower(row: BondRow, estimated: Estimated, timeZone: string): Bond['estimate'] {
  const estimate = toEstimate(estimated, timeZone, row.joint.repairOrder.shop.temperatureUnit as 'C' | 'F')
  const { slower } = estimated
  if (slower === null) return estimate
  return {
    ...estimate,
    notes: [{ kind: 'slowerSheet', message: slowerSentence(row, slower) }, ...estimate.notes],
  }
}

export function toEstimate(
  { estimate, asOf }: Pick<Estimated, 'estimate' | 'asOf'>,
  timeZone: string,
  unit: 'C' | 'F',
): Bond['estimate'] {
  return {
    asOf,
    workTime: toMilestone(estimate.workTime),
    handlingStrength: toMilestone(estimate.handlingStrength),
    fullCure: toMilestone(estimate.fullCure),
    notes: estimate.notes.map((note) => ({ kind: note.kind, message: noteSentence(note, timeZone, unit) })),
  }
}

function toMilestone({ progress, readyAt, basis }: MilestoneEstimate): Bond['estimate']['workTime'] {
  return {
    progress,
    readyAt: {
      earliest: toReady(readyAt.earliest),
      expected: toReady(readyAt.expected),
      conservative: toReady(readyAt.conservative),
    },
    basis,
  }
}

function toMeasurement(row: BondRow['panelReadings'][number], unit: 'C' | 'F'): PanelMeasurement {
  const { decidedAt, decidedBy, decisionReason } = row
  return {
    id: row.id,
    at: row.at,
    enteredAt: row.recordedAt,
    temperatureC: row.temperatureC,
    accuracyC: row.accuracyC,
    source: row.source as PanelMeasurement['source'],
    by: row.recordedBy,
    quality: row.quality as PanelMeasurement['quality'],
    findings: toldFindings(row.findings, row.temperatureC, unit),
    replacesId: row.replacesId,
    decision:
      decidedAt !== null && decidedBy !== null && decisionReason !== null
        ? { at: decidedAt, by: decidedBy, reason: decisionReason }
        : null,
  }
}

function toIncident(row: BondRow['incidents'][number], safetyClass: string): Incident {
  const { disposition } = row
  return {
    id: row.id,
    kind: row.kind as Incident['kind'],
    at: row.at,
    by: row.recordedBy,
    reason: toldOf(row.reason, row.said),
    fractionReached: row.fractionReached,
    disposition: disposition && {
      kind: disposition.kind as 'inspectedAndAccepted' | 'redone',
      at: disposition.at,
      by: disposition.recordedBy,
      reason: toldOf(disposition.reason, disposition.said),
    },
    inspections: row.inspections.map((each) => ({
      id: each.id,
      inspector: each.inspectorName,
      method: each.method,
      result: each.result,
      hasPhoto: each.photoType !== null,
      at: each.at,
      by: each.recordedBy,
      waitsForSecondPerson: !disposition && asksOfDisposal(safetyClass).secondPerson,
    })),
  }
}

/** Several bonds, each in the time of its shop. */
export async function toBonds(tx: Tx, rows: readonly BondRow[], now: Date): Promise<Bond[]> {
  const shops = await tx.shop.findMany({ where: { id: { in: [...new Set(rows.map((row) => row.shopId))] } } })
  const zones = new Map(shops.map(({ id, timeZone }) => [id, timeZone]))
  const bonds: Bond[] = []
  await lookForCauses(tx, rows, now)
  // One after the other: the transaction has one connection.
  for (const row of rows) bonds.push(await toBond(tx, row, zones.get(row.shopId) ?? 'UTC', now))
  return bonds
}

/** How late it was entered, where that costs it time: by itself, or because the attempt before was known to be on the joint. */
function appliedLateMinutes(row: BondRow): number | null {
  const [atMs, enteredMs] = [row.appliedAt.getTime(), row.appliedRecordedAt.getTime()]
  const isHeldBack = countsFromOf(row).getTime() > atMs
  return toldLateMinutes(atMs, enteredMs) ?? (isHeldBack ? Math.floor((enteredMs - atMs) / 60_000) : null)
}
