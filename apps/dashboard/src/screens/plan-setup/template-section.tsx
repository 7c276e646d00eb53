import { ROUTES } from '../../api/contracts.ts'
import { Button, Group } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { planningQueries } from '../../api/queries/planning.ts'
import type { RepairTemplate, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { minutesOfPeople } from './template-steps.ts'

/** What each kind of repair takes, with the shop's own steps and minutes. */
export function TemplateSection({ shop, mayPlan }: { readonly shop: Shop; readonly mayPlan: boolean }) {
  const templates = useQuery(planningQueries.templates(shop.id))
  const set = useAction(ROUTES.setRepairTemplate, { topics: ['shops'] })
  const columns: readonly Column<RepairTemplate>[] = [
    {
      head: 'Template',
      cell: ({ key, name, isSetAside }) => (
        <>
          <Link to="/plan/setup/templates/$key" params={{ key }}>
            {name}
          </Link>
          {isSetAside && (
            <>
              {' '}
              <Mark tone="quiet">Set aside</Mark>
            </>
          )}
        </>
      ),
    },
    { head: 'Steps', number: true, cell: ({ steps }) => steps.length },
    { head: 'Work of people', number: true, cell: ({ steps }) => `${minutesOfPeople(steps)} min` },
    {
      head: 'Minutes from',
      cell: ({ isOwn }) => (isOwn ? 'the shop' : 'the program'),
    },
    ...(mayPlan
      ? [
          {
            head: 'Change',
            cell: ({ key, name, steps, isSetAside, version }: RepairTemplate) => (
              <Group gap="xs" wrap="nowrap">
                <Button
                  size="xs"
                  variant="default"
                  aria-label={`Copy ${name}`}
                  renderRoot={(props) => <Link {...props} to="/plan/setup/new" search={{ from: key }} />}
                >
                  Copy
                </Button>
                <Button
                  size="xs"
                  variant="default"
                  aria-label={isSetAside ? `Use ${name} again` : `Set ${name} aside`}
                  onClick={() =>
                    set.mutate({
                      params: { shopId: shop.id, key },
                      ifMatch: version,
                      body: { name, steps, isSetAside: !isSetAside },
                    })
                  }
                >
                  {isSetAside ? 'Use again' : 'Set aside'}
                </Button>
              </Group>
            ),
          },
        ]
      : []),
  ]
  return (
    <Section title="Repair templates">
      <p>Minutes from the program are common practice, no source: put in your own.</p>
      {mayPlan && (
        <Group mb="xs">
          <Button
            variant="default"
            renderRoot={(props) => <Link {...props} to="/plan/setup/new" search={{}} />}
          >
            New template
          </Button>
        </Group>
      )}
      <ProblemPanel error={set.error} />
      <Answered query={templates} what="templates">
        {({ items }) => (
          <Table caption="Repair templates" columns={columns} rows={items} rowKey={({ key }) => key} />
        )}
      </Answered>
    </Section>
  )
}
