import { Button } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { formatVolume, formatMoney } from '../../lib/measures.ts'
import type { WasteLine } from '../../api/types.ts'
import { useShops } from '../../api/use-me.ts'
import { lastDay } from '../../features/stock/until.ts'
import { zoneOf } from '../../lib/shop-scope.ts'
import { percentOf } from '../../ui/answers/percent.ts'
import { Table, type Column } from '../../ui/table.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly caption: string
  readonly lines: readonly WasteLine[]
  readonly currency: string
}

/** The dearest are what a person acts on; the rest is there on asking. */
const SHOWN_FIRST = 12

export function WasteTable({ caption, lines, currency }: Props) {
  const shops = useShops()
  const [isWhole, setWhole] = useState(false)
  const shopOf = (line: WasteLine) => shops.find(({ id }) => id === line.shopId)
  const columns: readonly Column<WasteLine>[] = [
    {
      head: 'waste.lot2',
      cell: (line) => (
        <>
          <Link to="/stock/lots/$lotId" params={{ lotId: line.lotId }}>
            {line.lotNumber}
          </Link>
          <br />
          {line.productName}
        </>
      ),
    },
    { head: 'waste.shop', cell: (line) => shopOf(line)?.name ?? '' },
    {
      head: 'waste.soonestLastDay',
      cell: (line) => (
        <time dateTime={line.soonestExpiryAt}>{lastDay(line.soonestExpiryAt, zoneOf(shopOf(line)))}</time>
      ),
    },
    {
      head: 'waste.there',
      number: true,
      cell: (line) => `${line.cartridges} (${formatVolume(line.volumeMl)})`,
    },
    { head: 'waste.lost', number: true, cell: (line) => formatVolume(line.expectedMl) },
    { head: 'waste.chance', number: true, cell: (line) => `${percentOf(line.probability)} %` },
    {
      head: 'waste.worth',
      number: true,
      cell: (line) =>
        line.expectedCents === null ? t('waste.noPrice') : formatMoney(line.expectedCents, currency),
    },
  ]
  return (
    <>
      <Table
        caption={caption}
        columns={columns}
        rows={isWhole ? lines : lines.slice(0, SHOWN_FIRST)}
        rowKey={(line) => `${line.shopId} ${line.lotId}`}
      />
      {!isWhole && lines.length > SHOWN_FIRST && (
        <Button variant="default" mt="xs" onClick={() => setWhole(true)}>
          {t('waste.showAll', { lines: lines.length })}
        </Button>
      )}
    </>
  )
}
