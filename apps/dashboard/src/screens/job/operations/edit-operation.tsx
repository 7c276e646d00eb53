import { ROUTES } from '../../../api/contracts.ts'
import { useForm } from '@mantine/form'
import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { isProblem } from '../../../api/problem.ts'
import { planningQueries } from '../../../api/queries/planning.ts'
import type { Operation } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { bindStep, StepFields } from '../../../features/operations/step-fields.tsx'
import { valuesOf, type StepValues } from '../../../features/operations/step-values.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { changesOf } from './operation-changes.ts'
import { needs, takes } from './operation-words.ts'
import styles from './operations.module.css'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly operation: Operation
  /** As the service has it now; undefined once somebody has removed it. */
  readonly present: Operation | undefined
  readonly unit: 'C' | 'F'
  readonly onClose: () => void
}

/** What binds it, of a bond and of a cure. */
const BOUND: Partial<Record<Operation['kind'], string>> = {
  get bondAndClamp() {
    return t('job.itsCureBeginsWhenTheClampsAreOnAnd')
  },
  get cure() {
    return t('job.aCureHasNoMinutesItTakesAsLongAsThe')
  },
}

/** What one operation needs on this vehicle. What somebody else does to it meanwhile is told, and nothing typed is lost. */
export function EditOperation({ operation, present, unit, onClose }: Props) {
  const [first] = useState(() => valuesOf(operation))
  const client = useQueryClient()
  const form = useForm<StepValues>({ initialValues: first })
  const edit = useAction(ROUTES.editOperation, { topics: ['repairs', 'plans'], onDone: onClose })
  const others = useFormReasons(form, edit.error)
  const isStale = isProblem(edit.error, 'stale-version')
  const isOpen = present?.hasBegun === false
  const [version, setVersion] = useState(operation.version)
  // Told that somebody else was first, whoever saves again means to: once they see what it is now.
  const theirs = isStale && isOpen && present.version !== version ? present : undefined
  const submit = form.onSubmit((values) => {
    const body = changesOf(first, values)
    if (Object.keys(body).length === 0) {
      onClose()
      return
    }
    const ifMatch = theirs?.version ?? version
    setVersion(ifMatch)
    edit.mutate(
      { params: { operationId: operation.id }, ifMatch, body },
      {
        onError: () =>
          void client.invalidateQueries({
            queryKey: planningQueries.operations(operation.repairOrderId).queryKey,
          }),
      },
    )
  })
  return (
    <FormDialog
      title={`${operation.name}${operation.jointName === null ? '' : `, ${operation.jointName}`}`}
      isWide
      isClosed={!isOpen || (isStale && theirs === undefined)}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('job.save')}
      isPending={edit.isPending}
      error={isStale ? null : edit.error}
      reasons={others}
    >
      {BOUND[operation.kind] !== undefined && <span>{BOUND[operation.kind]}</span>}
      <StepFields
        binding={bindStep(form, '')}
        step={form.values}
        kinds={[]}
        unit={unit}
        isPlaceFixed
        isFirst
        onKind={form.setValues}
      />
      {present === undefined && <Mark tone="danger">{t('job.somebodyHasRemovedItMeanwhile')}</Mark>}
      {present?.hasBegun === true && (
        <Mark tone="warning">{t('job.itHasBegunMeanwhileAndStaysOnRecord')}</Mark>
      )}
      {theirs !== undefined && (
        <div role="alert">
          <Mark tone="warning">{t('job.somebodyElseHasChangedItSinceYou')}</Mark>
          <p className={styles['theirs']}>
            {t('job.itIsNow', {
              operation: [theirs.name, takes(theirs), needs(theirs, unit)]
                .filter((part) => part !== '')
                .join(', '),
            })}
          </p>
        </div>
      )}
    </FormDialog>
  )
}
