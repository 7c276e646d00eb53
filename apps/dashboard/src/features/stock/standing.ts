import { isEnoughMl } from '@clampclock/quantities'
import type { Cartridge } from '../../api/types.ts'
import type { Tone } from '../../ui/answers/tone.ts'

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
  if (cartridge.state === 'discarded') return no('quiet', 'Discarded', 'It was discarded.')
  if (cartridge.state === 'inTransit') {
    return no('quiet', 'On its way', 'It is on its way to another shop, and counts in neither.')
  }
  if (cartridge.state === 'missing') {
    return no('warning', 'Missing', 'It was lost on the way, or not found at a count.')
  }
  if (cartridge.state === 'empty') return no('quiet', 'Empty', 'It is empty.')
  // The clock may pass the expiry while the screen is open, before the server says so.
  if (cartridge.urgency === 'expired' || Date.parse(cartridge.effectiveExpiryAt) <= nowMs) {
    return no('danger', 'Expired', cartridge.expiryReason)
  }
  if (cartridge.hold !== null) return no('danger', 'On hold', `On hold: ${cartridge.hold.reason}`)
  if (cartridge.quarantine !== null) {
    return no('danger', 'Quarantined', `Quarantined: ${cartridge.quarantine.reason}`)
  }
  if (!cartridge.fitsDispenser) {
    return no('warning', 'No dispenser', 'No dispenser in this shop takes it, so it counts as no stock here.')
  }
  const soon = cartridge.urgency === 'soon'
  return {
    mayUse: true,
    tone: soon ? 'warning' : 'ready',
    word: soon ? 'Use soon' : 'Good',
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
