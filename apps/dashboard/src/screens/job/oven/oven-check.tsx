import { ROUTES } from '@clampclock/contracts'
import { Button, NumberInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { Flame } from 'lucide-react'
import type { RepairOrderDetail } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { fromWallClock, toWallClock } from '../../../lib/instants.ts'
import { unitOf, useShop, zoneOf } from '../../../lib/shop-scope.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { useNow } from '../../../lib/use-now.ts'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { TemperatureInput } from '../../../ui/temperature-input.tsx'
import styles from '../job.module.css'
import { OvenResult } from './oven-result.tsx'

/** To begin typing from, not to bake by: the paint's own sheet says what it needs. */
const PROGRAM = {
  airStartC: 20 as number | undefined,
  setPointC: 65 as number | undefined,
  rampCPerMinute: 5 as number | undefined,
  airToleranceC: 3 as number | undefined,
  metalTargetC: 55 as number | undefined,
  dwellMinutes: 30 as number | string,
  coolAirC: 20 as number | undefined,
  touchC: 40 as number | undefined,
}

const DEGREES = [
  ['setPointC', 'Air set point', false],
  ['airToleranceC', 'Air, plus or minus', true],
  ['metalTargetC', 'Metal target', false],
  ['airStartC', 'Air when it comes in', false],
  ['coolAirC', 'Air to cool down in', false],
  ['touchC', 'May be touched from', false],
] as const

/** 'May this vehicle be baked then?': nothing is booked by asking. */
export function OvenCheck({ job }: { readonly job: RepairOrderDetail }) {
  const shop = useShop(job.shopId)
  const [unit, zone] = [unitOf(shop), zoneOf(shop)]
  const nowMs = useNow(60_000)
  const form = useForm({
    initialValues: { startsAt: toWallClock(new Date(nowMs).toISOString(), zone), bakeProgram: PROGRAM },
  })
  const check = useAction(ROUTES.checkOven, { topics: [] })
  const others = useFormReasons(form, check.error)
  const submit = form.onSubmit(({ startsAt, bakeProgram }) => {
    const starts = fromWallClock(startsAt, zone)
    if ('fault' in starts) {
      form.setFieldError('startsAt', starts.fault)
      return
    }
    const { rampCPerMinute, dwellMinutes, ...degrees } = bakeProgram
    const figure = (name: keyof typeof degrees) => degrees[name] ?? Number.NaN
    check.mutate({
      params: { repairOrderId: job.id },
      body: {
        startsAt: starts.iso,
        bakeProgram: {
          airStartC: figure('airStartC'),
          setPointC: figure('setPointC'),
          airToleranceC: figure('airToleranceC'),
          metalTargetC: figure('metalTargetC'),
          coolAirC: figure('coolAirC'),
          touchC: figure('touchC'),
          dwellMinutes: Number(dwellMinutes),
          ...(rampCPerMinute === undefined ? {} : { rampCPerMinute }),
        },
      },
    })
  })
  return (
    <form onSubmit={submit} className={styles['body']}>
      <div className={styles['fields']}>
        <TextInput
          label="Moved to the oven at"
          type="datetime-local"
          required
          {...form.getInputProps('startsAt')}
        />
        {DEGREES.map(([name, label, isDifference]) => (
          <TemperatureInput
            key={name}
            label={label}
            unit={unit}
            isDifference={isDifference}
            required
            valueC={form.values.bakeProgram[name]}
            error={form.errors[`bakeProgram.${name}`]}
            onChangeC={(value) => form.setFieldValue(`bakeProgram.${name}`, value)}
          />
        ))}
        <TemperatureInput
          label="Rise a minute (empty: at once)"
          unit={unit}
          isDifference
          valueC={form.values.bakeProgram.rampCPerMinute}
          error={form.errors['bakeProgram.rampCPerMinute']}
          onChangeC={(value) => form.setFieldValue('bakeProgram.rampCPerMinute', value)}
        />
        <NumberInput
          label="Dwell at metal target"
          suffix=" min"
          hideControls
          required
          {...form.getInputProps('bakeProgram.dwellMinutes')}
        />
      </div>
      <div>
        <Button
          type="submit"
          variant="default"
          leftSection={<Flame size={16} aria-hidden />}
          loading={check.isPending}
        >
          Check the bake
        </Button>
      </div>
      <ProblemPanel error={check.error} reasons={others} />
      {check.data !== undefined && <OvenResult window={check.data} job={job} unit={unit} />}
    </form>
  )
}
