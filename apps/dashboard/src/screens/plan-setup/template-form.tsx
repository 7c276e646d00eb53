import { OF_THE_VEHICLE, ROUTES } from '../../api/contracts.ts'
import { Button, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useNavigate } from '@tanstack/react-router'
import { useRef, type ReactNode } from 'react'
import { isProblem } from '../../api/problem.ts'
import type { RepairTemplate, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { KINDS_OF_A_JOINT, stepOf, valuesOf } from '../../features/operations/step-values.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { LeaveGuard } from '../../ui/dialogs/leave-guard.tsx'
import { Section, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { StepList } from './step-list.tsx'
import styles from './template.module.css'
import { inOrder, keyFor, minutesOfPeople, type TemplateValues } from './template-steps.ts'
import { reader, t } from '../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly mayPlan: boolean
  /** What the form begins with. */
  readonly start: Pick<RepairTemplate, 'name' | 'steps' | 'isSetAside'>
  /** The template to change; a new one is made when left out, under a key that none of `taken` has. */
  readonly existing?: Pick<RepairTemplate, 'key' | 'version'>
  readonly taken: readonly string[]
  /** The version that the service has now; another than that of `existing` when somebody else has saved. */
  readonly presentVersion: number
  /** Beside the button that saves. */
  readonly children?: ReactNode
}

export function TemplateForm({ shop, mayPlan, start, existing, taken, presentVersion, children }: Props) {
  const navigate = useNavigate()
  const form = useForm<TemplateValues>({
    initialValues: { name: start.name, steps: inOrder(start.steps.map(valuesOf)) },
  })
  const isSaved = useRef(false)
  const set = useAction(ROUTES.setRepairTemplate, {
    topics: ['shops'],
    onDone: () => {
      isSaved.current = true
      void navigate({ to: '/plan/setup' })
    },
  })
  const others = useFormReasons(form, set.error)
  const { name, steps } = form.values
  const key = existing?.key ?? keyFor(name, taken)
  const isStale = isProblem(set.error, 'stale-version')
  const submit = form.onSubmit((values) =>
    set.mutate({
      params: { shopId: shop.id, key },
      // Told that somebody else was first, whoever saves again means to.
      ifMatch: existing === undefined ? 0 : isStale ? presentVersion : existing.version,
      body: { name: values.name, steps: values.steps.map(stepOf), isSetAside: start.isSetAside },
    }),
  )
  const lists = { form, unit: reader().temperature, mayPlan }
  return (
    <form onSubmit={submit}>
      <LeaveGuard isUnsaved={() => form.isDirty() && !isSaved.current} />
      <fieldset disabled={!mayPlan} className={styles['plain']}>
        <Sheet padded>
          <TextInput
            label={t('plan-setup.name')}
            description={name === '' ? undefined : t('plan-setup.tablesOfRepairOrdersCallIt', { key })}
            required
            maxLength={120}
            maw="28rem"
            {...form.getInputProps('name')}
          />
        </Sheet>
        <Section title={t('plan-setup.onTheJoint')}>
          <p>{t('plan-setup.oneAfterTheOtherForEachJointABondAnd')}</p>
          <StepList {...lists} kinds={KINDS_OF_A_JOINT} addLabel={t('plan-setup.addAStepToTheJoint')} />
        </Section>
        <Section title={t('plan-setup.onTheVehicle')}>
          <p>{t('plan-setup.onceAfterAllItsJointsInThisOrder')}</p>
          <StepList {...lists} kinds={OF_THE_VEHICLE} addLabel={t('plan-setup.addAStepToTheVehicle')} />
        </Section>
      </fieldset>
      <ProblemPanel error={set.error} reasons={others} />
      {isStale && <p>{t('plan-setup.whatYouTypedIsKeptSaveAgainToPutItIn')}</p>}
      {mayPlan && (
        <div className={styles['foot']}>
          <Button type="submit" size="md" loading={set.isPending}>
            {t('plan-setup.saveTheTemplate')}
          </Button>
          {children}
          <span>{t('plan-setup.stepsAndMinutes', { n: steps.length, minutes: minutesOfPeople(steps) })}</span>
        </div>
      )}
    </form>
  )
}
