import type { Act, Silence } from '../../api/acts/act.ts'
import { t } from '../../lib/reader.ts'

interface Said {
  readonly temperatureC?: number
  readonly reason?: string
  readonly note?: string
  readonly amountMl?: number
  readonly wasLifted?: boolean
  readonly alreadyHappened?: boolean
}

/** What was pressed, with what was entered. */
export function whatWasPressed({ kind, body }: Pick<Act, 'kind' | 'body'>): string {
  const said = (body ?? {}) as Said
  switch (kind) {
    case 'startBond':
      return t('acts.adhesiveIsOn', { amount: { millilitres: said.amountMl ?? 0 } })
    case 'addPanelReading':
      return t('acts.panelTemperature', { temperature: { celsius: said.temperatureC ?? 0 } })
    case 'clampBond':
      return t('acts.closedAndClamped')
    case 'slideBond':
      return said.alreadyHappened === true ? t('acts.movedAfterWorkTime') : t('acts.slid')
    case 'releaseBond':
      return said.alreadyHappened === true ? t('acts.clampsOffAlready') : t('acts.clampsOff')
    case 'abandonBond':
      return said.wasLifted === true ? t('acts.lifted') : t('acts.abandoned')
  }
}

/** The words that were written with it; undefined where there were none. */
export function writtenWords({ body }: Pick<Act, 'body'>): string | undefined {
  const { reason, note } = (body ?? {}) as Said
  return [reason, note].find((text) => text !== undefined && text !== '')
}

const SILENCE: Record<Silence, Parameters<typeof t>[0] & `acts.${string}`> = {
  noAnswer: 'acts.noAnswer',
  serverError: 'acts.serverError',
  busy: 'acts.busy',
  signedOut: 'acts.signInToSend',
}

export function whyItWaits({ silence }: Pick<Act, 'silence'>): string {
  return t(SILENCE[silence ?? 'noAnswer'] as 'acts.noAnswer')
}

/** The service would say the same again: what it asks is answered where it was pressed. */
export function mayGoAgain({ state, problem }: Pick<Act, 'state' | 'problem'>): boolean {
  if (state === 'stopped') return true
  const { code } = problem ?? {}
  return code !== 'reading-questioned' && code !== 'amount-questioned' && code !== 'wrong-state'
}
