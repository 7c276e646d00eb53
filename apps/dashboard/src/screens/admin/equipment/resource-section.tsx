import { ROUTES } from '../../../api/contracts.ts'
import { Button, Group } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { shopQueries } from '../../../api/queries/shops.ts'
import type { Resource } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { BAY_ATTRIBUTE, RESOURCE, SKILL } from '../../../lib/words.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { ResourceDialog } from './resource-dialog.tsx'
import { SectionHead } from '../../../ui/section-head.tsx'
import { t } from '../../../lib/reader.ts'

/** What can be booked: bays, ovens, clamp sets and technicians. */
export function ResourceSection({ shopId }: { readonly shopId: string }) {
  const resources = useQuery(shopQueries.resources(shopId))
  const mayManage = useMay()('manageChain', shopId)
  const [editing, setEditing] = useState<Resource | 'new'>()
  const edit = useAction(ROUTES.editResource, { topics: ['shops'] })
  const columns: readonly Column<Resource>[] = [
    { head: 'admin.name', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'admin.kind', cell: ({ kind }) => RESOURCE[kind] },
    {
      head: 'admin.hasCanDo',
      cell: ({ attributes, skills }) =>
        [...attributes.map((each) => BAY_ATTRIBUTE[each]), ...skills.map((each) => SKILL[each])].join(', '),
    },
    { head: 'admin.howMany', number: true, cell: ({ capacity }) => capacity },
    {
      head: 'admin.state',
      cell: ({ active }) =>
        active ? (
          <Mark tone="ready">{t('admin.inUse')}</Mark>
        ) : (
          <Mark tone="quiet">{t('admin.outOfUse2')}</Mark>
        ),
    },
    ...(mayManage
      ? [
          {
            head: 'admin.change2' as const,
            cell: (resource: Resource) => {
              const { id, name, version, active } = resource
              return (
                <Group gap="xs" wrap="nowrap">
                  <Button
                    size="xs"
                    variant="default"
                    aria-label={t('admin.change', { name })}
                    onClick={() => setEditing(resource)}
                  >
                    {t('admin.change2')}
                  </Button>
                  <Button
                    size="xs"
                    variant="default"
                    aria-label={`${active ? t('admin.takeOutOfUse') : t('admin.putIntoUse')}: ${name}`}
                    loading={edit.isPending && edit.variables.params.resourceId === id}
                    onClick={() =>
                      edit.mutate({ params: { resourceId: id }, ifMatch: version, body: { active: !active } })
                    }
                  >
                    {active ? t('admin.takeOutOfUse') : t('admin.putIntoUse')}
                  </Button>
                </Group>
              )
            },
          },
        ]
      : []),
  ]
  return (
    <Section title={t('admin.baysOvensClampSetsTechnicians')}>
      <SectionHead addLabel={t('admin.add')} onAdd={mayManage ? () => setEditing('new') : undefined} />
      <ProblemPanel error={edit.error} />
      <Answered query={resources} what={t('admin.resources')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noneYet')} />
          ) : (
            <Table caption={t('admin.resources2')} columns={columns} rows={items} rowKey={({ id }) => id} />
          )
        }
      </Answered>
      {editing !== undefined && (
        <ResourceDialog
          shopId={shopId}
          {...(editing === 'new' ? {} : { resource: editing })}
          onClose={() => setEditing(undefined)}
        />
      )}
    </Section>
  )
}
