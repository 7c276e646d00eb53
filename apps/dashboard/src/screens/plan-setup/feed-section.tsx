import { ROUTES } from '../../api/contracts.ts'
import { Button, CopyButton, Group, NativeSelect, TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { planningQueries } from '../../api/queries/planning.ts'
import type { CalendarFeed, Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { formatInstant } from '../../lib/instants.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly resources: readonly Resource[]
}

/** Secret addresses at which a calendar program reads the bookings of a bay, an oven or a person. */
export function FeedSection({ shop, resources }: Props) {
  const feeds = useQuery(planningQueries.feeds(shop.id))
  const [resourceId, setResourceId] = useState('')
  const add = useAction(ROUTES.addCalendarFeed, { topics: ['shops'] })
  const revoke = useAction(ROUTES.revokeCalendarFeed, { topics: ['shops'] })
  const address = add.data === undefined ? undefined : `${globalThis.location.origin}${add.data.path}`
  const columns: readonly Column<CalendarFeed>[] = [
    { head: 'plan-setup.of', cell: ({ resourceName }) => <strong>{resourceName}</strong> },
    {
      head: 'plan-setup.made',
      cell: ({ createdAt, createdBy }) => `${formatInstant(createdAt, shop.timeZone)}, ${createdBy}`,
    },
    {
      head: 'plan-setup.lastRead',
      cell: ({ lastUsedAt }) => (lastUsedAt === null ? 'never' : formatInstant(lastUsedAt, shop.timeZone)),
    },
    {
      head: 'plan-setup.state',
      cell: ({ id, resourceName, revokedAt }) =>
        revokedAt === null ? (
          <Button
            size="xs"
            variant="default"
            aria-label={t('plan-setup.revokeTheAddressOf', { resourceName })}
            onClick={() => revoke.mutate({ params: { feedId: id } })}
          >
            {t('plan-setup.revoke')}
          </Button>
        ) : (
          <Mark tone="quiet">{t('plan-setup.revoked')}</Mark>
        ),
    },
  ]
  return (
    <Section title={t('plan-setup.calendarAddresses')}>
      <p>{t('plan-setup.whoeverHasSuchAnAddressSeesThese')}</p>
      <Group align="flex-end" mb="sm">
        <NativeSelect
          label={t('plan-setup.bayOvenOrPerson')}
          value={resourceId}
          data={[
            { value: '', label: t('plan-setup.choose') },
            ...resources.filter(({ active }) => active).map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={(event) => setResourceId(event.currentTarget.value)}
        />
        <Button
          variant="default"
          disabled={resourceId === ''}
          loading={add.isPending}
          onClick={() => add.mutate({ params: { resourceId } })}
        >
          {t('plan-setup.makeAnAddress')}
        </Button>
      </Group>
      <ProblemPanel error={add.error ?? revoke.error} />
      {address !== undefined && (
        <Group align="flex-end" mb="sm">
          <TextInput label={t('plan-setup.shownOnceCopyItNow')} readOnly value={address} flex={1} />
          <CopyButton value={address}>
            {({ copied, copy }) => (
              <Button variant="default" onClick={copy}>
                {copied ? t('plan-setup.copied') : t('plan-setup.copy')}
              </Button>
            )}
          </CopyButton>
        </Group>
      )}
      <Answered query={feeds} what={t('plan-setup.calendarAddresses2')}>
        {({ items }) =>
          items.length === 0 ? null : (
            <Table
              caption={t('plan-setup.calendarAddresses')}
              columns={columns}
              rows={items}
              rowKey={({ id }) => id}
            />
          )
        }
      </Answered>
    </Section>
  )
}
