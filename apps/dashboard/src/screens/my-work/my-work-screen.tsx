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

/** A technician's home: what I am on, what comes next, what waits for me, each with its next step. */
export function MyWorkScreen() {
  const work = useQuery(myWorkQuery)
  const given = useInfiniteQuery(alertQueries.list({ mine: 'true' }))
  const alerts = given.data?.pages.flatMap((page) => page.items) ?? []
  return (
    <Page title="My work">
      <Answered query={work} what="your work" isPage>
        {({ bonds, tasks, isTechnician }) => {
          const underWay = tasks.filter(({ state }) => state === 'underWay')
          const due = tasks.filter(({ state }) => state === 'now' || state === 'late')
          const next = tasks.filter(({ state }) => state === 'next')
          return (
            <>
              {(bonds.length > 0 || underWay.length > 0) && (
                <Section title="On it">
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
                <Section title="To do now">
                  <ul className={styles['rows']}>
                    {due.map((task) => (
                      <TaskRow key={keyOf(task)} task={task} />
                    ))}
                  </ul>
                </Section>
              )}
              <Section title="Next by the plan">
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
                <Section title="Assigned to you">
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
    <Empty title="Nothing is planned for you in the next two days.">
      <p>
        All open jobs are under <Link to="/jobs">Repair orders</Link>.
      </p>
    </Empty>
  ) : (
    <Empty title="The plan does not know you as a technician.">
      <p>
        An owner can say which technician you are: Administration, Equipment, the technician, Person. What you
        bond is shown here all the same.
      </p>
    </Empty>
  )
}
