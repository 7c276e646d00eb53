import type { Delivery as DeliveryContract } from '@clampclock/contracts'
import { ROUTES } from '../../../api/contracts.ts'
import { Button, Group } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import type * as z from 'zod'
import { alertQueries } from '../../../api/queries/alerts.ts'
import { useAction } from '../../../api/use-action.ts'
import type { Webhook } from '../../../api/types.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { ALERT } from '../../../lib/words.ts'
import { AskOnceMore } from '../../../ui/dialogs/ask-once-more.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section, Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { t } from '../../../lib/reader.ts'

type Delivery = z.input<typeof DeliveryContract>

const utc = (at: string) => `${formatInstant(at, 'utc', 'full')} UTC`

const COLUMNS: readonly Column<Delivery>[] = [
  { head: 'admin.when', cell: (row) => utc(row.createdAt) },
  { head: 'admin.message', cell: (row) => row.type },
  { head: 'admin.tries', number: true, cell: (row) => row.attempts },
  {
    head: 'admin.howItWent',
    cell: (row) =>
      row.deliveredAt !== null ? (
        <Mark tone="ready">{t('admin.arrived')}</Mark>
      ) : row.nextAttemptAt === null ? (
        <Mark tone="danger">{t('admin.givenUp', { lastError: row.lastError ?? '' })}</Mark>
      ) : row.lastError === null ? (
        <Mark tone="quiet">{t('admin.toBeSent')}</Mark>
      ) : (
        <Mark tone="warning">
          {t('admin.again', { lastError: row.lastError, nextAttemptAt: utc(row.nextAttemptAt) })}
        </Mark>
      ),
  },
]

/** One webhook, the last messages to it, and how they went. */
export function WebhookCard({ webhook }: { readonly webhook: Webhook }) {
  const deliveries = useQuery(alertQueries.deliveries(webhook.id))
  const params = { webhookId: webhook.id }
  const test = useAction(ROUTES.testWebhook, {
    topics: ['alerts'],
    onDone: () => void deliveries.refetch(),
  })
  const remove = useAction(ROUTES.removeWebhook, { topics: ['alerts'] })
  const items = deliveries.data?.items.slice(0, 10) ?? []
  return (
    <Section title={webhook.name}>
      <Sheet padded>
        <p style={{ marginTop: 0, overflowWrap: 'anywhere' }}>
          {webhook.url}
          <br />
          {webhook.kinds.length === 0
            ? t('admin.everyKindOfAlert')
            : webhook.kinds.map((kind) => ALERT[kind]).join(', ')}
        </p>
        {items.length > 0 && (
          <Table
            caption={t('admin.messagesTo', { name: webhook.name })}
            columns={COLUMNS}
            rows={items}
            rowKey={({ id }) => id}
          />
        )}
        <Group mt="sm">
          <Button
            variant="default"
            size="xs"
            loading={test.isPending}
            onClick={() => test.mutate({ params })}
          >
            {t('admin.sendATest')}
          </Button>
          <AskOnceMore
            label={t('admin.remove')}
            of={webhook.name}
            size="xs"
            sentence={t('admin.itIsToldOfNoAlertAnyMoreAndItsSecret')}
            yes={t('admin.removeIt')}
            no={t('admin.keepIt')}
            isPending={remove.isPending}
            error={remove.error}
            onYes={() => remove.mutate({ params })}
          />
        </Group>
        <ProblemPanel error={test.error} />
      </Sheet>
    </Section>
  )
}
