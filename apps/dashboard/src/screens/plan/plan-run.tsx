import { ROUTES } from '../../api/contracts.ts'
import { Button, Group } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Link, useNavigate } from '@tanstack/react-router'
import { Play, Square } from 'lucide-react'
import { useState } from 'react'
import type { Plan, Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { ComparePanel } from './compare-panel.tsx'
import { currentDraft } from './current-draft.ts'
import { DroppedVehicles } from './dropped-vehicles.tsx'
import { figures, notesOf } from './plan-figures.ts'
import styles from './plan-run.module.css'
import { lazily } from '../../ui/lazily.tsx'
import { t } from '../../lib/reader.ts'

const PublishDialog = lazily(async () => (await import('./publish-dialog.tsx')).PublishDialog)
const EventDialog = lazily(async () => (await import('./event-dialog.tsx')).EventDialog)

interface Props {
  readonly shop: Shop
  readonly plans: readonly Plan[]
  readonly resources: readonly Resource[]
  readonly nowMs: number
  readonly mayPlan: boolean
  readonly showsDraft: boolean
}

/** So that the picture stays on the screen. */
const NOTES_SHOWN = 2

/** The published plan in figures, and beside it what is being planned: watch it, stop it, compare, publish or discard. */
export function PlanRun({ shop, plans, resources, nowMs, mayPlan, showsDraft }: Props) {
  const navigate = useNavigate({ from: '/plan' })
  const [isTelling, { open, close }] = useDisclosure()
  const [isComparing, setComparing] = useState(false)
  const [isConfirming, setConfirming] = useState(false)
  const show = (draft: 'yes' | undefined) => {
    void navigate({ search: (old) => ({ ...old, draft }), replace: true })
  }
  const start = useAction(ROUTES.startPlan, { topics: ['plans'] })
  const stop = useAction(ROUTES.stopPlan, { topics: ['plans'] })
  const done = () => {
    setComparing(false)
    setConfirming(false)
    show(undefined)
  }
  const publish = useAction(ROUTES.publishPlan, { topics: ['plans', 'bookings', 'alerts'], onDone: done })
  const discard = useAction(ROUTES.discardPlan, { topics: ['plans'], onDone: done })
  const published = plans.find(({ state }) => state === 'published')
  const solving = plans.find(({ state }) => state === 'solving')
  const draft = currentDraft(plans)
  const [latest] = plans
  // Of the draft that is here now: what was said of another one is over.
  const refused = draft !== undefined && publish.variables?.params.planId === draft.id ? publish.error : null
  // Vehicles that a draft drops stand before everything else.
  const notes = draft ? draft.notes.assumptions : notesOf(published)
  return (
    <div className={styles['run']}>
      <Sheet padded>
        {draft !== undefined && <DroppedVehicles orders={draft.leftOut} />}
        <div className={styles['head']}>
          <div>
            <strong>{t('plan.published')}</strong>
            <p className={styles['figures']}>{published ? figures(published) : t('plan.noPlanYet')}</p>
          </div>
          {draft !== undefined && (
            <div>
              <strong>{draft.isOutdated ? t('plan.draftOutdated') : t('plan.draft')}</strong>
              <p className={styles['figures']}>{figures(draft)}</p>
            </div>
          )}
          {solving !== undefined && (
            <div aria-live="polite">
              <strong>{t('plan.planning')}</strong>
              <p className={styles['figures']}>
                {solving.progress === null
                  ? solving.isWaiting
                    ? t('plan.waitsForPlansOfOtherShops')
                    : t('plan.readingTheShop')
                  : t('plan.betterPlansFoundInS', {
                      improvements: solving.progress.improvements,
                      seconds: solving.progress.seconds,
                    })}
              </p>
            </div>
          )}
          {mayPlan && (
            <Group gap="xs" className={styles['actions'] ?? ''}>
              {solving === undefined ? (
                <Button
                  leftSection={<Play size={16} aria-hidden />}
                  variant={draft === undefined ? 'filled' : 'default'}
                  loading={start.isPending}
                  onClick={() => start.mutate({ params: { shopId: shop.id }, body: {} })}
                >
                  {t('plan.plan')}
                </Button>
              ) : (
                <Button
                  leftSection={<Square size={16} aria-hidden />}
                  variant="default"
                  loading={stop.isPending}
                  onClick={() => stop.mutate({ params: { planId: solving.id } })}
                >
                  {t('plan.stop')}
                </Button>
              )}
              {solving === undefined && published !== undefined && (
                <Button variant="default" onClick={open}>
                  {t('plan.reportAChange2')}
                </Button>
              )}
              {draft !== undefined && (
                <>
                  {!draft.isOutdated && (
                    <Button variant="default" onClick={() => show(showsDraft ? undefined : 'yes')}>
                      {showsDraft ? t('plan.showThePublishedPlan') : t('plan.showTheDraft')}
                    </Button>
                  )}
                  <Button
                    variant="default"
                    aria-expanded={isComparing}
                    onClick={() => setComparing(!isComparing)}
                  >
                    {t('plan.compare')}
                  </Button>
                  <Button
                    variant="default"
                    loading={discard.isPending}
                    onClick={() => discard.mutate({ params: { planId: draft.id } })}
                  >
                    {t('plan.discard')}
                  </Button>
                  <Button
                    loading={publish.isPending}
                    disabled={draft.isOutdated || draft.changedOrders.length > 0 || solving !== undefined}
                    onClick={() =>
                      draft.leftOut.length > 0
                        ? setConfirming(true)
                        : publish.mutate({ params: { planId: draft.id }, body: {} })
                    }
                  >
                    {t('plan.publish')}
                  </Button>
                </>
              )}
            </Group>
          )}
        </div>
        {latest?.state === 'failed' && <Mark tone="danger">{latest.fault}</Mark>}
        {draft?.isOutdated === true && (
          <Mark tone="warning">{t('plan.anotherPlanWasPublishedSinceThis')}</Mark>
        )}
        {draft !== undefined && !draft.isOutdated && <ChangedOrders plan={draft} />}
        {published !== undefined && <ChangedOrders plan={published} />}
        <ProblemPanel error={start.error ?? stop.error ?? (isConfirming ? null : refused) ?? discard.error} />
        <Notes notes={notes.slice(0, NOTES_SHOWN)} />
        {notes.length > NOTES_SHOWN && (
          <details>
            <summary>{t('plan.more2', { notes: notes.length - NOTES_SHOWN })}</summary>
            <Notes notes={notes.slice(NOTES_SHOWN)} />
          </details>
        )}
        {draft !== undefined && isComparing && <ComparePanel plan={draft} shop={shop} />}
        {draft !== undefined && isConfirming && (
          <PublishDialog
            orders={draft.leftOut}
            isPending={publish.isPending}
            error={refused}
            onClose={() => setConfirming(false)}
            onConfirm={(leavesOut) => publish.mutate({ params: { planId: draft.id }, body: { leavesOut } })}
          />
        )}
        {isTelling && <EventDialog shop={shop} resources={resources} nowMs={nowMs} onClose={close} />}
      </Sheet>
    </div>
  )
}

/** Vehicles that are in a plan as they were before their operations were changed. */
function ChangedOrders({ plan: { state, changedOrders } }: { readonly plan: Plan }) {
  if (changedOrders.length === 0) return null
  return (
    <p className={styles['changed']}>
      <Mark tone="warning">
        {t('plan.operationsChanged', { state: state === 'draft' ? 'draft' : 'plan' })}
      </Mark>{' '}
      {changedOrders.map(({ id, number, vehicle }) => (
        <Link key={id} to="/jobs/$repairOrderId" params={{ repairOrderId: id }}>
          {`${number}, ${vehicle}`}
        </Link>
      ))}
    </p>
  )
}

/** What could not be planned, and what was assumed. */
function Notes({ notes }: { readonly notes: readonly string[] }) {
  if (notes.length === 0) return null
  return (
    <ul className={styles['notes']}>
      {notes.map((note) => (
        <li key={note}>
          <Mark tone="warning">{note}</Mark>
        </li>
      ))}
    </ul>
  )
}
