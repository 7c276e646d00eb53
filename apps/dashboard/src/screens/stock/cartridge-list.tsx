/* oxlint-disable jsx-a11y/prefer-tag-over-role -- rows laid out by place: table elements with another display lose their meaning */
import { useIsPhone } from '../../lib/use-is-phone.ts'
import { useEffect } from 'react'
import type { Cartridge } from '../../api/types.ts'
import { useWindow } from '../../ui/use-window.ts'
import styles from './cartridge-list.module.css'
import { CartridgeRow } from './cartridge-row.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly items: readonly Cartridge[]
  readonly query: {
    readonly hasNextPage: boolean
    readonly isFetchingNextPage: boolean
    readonly fetchNextPage: () => unknown
  }
  readonly showShop: boolean
}

const HEADS = [
  'stock.head.state',
  'stock.head.code',
  'stock.head.productAndLot',
  'stock.head.where',
  'stock.head.content',
  'stock.head.countsUntil',
] as const

/** Thousands of cartridges: only the rows on the screen are in the document, further pages come as one scrolls. */
export function CartridgeList({ items, query, showShop }: Props) {
  const isPhone = useIsPhone()
  const rowHeightPx = (isPhone ? 8.5 : 4) * rem()
  const { list, first, end } = useWindow(items.length, rowHeightPx)
  const { hasNextPage, isFetchingNextPage, fetchNextPage } = query
  useEffect(() => {
    if (hasNextPage && !isFetchingNextPage && end >= items.length - 20) void fetchNextPage()
  }, [hasNextPage, isFetchingNextPage, fetchNextPage, end, items.length])
  return (
    <>
      <output className={styles['count']}>
        {t(hasNextPage ? 'stock.shownMoreAsYouScroll' : 'stock.pieces', { count: items.length })}
      </output>
      <div
        role="table"
        aria-label={t('stock.cartridges')}
        aria-rowcount={hasNextPage ? -1 : items.length + 1}
        className={styles['table']}
      >
        <div role="rowgroup">
          <div role="row" aria-rowindex={1} className={`${styles['row']} ${styles['head']}`}>
            {HEADS.map((head) => (
              <span key={head} role="columnheader">
                {t(head)}
              </span>
            ))}
          </div>
        </div>
        <div role="rowgroup" ref={list} style={{ height: items.length * rowHeightPx, position: 'relative' }}>
          {items.slice(first, end).map((cartridge, offset) => (
            <CartridgeRow
              key={cartridge.id}
              cartridge={cartridge}
              index={first + offset}
              rowHeightPx={rowHeightPx}
              showShop={showShop}
            />
          ))}
        </div>
      </div>
    </>
  )
}

/** What one rem is in px: rows grow with the text that a person reads. */
function rem(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize)
}
