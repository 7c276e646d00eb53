import { ActionIcon, Button, Menu, VisuallyHidden } from '@mantine/core'
import type { UseFormReturnType } from '@mantine/form'
import { Pencil, Plus, X } from 'lucide-react'
import { useIsPhone } from '../../lib/use-is-phone.ts'
import { useEffect, useRef, useState, type KeyboardEvent } from 'react'
import { moved } from '../../features/operations/sequence.ts'
import { bindStep, StepFields } from '../../features/operations/step-fields.tsx'
import type { StepValues } from '../../features/operations/step-values.ts'
import { OPERATION, SKILL } from '../../lib/words.ts'
import { MoveButtons } from '../../ui/move-buttons.tsx'
import styles from './template.module.css'
import { inOrder, withAnother, without, type TemplateValues } from './template-steps.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly form: UseFormReturnType<TemplateValues>
  /** The kinds of step that this list is of. */
  readonly kinds: readonly StepValues['kind'][]
  readonly addLabel: string
  readonly unit: 'C' | 'F'
  readonly mayPlan: boolean
}

const PAIR: readonly StepValues['kind'][] = ['bondAndClamp', 'cure']

/** Steps that change places by button, or by Alt and the arrow keys from anywhere within one. */
export function StepList({ form, kinds, addLabel, unit, mayPlan }: Props) {
  const list = useRef<HTMLOListElement>(null)
  const focusNext = useRef<() => HTMLElement | null | undefined>(undefined)
  const [said, setSaid] = useState('')
  // A phone shows what is in a step when asked to, or when something in it needs another look.
  const isPhone = useIsPhone()
  const [opened, setOpened] = useState<readonly string[]>([])
  const { steps } = form.values
  useEffect(() => {
    focusNext.current?.()?.focus()
    focusNext.current = undefined
  }, [steps])

  const set = (next: readonly StepValues[]) => {
    form.setFieldValue('steps', [...next])
    // Errors are kept by place, and the places have changed.
    form.clearErrors()
  }
  const within = (id: string, selector: string) =>
    list.current?.querySelector<HTMLElement>(`[data-step="${id}"] ${selector}`)
  const move = (at: number, by: -1 | 1) => {
    const next = moved(steps, at, by)
    const { id, name } = steps[at]!
    const held = document.activeElement as HTMLElement | null
    if (next === steps) {
      setSaid(t(by < 0 ? 'ui.noFurtherUp' : 'ui.noFurtherDown', { name }))
      return
    }
    focusNext.current = () =>
      held?.matches(':disabled') ? within(id, 'button[data-move]:not(:disabled)') : held
    set(next)
    setSaid(
      t('plan-setup.isStepOfNow', {
        name,
        next: next.findIndex((each) => each.id === id) + 1,
        next2: next.length,
      }),
    )
  }
  const add = (kind: StepValues['kind']) => {
    const next = withAnother(steps, kind)
    const added = next.find(({ id }) => steps.every((each) => each.id !== id))!
    focusNext.current = () => within(added.id, 'input')
    setOpened([...opened, added.id])
    set(next)
  }
  const toggle = (id: string) =>
    setOpened(opened.includes(id) ? opened.filter((each) => each !== id) : [...opened, id])
  const hasError = (at: number) => Object.keys(form.errors).some((path) => path.startsWith(`steps.${at}.`))
  const isShown = (id: string, at: number) => !isPhone || opened.includes(id) || hasError(at)
  const remove = (at: number) => {
    const next = without(steps, at)
    const beside = (next[at] ?? next[at - 1])?.id
    focusNext.current = () => (beside === undefined ? undefined : within(beside, 'input, button'))
    set(next)
    setSaid(t('plan-setup.isRemoved', { name: steps[at]!.name }))
  }
  const onKey = (event: KeyboardEvent, at: number) => {
    if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') || !mayPlan) return
    event.preventDefault()
    event.stopPropagation()
    move(at, event.key === 'ArrowUp' ? -1 : 1)
  }

  const own = steps.flatMap((step, at) => (kinds.includes(step.kind) ? [{ step, at }] : []))
  return (
    <>
      <ol className={styles['steps']} ref={list}>
        {own.map(({ step, at }) => (
          // oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- a second way to what its buttons do
          <li
            key={step.id}
            data-step={step.id}
            className={styles['step']}
            aria-label={t('plan-setup.step', { at: at + 1, name: step.name })}
            onKeyDownCapture={(event) => onKey(event, at)}
          >
            <div className={styles['head']}>
              <h3>
                <span className={styles['number']}>{at + 1}</span>
                {step.name}
              </h3>
              {mayPlan && (
                <>
                  <MoveButtons
                    name={step.name}
                    mayMove={(by) => moved(steps, at, by) !== steps}
                    onMove={(by) => move(at, by)}
                  />
                  <ActionIcon
                    variant="default"
                    size="input-sm"
                    aria-label={
                      PAIR.includes(step.kind)
                        ? t('plan-setup.removeBondAndCure', { name: step.name })
                        : t('plan-setup.remove', { name: step.name })
                    }
                    onClick={() => remove(at)}
                  >
                    <X size={16} aria-hidden />
                  </ActionIcon>
                </>
              )}
            </div>
            {isPhone && (
              <div className={styles['head']}>
                <p className={styles['summary']}>{summaryOf(step)}</p>
                <ActionIcon
                  variant="default"
                  size="input-sm"
                  aria-label={t('plan-setup.change2', { name: step.name })}
                  aria-expanded={isShown(step.id, at)}
                  onClick={() => toggle(step.id)}
                >
                  <Pencil size={16} aria-hidden />
                </ActionIcon>
              </div>
            )}
            {isShown(step.id, at) && (
              <StepFields
                binding={bindStep(form, `steps.${at}.`)}
                step={step}
                kinds={PAIR.includes(step.kind) ? [] : kinds.filter((kind) => !PAIR.includes(kind))}
                unit={unit}
                onKind={(changed) => set(inOrder(steps.with(at, changed)))}
              />
            )}
          </li>
        ))}
      </ol>
      <VisuallyHidden component="output">{said}</VisuallyHidden>
      {mayPlan && (
        <Menu position="bottom-start">
          <Menu.Target>
            <Button variant="default" mt="sm" leftSection={<Plus size={16} aria-hidden />}>
              {addLabel}
            </Button>
          </Menu.Target>
          <Menu.Dropdown>
            {kinds
              .filter((kind) => kind !== 'cure')
              .map((kind) => (
                <Menu.Item key={kind} onClick={() => add(kind)}>
                  {kind === 'bondAndClamp' ? t('plan-setup.bondAndClampWithItsCure') : OPERATION[kind]}
                </Menu.Item>
              ))}
          </Menu.Dropdown>
        </Menu>
      )}
    </>
  )
}

function summaryOf({ kind, workMinutes, technicians, skill, clampSets, bakeBy }: StepValues): string {
  const takes =
    workMinutes === null ? t('plan-setup.asLongAsTheBayIsWarm') : t('plan-setup.min2', { workMinutes })
  return [
    OPERATION[kind],
    kind === 'bake' && bakeBy === 'program' ? t('plan-setup.byTheOvensProgram') : takes,
    Number(technicians) > 1 ? t('plan-setup.technicians', { technicians }) : '',
    skill === '' ? '' : SKILL[skill],
    kind === 'bondAndClamp' ? t('lib.clampSets', { clampSets: Number(clampSets) }) : '',
  ]
    .filter((part) => part !== '')
    .join(', ')
}
