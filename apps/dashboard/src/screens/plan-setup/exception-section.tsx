import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { planningQueries } from '../../api/queries/planning.ts'
import type { DayException, Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { formatDate, todayIn } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import { DAY_EXCEPTION } from '../../lib/words.ts'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { SectionHead } from '../../ui/section-head.tsx'
import { ExceptionDialog } from './exception-dialog.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly resources: readonly Resource[]
  readonly mayPlan: boolean
}

/** Days on which the week does not hold, from today on. */
export function ExceptionSection({ shop, resources, mayPlan }: Props) {
  const today = todayIn(shop.timeZone, useNow(60_000))
  const exceptions = useQuery(planningQueries.exceptions(shop.id, today))
  const [adding, { open, close }] = useDisclosure()
  const remove = useAction(ROUTES.removeDayException, { topics: ['shops'] })
  const whose = ({ resourceId }: DayException) =>
    resourceId === null
      ? t('plan-setup.theShop')
      : (resources.find(({ id }) => id === resourceId)?.name ?? '')
  const columns: readonly Column<DayException>[] = [
    { head: 'plan-setup.what', cell: ({ kind }) => DAY_EXCEPTION[kind] },
    { head: 'plan-setup.whoOrWhat', cell: whose },
    {
      head: 'plan-setup.when',
      cell: ({ firstDay, lastDay, from, until }) =>
        [
          lastDay === firstDay
            ? formatDate(firstDay)
            : t('lib.range', { from: formatDate(firstDay), until: formatDate(lastDay) }),
          ...(from === null || until === null ? [] : [t('lib.range', { from, until })]),
        ].join(', '),
    },
    { head: 'plan-setup.note', cell: ({ note }) => note },
    ...(mayPlan
      ? [
          {
            head: 'plan-setup.change' as const,
            cell: (row: DayException) => (
              <Button
                size="xs"
                variant="default"
                aria-label={t('plan-setup.takeBack2', { kind: DAY_EXCEPTION[row.kind], row: whose(row) })}
                onClick={() => remove.mutate({ params: { exceptionId: row.id } })}
              >
                {t('plan-setup.takeBack')}
              </Button>
            ),
          },
        ]
      : []),
  ]
  return (
    <Section title={t('plan-setup.closedDaysAbsencesOvertime')}>
      <SectionHead addLabel={t('plan-setup.add')} onAdd={mayPlan ? open : undefined} />
      <ProblemPanel error={remove.error} />
      <Answered query={exceptions} what={t('plan-setup.days')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('plan-setup.noneFromTodayOn')} />
          ) : (
            <Table
              caption={t('plan-setup.daysOnWhichTheWeekDoesNotHold')}
              columns={columns}
              rows={items}
              rowKey={({ id }) => id}
            />
          )
        }
      </Answered>
      {adding && <ExceptionDialog shop={shop} resources={resources} today={today} onClose={close} />}
    </Section>
  )
}
