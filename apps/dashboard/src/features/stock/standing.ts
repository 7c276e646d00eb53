import { isEnoughMl } from '@clampclock/quantities'
import type { Cartridge } from '../../api/types.ts'
import type { Tone } from '../../ui/answers/tone.ts'
import { t } from '../../lib/reader.ts'

export interface Standing {
  readonly mayUse: boolean
  readonly tone: Tone
  /** One or two words for lists. */
  readonly word: string
  /** One sentence for the cartridge's own page. */
  readonly sentence: string
}

type Known = Pick<
  Cartridge,
  'state' | 'hold' | 'quarantine' | 'effectiveExpiryAt' | 'expiryReason' | 'fitsDispenser' | 'urgency'
>

/** May this cartridge be used, and if not, why: the gravest reason speaks. The gates decide again when a bond starts. */
export function standingOf(cartridge: Known, nowMs: number): Standing {
  const no = (tone: Tone, word: string, sentence: string): Standing => ({
    mayUse: false,
    tone,
    word,
    sentence,
  })
  if (cartridge.state === 'discarded')
    return no('quiet', t('features.discarded'), t('features.itWasDiscarded'))
  if (cartridge.state === 'inTransit') {
    return no('quiet', t('features.onItsWay'), t('features.itIsOnItsWayToAnotherShopAndCountsIn'))
  }
  if (cartridge.state === 'missing') {
    return no('warning', t('features.missing'), t('features.itWasLostOnTheWayOrNotFoundAtACount'))
  }
  if (cartridge.state === 'empty') return no('quiet', t('features.empty'), t('features.itIsEmpty'))
  // The clock may pass the expiry while the screen is open, before the server says so.
  if (cartridge.urgency === 'expired' || Date.parse(cartridge.effectiveExpiryAt) <= nowMs) {
    return no('danger', t('features.expired'), cartridge.expiryReason)
  }
  if (cartridge.hold !== null)
    return no('danger', t('features.onHold'), t('features.onHold2', { reason: cartridge.hold.reason }))
  if (cartridge.quarantine !== null) {
    return no(
      'danger',
      t('features.quarantined'),
      t('features.quarantinedFor', { reason: cartridge.quarantine.reason }),
    )
  }
  if (!cartridge.fitsDispenser) {
    return no('warning', t('features.noDispenser'), t('features.noDispenserInThisShopTakesItSoIt'))
  }
  const soon = cartridge.urgency === 'soon'
  return {
    mayUse: true,
    tone: soon ? 'warning' : 'ready',
    word: soon ? t('features.useSoon') : t('features.good'),
    sentence: cartridge.expiryReason,
  }
}

/**
 * For choosing one for a job: of the usable ones first what is kept for this very joint, opened before sealed where they
 * suffice, soonest to die first.
 */
export function byUsefulness(needMl: number, nowMs: number, keptIds: readonly string[] = []) {
  const rank = (cartridge: Known & Pick<Cartridge, 'id' | 'remainingMl'>) => {
    if (!standingOf(cartridge, nowMs).mayUse) return 3
    if (keptIds.includes(cartridge.id)) return 0
    return cartridge.state === 'opened' && isEnoughMl(cartridge.remainingMl, needMl) ? 1 : 2
  }
  return <C extends Known & Pick<Cartridge, 'id' | 'remainingMl'>>(a: C, b: C): number =>
    rank(a) - rank(b) || Date.parse(a.effectiveExpiryAt) - Date.parse(b.effectiveExpiryAt)
}
