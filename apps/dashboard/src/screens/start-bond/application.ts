import type { ReadingFindingKind, ROUTES } from '@clampclock/contracts'
import type { InputOf } from '../../api/client.ts'
import { overridesOf, type Written } from '../../features/bonds/gates/refusal.ts'
import { UNREGISTERED, type Thermometer } from '../../features/instruments/thermometer.ts'
import { t } from '../../lib/reader.ts'
import { preparedOf, type PreparationStep } from './prepare/steps-asked.ts'

export type Application = InputOf<typeof ROUTES.startBond>['body']

/** Said to stand in no bay: the air is then nobody's, and only readings of the metal tell how it cures. */
export const NO_BAY = 'none'

/** What the technician has filled in so far; undefined where nothing is yet. */
export interface Draft {
  /** In the order in which they are used up. */
  readonly cartridgeIds: readonly string[]
  readonly dispenserId: string
  /** Empty where nobody has said; `NO_BAY` where it stands in none. */
  readonly bayId: string
  readonly panelC: number | undefined
  readonly thermometer: Thermometer
  readonly airC: number | undefined
  readonly humidityPercent: number | undefined
  /** Of the register; empty for any other. */
  readonly hygrometerId: string
  /** Which thermometer read the air: asked where a hygrometer may have; empty where nobody has said. */
  readonly airReadWith: '' | 'panelThermometer' | 'hygrometer'
  readonly amountMl: number | undefined
  /** What was ticked of the preparation. */
  readonly prepared: readonly PreparationStep[]
  /** Reasons written against gates that refuse, by the gate's code. */
  readonly overrides: Written
  /** What the service asked about the temperatures, and somebody stands by. */
  readonly confirmed: readonly ReadingFindingKind[]
  /** Why less than the joint needs goes on; empty where nothing was said. */
  readonly shortBecause: string
}

/** Nothing is filled in but where the vehicle stands and what the joint needs. */
export function emptyDraft(bayId: string, amountMl: number): Draft {
  return {
    cartridgeIds: [],
    dispenserId: '',
    bayId,
    panelC: undefined,
    thermometer: UNREGISTERED,
    airC: undefined,
    humidityPercent: undefined,
    hygrometerId: '',
    airReadWith: '',
    amountMl,
    prepared: [],
    overrides: {},
    confirmed: [],
    shortBecause: '',
  }
}

interface Holding {
  readonly id: string
  readonly remainingMl: number
  /** What is left of it beside what is kept for other joints; all of it when left out. */
  readonly freeMl?: number
}

/**
 * Shares the amount among the chosen cartridges in order, each emptied before the next is begun, as far as it is not kept
 * for other joints; only then what is. What none can give is asked of the last: the service then says by how much they
 * fall short.
 */
export function allot(
  amountMl: number,
  chosen: readonly Holding[],
): { cartridgeId: string; amountMl: number }[] {
  const shares = chosen.map(({ id }) => ({ cartridgeId: id, amountMl: 0 }))
  let leftMl = amountMl
  const take = (index: number, mostMl: number) => {
    const ml = Math.max(0, Math.min(leftMl, mostMl))
    shares[index]!.amountMl += ml
    leftMl -= ml
  }
  chosen.forEach(({ freeMl, remainingMl }, i) => take(i, Math.min(freeMl ?? remainingMl, remainingMl)))
  chosen.forEach(({ remainingMl }, i) => take(i, remainingMl - shares[i]!.amountMl))
  if (chosen.length > 0) take(chosen.length - 1, leftMl)
  return shares
    .map((share) => ({ ...share, amountMl: Math.round(share.amountMl * 10) / 10 }))
    .filter((share) => share.amountMl > 0)
}

export interface Missing {
  readonly field: string
  readonly message: string
}

/** What is still to be filled in before anything can be asked. */
export function missingIn(draft: Draft): readonly Missing[] {
  const missing: Missing[] = []
  const need = (isThere: boolean, field: string, message: string) => {
    if (!isThere) missing.push({ field, message })
  }
  need(draft.cartridgeIds.length > 0, 'cartridge', t('start-bond.chooseACartridge'))
  need(draft.dispenserId !== '', 'dispenser', t('start-bond.chooseADispenser'))
  need(draft.bayId !== '', 'bay', t('start-bond.sayWhereItStands'))
  need(draft.panelC !== undefined, 'panel', t('start-bond.measureTheMetalAtTheJoint'))
  need(draft.airC !== undefined, 'air', t('start-bond.giveTheAirTemperature'))
  need(
    draft.hygrometerId === '' || draft.airReadWith !== '',
    'airReadWith',
    t('start-bond.sayWhatTheAirWasReadWith'),
  )
  need(draft.humidityPercent !== undefined, 'humidity', t('start-bond.giveTheRelativeHumidity'))
  need(draft.amountMl !== undefined && draft.amountMl > 0, 'amount', t('start-bond.giveTheAmount'))
  return missing
}

/** The request, from a draft with nothing missing; undefined otherwise. */
export function applicationOf(
  draft: Draft,
  cartridges: readonly Holding[],
  appliedAt: string | undefined,
  happened?: string,
): Application | undefined {
  const { panelC, airC, humidityPercent, amountMl, thermometer } = draft
  if (missingIn(draft).length > 0) return undefined
  if (panelC === undefined || airC === undefined || humidityPercent === undefined || amountMl === undefined) {
    return undefined
  }
  const chosen = draft.cartridgeIds.flatMap((id) => cartridges.filter((cartridge) => cartridge.id === id))
  const [first, ...more] = allot(amountMl, chosen)
  if (first === undefined) return undefined
  return {
    ...first,
    moreCartridges: more,
    dispenserId: draft.dispenserId,
    bayId: draft.bayId === NO_BAY ? null : draft.bayId,
    panel: {
      temperatureC: panelC,
      accuracyC: thermometer.accuracyC ?? 1,
      source: thermometer.source,
      instrumentId: thermometer.instrumentId === '' ? null : thermometer.instrumentId,
    },
    airTemperatureC: airC,
    relativeHumidityPercent: humidityPercent,
    hygrometerId: draft.hygrometerId === '' ? null : draft.hygrometerId,
    ...(draft.hygrometerId === '' || draft.airReadWith === '' ? {} : { airReadWith: draft.airReadWith }),
    prepared: preparedOf(draft.prepared),
    preparation: [...draft.prepared],
    confirmed: [...draft.confirmed],
    shortAmount: draft.shortBecause === '' ? null : { reason: draft.shortBecause },
    overrides: overridesOf(draft.overrides),
    ...(appliedAt === undefined ? {} : { appliedAt }),
    ...(happened === undefined ? {} : { alreadyHappened: true, reason: happened }),
  }
}
