import { Button } from '@mantine/core'
import { useIsPhone } from '../../lib/use-is-phone.ts'
import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { ChartColumn, Printer, Settings2 } from 'lucide-react'
import { useState } from 'react'
import { planQueries } from '../../api/queries/plans.ts'
import { scheduleQueries } from '../../api/queries/schedule.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import type { PlannedOperation, Shop } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { Cautions } from '../../features/bonds/cautions.tsx'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { OneShopPicker } from '../../features/shops/one-shop-picker.tsx'
import { formatInstant, todayIn, formatSpan } from '../../lib/instants.ts'
import { useOneShop } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Page } from '../../ui/page.tsx'
import { usePrinting } from '../../ui/use-printing.ts'
import { Answered, Empty, Loading } from '../../ui/waiting.tsx'
import { spanOf, type Span } from '../../features/timeline/time-scale.ts'
import { currentDraft } from './current-draft.ts'
import { Gantt } from './picture/gantt.tsx'
import { GanttLegend } from './picture/gantt-legend.tsx'
import { MoveVerdict } from './move-verdict.tsx'
import { PlanControls } from './plan-controls.tsx'
import { PlanList } from './plan-list.tsx'
import { PlanRun } from './plan-run.tsx'
import { PrintedList } from './printed-list.tsx'
import { useMove } from './use-move.ts'
import { SCALES } from './picture/zoom.ts'
import { lazily } from '../../ui/lazily.tsx'
import { t } from '../../lib/reader.ts'

const MoveDialog = lazily(async () => (await import('./move-dialog.tsx')).MoveDialog)

export function PlanScreen() {
  const { shop } = useOneShop()
  return shop === undefined ? <NoShop title={t('plan.plan')} /> : <PlanOfShop key={shop.id} shop={shop} />
}

function PlanOfShop({ shop }: { readonly shop: Shop }) {
  const search = useSearch({ from: '/in/plan' })
  const may = useMay()
  const nowMs = useNow(60_000)
  const isPhone = useIsPhone()
  const [opened, setOpened] = useState<PlannedOperation>()
  const zoom = search.zoom ?? 'days'
  const rows = search.rows ?? 'places'
  const from = search.from ?? todayIn(shop.timeZone, nowMs)
  const span = spanOf(from, SCALES[zoom].days, shop.timeZone)
  const list = useQuery(planQueries.list(shop.id))
  const newest = currentDraft(list.data?.items ?? [])
  const draft = newest?.isOutdated === true ? undefined : newest
  const published = useQuery(planQueries.published(shop.id))
  const draftPlan = useQuery({
    ...planQueries.one(draft?.id ?? '', shop.id),
    enabled: draft !== undefined && search.draft === 'yes',
  })
  const resources = useQuery(shopQueries.resources(shop.id))
  const times = useQuery(
    planQueries.resourceTime(
      shop.id,
      new Date(span.startMs).toISOString(),
      new Date(span.endMs).toISOString(),
    ),
  )
  const bookings = useQuery(
    scheduleQueries.bookings(
      shop.id,
      new Date(span.startMs).toISOString(),
      new Date(span.endMs).toISOString(),
    ),
  )
  const isPrinting = usePrinting()
  const shownSpan = isPrinting ? spanOf(from, SCALES[zoom].printDays, shop.timeZone) : span
  const showsDraft = search.draft === 'yes' && draftPlan.data !== undefined
  const plan = showsDraft ? draftPlan.data : (published.data?.plan ?? undefined)
  // All of it at once: what came one after the other would push away what somebody has begun to read.
  const [isThere, setThere] = useState(false)
  const questions = [list, published, resources, times, bookings]
  if (!isThere && questions.every(({ data, error }) => data !== undefined || error !== null)) setThere(true)
  const mayPlan = may('planWork', shop.id)
  const { verdict, ask, make, forget } = useMove(plan?.id ?? '')
  const mayMove = mayPlan && plan?.state === 'published'
  return (
    <Page
      title={t('plan.planOf', { name: shop.name })}
      lede={
        isPrinting
          ? printedLede(shownSpan, showsDraft, shop.timeZone, nowMs)
          : t('plan.timesOnTheShopsClock', { timeZone: shop.timeZone })
      }
      actions={
        <>
          <OneShopPicker />
          <Button
            variant="default"
            leftSection={<ChartColumn size={16} aria-hidden />}
            renderRoot={(props) => <Link {...props} to="/plan/figures" />}
          >
            {t('plan.figures')}
          </Button>
          {mayPlan && (
            <Button
              variant="default"
              leftSection={<Settings2 size={16} aria-hidden />}
              renderRoot={(props) => <Link {...props} to="/plan/setup" />}
            >
              {t('plan.hoursAndTemplates')}
            </Button>
          )}
          {!isPhone && (
            <Button
              variant="default"
              leftSection={<Printer size={16} aria-hidden />}
              onClick={() => globalThis.print()}
            >
              {t('plan.print')}
            </Button>
          )}
        </>
      }
    >
      {isThere ? (
        <>
          <PlanRun
            shop={shop}
            plans={list.data?.items ?? []}
            resources={resources.data?.items ?? []}
            nowMs={nowMs}
            mayPlan={mayPlan}
            showsDraft={showsDraft}
          />
          <PlanControls from={from} zoom={zoom} rows={rows} zone={shop.timeZone} isPhone={isPhone} />
          <MoveVerdict verdict={verdict} zone={shop.timeZone} onClose={forget} />
          <Answered query={published} what={t('plan.thePlan')}>
            {() =>
              plan === undefined ? (
                <Empty title={t('plan.noPlanIsPublishedYet')}>
                  {mayPlan
                    ? t('plan.giveRepairOrdersTheirOperationsThen')
                    : t('plan.theSchedulerPlansAndPublishes')}
                </Empty>
              ) : isPhone ? (
                <PlanList
                  plan={plan}
                  resources={resources.data?.items ?? []}
                  bookings={bookings.data?.items ?? []}
                  rows={rows}
                  span={span}
                  shop={shop}
                  onOpen={setOpened}
                />
              ) : (
                <>
                  <Gantt
                    plan={plan}
                    resources={resources.data?.items ?? []}
                    bookings={bookings.data?.items ?? []}
                    times={times.data?.items ?? []}
                    span={shownSpan}
                    rows={rows}
                    zoom={zoom}
                    shop={shop}
                    isPrinting={isPrinting}
                    mayMove={mayMove}
                    verdict={verdict}
                    onOpen={setOpened}
                    onAsk={ask}
                    onMake={(wish) => void make(wish)}
                    onForget={forget}
                  />
                  <GanttLegend />
                  {isPrinting && (
                    <PrintedList
                      plan={plan}
                      resources={resources.data?.items ?? []}
                      rows={rows}
                      span={shownSpan}
                      shop={shop}
                    />
                  )}
                </>
              )
            }
          </Answered>
        </>
      ) : (
        <Loading what={t('plan.thePlan')} isPage />
      )}
      {opened !== undefined && plan !== undefined && (
        <MoveDialog
          operation={opened}
          plan={plan}
          resources={resources.data?.items ?? []}
          shop={shop}
          mayMove={mayMove}
          onClose={() => setOpened(undefined)}
        />
      )}
      <Cautions about={['cure', 'bake']} />
    </Page>
  )
}

/** A sheet on the wall says which days it is of, and how old it is. */
function printedLede({ startMs, endMs }: Span, isDraft: boolean, zone: string, nowMs: number): string {
  const day = (ms: number) => formatInstant(new Date(ms).toISOString(), zone, 'day')
  const days = endMs - startMs < 1.5 * 86_400_000 ? day(startMs) : formatSpan(day(startMs), day(endMs - 1))
  const printed = formatInstant(new Date(nowMs).toISOString(), zone)
  return t('plan.printedTheShopsClock', {
    days,
    isDraft: isDraft ? t('plan.aDraftNotPublished') : t('plan.asItWasPublished'),
    printed,
    zone,
  })
}
