import { ROUTES } from '@clampclock/contracts'
import { Button, Group } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { planningQueries } from '../../api/queries/planning.ts'
import type { RepairTemplate, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { TemplateDialog } from './template-dialog.tsx'

/** What each kind of repair takes, with the shop's own minutes. */
export function TemplateSection({ shop, mayPlan }: { readonly shop: Shop; readonly mayPlan: boolean }) {
  const templates = useQuery(planningQueries.templates(shop.id))
  const [editing, setEditing] = useState<RepairTemplate>()
  const remove = useAction(ROUTES.removeRepairTemplate, { topics: ['shops'] })
  const columns: readonly Column<RepairTemplate>[] = [
    { head: 'Template', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'Steps', number: true, cell: ({ steps }) => steps.length },
    {
      head: 'Work of people',
      number: true,
      cell: ({ steps }) =>
        `${steps.reduce((sum, { workMinutes, technicians }) => sum + (workMinutes ?? 0) * technicians, 0)} min`,
    },
    {
      head: 'Minutes from',
      cell: ({ isOwn }) => (isOwn ? 'the shop' : 'the program: common practice, no source'),
    },
    ...(mayPlan
      ? [
          {
            head: 'Change',
            cell: (template: RepairTemplate) => (
              <Group gap="xs" wrap="nowrap">
                <Button
                  size="xs"
                  variant="default"
                  aria-label={`Change ${template.name}`}
                  onClick={() => setEditing(template)}
                >
                  Change
                </Button>
                {template.isOwn && (
                  <Button
                    size="xs"
                    variant="default"
                    aria-label={`Back to the program's own ${template.name}`}
                    onClick={() => remove.mutate({ params: { shopId: shop.id, key: template.key } })}
                  >
                    Undo ours
                  </Button>
                )}
              </Group>
            ),
          },
        ]
      : []),
  ]
  return (
    <Section title="Repair templates">
      <ProblemPanel error={remove.error} />
      <Answered query={templates} what="templates">
        {({ items }) => (
          <Table caption="Repair templates" columns={columns} rows={items} rowKey={({ key }) => key} />
        )}
      </Answered>
      {editing !== undefined && (
        <TemplateDialog shopId={shop.id} template={editing} onClose={() => setEditing(undefined)} />
      )}
    </Section>
  )
}
