import { useQuery, useQueryClient } from '@tanstack/react-query'
import { Monitor, Smartphone, SquareTerminal } from 'lucide-react'
import { Button } from '@mantine/core'
import { ROUTES } from '../../api/contracts.ts'
import { accessQueries } from '../../api/queries/access.ts'
import type { OwnSession } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { formatInstant } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { AskOnceMore } from '../../ui/dialogs/ask-once-more.tsx'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { When } from '../../ui/when.tsx'
import styles from './account.module.css'

const DEVICE = {
  phone: { icon: Smartphone, word: () => t('account.phone') },
  computer: { icon: Monitor, word: () => t('account.computer') },
  program: { icon: SquareTerminal, word: () => t('account.program') },
} as const

/** The clock of whoever looks: a sign-in belongs to no shop. */
const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone

export function SessionSection() {
  const sessions = useQuery(accessQueries.sessions())
  const everywhere = useAction(ROUTES.signOutEverywhere, {
    topics: [],
    // A fresh page: nothing of this person stays in memory.
    onDone: () => window.location.assign('/'),
  })
  return (
    <Section title={t('account.signIns')}>
      <p className={styles['lede']}>{t('account.signInsLede')}</p>
      <Answered query={sessions} what={t('account.signInsLower')}>
        {({ items }) => (
          <ul className={styles['list']} aria-label={t('account.signIns')}>
            {items.map((session) => (
              <SessionRow key={session.id} session={session} />
            ))}
          </ul>
        )}
      </Answered>
      <AskOnceMore
        label={t('account.signOutEverywhere')}
        sentence={t('account.everywhereMeans')}
        yes={t('account.signOutEverywhere')}
        no={t('account.stay')}
        isPending={everywhere.isPending}
        error={everywhere.error}
        onYes={() => everywhere.mutate({})}
      />
    </Section>
  )
}

function SessionRow({ session }: { readonly session: OwnSession }) {
  const { id, device, createdAt, lastUsedAt, expiresAt, isCurrent } = session
  const client = useQueryClient()
  const end = useAction(ROUTES.endSession, {
    topics: [],
    onDone: () => void client.invalidateQueries({ queryKey: accessQueries.sessions().queryKey }),
  })
  const { icon: Icon, word } = DEVICE[device.kind]
  const since = formatInstant(createdAt, ZONE, 'full')
  return (
    <li className={styles['session']}>
      <div className={styles['what']}>
        <span className={styles['name']}>
          <Icon size={16} aria-hidden />
          <strong>{word()}</strong>
          {isCurrent && <Mark tone="ready">{t('account.thisOne')}</Mark>}
        </span>
        {device.userAgent !== '' && <span className={styles['agent']}>{device.userAgent}</span>}
        <dl className={styles['times']}>
          <dt>{t('account.since')}</dt>
          <dd>
            <When at={createdAt} zone={ZONE} style="full" />
          </dd>
          <dt>{t('account.lastUsed')}</dt>
          <dd>
            <When at={lastUsedAt} zone={ZONE} style="full" />
          </dd>
          <dt>{t('account.until')}</dt>
          <dd>
            <When at={expiresAt} zone={ZONE} style="full" />
          </dd>
        </dl>
        <ProblemPanel error={end.error} />
      </div>
      {!isCurrent && (
        <Button
          variant="default"
          loading={end.isPending}
          aria-label={`${t('account.signOut')}: ${t('account.deviceSince', { device: word(), since })}`}
          onClick={() => end.mutate({ params: { sessionId: id } })}
        >
          {t('account.signOut')}
        </Button>
      )}
    </li>
  )
}
