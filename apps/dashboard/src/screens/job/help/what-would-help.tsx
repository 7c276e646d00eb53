import { Button, NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { Clock } from 'lucide-react'
import { useState } from 'react'
import { bondQueries, type Wish } from '../../../api/queries/bonds.ts'
import type { Bond } from '../../../api/types.ts'
import { fromWallClock, toWallClock } from '../../../lib/instants.ts'
import { useShop, zoneOf } from '../../../lib/shop-scope.ts'
import { useNow } from '../../../lib/use-now.ts'
import { TemperatureInput } from '../../../ui/fields/temperature-input.tsx'
import { Answered } from '../../../ui/waiting.tsx'
import { HelpedBond } from './help-answer.tsx'
import fields from '../../../ui/fields/fields.module.css'
import styles from './help.module.css'
import { reader, t } from '../../../lib/reader.ts'

interface Values {
  by: string
  warming: Wish['warming']
  toleranceC: number | undefined
  warmestC: number | undefined
}

/** How far a heated bay, and metal under a lamp, stray from what they are set to: common practice, no source. */
const USUAL_TOLERANCE_C = { bay: 2, heatLamp: 5 } as const

const HOUR_MS = 3_600_000

/** 'I want to move it by three': how warm each joint that still cures must be kept for that. */
export function WhatWouldHelp({
  bonds,
  shopId,
}: {
  readonly bonds: readonly Bond[]
  readonly shopId: string
}) {
  const shop = useShop(shopId)
  const [unit, zone] = [reader().temperature, zoneOf(shop)]
  const nowMs = useNow(60_000)
  const [wish, setWish] = useState<Wish>()
  const form = useForm<Values>({
    initialValues: {
      by: toWallClock(new Date(nowMs + 2 * HOUR_MS).toISOString(), zone),
      warming: 'bay',
      toleranceC: USUAL_TOLERANCE_C.bay,
      warmestC: undefined,
    },
    validate: { by: (text) => byFault(text, zone, nowMs) },
  })
  const submit = form.onSubmit(({ by, warming, toleranceC, warmestC }) => {
    const at = fromWallClock(by, zone)
    if ('fault' in at || toleranceC === undefined) return
    setWish({ by: at.iso, warming, toleranceC, ...(warmestC === undefined ? {} : { warmestC }) })
  })
  return (
    <div className={styles['help']}>
      <form onSubmit={submit} className={fields['fields']}>
        <TextInput
          label={t('job.iWantToMoveItBy')}
          description={t('job.clockOf', { name: shop?.name ?? t('job.theShop') })}
          type="datetime-local"
          required
          {...form.getInputProps('by')}
        />
        <NativeSelect
          label={t('job.warmedBy')}
          data={[
            { value: 'bay', label: t('job.heatingTheBay') },
            { value: 'heatLamp', label: t('job.aLampOnTheMetal') },
          ]}
          value={form.values.warming}
          onChange={(event) => {
            const warming = event.currentTarget.value as Values['warming']
            form.setValues({ warming, toleranceC: USUAL_TOLERANCE_C[warming] })
          }}
        />
        <TemperatureInput
          label={t('job.heldPlusOrMinus')}
          unit={unit}
          isDifference
          required
          valueC={form.values.toleranceC}
          onChangeC={(value) => form.setFieldValue('toleranceC', value)}
        />
        <TemperatureInput
          label={t('job.atMostIfThereIsALimit')}
          unit={unit}
          valueC={form.values.warmestC}
          onChangeC={(value) => form.setFieldValue('warmestC', value)}
        />
        <Button type="submit" variant="default" leftSection={<Clock size={16} aria-hidden />}>
          {t('job.whatWouldHelp')}
        </Button>
      </form>
      {wish !== undefined && bonds.map((bond) => <BondHelp key={bond.id} bond={bond} wish={wish} />)}
      {wish?.warming === 'heatLamp' && (
        <p className={fields['soft']}>{t('job.measureTheMetalNotTheLampUncured')}</p>
      )}
    </div>
  )
}

function BondHelp({ bond, wish }: { readonly bond: Bond; readonly wish: Wish }) {
  const shop = useShop(bond.shopId)
  const nowMs = useNow(60_000)
  const help = useQuery(bondQueries.help(bond.id, bond.shopId, wish))
  return (
    <Answered query={help} what={t('job.whatWouldHelp2')}>
      {(data) => (
        <HelpedBond
          bond={bond}
          help={data}
          by={wish.by}
          warming={wish.warming}
          unit={reader().temperature}
          zone={zoneOf(shop)}
          nowMs={nowMs}
        />
      )}
    </Answered>
  )
}

function byFault(text: string, zone: string, nowMs: number): string | null {
  const at = fromWallClock(text, zone)
  if ('fault' in at) return at.fault
  return Date.parse(at.iso) > nowMs ? null : t('job.thatIsOverWishForALaterTime')
}
