import { ROUTES } from '../../../api/contracts.ts'
import { Button, VisuallyHidden } from '@mantine/core'
import { useEffect, useRef, useState, type KeyboardEvent } from 'react'
import type { Operation } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { MoveButtons } from '../../../ui/move-buttons.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { placeAfterMove } from './operation-changes.ts'
import { needs, takes } from './operation-words.ts'
import styles from './operations.module.css'
import { lazily } from '../../../ui/lazily.tsx'
import { t } from '../../../lib/reader.ts'

const RemoveOperation = lazily(async () => (await import('./remove-operation.tsx')).RemoveOperation)

const EditOperation = lazily(async () => (await import('./edit-operation.tsx')).EditOperation)

interface Props {
  /** Of the joint, or of what is done on the vehicle. */
  readonly name: string
  readonly chain: readonly Operation[]
  readonly unit: 'C' | 'F'
  readonly mayChange: boolean
}

const TOPICS = ['repairs', 'plans'] as const

/** One joint, or the vehicle: its operations change places by button, or by Alt and the arrow keys from within one. */
export function OperationList({ name, chain, unit, mayChange }: Props) {
  const section = useRef<HTMLElement>(null)
  const focusNext = useRef<() => HTMLElement | null | undefined>(undefined)
  const [said, setSaid] = useState('')
  const [edited, setEdited] = useState<Operation>()
  const order = useAction(ROUTES.orderOperation, { topics: TOPICS })
  useEffect(() => {
    focusNext.current?.()?.focus()
    focusNext.current = undefined
  }, [chain, edited])

  const within = (id: string, selector: string) =>
    section.current?.querySelector<HTMLElement>(`[data-operation="${id}"] ${selector}`)
  const move = (at: number, by: -1 | 1) => {
    const operation = chain[at]!
    const afterId = placeAfterMove(chain, at, by)
    if (order.isPending || operation.hasBegun) return
    if (afterId === undefined) {
      setSaid(t(by < 0 ? 'ui.noFurtherUp' : 'ui.noFurtherDown', { name: operation.name }))
      return
    }
    const held = document.activeElement as HTMLElement | null
    order.mutate(
      { params: { operationId: operation.id }, ifMatch: operation.version, body: { afterId } },
      {
        onSuccess: () => {
          focusNext.current = () =>
            held?.matches(':disabled') ? within(operation.id, 'button[data-move]:not(:disabled)') : held
          setSaid(t(by < 0 ? 'job.wasMovedUp' : 'job.wasMovedDown', { name: operation.name }))
        },
      },
    )
  }
  const onKey = (event: KeyboardEvent, at: number) => {
    if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') || !mayChange) return
    event.preventDefault()
    event.stopPropagation()
    move(at, event.key === 'ArrowUp' ? -1 : 1)
  }
  const onRemoved = (at: number) => {
    const { id, name: removed } = chain[at]!
    const beside = chain.find((each, i) => each.id !== id && i >= at - 1)
    focusNext.current = () =>
      (beside && within(beside.id, 'button:not(:disabled)')) ?? section.current?.querySelector('h3')
    setSaid(t('job.isRemoved', { removed }))
  }

  return (
    <section ref={section} className={styles['chain']} aria-label={t('job.operations', { name })}>
      <h3 tabIndex={-1}>{name}</h3>
      <ol>
        {chain.map((operation, at) => (
          // oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- a second way to what its buttons do
          <li
            key={operation.id}
            data-operation={operation.id}
            aria-label={operation.name}
            onKeyDownCapture={(event) => onKey(event, at)}
          >
            <span className={styles['number']} aria-hidden>
              {at + 1}
            </span>
            <div className={styles['text']}>
              <strong>{operation.name}</strong>
              <p>{[takes(operation), needs(operation, unit)].filter((part) => part !== '').join(' · ')}</p>
              <Standing operation={operation} />
            </div>
            {mayChange && !operation.hasBegun && (
              <div className={styles['buttons']}>
                <MoveButtons
                  name={operation.name}
                  mayMove={(by) => placeAfterMove(chain, at, by) !== undefined}
                  onMove={(by) => move(at, by)}
                />
                <Button
                  data-change
                  variant="default"
                  aria-label={t('job.change2', { name: operation.name })}
                  onClick={() => setEdited(operation)}
                >
                  {t('job.change')}
                </Button>
                <RemoveOperation operation={operation} chain={chain} onRemoved={() => onRemoved(at)} />
              </div>
            )}
          </li>
        ))}
      </ol>
      <ProblemPanel error={order.error} />
      <VisuallyHidden component="output">{said}</VisuallyHidden>
      {edited !== undefined && (
        <EditOperation
          key={edited.id}
          operation={edited}
          present={chain.find(({ id }) => id === edited.id)}
          unit={unit}
          onClose={() => {
            focusNext.current = () => within(edited.id, 'button[data-change]')
            setEdited(undefined)
          }}
        />
      )}
    </section>
  )
}

/** How far it is; nothing of what has not begun. */
function Standing({ operation: { finishedAt, startedAt, hasBegun } }: { readonly operation: Operation }) {
  if (finishedAt !== null) return <Mark tone="ready">{t('job.finished')}</Mark>
  if (startedAt !== null) return <Mark tone="curing">{t('job.underWayItStaysAsItIs')}</Mark>
  return hasBegun ? <Mark tone="curing">{t('job.bondedItStaysAsItIs')}</Mark> : null
}
