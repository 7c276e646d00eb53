import { ROUTES } from '../../../api/contracts.ts'
import type { AccessToken } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useShops } from '../../../api/use-me.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { AskOnceMore } from '../../../ui/dialogs/ask-once-more.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Table, type Column } from '../../../ui/table.tsx'

/** Tokens of the chain; times are UTC, since a token belongs to no shop's clock. */
export function TokenTable({ tokens }: { readonly tokens: readonly AccessToken[] }) {
  const shops = useShops()
  const revoke = useAction(ROUTES.revokeAccessToken, { topics: ['people'] })
  const utc = (at: string | null) => (at === null ? 'never' : `${formatInstant(at, 'utc', 'full')} UTC`)
  const columns: readonly Column<AccessToken>[] = [
    { head: 'Name', cell: ({ name }) => <strong>{name}</strong> },
    {
      head: 'May do',
      cell: ({ scope }) => (scope === 'sensor' ? 'Send temperatures' : 'Read, and plan work'),
    },
    {
      head: 'In',
      cell: ({ shopId }) => (shopId === null ? 'Every shop' : shops.find(({ id }) => id === shopId)?.name),
    },
    { head: 'Made', cell: ({ createdAt }) => utc(createdAt) },
    { head: 'Last used', cell: ({ lastUsedAt }) => utc(lastUsedAt) },
    {
      head: 'State',
      cell: ({ id, name, revokedAt }) =>
        revokedAt === null ? (
          <AskOnceMore
            label="Revoke"
            of={name}
            size="xs"
            sentence="Whatever sends with it is refused from now on."
            yes="Revoke it"
            no="Keep it"
            isPending={revoke.isPending && revoke.variables.params.tokenId === id}
            error={revoke.error}
            onYes={() => revoke.mutate({ params: { tokenId: id } })}
          />
        ) : (
          <Mark tone="quiet">Revoked</Mark>
        ),
    },
  ]
  return <Table caption="Tokens" columns={columns} rows={tokens} rowKey={({ id }) => id} />
}
