import { message } from '@clampclock/messages'
import type { BodyOf, calculationRoutes, ResultOf } from '@clampclock/contracts'
import {
  arcC,
  beadAmount,
  DEW_POINT_MARGIN_C,
  dewPointC,
  fitArrhenius,
  fittedTime,
  HIGHEST_BIOT,
  MATERIALS,
  minutesToTemperature,
  panelArcs,
  panelTimeConstant,
  peakC,
} from '@clampclock/cure'
import { effectiveExpiry, urgency, warmStorageLossMs } from '@clampclock/stock'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { computed } from '../estimates/named-fault.ts'

type Routes = typeof calculationRoutes

const DAY_MS = 86_400_000

export function calculatePanelHeat(
  body: BodyOf<Routes['calculatePanelHeat']>,
): ResultOf<Routes['calculatePanelHeat']> {
  const constant = computed(body, {}, () =>
    panelTimeConstant({
      layers: body.layers.map(({ material, thicknessMm }) => ({
        material: MATERIALS[material],
        thicknessMm,
      })),
      sidesHeated: body.sidesHeated,
      heatTransferWPerM2K: body.heatTransferWPerM2K,
    }),
  )
  const { kind, biot } = constant
  const tauMinutes = kind === 'lumped' ? constant.tauMinutes : null
  const run = body.run && tauMinutes !== null ? runOf(body.run, tauMinutes) : null
  return { kind, tauMinutes, biot, highestBiot: HIGHEST_BIOT, run }
}

function runOf(run: NonNullable<BodyOf<Routes['calculatePanelHeat']>['run']>, tauMinutes: number) {
  const arcs = computed(run, {}, () => panelArcs(tauMinutes, run.startC, run.air), 'run.')
  const last = arcs.at(-1)
  const minutes = run.targetC === undefined ? Infinity : minutesToTemperature(arcs, run.targetC)
  return {
    endC: last ? arcC(last, last.minutes) : run.startC,
    peakC: last ? peakC(arcs) : run.startC,
    minutesToTarget: Number.isFinite(minutes) ? minutes : null,
  }
}

export function calculateBead({
  bead,
  nozzles,
  flangeWidthMm,
  glassBeadMm,
  flowMlPerMinute,
  workTimeMinutes,
  ...figures
}: BodyOf<Routes['calculateBead']>): ResultOf<Routes['calculateBead']> {
  const body = { bead, nozzles, flangeWidthMm, glassBeadMm, flowMlPerMinute, workTimeMinutes, ...figures }
  const names = { diameterMm: 'bead.diameterMm', widthMm: 'bead.widthMm', heightMm: 'bead.heightMm' }
  return computed(body, names, () =>
    beadAmount({
      ...figures,
      ...bead,
      ...(nozzles === undefined ? {} : { nozzles }),
      ...(flangeWidthMm === undefined ? {} : { flangeWidthMm }),
      ...(glassBeadMm === undefined ? {} : { glassBeadMm }),
      ...(flowMlPerMinute === undefined ? {} : { flowMlPerMinute }),
      ...(workTimeMinutes === undefined ? {} : { workTimeMinutes }),
    }),
  )
}

export function calculateDewPoint(
  body: BodyOf<Routes['calculateDewPoint']>,
): ResultOf<Routes['calculateDewPoint']> {
  const dewPoint = computed(body, { airC: 'airTemperatureC' }, () =>
    dewPointC(body.airTemperatureC, body.relativeHumidityPercent),
  )
  const marginC = body.panel ? body.panel.temperatureC - body.panel.accuracyC - dewPoint : null
  return {
    dewPointC: dewPoint,
    requiredMarginC: DEW_POINT_MARGIN_C,
    marginC,
    isDry: marginC === null ? null : marginC >= DEW_POINT_MARGIN_C,
  }
}

export function calculateShelfLife(
  body: BodyOf<Routes['calculateShelfLife']>,
): ResultOf<Routes['calculateShelfLife']> {
  const { storage, asOf, openedAt } = body
  const readings = (storage?.readings ?? []).map(({ at, temperatureC }) => ({
    atMs: at.getTime(),
    temperatureC,
  }))
  const warmLossMs = storage
    ? computed(
        storage,
        {},
        () => warmStorageLossMs(readings, storage, readings[0]?.atMs ?? asOf.getTime(), asOf.getTime()),
        'storage.',
      )
    : 0
  const expiry = computed(body, {}, () =>
    effectiveExpiry({
      printedExpiry: body.printedExpiry,
      timeZone: body.timeZone,
      openedAtMs: openedAt?.getTime() ?? null,
      openLifeDays: body.openLifeDays,
      warmStorageLossMs: warmLossMs,
    }),
  )
  const expiresAt = new Date(expiry.atMs)
  // Beyond the four digits that an instant has on the wire nothing was ever stored.
  if (!/^\d{4}-/.test(Number.isFinite(expiresAt.getTime()) ? expiresAt.toISOString() : ''))
    throw invalidField(
      'body.storage',
      message('cure-problem.expiryOutsideYears'),
      message('cure-problem.checkReadingsFix'),
    )
  return {
    expiresAt,
    limit: expiry.limit,
    reason: expiry.reason,
    urgency: urgency(expiry.atMs, asOf.getTime()),
    warmStorageLossDays: warmLossMs / DAY_MS,
  }
}

export function calculateDataSheetFit(
  body: BodyOf<Routes['calculateDataSheetFit']>,
): ResultOf<Routes['calculateDataSheetFit']> {
  const fit = computed(body, {}, () => fitArrhenius(body.points))
  const { activationEnergyJPerMol, activationEnergyErrorJPerMol, rSquared, residualLn } = fit
  const times = body.temperaturesC.map((temperatureC, i) => {
    const time = computed(body, { temperatureC: `temperaturesC.${i}` }, () =>
      fittedTime(fit, temperatureC, body.confidence),
    )
    return {
      temperatureC,
      minutes: time.minutes,
      lowMinutes: time.band?.lowMinutes ?? null,
      highMinutes: time.band?.highMinutes ?? null,
    }
  })
  return { activationEnergyJPerMol, activationEnergyErrorJPerMol, rSquared, residualLn, times }
}
