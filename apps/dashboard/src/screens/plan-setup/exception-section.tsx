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
    resourceId === null ? 'The shop' : (resources.find(({ id }) => id === resourceId)?.name ?? '')
  const columns: readonly Column<DayException>[] = [
    { head: 'What', cell: ({ kind }) => DAY_EXCEPTION[kind] },
    { head: 'Who or what', cell: whose },
    {
      head: 'When',
      cell: ({ firstDay, lastDay, from, until }) =>
        `${formatDate(firstDay)}${lastDay === firstDay ? '' : ` to ${formatDate(lastDay)}`}${from === null ? '' : `, ${from} to ${until}`}`,
    },
    { head: 'Note', cell: ({ note }) => note },
    ...(mayPlan
      ? [
          {
            head: 'Change',
            cell: (row: DayException) => (
              <Button
                size="xs"
                variant="default"
                aria-label={`Take back: ${DAY_EXCEPTION[row.kind]}, ${whose(row)}`}
                onClick={() => remove.mutate({ params: { exceptionId: row.id } })}
              >
                Take back
              </Button>
            ),
          },
        ]
      : []),
  ]
  return (
    <Section title="Closed days, absences, overtime">
      <SectionHead addLabel="Add" onAdd={mayPlan ? open : undefined} />
      <ProblemPanel error={remove.error} />
      <Answered query={exceptions} what="days">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="None from today on." />
          ) : (
            <Table
              caption="Days on which the week does not hold"
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
