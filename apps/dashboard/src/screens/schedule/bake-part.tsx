import { formatMinutes, formatTemperature } from '../../lib/measures.ts'
import { ROUTES } from '../../api/contracts.ts'
import { Button, Radio, Stack } from '@mantine/core'
import { Flame } from 'lucide-react'
import { useState } from 'react'
import type { OvenWindow, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import styles from '../../features/oven/oven.module.css'
import { ProgramFields } from '../../features/oven/program-fields.tsx'
import { bakeEnd, programOf } from '../../features/oven/program.ts'
import { fromWallClock, toWallClock } from '../../lib/instants.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { ReasonList } from '../../ui/answers/reason-list.tsx'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import type { BookingForm } from './use-booking-form.ts'
import { reader, t } from '../../lib/reader.ts'

interface Props {
  readonly form: BookingForm
  readonly shop: Shop
}

/** How hot the metal gets: worked out from the oven's program, or as somebody says. */
export function BakePart({ form, shop }: Props) {
  const unit = reader().temperature
  const { bakeBy } = form.values
  return (
    <Stack gap="md">
      <Radio.Group label={t('schedule.theBakeIsGivenBy')} {...form.getInputProps('bakeBy')}>
        <Stack gap="xs" mt="xs">
          <Radio value="program" label={t('schedule.theOvensProgramWindowAndMetalAre')} />
          <Radio value="metal" label={t('schedule.theHighestMetalTemperatureAlone')} />
        </Stack>
      </Radio.Group>
      {bakeBy === 'metal' ? (
        <TemperatureInput
          label={t('schedule.highestMetalTemperature')}
          unit={unit}
          required
          valueC={form.values.highestMetalC}
          error={form.errors['highestMetalC']}
          onChangeC={(value) => form.setFieldValue('highestMetalC', value)}
        />
      ) : (
        <>
          <ProgramFields
            values={form.values.bakeProgram}
            errors={form.errors}
            unit={unit}
            onChange={(field, value) => form.setFieldValue(`bakeProgram.${field}`, value)}
          />
          <WorkOut form={form} shop={shop} />
        </>
      )}
    </Stack>
  )
}

/** Asks how long the bake takes, and puts its end into the form. */
function WorkOut({ form, shop }: Props) {
  const { repairOrderId, startsAt, bakeProgram } = form.values
  const question = JSON.stringify({ repairOrderId, startsAt, bakeProgram })
  const [asked, setAsked] = useState<string>()
  const check = useAction(ROUTES.checkOven, { topics: [] })
  const ask = () => {
    const starts = fromWallClock(startsAt, shop.timeZone)
    if ('fault' in starts) {
      form.setFieldError('startsAt', starts.fault)
      return
    }
    if (repairOrderId === '') {
      form.setFieldError('repairOrderId', t('schedule.chooseTheRepairOrderFirst'))
      return
    }
    setAsked(question)
    const body = { startsAt: starts.iso, bakeProgram: programOf(bakeProgram) }
    check.mutate(
      { params: { repairOrderId }, body },
      {
        onSuccess: ({ windowMinutes: { conservative } }) => {
          if (conservative === null) return
          form.setFieldValue('endsAt', toWallClock(bakeEnd(starts.iso, conservative), shop.timeZone))
        },
      },
    )
  }
  return (
    <div aria-live="polite" className={styles['result']}>
      <Button
        variant="default"
        leftSection={<Flame size={16} aria-hidden />}
        loading={check.isPending}
        onClick={ask}
      >
        {t('schedule.workOutTheBake')}
      </Button>
      <ProblemPanel error={check.error} />
      {check.data !== undefined && asked === question && (
        <Outcome window={check.data} unit={reader().temperature} />
      )}
    </div>
  )
}

function Outcome({ window, unit }: { readonly window: OvenWindow; readonly unit: 'C' | 'F' }) {
  const { conservative } = window.windowMinutes
  const takes =
    conservative === null
      ? t('schedule.itNeverEnds')
      : t('schedule.itTakesUpTo', { conservative: formatMinutes(conservative, 'up') })
  const peak =
    window.peakMetalC === null
      ? ''
      : `; ${t('schedule.theMetalGetsTo', { peakMetalC: formatTemperature(window.peakMetalC, unit) })}`
  return (
    <div>
      <Mark tone={window.mayBake ? 'ready' : 'danger'}>
        {`${takes}${peak}. ${window.mayBake ? t('schedule.itMayBeBooked') : t('schedule.itMayNotBeBooked')}`}
      </Mark>
      <ReasonList reasons={[...window.refusals, ...window.cautions]} />
    </div>
  )
}
