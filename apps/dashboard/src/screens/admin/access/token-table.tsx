import { ROUTES } from '../../../api/contracts.ts'
import type { AccessToken } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useShops } from '../../../api/use-me.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { AskOnceMore } from '../../../ui/dialogs/ask-once-more.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { t } from '../../../lib/reader.ts'

/** Tokens of the chain; times are UTC, since a token belongs to no shop's clock. */
export function TokenTable({ tokens }: { readonly tokens: readonly AccessToken[] }) {
  const shops = useShops()
  const revoke = useAction(ROUTES.revokeAccessToken, { topics: ['people'] })
  const utc = (at: string | null) =>
    at === null ? t('calendar.never') : `${formatInstant(at, 'utc', 'full')} UTC`
  const columns: readonly Column<AccessToken>[] = [
    { head: 'admin.name', cell: ({ name }) => <strong>{name}</strong> },
    {
      head: 'admin.mayDo',
      cell: ({ scope }) => (scope === 'sensor' ? t('admin.sendTemperatures') : t('admin.readAndPlanWork')),
    },
    {
      head: 'admin.in',
      cell: ({ shopId }) =>
        shopId === null ? t('admin.everyShop') : shops.find(({ id }) => id === shopId)?.name,
    },
    { head: 'admin.made', cell: ({ createdAt }) => utc(createdAt) },
    { head: 'admin.lastUsed', cell: ({ lastUsedAt }) => utc(lastUsedAt) },
    {
      head: 'admin.state',
      cell: ({ id, name, revokedAt }) =>
        revokedAt === null ? (
          <AskOnceMore
            label={t('admin.revoke')}
            of={name}
            size="xs"
            sentence={t('admin.whateverSendsWithItIsRefusedFromNow')}
            yes={t('admin.revokeIt')}
            no={t('admin.keepIt')}
            isPending={revoke.isPending && revoke.variables.params.tokenId === id}
            error={revoke.error}
            onYes={() => revoke.mutate({ params: { tokenId: id } })}
          />
        ) : (
          <Mark tone="quiet">{t('admin.revoked')}</Mark>
        ),
    },
  ]
  return <Table caption={t('admin.tokens')} columns={columns} rows={tokens} rowKey={({ id }) => id} />
}
