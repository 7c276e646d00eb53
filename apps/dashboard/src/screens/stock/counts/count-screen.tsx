import { rich } from '../../../lib/rich.tsx'
import { ROUTES } from '../../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useParams } from '@tanstack/react-router'
import { CheckCheck } from 'lucide-react'
import { stockQueries } from '../../../api/queries/stock.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import type { StockCount } from '../../../api/types.ts'
import { CartridgeBasket } from '../../../features/scan/cartridge-basket.tsx'
import { notAllIn, ScanQueue } from '../../../features/scan/scan-queue.tsx'
import { useShop, zoneOf } from '../../../lib/shop-scope.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Page, Section, Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { Answered } from '../../../ui/waiting.tsx'
import { When } from '../../../ui/when.tsx'
import { CountDifferences } from './count-differences.tsx'
import { useCountScans } from './use-count-scans.ts'
import { t } from '../../../lib/reader.ts'

export function CountScreen() {
  const { countId } = useParams({ from: '/in/stock/counts/$countId' })
  const count = useQuery(stockQueries.count(countId))
  return (
    <Answered query={count} what={t('stock.theCount')}>
      {(data) => <CountPage count={data} />}
    </Answered>
  )
}

function CountPage({ count }: { readonly count: StockCount }) {
  const shop = useShop(count.shopId)
  const zone = zoneOf(shop)
  const scans = useCountScans(count)
  const { items } = scans
  return (
    <Page
      title={t('stock.count', { locationName: count.locationName ?? t('stock.withoutAPlace2') })}
      lede={
        <>
          {rich('stock.countStarted', {
            shop: shop?.name ?? '',
            at: <When at={count.startedAt} zone={zone} style="full" />,
            by: count.startedBy,
          })}
          {count.finishedAt !== null && (
            <>
              {', '}
              {rich('stock.countFinished', {
                at: <When at={count.finishedAt} zone={zone} />,
                by: count.finishedBy ?? '',
              })}
            </>
          )}
        </>
      }
      narrow={count.differences === null}
      actions={<Link to="/stock/counts">{t('stock.allCounts')}</Link>}
    >
      {count.differences === null ? (
        <Counting count={count} scans={scans} />
      ) : (
        <>
          {items.length > 0 && (
            <Sheet padded>
              <p>{t('stock.theseDidNotGetInBeforeTheCountWas')}</p>
              <ScanQueue items={items} sent={scans.sent} onDismiss={scans.dismiss} />
            </Sheet>
          )}
          <CountDifferences count={count} differences={count.differences} />
        </>
      )}
    </Page>
  )
}

/** Blind: what the record expects is not shown, so that nobody counts from the screen. */
function Counting({
  count,
  scans,
}: {
  readonly count: StockCount
  readonly scans: ReturnType<typeof useCountScans>
}) {
  const may = useMay()
  const params = { countId: count.id }
  const takeBack = useAction(ROUTES.removeCountEntry, { topics: ['stock'] })
  const finish = useAction(ROUTES.finishStockCount, { topics: ['stock', 'alerts'] })
  const navigate = useNavigate()
  const cancel = useAction(ROUTES.cancelStockCount, {
    topics: ['stock'],
    onDone: () => void navigate({ to: '/stock/counts' }),
  })
  const notIn = notAllIn(scans.items)
  if (!may('useStock', count.shopId)) return <p>{t('stock.seenSoFar', { entries: count.entries.length })}</p>
  return (
    <>
      <Sheet padded>
        <CartridgeBasket
          shopId={count.shopId}
          label={t('stock.scanEveryCartridgeOnTheShelf')}
          chosen={count.entries.map((entry) => ({ ...entry, id: entry.cartridgeId }))}
          isPending={scans.items.some(({ state }) => state === 'sending')}
          focusKey={scans.sent + scans.items.length}
          onScan={(text) => scans.add({ text })}
          onChoose={({ code }) => scans.add({ text: code })}
          onRemove={({ id }) => takeBack.mutate({ params: { ...params, cartridgeId: id } })}
        >
          <ScanQueue items={scans.items} sent={scans.sent} onDismiss={scans.dismiss} />
        </CartridgeBasket>
        <ProblemPanel error={takeBack.error} />
      </Sheet>
      <Section title={t('stock.seen2', { entries: count.entries.length })}>
        <p>{t('stock.whatTheRecordExpectsIsShownWhenYou')}</p>
        <ProblemPanel error={finish.error} />
        {notIn !== undefined && (
          <p>
            <Mark tone="warning">{notIn}</Mark>
          </p>
        )}
        <Button
          size="md"
          leftSection={<CheckCheck size={18} aria-hidden />}
          loading={finish.isPending}
          disabled={notIn !== undefined}
          onClick={() => finish.mutate({ params })}
        >
          {t('stock.finishAndShowDifferences')}
        </Button>
        {count.entries.length === 0 && scans.items.length === 0 && (
          <>
            <ProblemPanel error={cancel.error} />
            <Button variant="default" loading={cancel.isPending} onClick={() => cancel.mutate({ params })}>
              {t('stock.cancelThisCount')}
            </Button>
          </>
        )}
      </Section>
    </>
  )
}
