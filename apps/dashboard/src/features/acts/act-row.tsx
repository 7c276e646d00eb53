import { Button } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import type { Act } from '../../api/acts/act.ts'
import { theBox } from '../../api/acts/the-box.ts'
import { isTask } from '../../api/acts/task.ts'
import { formatNear } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ReasonList } from '../../ui/answers/reason-list.tsx'
import { mayGoAgain, whatWasPressed, whyItWaits, writtenWords } from './act-words.ts'
import styles from './acts.module.css'

interface Props {
  readonly act: Act
  /** Away from its own page: says which joint it was, with the way there. */
  readonly isFar?: boolean
  readonly onLeave?: () => void
}

/** One press: what and when, what became of it, and what can be done about it. */
export function ActRow({ act, isFar = false, onLeave }: Props) {
  const zone = zoneOf(useShop(act.about.shopId))
  const nowMs = useNow(60_000)
  const { about, problem } = act
  const what = whatWasPressed(act)
  const words = writtenWords(act)
  const near = (at: string) => formatNear(at, zone, nowMs)
  const press = (step: 'again' | 'see') => () => void theBox().then((box) => box[step](act.id))
  const named = { what, joint: about.jointName }
  return (
    <li className={styles['row']}>
      <strong>{what}</strong>
      <p className={styles['soft']}>{t('acts.pressedAt', { at: near(act.at) })}</p>
      {isFar && (
        <p className={styles['soft']}>
          {about.jointName}{' '}
          <Link
            to="/jobs/$repairOrderId"
            params={{ repairOrderId: about.repairOrderId }}
            onClick={() => onLeave?.()}
          >
            {about.repairOrderNumber} · {about.vehicle}
          </Link>
        </p>
      )}
      {words !== undefined && <p className={styles['soft']}>{words}</p>}
      <StateMark act={act} near={near} />
      {act.state === 'refused' && problem !== null && (
        <>
          <p>{problem.message}</p>
          <ReasonList reasons={problem.reasons.filter((reason) => reason.message !== problem.message)} />
        </>
      )}
      {isTask(act) && (
        <div className={styles['steps']}>
          {mayGoAgain(act) && (
            <Button aria-label={t('acts.sendAgainNamed', named)} onClick={press('again')}>
              {t('acts.sendAgain')}
            </Button>
          )}
          <Button variant="default" aria-label={t('acts.seenNamed', named)} onClick={press('see')}>
            {t('acts.seen')}
          </Button>
        </div>
      )}
    </li>
  )
}

function StateMark({ act, near }: { readonly act: Act; readonly near: (at: string) => string }) {
  const { state, settledAt, isSeen } = act
  if (state === 'waiting') return <Mark tone="warning">{whyItWaits(act)}</Mark>
  if (state === 'sent')
    return <Mark tone="quiet">{t('acts.sentAt', { at: settledAt === null ? '' : near(settledAt) })}</Mark>
  const words = state === 'refused' ? t('acts.refused') : t('acts.stopped')
  return <Mark tone={isSeen ? 'quiet' : 'danger'}>{isSeen ? `${words} ${t('acts.wasSeen')}` : words}</Mark>
}
