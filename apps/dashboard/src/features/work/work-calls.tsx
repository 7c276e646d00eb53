import { Button } from '@mantine/core'
import { Link, useRouterState } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import type { Bond } from '../../api/types.ts'
import { t } from '../../lib/reader.ts'
import { eachSecond } from '../../lib/use-now.ts'
import { bondClock } from '../bonds/bond-clock.ts'
import { callBetween, isUrgent, type Call, type Stood } from './calls.ts'
import { ring, useLitScreen } from './device-calls.ts'
import styles from './work.module.css'

interface Said {
  readonly text: string
  readonly isUrgent: boolean
}

/**
 * Calls out what time does to the bonds of one's own, on every screen: the work time that runs out, and the instant at
 * which a closed joint's time has come. Heard, felt and read by a screen reader; a joint whose time has come stays in
 * sight until it is looked at. It never says that anything may be moved: the service is asked for that.
 */
export function WorkCalls({ bonds }: { readonly bonds: readonly Bond[] }) {
  const stood = useRef(new Map<string, Stood>())
  const [said, setSaid] = useState<Said>({ text: '', isUrgent: false })
  const [comeIds, setCome] = useState<readonly string[]>([])
  const path = useRouterState({ select: ({ location }) => location.pathname })
  useLitScreen(bonds.some(({ state }) => state === 'applied'))

  useEffect(
    () =>
      eachSecond((now) => {
        const calls = bonds.flatMap((bond) => {
          const { phase, workTimeEndsMs } = bondClock(bond, now)
          const leftMs =
            bond.state === 'applied' && workTimeEndsMs !== null ? workTimeEndsMs - now.latestMs : null
          const call = callBetween(stood.current.get(bond.id), { phase, leftMs })
          stood.current.set(bond.id, { phase, leftMs })
          return call === undefined ? [] : [{ bond, call }]
        })
        if (calls.length === 0) return
        const hurries = calls.some(({ call }) => isUrgent(call))
        setSaid({ text: calls.map(({ bond, call }) => wordsOf(bond, call)).join(' '), isUrgent: hurries })
        const come = calls.flatMap(({ bond, call }) => (call.kind === 'timeHasCome' ? [bond.id] : []))
        if (come.length > 0) setCome((old) => [...old, ...come])
        ring(hurries)
      }),
    [bonds],
  )

  const come = bonds.find(
    ({ id, state, repairOrderId }) =>
      state === 'clamped' && comeIds.includes(id) && path !== `/jobs/${repairOrderId}`,
  )
  return (
    <>
      {/* Both are always there: a screen reader hears what changes in a region, not a region that comes. */}
      <output className={styles['spoken']}>{said.isUrgent ? '' : said.text}</output>
      <p className={styles['spoken']} role="alert">
        {said.isUrgent ? said.text : ''}
      </p>
      {come !== undefined && (
        <section className={styles['timeHasCome']} aria-label={t('calls.timeHasCome')}>
          <p>{t('calls.askBeforeTheClampsComeOff', { joint: come.jointName, vehicle: come.vehicle })}</p>
          <div className={styles['step']}>
            <Button variant="default" onClick={() => setCome((old) => old.filter((id) => id !== come.id))}>
              {t('calls.later')}
            </Button>
            <Link
              to="/jobs/$repairOrderId"
              params={{ repairOrderId: come.repairOrderId }}
              className={styles['go']}
            >
              {t('calls.mayIMoveIt')}
            </Link>
          </div>
        </section>
      )}
    </>
  )
}

function wordsOf({ jointName: joint, vehicle }: Bond, call: Call): string {
  if (call.kind === 'timeHasCome') return t('calls.askBeforeTheClampsComeOff', { joint, vehicle })
  if (call.minutes === 0) return t('calls.workTimeIsOver', { joint })
  return t('calls.workTimeLeft', { joint, minutes: call.minutes })
}
