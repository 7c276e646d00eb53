import { ROUTES } from '@clampclock/contracts'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { CheckCheck } from 'lucide-react'
import { stockQueries } from '../../api/queries/stock.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import type { StockCount } from '../../api/types.ts'
import { CartridgeBasket } from '../../features/scan/cartridge-basket.tsx'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { Page, Section, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { When } from '../../ui/when.tsx'
import { CountDifferences } from './count-differences.tsx'

export function CountScreen() {
  const { countId } = useParams({ from: '/in/stock/counts/$countId' })
  const count = useQuery(stockQueries.count(countId))
  return (
    <Answered query={count} what="the count">
      {(data) => <CountPage count={data} />}
    </Answered>
  )
}

function CountPage({ count }: { readonly count: StockCount }) {
  const shop = useShop(count.shopId)
  const zone = zoneOf(shop)
  return (
    <Page
      title={`Count: ${count.locationName ?? 'without a place'}`}
      lede={
        <>
          {shop?.name}, started <When at={count.startedAt} zone={zone} style="full" /> by {count.startedBy}
          {count.finishedAt !== null && (
            <>
              , finished <When at={count.finishedAt} zone={zone} /> by {count.finishedBy}
            </>
          )}
        </>
      }
      narrow={count.differences === null}
      actions={<Link to="/stock/counts">All counts</Link>}
    >
      {count.differences === null ? (
        <Counting count={count} />
      ) : (
        <CountDifferences count={count} differences={count.differences} />
      )}
    </Page>
  )
}

/** Blind: what the record expects is not shown, so that nobody counts from the screen. */
function Counting({ count }: { readonly count: StockCount }) {
  const may = useMay()
  const params = { countId: count.id }
  const see = useAction(ROUTES.addCountEntry, { topics: ['stock'] })
  const takeBack = useAction(ROUTES.removeCountEntry, { topics: ['stock'] })
  const finish = useAction(ROUTES.finishStockCount, { topics: ['stock', 'alerts'] })
  if (!may('useStock', count.shopId)) return <p>{count.entries.length} seen so far.</p>
  return (
    <>
      <Sheet padded>
        <CartridgeBasket
          shopId={count.shopId}
          label="Scan every cartridge on the shelf"
          chosen={count.entries.map((entry) => ({ ...entry, id: entry.cartridgeId }))}
          onAdd={({ id }) => see.mutate({ params, body: { cartridgeId: id } })}
          onRemove={({ id }) => takeBack.mutate({ params: { ...params, cartridgeId: id } })}
        />
        <ProblemPanel error={see.error ?? takeBack.error} />
      </Sheet>
      <Section title={`${count.entries.length} seen`}>
        <p>
          What the record expects is shown when you finish. Somebody else may count the same shelf with you.
        </p>
        <ProblemPanel error={finish.error} />
        <Button
          size="md"
          leftSection={<CheckCheck size={18} aria-hidden />}
          loading={finish.isPending}
          onClick={() => finish.mutate({ params })}
        >
          That is all: show what differs
        </Button>
      </Section>
    </>
  )
}
