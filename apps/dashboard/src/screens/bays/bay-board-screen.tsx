import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { Maximize2, Minimize2 } from 'lucide-react'
import { scheduleQueries } from '../../api/queries/schedule.ts'
import type { Shop } from '../../api/types.ts'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { OneShopPicker } from '../../features/shops/one-shop-picker.tsx'
import { formatInstant } from '../../lib/instants.ts'
import { useOneShop } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Page } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import styles from './bays.module.css'
import { BayRow } from './bay-row.tsx'
import { t } from '../../lib/reader.ts'

/** What stands where, and how long it must stay: for the wall, the desk and the phone. */
export function BayBoardScreen() {
  const { shop } = useOneShop()
  if (shop === undefined) return <NoShop title={t('bays.bayBoard')} />
  return <Board shop={shop} />
}

function Board({ shop }: { readonly shop: Shop }) {
  const { wall } = useSearch({ from: '/in/bays' })
  const board = useQuery(scheduleQueries.bayBoard(shop.id))
  return (
    <Page
      title={t('bays.baysOf', { name: shop.name })}
      lede={<BoardClock shop={shop} asOf={board.dataUpdatedAt} />}
      actions={
        <>
          <OneShopPicker />
          <Button
            variant="default"
            leftSection={
              wall === true ? <Minimize2 size={16} aria-hidden /> : <Maximize2 size={16} aria-hidden />
            }
            renderRoot={(props) => (
              <Link
                {...props}
                to="/bays"
                search={(old) => ({ ...old, wall: wall === true ? undefined : true })}
              />
            )}
          >
            {wall === true ? t('bays.leaveWallScreen') : t('bays.wallScreen')}
          </Button>
        </>
      }
    >
      <Answered query={board} what={t('bays.theBays')}>
        {({ rows, asOf }) =>
          rows.length === 0 ? (
            <Empty
              title={t('bays.noBaysYet')}
              action={<Link to="/admin/equipment">{t('bays.addBaysAndOvens')}</Link>}
            />
          ) : (
            <ul
              className={`${styles['board']} ${wall === true ? styles['wall'] : ''}`}
              aria-label={t('bays.baysAndOvens')}
            >
              {rows.map((row) => (
                <BayRow key={row.resource.id} row={row} shop={shop} asOf={asOf} />
              ))}
            </ul>
          )
        }
      </Answered>
    </Page>
  )
}

function BoardClock({ shop, asOf }: { readonly shop: Shop; readonly asOf: number }) {
  const nowMs = useNow()
  const now = new Date(nowMs).toISOString()
  const isStale = asOf > 0 && nowMs - asOf > 3 * 60_000
  return (
    <>
      <time dateTime={now}>{formatInstant(now, shop.timeZone, 'dayClock')}</time>
      {isStale &&
        ` · ${t('bays.bookingsAsOf', { asOf: formatInstant(new Date(asOf).toISOString(), shop.timeZone, 'clock') })}`}
    </>
  )
}
