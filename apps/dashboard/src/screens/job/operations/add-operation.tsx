import type { OperationKind } from '@clampclock/contracts'
import { OF_THE_VEHICLE, ROUTES } from '../../../api/contracts.ts'
import { NativeSelect } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { Operation, RepairOrderDetail } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { bindStep, StepFields } from '../../../features/operations/step-fields.tsx'
import {
  KINDS_OF_A_JOINT,
  newStep,
  stepOf,
  type StepValues,
} from '../../../features/operations/step-values.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import styles from './operations.module.css'
import { t } from '../../../lib/reader.ts'

interface Values extends StepValues {
  /** Empty: the vehicle. */
  jointId: string
  /** Empty: before all of them. */
  afterId: string
}

interface Props {
  readonly job: RepairOrderDetail
  readonly operations: readonly Operation[]
  readonly unit: 'C' | 'F'
  readonly onClose: () => void
}

/** One operation that no template brings, at its place in the order. */
export function AddOperation({ job, operations, unit, onClose }: Props) {
  const beside = (jointId: string, kind: OperationKind) =>
    operations.filter((each) => (jointId === '' ? each.kind === kind : each.jointId === jointId))
  const at = (jointId: string, step: StepValues): Values => ({
    ...step,
    jointId,
    afterId: beside(jointId, step.kind).at(-1)?.id ?? '',
  })
  const kindsOf = (jointId: string) => {
    const has = (kind: OperationKind) => beside(jointId, kind).some((each) => each.kind === kind)
    return jointId === ''
      ? OF_THE_VEHICLE.filter((kind) => kind !== 'bake' || !has(kind))
      : KINDS_OF_A_JOINT.filter((kind) => kind !== 'cure' && (kind !== 'bondAndClamp' || !has(kind)))
  }
  const fresh = (jointId: string) => {
    const kinds = kindsOf(jointId)
    // Of what is added to a joint later, most is not what each joint has anyway.
    return at(jointId, newStep(kinds.includes('weld') ? 'weld' : kinds[0]!))
  }
  const form = useForm<Values>({ initialValues: fresh(job.joints[0]?.id ?? '') })
  const add = useAction(ROUTES.addOperation, { topics: ['repairs', 'plans'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  const { jointId, kind } = form.values
  const chain = beside(jointId, kind)
  const set = (values: Values) => {
    form.setValues(values)
    form.clearErrors()
  }
  const submit = form.onSubmit(({ afterId, ...values }) =>
    add.mutate({
      params: { repairOrderId: job.id },
      body: {
        ...stepOf(values),
        jointId: jointId === '' ? null : jointId,
        afterId: afterId === '' ? null : afterId,
      },
    }),
  )
  return (
    <FormDialog
      title={t('job.addOneOperation')}
      isWide
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('job.addIt')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <div className={styles['where']}>
        <NativeSelect
          label={t('job.for')}
          data-autofocus
          data={[
            ...job.joints.map(({ id, name }) => ({ value: id, label: name })),
            { value: '', label: t('job.theVehicleAsAWhole') },
          ]}
          value={jointId}
          error={form.errors['jointId']}
          onChange={(event) => set(fresh(event.currentTarget.value))}
        />
        {chain.length > 0 && (
          <NativeSelect
            label={t('job.placeInTheOrder')}
            data={[
              { value: '', label: t('job.beforeIt', { name: chain[0]?.name ?? '' }) },
              ...chain
                // Its cure begins with its clamps.
                .filter((each) => each.kind !== 'bondAndClamp')
                .map(({ id, name }) => ({ value: id, label: t('job.after', { name }) })),
            ]}
            {...form.getInputProps('afterId')}
          />
        )}
      </div>
      <StepFields
        binding={bindStep(form, '')}
        step={form.values}
        kinds={kindsOf(jointId)}
        unit={unit}
        onKind={(step) => set(at(jointId, { ...step, place: newStep(step.kind).place }))}
      />
      {kind === 'bondAndClamp' && <span>{t('job.itsCureComesWithItItHasNoMinutesAnd')}</span>}
      {jointId === '' && <span>{t('job.whatIsDoneOnTheVehicleHasAnOrderOf')}</span>}
    </FormDialog>
  )
}
