import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { alertQueries } from '../../api/queries/alerts.ts'
import { myWorkQuery } from '../../api/queries/my-work.ts'
import { AlertRow } from '../../features/alerts/alert-row.tsx'
import { BondLine } from '../../features/work/bond-line.tsx'
import { Page, Section } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import styles from './my-work.module.css'
import { TaskRow } from './task-row.tsx'
import { t } from '../../lib/reader.ts'

/** A technician's home: what I am on, what comes next, what waits for me, each with its next step. */
export function MyWorkScreen() {
  const work = useQuery(myWorkQuery)
  const given = useInfiniteQuery(alertQueries.list({ mine: 'true' }))
  const alerts = given.data?.pages.flatMap((page) => page.items) ?? []
  return (
    <Page title={t('my-work.myWork')}>
      <Answered query={work} what={t('my-work.yourWork')} isPage>
        {({ bonds, tasks, isTechnician }) => {
          const underWay = tasks.filter(({ state }) => state === 'underWay')
          const due = tasks.filter(({ state }) => state === 'now' || state === 'late')
          const next = tasks.filter(({ state }) => state === 'next')
          return (
            <>
              {(bonds.length > 0 || underWay.length > 0) && (
                <Section title={t('my-work.onIt')}>
                  <ul className={styles['rows']}>
                    {bonds.map((bond) => (
                      <li key={bond.id} className={styles['row']}>
                        <BondLine bond={bond} />
                      </li>
                    ))}
                    {underWay.map((task) => (
                      <TaskRow key={keyOf(task)} task={task} />
                    ))}
                  </ul>
                </Section>
              )}
              {due.length > 0 && (
                <Section title={t('my-work.toDoNow')}>
                  <ul className={styles['rows']}>
                    {due.map((task) => (
                      <TaskRow key={keyOf(task)} task={task} />
                    ))}
                  </ul>
                </Section>
              )}
              <Section title={t('my-work.nextByThePlan')}>
                {next.length > 0 ? (
                  <ul className={styles['rows']}>
                    {next.map((task) => (
                      <TaskRow key={keyOf(task)} task={task} />
                    ))}
                  </ul>
                ) : (
                  <NothingNext isTechnician={isTechnician} />
                )}
              </Section>
              {alerts.length > 0 && (
                <Section title={t('my-work.assignedToYou')}>
                  <ul className={styles['alerts']}>
                    {alerts.map((alert) => (
                      <AlertRow key={alert.id} alert={alert} />
                    ))}
                  </ul>
                </Section>
              )}
            </>
          )
        }}
      </Answered>
    </Page>
  )
}

function keyOf({
  operationId,
  repairOrderId,
  startsAt,
}: { readonly [K in 'operationId' | 'repairOrderId' | 'startsAt']: string | null }) {
  return operationId ?? `${repairOrderId} ${startsAt}`
}

function NothingNext({ isTechnician }: { readonly isTechnician: boolean }) {
  return isTechnician ? (
    <Empty title={t('my-work.nothingIsPlannedForYou')}>
      <p>
        {t('my-work.allOpenJobsAreUnder')} <Link to="/jobs">{t('my-work.repairOrders')}</Link>.
      </p>
    </Empty>
  ) : (
    <Empty title={t('my-work.thePlanDoesNotKnowYouAsATechnician')}>
      <p>{t('my-work.anOwnerCanSayWhichTechnicianYouAre')}</p>
    </Empty>
  )
}
