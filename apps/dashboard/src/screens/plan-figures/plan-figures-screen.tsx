import { Button, Stack, TextInput } from '@mantine/core'
import { formatNumber } from '../../lib/measures.ts'
import { useIsPhone } from '../../lib/use-is-phone.ts'
import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useSearch } from '@tanstack/react-router'
import { Download } from 'lucide-react'
import { planQueries } from '../../api/queries/plans.ts'
import { urlOf } from '../../api/url.ts'
import type { PlanFigures } from '../../api/types.ts'
import { dayStart, formatDate, shiftDay, todayIn } from '../../lib/instants.ts'
import { useShopScope, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Facts } from '../../ui/facts.tsx'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { Page, Sheet } from '../../ui/page.tsx'
import { headOf, Table, type Column } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import styles from './plan-figures.module.css'
import { readFigureSearch } from './search.ts'
import { t } from '../../lib/reader.ts'

/** How the plans went: per shop and over all, for any period. Days are those of the shop in view, else of the first. */
export function PlanFiguresScreen() {
  const { shop, shops } = useShopScope()
  const search = useSearch({ from: '/in/plan/figures' })
  const navigate = useNavigate({ from: '/plan/figures' })
  const isPhone = useIsPhone()
  const zone = zoneOf(shop ?? shops[0])
  const today = todayIn(zone, useNow(60_000))
  const until = search.until ?? today
  const from = search.from ?? shiftDay(until, -27)
  const query = {
    ...(shop === undefined ? {} : { shopId: shop.id }),
    from: startOf(from, zone),
    to: startOf(shiftDay(until < from ? from : until, 1), zone),
  }
  const figures = useQuery(planQueries.figures(query))
  const set = (change: Record<string, unknown>) => {
    void navigate({
      search: (old) => ({ ...old, ...readFigureSearch({ ...old, ...change }) }),
      replace: true,
    })
  }
  return (
    <Page
      title={t('plan-figures.howThePlansWent')}
      lede={
        <>
          {t('plan-figures.shopFromTo', {
            shop: shop?.name ?? t('plan-figures.allShops'),
            from: formatDate(from),
            until: formatDate(until),
          })}{' '}
          <Link to="/plan">{t('plan-figures.backToThePlan')}</Link>
        </>
      }
      actions={
        <Button
          variant="default"
          component="a"
          leftSection={<Download size={16} aria-hidden />}
          href={urlOf('/v1/planFigures.csv', undefined, query)}
          download
        >
          {t('plan-figures.csv')}
        </Button>
      }
    >
      <FilterBar>
        <TextInput
          label={t('plan-figures.from')}
          type="date"
          value={from}
          onChange={(event) => set({ from: event.currentTarget.value })}
        />
        <TextInput
          label={t('plan-figures.untilTheEndOf')}
          type="date"
          value={until}
          onChange={(event) => set({ until: event.currentTarget.value })}
        />
      </FilterBar>
      <Answered query={figures} what={t('plan-figures.figures')}>
        {({ items, total }) => {
          const rows = items.length === 1 ? items : [...items, total]
          return isPhone ? (
            <Stack gap="sm">
              {rows.map((row) => (
                <Sheet key={row.shopId ?? 'all'} padded>
                  <h2 className={styles['shop']}>{row.shopName}</h2>
                  <Facts facts={COLUMNS.slice(1).map((column) => [headOf(column), column.cell(row)])} />
                </Sheet>
              ))}
            </Stack>
          ) : (
            <Table
              caption={t('plan-figures.figuresOfThePlans')}
              columns={COLUMNS}
              rows={rows}
              rowKey={({ shopId }) => shopId ?? 'all'}
            />
          )
        }}
      </Answered>
      <p className={styles['note']}>{t('plan-figures.onTimeRepairOrdersWithOperations')}</p>
    </Page>
  )
}

const COLUMNS: readonly Column<PlanFigures>[] = [
  { head: 'plan-figures.shop', cell: ({ shopName }) => <strong>{shopName}</strong> },
  {
    head: 'plan-figures.onTime',
    number: true,
    cell: ({ onTime, promised, onTimeShare }) =>
      promised === 0
        ? t('plan-figures.nonePromised')
        : t('plan-figures.onTimeOf', { share: share(onTimeShare), onTime, promised }),
  },
  { head: 'plan-figures.bayUse', number: true, cell: ({ bayUse }) => share(bayUse) },
  { head: 'plan-figures.ovenUse', number: true, cell: ({ ovenUse }) => share(ovenUse) },
  {
    head: 'plan-figures.cureMean',
    number: true,
    cell: ({ cureHours, bondsReleased }) =>
      bondsReleased === 0
        ? t('plan-figures.noneReleased')
        : t('plan-figures.hoursOfBonds', {
            hours: formatNumber(cureHours / bondsReleased, 1),
            count: bondsReleased,
          }),
  },
  {
    head: 'plan-figures.releasedEarly',
    number: true,
    cell: ({ earlyReleases, bondsReleased, earlyReleaseShare }) =>
      bondsReleased === 0
        ? '–'
        : t('plan-figures.earlyOf', {
            early: earlyReleases,
            all: bondsReleased,
            share: share(earlyReleaseShare),
          }),
  },
  {
    head: 'plan-figures.movedAfterPublishing',
    number: true,
    cell: ({ movedShare, operationsMoved, hoursMoved }) =>
      movedShare === null
        ? t('plan-figures.nonePublished')
        : operationsMoved === 0
          ? t('plan-figures.noneMoved')
          : t('plan-figures.movedBy', {
              count: operationsMoved,
              share: share(movedShare),
              hours: formatNumber(hoursMoved, 1),
            }),
  },
]

function share(value: number | null): string {
  return value === null ? '–' : `${Math.round(value * 100)} %`
}

function startOf(day: string, zone: string): string {
  return new Date(dayStart(day, zone)).toISOString()
}
