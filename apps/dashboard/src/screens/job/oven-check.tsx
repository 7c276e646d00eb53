import { ROUTES } from '../../api/contracts.ts'
import { Button, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { Flame } from 'lucide-react'
import { useState } from 'react'
import type { RepairOrderDetail } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { OvenResult } from '../../features/oven/oven-result.tsx'
import fields from '../../ui/fields/fields.module.css'
import styles from '../../features/oven/oven.module.css'
import { ProgramFields } from '../../features/oven/program-fields.tsx'
import {
  programOf,
  USUAL_PROGRAM,
  type OvenQuestion,
  type ProgramValues,
} from '../../features/oven/program.ts'
import { fromWallClock, toWallClock } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { useNow } from '../../lib/use-now.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import { BookBake } from './book-bake.tsx'
import { reader, t } from '../../lib/reader.ts'

interface Values {
  startsAt: string
  metalStartC: number | undefined
  bakeProgram: ProgramValues
}

/** 'May this vehicle be baked then?': nothing is booked by asking. */
export function OvenCheck({ job }: { readonly job: RepairOrderDetail }) {
  const shop = useShop(job.shopId)
  const [unit, zone] = [reader().temperature, zoneOf(shop)]
  const nowMs = useNow(60_000)
  const form = useForm<Values>({
    initialValues: {
      startsAt: toWallClock(new Date(nowMs).toISOString(), zone),
      metalStartC: undefined,
      bakeProgram: USUAL_PROGRAM,
    },
  })
  const [asked, setAsked] = useState<OvenQuestion>()
  const check = useAction(ROUTES.checkOven, { topics: [] })
  const others = useFormReasons(form, check.error)
  const question = questionOf(form.values, zone)
  const isStale = JSON.stringify(question) !== JSON.stringify(asked)
  const submit = form.onSubmit((values) => {
    const starts = fromWallClock(values.startsAt, zone)
    if ('fault' in starts) {
      form.setFieldError('startsAt', starts.fault)
      return
    }
    const body = questionOf(values, zone)
    setAsked(body)
    check.mutate({ params: { repairOrderId: job.id }, body })
  })
  return (
    <div className={styles['result']}>
      <form onSubmit={submit} className={styles['result']}>
        <div className={fields['fields']}>
          <TextInput
            label={t('job.movedToTheOvenAt')}
            description={t('job.clockOf', { name: shop?.name ?? t('job.theShop') })}
            type="datetime-local"
            required
            {...form.getInputProps('startsAt')}
          />
          <TemperatureInput
            label={t('job.metalByThen')}
            description={metalHint(job)}
            unit={unit}
            valueC={form.values.metalStartC}
            error={form.errors['metalStartC']}
            onChangeC={(value) => form.setFieldValue('metalStartC', value)}
          />
        </div>
        <ProgramFields
          values={form.values.bakeProgram}
          errors={form.errors}
          unit={unit}
          onChange={(field, value) => form.setFieldValue(`bakeProgram.${field}`, value)}
        />
        <div>
          <Button
            type="submit"
            variant="default"
            leftSection={<Flame size={16} aria-hidden />}
            loading={check.isPending}
          >
            {t('job.checkTheBake')}
          </Button>
        </div>
        <ProblemPanel error={check.error} reasons={others} />
      </form>
      {check.data !== undefined && asked !== undefined && (
        <div className={`${styles['result']} ${isStale ? styles['stale'] : ''}`}>
          <div aria-live="polite">
            {isStale && (
              <Mark tone="warning" filled>
                {t('job.youChangedSomethingThisAnswerIsOfThe')}
              </Mark>
            )}
          </div>
          <OvenResult window={check.data} metalTargetC={asked.bakeProgram.metalTargetC} unit={unit} />
          {!isStale && <BookBake job={job} asked={asked} window={check.data} zone={zone} />}
        </div>
      )}
    </div>
  )
}

/** What is asked for these values; an instant that does not exist is refused before it is sent. */
function questionOf({ startsAt, metalStartC, bakeProgram }: Values, zone: string): OvenQuestion {
  const starts = fromWallClock(startsAt, zone)
  return {
    startsAt: 'iso' in starts ? starts.iso : startsAt,
    metalStartC: metalStartC ?? null,
    bakeProgram: programOf(bakeProgram),
  }
}

/** Where the temperature comes from that nobody types; the answer says which it was. */
function metalHint({ curingCount, bay }: RepairOrderDetail): string {
  if (curingCount > 0) return t('job.emptyAsItsColdestBondIsForecast')
  return bay === null
    ? t('job.emptyAsTheAirItCoolsIn')
    : t('job.emptyAsWasMeasuredElseAsTheAirIt', { name: bay.name })
}
