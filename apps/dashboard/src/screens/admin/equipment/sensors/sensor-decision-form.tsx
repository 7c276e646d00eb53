import { ROUTES } from '../../../../api/contracts.ts'
import { Button, Group, NativeSelect, Stack, Textarea, TextInput } from '@mantine/core'
import { useState, type SubmitEvent } from 'react'
import type { Sensor, Shop } from '../../../../api/types.ts'
import { useAction } from '../../../../api/use-action.ts'
import { fromWallClock } from '../../../../lib/instants.ts'
import { ProblemPanel } from '../../../../ui/problem-panel.tsx'
import { t } from '../../../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly sensor: Sensor
  readonly others: readonly Sensor[]
  readonly onDone: () => void
}

const SPANS = ['withdrawn', 'wasFahrenheit', 'wasCelsius'] as const
type Span = (typeof SPANS)[number]
type Act = Span | 'doubt' | 'trust' | 'retire'

/** Says what is wrong with a thermometer, or with what it read: kept for ever with the reason. */
export function SensorDecisionForm({ shop, sensor, others, onDone }: Props) {
  const [act, setAct] = useState<Act | ''>('')
  const [from, setFrom] = useState('')
  const [until, setUntil] = useState('')
  const [replacedById, setReplacedById] = useState('')
  const [reason, setReason] = useState('')
  const [fault, setFault] = useState<string>()
  const options = { topics: ['temperature', 'bonds', 'alerts', 'stock'] as const, onDone }
  const doubt = useAction(ROUTES.doubtSensor, options)
  const trust = useAction(ROUTES.trustSensor, options)
  const retire = useAction(ROUTES.retireSensor, options)
  const correct = useAction(ROUTES.correctSensorReadings, options)
  const span = SPANS.find((kind) => kind === act)
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    const params = { sensorId: sensor.id }
    if (act === 'doubt') doubt.mutate({ params, body: { reason } })
    if (act === 'trust') trust.mutate({ params, body: { reason } })
    if (act === 'retire')
      retire.mutate({ params, body: { reason, replacedById: replacedById === '' ? null : replacedById } })
    if (span === undefined) return
    const [first, last] = [fromWallClock(from, shop.timeZone), fromWallClock(until, shop.timeZone)]
    const wrong = 'fault' in first ? first.fault : 'fault' in last ? last.fault : undefined
    setFault(wrong)
    if ('fault' in first || 'fault' in last) return
    // A clock shows minutes: the last one counts to its end.
    const end = new Date(Date.parse(last.iso) + 59_999).toISOString()
    correct.mutate({ params, body: { kind: span, from: first.iso, until: end, reason } })
  }
  return (
    <form onSubmit={submit}>
      <Stack gap="sm">
        <NativeSelect
          label={t('admin.whatIsWrong')}
          required
          value={act}
          data={[
            { value: '', label: t('admin.choose') },
            { value: 'withdrawn', label: t('admin.readingsOfATimeDoNotCount') },
            { value: 'wasFahrenheit', label: t('admin.readingsOfATimeWereFSentAsC') },
            { value: 'wasCelsius', label: t('admin.readingsOfATimeWereCSentAsF') },
            sensor.doubtedSince === null
              ? { value: 'doubt', label: t('admin.theThermometerReadsWrongDoubtIt') }
              : { value: 'trust', label: t('admin.itReadsRightAgainTrustIt') },
            { value: 'retire', label: t('admin.takeTheThermometerOutOfUse') },
          ]}
          onChange={(event) => setAct(event.currentTarget.value as Act | '')}
        />
        {span !== undefined && (
          <Group gap="sm" grow>
            <TextInput
              label={t('admin.from2')}
              type="datetime-local"
              required
              value={from}
              error={fault}
              onChange={(event) => setFrom(event.currentTarget.value)}
            />
            <TextInput
              label={t('admin.until')}
              type="datetime-local"
              required
              value={until}
              onChange={(event) => setUntil(event.currentTarget.value)}
            />
          </Group>
        )}
        {act === 'retire' && (
          <NativeSelect
            label={t('admin.replacedBy')}
            value={replacedById}
            data={[
              { value: '', label: t('admin.none') },
              ...others.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            onChange={(event) => setReplacedById(event.currentTarget.value)}
          />
        )}
        <Textarea
          label={t('admin.reason')}
          description={t('admin.atLeast5CharactersStaysOnRecordFor')}
          required
          minLength={5}
          maxLength={2000}
          autosize
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        <ProblemPanel error={doubt.error ?? trust.error ?? retire.error ?? correct.error} />
        <Group justify="flex-end">
          <Button
            type="submit"
            disabled={act === ''}
            loading={doubt.isPending || trust.isPending || retire.isPending || correct.isPending}
          >
            {t('admin.recordIt')}
          </Button>
        </Group>
      </Stack>
    </form>
  )
}
